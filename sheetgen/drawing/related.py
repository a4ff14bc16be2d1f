"""Related lengths: which length of a garment follows from others of the same garment. Common practice."""

from __future__ import annotations

from collections.abc import Callable

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
