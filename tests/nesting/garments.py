"""Garments to lay: cut pieces of a T-shirt, a shirt and trousers in cm, as a cutting room would list them.

Made for these tests from usual measurements of the trade (from memory); each size is a step larger than the one before.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable

from sheetgen.nesting import Piece

SIZES = ("S", "M", "L", "XL")


def t_shirt(size: str) -> tuple[Piece, ...]:
    """Front, back, two sleeves, neck rib and neck tape of a T-shirt; M has a chest of 52 cm."""
    step = SIZES.index(size) - 1
    long, chest = 74.0 + 2 * step, 52.0 + 2.5 * step
    details = {
        "neck": 17.5 + 0.5 * step,
        "neck drop": 9.5,
        "back neck drop": 2,
        "shoulder": 45 + 1.5 * step,
        "slope": 4.5,
        "armhole": 23 + step,
        "across front": 42 + 1.4 * step,
        "chest": chest,
        "bottom": chest,
        "opening": 18 + 0.6 * step,
    }
    return (
        Piece("Y1", "Front", "front", long + 3.5, chest + 2.5, size=size, details=details),
        Piece("Y2", "Back", "back", long + 3.5, chest + 2.5, size=size, details=details),
        Piece("Y3", "Sleeve", "sleeve", 24.0 + step, 41.0 + 1.6 * step, 2, True, size, {**details, "cap height": 12}),
        Piece("Y4", "Neck rib", "rectangle", 5, 44.0 + step, size=size),
        Piece("Y5", "Neck tape", "rectangle", 48.0 + step, 2.5, size=size),
    )


def shirt(size: str) -> tuple[Piece, ...]:
    """A long-sleeved shirt with yoke, collar on a band, cuffs, plackets and one pocket; M has a chest of 56 cm."""
    step = SIZES.index(size) - 1
    long, chest = 79.0 + 1.5 * step, 56.0 + 3 * step
    body = {
        "neck": 17,
        "neck drop": 8.5,
        "shoulder": 47 + 1.5 * step,
        "slope": 4.5,
        "armhole": 25.5 + step,
        "tail": 6,
    }
    return (
        Piece("Y1", "Front", "half front", long + 2, chest / 2 + 5, 2, True, size, body),
        Piece("Y2", "Back", "back below yoke", long - 5, chest + 4, size=size, details=body),
        Piece("Y3", "Yoke", "yoke", 12, 49 + 1.5 * step, 2, size=size, details=body),
        Piece("Y4", "Sleeve", "sleeve", 61.0 + step, 44 + 1.6 * step, 2, True, size, {"cap height": 13, "opening": 14}),
        Piece("Y5", "Cuff", "cuff", 26.0 + step, 8.5, 4, size=size),
        Piece("Y6", "Collar", "collar", 45.0 + step, 7.5, 2, size=size),
        Piece("Y7", "Band", "collar stand", 46.0 + step, 5.5, 2, size=size),
        Piece("Y8", "Chest pocket", "patch pocket", 16, 13.5, size=size),
        Piece("Y9", "Sleeve placket", "rectangle", 18, 6, 4, size=size),
    )


def trousers(size: str) -> tuple[Piece, ...]:
    """Trousers with slanted pockets, fly and straight legs; M has a hip of 52 cm lying flat."""
    step = SIZES.index(size) - 1
    hip, long = 52.0 + 2.5 * step, 104.0 + step
    details = {
        "waist": 41 + 2.5 * step,
        "hip": hip,
        "front rise": 27,
        "knee": 23 + 0.6 * step,
        "leg": 19.5 + 0.4 * step,
    }
    return (
        Piece("Y1", "Front leg", "front leg", long + 4, hip / 2 + 6, 2, True, size, details),
        Piece("Y2", "Back leg", "back leg", long + 6, hip / 2 + 12, 2, True, size, details),
        Piece("Y3", "Waistband", "waistband", 90.0 + 5 * step, 6, 2, size=size),
        Piece("Y4", "Fly and shield", "fly", 22, 7, 3, size=size),
        Piece("Y5", "Pocket facing", "pocket bag", 22, 8, 4, size=size),
        Piece("Y6", "Back welt", "rectangle", 18, 6, 4, size=size),
        Piece("Y7", "Belt loops", "rectangle", 62, 4, size=size),
    )


def all_of(garment: Callable[[str], tuple[Piece, ...]], sizes: Iterable[str]) -> tuple[Piece, ...]:
    """The pieces of several sizes in one row."""
    return tuple(piece for size in sizes for piece in garment(size))
