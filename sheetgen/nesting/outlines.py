"""Outlines: the cut piece as a polygon in centimeters, x along the grain from its top on, y across."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from sheetgen.drawing.shapes import Path, Point, bounds
from sheetgen.nesting import lowers, parts, uppers
from sheetgen.nesting.pieces import Piece
from sheetgen.nesting.shares import Shape, Shares

_ALIKE: Final = 1e-6
"""Centimeters by which two points may differ and still be one."""


@dataclass(frozen=True)
class _Drawn:
    """How a kind is drawn: its shape; whether both sides of a center line are; whether its length lies across."""

    shape: Shape
    centered: bool = False
    band: bool = False


_SHAPES: Final[dict[str, _Drawn]] = {
    "rectangle": _Drawn(parts.rectangle),
    "front": _Drawn(uppers.front, centered=True),
    "half front": _Drawn(uppers.half_front),
    "back": _Drawn(uppers.back, centered=True),
    "half back": _Drawn(uppers.half_back),
    "back below yoke": _Drawn(uppers.back_below_yoke, centered=True),
    "yoke": _Drawn(uppers.yoke, centered=True),
    "sleeve": _Drawn(uppers.sleeve),
    "cuff": _Drawn(parts.cuff, band=True),
    "collar": _Drawn(parts.collar, band=True),
    "collar stand": _Drawn(parts.collar_stand, band=True),
    "hood": _Drawn(uppers.hood),
    "front facing": _Drawn(parts.front_facing),
    "neck facing": _Drawn(parts.neck_facing),
    "patch pocket": _Drawn(parts.patch_pocket),
    "kangaroo pocket": _Drawn(parts.kangaroo_pocket),
    "pocket bag": _Drawn(parts.pocket_bag),
    "pocket flap": _Drawn(parts.pocket_flap),
    "front leg": _Drawn(lowers.front_leg),
    "back leg": _Drawn(lowers.back_leg),
    "whole leg": _Drawn(lowers.whole_leg),
    "fly": _Drawn(lowers.fly),
    "gusset": _Drawn(lowers.gusset),
    "skirt panel": _Drawn(lowers.skirt_panel, centered=True),
    "half skirt panel": _Drawn(lowers.half_skirt_panel),
    "waistband": _Drawn(parts.rectangle, band=True),
    "curved waistband": _Drawn(parts.curved_waistband, band=True),
}


def outline(piece: Piece) -> Path:
    """The polygon of a piece in cm: counter-clockwise, not closed, its box exactly `length` along x and `width` along y.

    Curves are short straight pieces. Details that no such piece can have are drawn as the nearest that one can.
    """
    drawn = _SHAPES[piece.outline]
    path = drawn.shape(Shares(piece, piece.width / 2 if drawn.centered else piece.width))
    if drawn.band and piece.length > piece.width:
        path = tuple(Point(point.y, point.x) for point in path)
    low, up = bounds([path])
    wide, long = up.x - low.x, up.y - low.y
    fitted = [Point((p.y - low.y) / long * piece.length, (p.x - low.x) / wide * piece.width) for p in path]
    return _counter_clockwise(_apart(fitted))


def mirror_image(path: Path, width: float) -> Path:
    """The other hand of an outline in a box of that width, in cm; its direction along the grain stays."""
    return _counter_clockwise(tuple(Point(point.x, width - point.y) for point in path))


def symmetric(piece: Piece) -> bool:
    """Whether a piece and its mirror image are the same, so that of two of it none needs to be turned over."""
    path = outline(piece)
    other = mirror_image(path, piece.width)
    return all(min(map(point.distance, other)) < _ALIKE for point in path)


def area(path: Sequence[Point]) -> float:
    """The area of a polygon in square cm, above 0 if it runs counter-clockwise."""
    return sum(a.x * b.y - b.x * a.y for a, b in pairwise((*path, path[0]))) / 2


def fill(piece: Piece) -> float:
    """The share of its box, length x width, that the piece's outline fills: above 0, at most 1."""
    return min(area(outline(piece)) / (piece.length * piece.width), 1.0)


def _counter_clockwise(path: Path) -> Path:
    return path if area(path) > 0 else path[::-1]


def _apart(points: Sequence[Point]) -> Path:
    """Without a point that lies where the one before it does."""
    return tuple(b for a, b in pairwise((points[-1], *points)) if abs(a.x - b.x) + abs(a.y - b.y) > 1e-9)
