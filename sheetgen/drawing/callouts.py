"""Numbered marks around a picture: a circle outside of it, and a line to the place that it speaks of.

Circles stand in two columns beside the picture, none on another; no two lines cross. The picture itself is not changed.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from html import escape
from itertools import combinations
from typing import NamedTuple

INK, PAPER = "#222222", "#ffffff"
_RADIUS = 0.038
"""Of a circle, in parts of the picture's longer side: its number is 7 points high where the pack prints a flat 9.7 cm wide."""
_ROOM = 2.5
"""From one circle's middle to the next, in radii."""
_MARGIN, _EDGE = 3.2, 1.1
"""Beside the picture, and from there to the middle of the circles, in radii."""


class Target(NamedTuple):
    """What a mark says (`N3`), and where on the picture it points, in parts of its width and height from the top left."""

    word: str
    across: float
    down: float


@dataclass(frozen=True)
class Mark:
    """A circle with its line, in the units of the picture: where the circle stands and where the line ends."""

    word: str
    x: float
    y: float
    to_x: float
    to_y: float

    @property
    def long(self) -> float:
        """The length from the circle's middle to the end of the line."""
        return math.hypot(self.to_x - self.x, self.to_y - self.y)


class Box(NamedTuple):
    """A part of a picture, in its units."""

    left: float
    top: float
    right: float
    bottom: float


class Placed(NamedTuple):
    """Marks around what is drawn in a picture, the radius of their circles, and the part of the plane that all of it takes."""

    marks: tuple[Mark, ...]
    radius: float
    frame: Box


def placed(targets: Sequence[Target], width: float, height: float, drawn: Box | None = None) -> Placed:
    """Where the circles of these targets stand around what is drawn in a picture of that size. However many there are, none is
    smaller: their columns then reach beyond it."""
    points = [(one.word, one.across * width, one.down * height) for one in targets]
    drawn = _with_points(drawn or Box(0, 0, width, height), points)
    high, radius = drawn.bottom - drawn.top, _RADIUS * max(drawn.right - drawn.left, drawn.bottom - drawn.top)
    most = max(1, math.ceil(len(targets) / 2), int(high / (_ROOM * radius)))
    sides = _sides(points, most, (drawn.left + drawn.right) / 2)
    beyond = max(0.0, _ROOM * radius * max(map(len, sides)) - high) / 2
    box = drawn._replace(top=drawn.top - beyond, bottom=drawn.bottom + beyond)
    margin = _MARGIN * radius
    marks = [
        Mark(word, x, y, to_x, to_y)
        for x, side in zip(
            (box.left - margin + _EDGE * radius, box.right + margin - _EDGE * radius),
            sides,
            strict=True,
        )
        for (word, to_x, to_y), y in zip(side, _heights([one[2] for one in side], radius, box), strict=True)
    ]
    frame = Box(box.left - margin, box.top, box.right + margin, box.bottom)
    return Placed(_without_crossings(marks), radius, frame)


def _with_points(box: Box, points: Sequence[tuple[str, float, float]]) -> Box:
    """The box made as large as it must be to hold them, and what stands at its edge."""
    room = _RADIUS * max(box.right - box.left, box.bottom - box.top)
    across, down = [one[1] for one in points], [one[2] for one in points]
    return Box(
        min(box.left, *across), min(box.top, *down) - room, max(box.right, *across), max(box.bottom, *down) + room
    )  # fmt: skip


def _sides(
    points: Sequence[tuple[str, float, float]], most: int, middle: float
) -> tuple[list[tuple[str, float, float]], ...]:
    """Those left of the middle at the left, the others at the right, from the top down; as many at each as its column holds."""
    from_left = sorted(points, key=lambda one: (one[1], one[2]))
    count = min(max(sum(one[1] < middle for one in points), len(points) - most), most)
    left, right = from_left[:count], from_left[count:]
    return sorted(left, key=lambda one: one[2]), sorted(right, key=lambda one: one[2])


def _heights(wanted: Sequence[float], radius: float, box: Box) -> list[float]:
    """Heights as near to the wanted ones (which rise) as circles that do not touch allow, all beside the picture."""
    room, highest = _ROOM * radius, box.top + radius
    found: list[float] = []
    for y in wanted:
        found.append(max(y, found[-1] + room if found else highest))
    limit = max(box.bottom - radius, highest)
    for index in range(len(found) - 1, -1, -1):
        found[index] = min(found[index], limit)
        limit = found[index] - room
    return found


def _without_crossings(marks: Sequence[Mark]) -> tuple[Mark, ...]:
    """Two marks whose lines cross exchange their circles: the lines get shorter each time, so it ends, and none cross then."""
    found = list(marks)
    swapped = True
    while swapped:
        swapped = False
        for one, other in combinations(range(len(found)), 2):
            first, second = found[one], found[other]
            here = replace(first, x=second.x, y=second.y)
            there = replace(second, x=first.x, y=first.y)
            if here.long + there.long < first.long + second.long - 1e-9:
                found[one], found[other], swapped = here, there, True
    return tuple(found)


def marks_of(around: Placed) -> str:
    """The marks alone as an SVG, on nothing, as large as their frame."""
    r, (left, top, right, bottom) = around.radius, around.frame
    view = f"{left:.1f} {top:.1f} {right - left:.1f} {bottom - top:.1f}"
    lines, circles = (_line(mark, r) for mark in around.marks), (_circle(mark, r) for mark in around.marks)
    return "".join([f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{view}">', *lines, *circles, "</svg>"])


def _line(mark: Mark, radius: float) -> str:
    """From the circle's edge to a dot; a light edge keeps it apart from the drawing's own lines."""
    far = max(mark.long, radius)
    x = mark.x + (mark.to_x - mark.x) * radius / far
    y = mark.y + (mark.to_y - mark.y) * radius / far
    path = f'd="M{x:.1f} {y:.1f}L{mark.to_x:.1f} {mark.to_y:.1f}" fill="none"'
    dot = f'cx="{mark.to_x:.1f}" cy="{mark.to_y:.1f}"'
    return (
        f'<path {path} stroke="{PAPER}" stroke-width="{radius * 0.26:.2f}" stroke-opacity="0.85"/>'
        f'<path {path} stroke="{INK}" stroke-width="{radius * 0.08:.2f}"/>'
        f'<circle {dot} r="{radius * 0.2:.2f}" fill="{INK}" stroke="{PAPER}" stroke-width="{radius * 0.06:.2f}"/>'
    )


def _circle(mark: Mark, radius: float) -> str:
    size = radius * (0.95 if len(mark.word) < 3 else 0.85)
    return (
        f'<circle data-row="{escape(mark.word)}" cx="{mark.x:.1f}" cy="{mark.y:.1f}" r="{radius:.2f}" '
        f'fill="{PAPER}" stroke="{INK}" '
        f'stroke-width="{radius * 0.1:.2f}"/>'
        f'<text x="{mark.x:.1f}" y="{mark.y + size * 0.34:.1f}" text-anchor="middle" font-size="{size:.2f}" '
        f'font-weight="bold" fill="{INK}">{escape(mark.word)}</text>'
    )
