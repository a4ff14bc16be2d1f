"""Starting values: what a whole garment needs besides the library's points, in cm at the library's base size.

Common practice, as the library itself: only there so that a drawing with few points is still a garment.
"""

from __future__ import annotations

from collections.abc import Callable

_TOP = {"back neck drop": 2.0, "slope": 4.5, "waist position": 43.0}
_LEGS = {"waistband": 4.0, "hem": 3.0}

STARTING: dict[str, dict[str, float]] = {
    "t-shirt": _TOP | {"neck rib": 2.0},
    "sweatshirt": _TOP | {"neck drop": 9.0, "neck rib": 2.5, "across front": 44.0, "notch": 5.0},
    "hooded sweatshirt": _TOP | {"neck drop": 9.0, "across front": 44.0, "hood opening": 38.0},
    "shirt": _TOP
    | {"neck": 17.0, "neck drop": 8.5, "opening": 11.3, "yoke": 9.0, "length": 79.0, "pocket flap": 6.0,
       "pocket position": 21.0},
    "dress": _TOP | {"back neck drop": 3.0, "slope": 3.5},
    "jacket": _TOP
    | {"neck": 18.5, "neck drop": 9.0, "waist position": 44.0, "hem": 2.5, "yoke": 10.0, "cuff height": 5.0,
       "hood height": 36.0, "hood width": 26.0, "hood opening": 38.0},
    "trousers": _LEGS | {"calf": 21.0},
    "leggings": _LEGS | {"waistband": 6.0, "hem": 2.0},
    "skirt": _LEGS | {"waistband": 3.5},
}  # fmt: skip
"""Garment -> what the library leaves out."""

RELATED: dict[str, tuple[tuple[tuple[str, ...], Callable[..., float]], ...]] = {
    "length": (
        (("back length", "back neck drop"), lambda back, drop: back + drop),
        (("back length",), lambda back: back * 1.027),
    ),
    "back length": (
        (("length", "back neck drop"), lambda front, drop: front - drop),
        (("length",), lambda front: front / 1.027),
    ),
    "sleeve": ((("sleeve back", "shoulder"), lambda back, shoulder: back - shoulder / 2),),
    "opening": ((("cuff",), lambda cuff: cuff / 2 - 1),),
    "across front": ((("across back",), lambda back: back * 0.94),),
    "across back": ((("across front",), lambda front: front * 1.06),),
    "side": ((("back length",), lambda back: back + 0.5),),
    "hood opening": ((("hood height",), lambda height: height * 0.93 + 4),),
}
"""A length that follows from others of the same garment: needed ones -> how."""
