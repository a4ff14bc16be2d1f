"""Outlines: the cut piece as a polygon in centimeters, x along the grain from its top on, y across."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Final

from sheetgen.drawing.shapes import Path, Point, bounds
from sheetgen.nesting import lowers, parts, uppers
from sheetgen.nesting.pieces import Piece
from sheetgen.nesting.shares import Shares

_ALIKE: Final = 1e-6
"""Centimeters by which two points may differ and still be one."""


_SHAPES: Final = uppers.SHAPES | lowers.SHAPES | parts.SHAPES


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


def _counter_clockwise(path: Path) -> Path:
    return path if area(path) > 0 else path[::-1]


def _apart(points: Sequence[Point]) -> Path:
    """Without a point that lies where the one before it does."""
    return tuple(b for a, b in pairwise((points[-1], *points)) if abs(a.x - b.x) + abs(a.y - b.y) > 1e-9)
