"""Shapes: points and paths in centimeters, x to the right and y down, as flat lists of points.

A path is a polyline fine enough to look smooth, so that its length is the sum of its pieces and a drawing can be
measured. Used by every outline before anything is drawn.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple


class Point(NamedTuple):
    """A place in the plane."""

    x: float
    y: float

    def to(self, dx: float, dy: float) -> Point:
        """The place so far from here."""
        return Point(self.x + dx, self.y + dy)

    def toward(self, other: Point, part: float) -> Point:
        """The place at a part of the way to another: 0 is here, 1 is there."""
        return Point(self.x + (other.x - self.x) * part, self.y + (other.y - self.y) * part)

    def distance(self, other: Point) -> float:
        """The straight way to another place."""
        return math.hypot(self.x - other.x, self.y - other.y)


Path = tuple[Point, ...]
_HALVINGS = 28
"""Of three meters these leave about a millionth of a centimeter."""


def line(*points: tuple[float, float]) -> Path:
    """A path straight from each point to the next."""
    return tuple(Point(*point) for point in points)


def curve(start: Point, leave: Point, arrive: Point, end: Point, steps: int = 16) -> Path:
    """A cubic curve with its two control points."""
    path = []
    for step in range(steps + 1):
        t = step / steps
        a, b, c, d = (1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3
        x = a * start.x + b * leave.x + c * arrive.x + d * end.x
        path.append(Point(x, a * start.y + b * leave.y + c * arrive.y + d * end.y))
    return tuple(path)


def downward(points: Sequence[Point], steps: int = 10) -> Path:
    """A smooth path through points that go down, never wider or narrower between two than these are.

    Straight from point to point if one lies higher than the one before: such numbers make no smooth edge.
    """
    gaps = [b.y - a.y for a, b in pairwise(points)]
    if len(points) < 3 or min(gaps) < 1e-6:
        return tuple(points)
    slopes = [(b.x - a.x) / gap for (a, b), gap in zip(pairwise(points), gaps, strict=True)]
    bends = [
        _end_slope(slopes[0], slopes[1], gaps[0], gaps[1]),
        *(_mean_slope(one, two) for one, two in pairwise(slopes)),
        _end_slope(slopes[-1], slopes[-2], gaps[-1], gaps[-2]),
    ]
    path = [points[0]]
    for index, gap in enumerate(gaps):
        a, b = points[index], points[index + 1]
        piece = curve(a, a.to(bends[index] * gap / 3, gap / 3), b.to(-bends[index + 1] * gap / 3, -gap / 3), b, steps)
        path.extend(piece[1:])
    return tuple(path)


def _mean_slope(one: float, two: float) -> float:
    """The slope where two pieces meet: level where they turn, so that the curve does not overshoot."""
    return 0.0 if one * two <= 0 else 2 * one * two / (one + two)


def _end_slope(last: float, before: float, gap: float, gap_before: float) -> float:
    """The slope at an end, so that a hip is round and not a corner (the three-point end of Fritsch and Carlson's curves)."""
    slope = ((2 * gap + gap_before) * last - gap * before) / (gap + gap_before)
    if slope * last <= 0:
        return 0.0
    return 3 * last if last * before <= 0 and abs(slope) > 3 * abs(last) else slope


def length(path: Path) -> float:
    """The way along a path."""
    return sum(a.distance(b) for a, b in pairwise(path))


def at(path: Path, way: float) -> Point:
    """The point after so much of a path; its ends for less than nothing and more than all."""
    if way <= 0 or len(path) < 2:
        return path[0]
    for a, b in pairwise(path):
        piece = a.distance(b)
        if piece > 0 and way <= piece:
            return a.toward(b, way / piece)
        way -= piece
    return path[-1]


def level(path: Path, y: float) -> float:
    """How far right a path is at a height; of its nearest end where it does not reach it."""
    for a, b in pairwise(path):
        if min(a.y, b.y) <= y <= max(a.y, b.y) and a.y != b.y:
            return a.toward(b, (y - a.y) / (b.y - a.y)).x
    return min(path, key=lambda point: abs(point.y - y)).x


def mirrored(path: Path) -> Path:
    """The path on the other side of the center line."""
    return tuple(Point(-point.x, point.y) for point in path)


def both(path: Path) -> Path:
    """A path from center to center made whole and closed: there on the right side, back on the left."""
    return path + mirrored(path)[::-1]


def across(path: Path) -> Path:
    """A path from the center line outward made whole: from its end on the left over the center to its end."""
    return mirrored(path)[::-1] + path[1:]


def band(low: Path, high: Path) -> Path:
    """The closed shape between two paths from the center line outward."""
    shape = across(low) + across(high)[::-1]
    return (*shape, shape[0])


def moved(path: Path, dx: float, dy: float) -> Path:
    """The path so far from where it was."""
    return tuple(point.to(dx, dy) for point in path)


def parallel(path: Path, aside: float) -> Path:
    """The path beside a path: above one that runs right, right of one that runs down; less than 0: the other side."""
    clean = [path[0], *(b for a, b in pairwise(path) if a != b)]
    if len(clean) < 2 or not aside:
        return tuple(clean)
    normals = [_normal(a, b) for a, b in pairwise(clean)]
    result = []
    for index, point in enumerate(clean):
        one, two = normals[max(index - 1, 0)], normals[min(index, len(normals) - 1)]
        x, y = one.x + two.x, one.y + two.y
        size = math.hypot(x, y)
        x, y = (x / size, y / size) if size > 1e-9 else one
        result.append(point.to(x * aside, y * aside))
    return tuple(result)


def _normal(a: Point, b: Point) -> Point:
    size = a.distance(b)
    # Two points can differ and yet lie no measurable way apart.
    return Point((b.y - a.y) / size, (a.x - b.x) / size) if size > 0 else Point(0, 0)


def bounds(paths: Iterable[Path]) -> tuple[Point, Point]:
    """Upper left and lower right corner of all paths."""
    points = [point for path in paths for point in path] or [Point(0, 0)]
    return (
        Point(min(point.x for point in points), min(point.y for point in points)),
        Point(max(point.x for point in points), max(point.y for point in points)),
    )


def solved(grows: Callable[[float], float], wanted: float, low: float, high: float) -> float:
    """The number between two at which something that grows reaches what is wanted; else the nearer end."""
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if grows(middle) < wanted else (low, middle)
    return (low + high) / 2
