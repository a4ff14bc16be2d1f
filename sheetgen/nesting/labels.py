"""Labels: where a piece's words and its grain arrow find room within its outline."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Final

from sheetgen.drawing.shapes import Path, Point, bounds
from sheetgen.nesting.outlines import area

LARGE: Final = 20.0
LEAST: Final = 15.0
"""Of 1600 units; 18 cm wide the smallest words are still 1.7 mm high."""
ARROW: Final = 44.0
"""The usual length of a grain arrow."""
_ARROW_ROOM = 14.0
_AIR = 3.0
_WIDE = 0.54
"""Mean width of a bold letter, as a part of its size."""
_HIGH = 0.74
_LEADING = 1.18
_GRID = 9


@dataclass(frozen=True)
class Label:
    """Words on a piece: the middle of their block, their size; upright words run across the fabric, from below up.

    `arrow` is the length of the grain arrow that stands below them (before upright ones), 0 where it finds no room.
    """

    middle: Point
    words: tuple[str, ...]
    size: float
    upright: bool
    arrow: float
    fits: bool

    @property
    def wide(self) -> float:
        """How wide the lines of words are together."""
        return _block(self.words, self.size)[0]

    @property
    def high(self) -> float:
        """How high they are together."""
        return _block(self.words, self.size)[1]

    def lines(self, middle: Point) -> Iterator[tuple[Point, str]]:
        """Each line of words around a middle, with the middle of its base line."""
        for index, line in enumerate(self.words):
            yield middle.to(0, self.size * (_HIGH + _LEADING * index) - self.high / 2), line


def label(path: Path, choices: Sequence[tuple[str, ...]], left: float, right: float) -> Label:
    """The first and largest of the choices that finds room in an outline between two places, all in drawing units.

    A piece too small for any takes the last one, small, at its widest place; it then reaches over the outline.
    """
    low, up = bounds([path])
    # Pieces alike find alike places: looked for once, with the outline moved to the start.
    moved = tuple(Point(round(point.x - low.x, 2), round(point.y - low.y, 2)) for point in path)
    found = _found(moved, tuple(choices), round(max(left - low.x, 0), 2), round(min(right, up.x) - low.x, 2))
    return Label(found.middle.to(low.x, low.y), found.words, found.size, found.upright, found.arrow, found.fits)


@cache
def _found(path: Path, choices: tuple[tuple[str, ...], ...], left: float, right: float) -> Label:
    places, (low, up) = _places(path, left, right), bounds([path])
    within = [place for place in places if _within(path, place)]  # none where only a gap of the piece may be written on
    for arrow in (ARROW, ARROW / 2, 0.0):
        for words in choices:
            for size in (LARGE, 18.0) if arrow else (LARGE, 18.0, 16.5, LEAST):
                for upright in (False, True):
                    wide, high = _room(words, size, upright, arrow)
                    if wide > up.x - low.x or high > up.y - low.y:
                        continue
                    for middle in within:
                        box = (middle.to(-wide / 2, -high / 2), middle.to(wide / 2, high / 2))
                        if left <= box[0].x and box[1].x <= right and _holds(path, *box):
                            return Label(middle, words, size, upright, arrow, True)
    upright = up.y - low.y > right - left
    half = 0.0 if upright else min(_block(choices[-1], LEAST)[0], right - left) / 2
    middle = max(places, key=lambda place: _clearance(path, place) - place.distance(places[0]) * 0.05)
    middle = Point(min(max(middle.x, left + half), right - half), middle.y)
    return Label(middle, choices[-1], LEAST, upright, 0.0, False)


def _block(words: Sequence[str], size: float) -> tuple[float, float]:
    """How wide and high lines of words are."""
    return max(len(line) for line in words) * size * _WIDE, size * (_HIGH + _LEADING * (len(words) - 1))


def _room(words: Sequence[str], size: float, upright: bool, arrow: float) -> tuple[float, float]:
    """The box that words and arrow take."""
    wide, high = _block(words, size)
    if upright:
        wide, high = high, wide
    return max(wide, arrow) + 2 * _AIR, high + (_ARROW_ROOM if arrow else 0) + 2 * _AIR


def _places(path: Path, left: float, right: float) -> list[Point]:
    """Places within an outline, those nearest its middle first; the middle of its box if there are none."""
    low, up = bounds([path])
    low, up = Point(max(low.x, left), low.y), Point(min(up.x, right), up.y)
    middle = _centroid(path)
    steps = [(number + 0.5) / _GRID for number in range(_GRID)]
    grid = [Point(low.x + (up.x - low.x) * x, low.y + (up.y - low.y) * y) for x in steps for y in steps]
    within = [place for place in (middle, *grid) if left <= place.x <= right and _within(path, place)]
    return sorted(within, key=middle.distance) or [low.toward(up, 0.5)]


def _centroid(path: Path) -> Point:
    total = 6 * area(path)
    x = y = 0.0
    for a, b in _edges(path):
        cross = a.x * b.y - b.x * a.y
        x, y = x + (a.x + b.x) * cross, y + (a.y + b.y) * cross
    return Point(x / total, y / total) if total else path[0]


def _edges(path: Path) -> Iterator[tuple[Point, Point]]:
    return pairwise((*path, path[0]))


def _within(path: Path, place: Point) -> bool:
    """Whether a place lies in an outline: a line from it to the right crosses the outline an odd number of times."""
    inside = False
    for a, b in _edges(path):
        if (a.y > place.y) != (b.y > place.y) and place.x < a.x + (b.x - a.x) * (place.y - a.y) / (b.y - a.y):
            inside = not inside
    return inside


def _holds(path: Path, low: Point, up: Point) -> bool:
    """Whether an outline holds a whole box, given that it holds its middle: no edge of it enters the box."""
    return not any(_enters(a, b, low, up) for a, b in _edges(path))


def _enters(a: Point, b: Point, low: Point, up: Point) -> bool:
    """Whether a straight line runs through a box: the parts of it within both strips meet."""
    first, last = 0.0, 1.0
    for start, way, least, most in ((a.x, b.x - a.x, low.x, up.x), (a.y, b.y - a.y, low.y, up.y)):
        if abs(way) < 1e-9:
            if not least < start < most:
                return False
            continue
        one, two = sorted(((least - start) / way, (most - start) / way))
        first, last = max(first, one), min(last, two)
    return first < last


def _clearance(path: Path, place: Point) -> float:
    """How far a place is from the nearest edge of an outline."""
    return min(_away(place, a, b) for a, b in _edges(path))


def _away(place: Point, a: Point, b: Point) -> float:
    long = a.distance(b) ** 2
    part = ((place.x - a.x) * (b.x - a.x) + (place.y - a.y) * (b.y - a.y)) / long if long else 0.0
    return place.distance(a.toward(b, min(max(part, 0.0), 1.0)))
