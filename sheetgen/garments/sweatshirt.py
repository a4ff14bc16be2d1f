"""Sweatshirt: knit, ribbed crew neck, cuffs and bottom; with a hood it has a pouch as well."""

from dataclasses import replace

from sheetgen.garments.declaration import Features, Garment, Point

_PLAIN = Garment(
    word="sweatshirt",
    place=20,
    base="men's/unisex M",
    fabric="knit",
    body="men",
    for_children=True,
    features=Features("top", cuffs="ribbed"),
    starting={
        "back neck drop": 2, "slope": 4.5, "waist position": 43, "neck drop": 9, "neck rib": 2.5,
        "across front": 44, "notch": 5, "hood height": 36, "hood width": 26, "pocket opening": 17,
        "pocket width": 36,
    },
    points=(
        Point("front length from high shoulder point", "neck seam at high shoulder point to bottom edge, rib included", "full", "length", 70, 2, 1.3),
        Point("chest width", "edge to edge, 2.5 cm below armhole", "half", "width", 57, 2.5, 1.3),
        Point("bottom width, rib relaxed", "edge to edge along the rib bottom", "half", "width", 46, 2.5, 1.3),
        Point("across shoulder", "shoulder point to shoulder point", "full", "width", 49, 1.5, 1),
        Point("across back", "armhole seam to seam, midway of armhole", "full", "width", 46, 1.5, 1),
        Point("armhole straight", "shoulder point to underarm point", "half", "length", 26, 1, 0.6),
        Point("sleeve length from shoulder", "shoulder point to cuff edge", "full", "length", 64, 1.25, 1.3),
        Point("sleeve length from center back neck", "center back neck over the shoulder point to cuff edge", "full", "length", 88, 2, 1.5),
        Point("sleeve width at biceps", "2.5 cm below armhole", "half", "width", 23, 0.75, 0.6),
        Point("cuff opening, relaxed", "edge to edge at cuff bottom", "half", "width", 9, 0.5, 0.5),
        Point("cuff height", "seam to edge", "full", "length", 7, 0, 0.3),
        Point("bottom rib height", "seam to edge", "full", "length", 7, 0, 0.3),
        Point("neck width", "high shoulder point to high shoulder point, seam to seam", "full", "width", 19.5, 0.5, 0.5),
    ),
)  # fmt: skip

_HOODED = replace(
    _PLAIN,
    word="hooded sweatshirt",
    features=Features("top", hood=True, pockets="pouch", cuffs="ribbed"),
    starting={
        "back neck drop": 2, "slope": 4.5, "waist position": 43, "neck drop": 9, "across front": 44,
        "hood opening": 38,
    },
    points=(
        *_PLAIN.points,
        Point("hood height", "neck seam at high shoulder point to top of hood, hood flat", "full", "length", 36, 0.5, 0.6),
        Point("hood width", "front edge to back fold at the widest point", "half", "width", 26, 0.5, 0.6),
        Point("pocket opening length", "along the slanted edge", "full", "other", 17, 0, 0.5),
        Point("pocket width at bottom", "edge to edge along the bottom rib seam", "full", "width", 36, 1, 0.6),
    ),
)  # fmt: skip

GARMENT = replace(_PLAIN, hooded=_HOODED)
