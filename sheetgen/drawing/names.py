"""Names: every name a point of measure goes by, and the drawing's own word for it."""

from __future__ import annotations

_KNOWN: dict[str, tuple[str, ...]] = {
    "length": ("front length from high shoulder point", "front length", "length from high shoulder point"),
    "back length": ("center back length", "length center back"),
    "chest": ("chest width", "bust width"),
    "waist": ("waist width",),
    "bottom": ("bottom width", "bottom sweep", "hem width"),
    "shoulder": ("across shoulder", "across shoulder (yoke width)", "shoulder width"),
    "across front": ("across front",),
    "across back": ("across back",),
    "armhole": ("armhole straight",),
    "sleeve": ("sleeve length", "sleeve length from shoulder"),
    "sleeve back": ("sleeve length from center back", "sleeve length from center back neck"),
    "biceps": ("sleeve width at biceps", "sleeve width", "biceps width"),
    "forearm": ("forearm width",),
    "opening": ("sleeve opening", "cuff opening", "cuff width"),
    "cuff": ("cuff length",),
    "cuff height": ("cuff height",),
    "neck": ("neck width",),
    "neck drop": ("front neck drop",),
    "back neck drop": ("back neck drop",),
    "neck rib": ("neck rib height",),
    "notch": ("v-notch depth",),
    "slope": ("shoulder slope",),
    "rib": ("bottom rib height", "hem rib height"),
    "yoke": ("yoke height",),
    "hood height": ("hood height",),
    "hood width": ("hood width",),
    "hood opening": ("hood opening",),
    "pocket opening": ("pocket opening length", "pocket opening"),
    "pocket width": ("pocket width at bottom", "chest pocket width", "pocket width"),
    "pocket height": ("chest pocket height", "pocket height"),
    "pocket flap": ("pocket flap height",),
    "pocket position": ("pocket position",),
    "collar": ("collar length", "collar length at seam"),
    "collar height": ("collar height at center back", "collar height"),
    "collar band": ("collar band height at center back", "collar stand height", "collar band height"),
    "collar point": ("collar point length",),
    "placket": ("placket width",),
    "waist position": ("waist position",),
    "hip position": ("hip position",),
    "dart": ("bust dart position",),
    "hip": ("hip width", "hip width (seat)"),
    "high hip": ("high hip width",),
    "waistband": ("waistband height",),
    "thigh": ("thigh width",),
    "knee": ("knee width",),
    "calf": ("calf width",),
    "leg": ("leg opening",),
    "front rise": ("front rise",),
    "back rise": ("back rise",),
    "inside": ("inside leg length",),
    "outside": ("outside leg length",),
    "side": ("side seam length",),
    "fly": ("fly length",),
    "front pocket": ("front pocket opening",),
    "back pocket": ("back pocket width",),
    "loop": ("belt loop width",),
    "hem": ("hem height", "hem channel height"),
    "zip": ("zip opening length", "front zip length"),
    "vent": ("vent length",),
    "gusset": ("gusset length",),
}
NAMES = {name: key for key, names in _KNOWN.items() for name in names}
"""Each known name -> the drawing's word."""

FLAT = frozenset(
    ("chest", "waist", "bottom", "hip", "high hip", "thigh", "knee", "calf", "leg", "biceps", "forearm", "opening")
)
"""Girths: given all round they are halved to lie flat."""

ACROSS = FLAT | {
    "shoulder", "across front", "across back", "neck", "neck drop", "back neck drop", "cuff", "hood width", "collar",
    "pocket width", "back pocket", "placket", "loop", "armhole",
}  # fmt: skip
"""What grows with the girth; all else grows with the length."""
