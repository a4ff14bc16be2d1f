"""Dimension lines: a measured line with its ends, and its ref where the drawing leaves most room for it."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

from sheetgen.drawing import palette, svg
from sheetgen.drawing.shapes import Path, Point, at, length

LANE = 20.0
"""How far apart lines beside an edge are, in units of the drawing."""
_CELL = 6.0
_HEAD = 11.0
_HIGH = palette.TEXT + 5
_PARTS = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82, 0.1, 0.9)


class Dimension(NamedTuple):
    """One measured line in units of the drawing: the line as drawn, the place it measures, and what its label says (its ref)."""

    ref: str
    path: Path
    measured: Path
    words: str = ""


class Box(NamedTuple):
    """The place of a label."""

    center: Point
    wide: float
    high: float

    def overlap(self, other: Box) -> float:
        """How much of the drawing both take."""
        x = (self.wide + other.wide) / 2 - abs(self.center.x - other.center.x)
        y = (self.high + other.high) / 2 - abs(self.center.y - other.center.y)
        return max(x, 0) * max(y, 0)


@dataclass
class Field:
    """Which places of a drawing, or of a part of it, are taken, and how dearly."""

    high: float
    left: float = 0.0
    top: float = 0.0
    right: float = svg.WIDTH
    cells: Counter[tuple[int, int]] = field(default_factory=Counter)
    boxes: list[Box] = field(default_factory=list)

    def take(self, paths: Iterable[Path], cost: int) -> None:
        """Mark lines that a label should not cover."""
        taken = {cell for path in paths for cell in _cells(path)}
        for cell in taken:
            self.cells[cell] += cost

    def cost(self, box: Box, own: set[tuple[int, int]], own_cost: int, most: float) -> float:
        """What covering this place costs, counted no further than the most that is of interest; its own line costs nothing."""
        left, right = box.center.x - box.wide / 2, box.center.x + box.wide / 2
        top, low = box.center.y - box.high / 2, box.center.y + box.high / 2
        if left < self.left + 4 or right > self.right - 4 or top < self.top + 4 or low > self.top + self.high - 4:
            return 1e6
        total = sum(box.overlap(other) for other in self.boxes) * 50
        for x in range(int(left // _CELL), int(right // _CELL) + 1):
            if total >= most:
                break
            for y in range(int(top // _CELL), int(low // _CELL) + 1):
                total += self.cells[x, y] - (own_cost if (x, y) in own else 0)
        return total


def _cells(path: Path) -> Iterator[tuple[int, int]]:
    for a, b in pairwise(path):
        steps = int(a.distance(b) / _CELL) + 1
        for step in range(steps + 1):
            point = a.toward(b, step / steps)
            yield int(point.x // _CELL), int(point.y // _CELL)


_LINE_COST = 12


def drawn(dimensions: Sequence[Dimension], field_: Field, color: str = palette.MEASURE) -> Iterator[str]:
    """The lines, and then all labels above them; short lines choose their label's place first."""
    field_.take((one.path for one in dimensions), _LINE_COST)
    for one in dimensions:
        yield from _line(one, color)
    for one in sorted(dimensions, key=lambda one: length(one.path)):
        wide = svg.wide(one.words or one.ref) + 12
        boxes = _candidates(one.path, wide)
        # A label lies on its own line where that goes on beside it; a shorter one it would swallow.
        own = set(_cells(one.path)) if _holds(one.path, wide) else set()
        box, least = boxes[0][0], math.inf
        for other, away in boxes:
            cost = field_.cost(other, own, _LINE_COST, least - away) + away
            if cost < least:
                box, least = other, cost
        field_.boxes.append(box)
        yield _label(one, box, color)


def _holds(path: Path, wide: float) -> bool:
    """Whether a line is longer than its label and both its ends."""
    return length(path) > wide + 2 * _HEAD + 6


def _candidates(path: Path, wide: float) -> list[tuple[Box, float]]:
    """Places for a label, each with what it costs to be there: on the line, beside it, past its ends."""
    long = length(path)
    found = []
    if _holds(path, wide):
        found = [(Box(at(path, long * part), wide, _HIGH), index * 0.6) for index, part in enumerate(_PARTS)]
    for part in (0.5, 0.0, 1.0):
        point = at(path, long * part)
        for angle in range(0, 360, 30):
            x, y = math.cos(math.radians(angle)), math.sin(math.radians(angle))
            for gap in (5, 16, 34):
                center = point.to(x * (wide / 2 + gap), y * (_HIGH / 2 + gap))
                found.append((Box(center, wide, _HIGH), 12 + gap * 0.8 + (angle % 90 > 0) * 2))
    return found


def _line(one: Dimension, color: str) -> Iterator[str]:
    ends = [(a, b) for a, b in ((one.measured[0], one.path[0]), (one.measured[-1], one.path[-1])) if a.distance(b) > 1]
    if ends:
        yield svg.stroke("extension", [(a, a.toward(b, 1 + 5 / a.distance(b))) for a, b in ends], color=color)
    yield svg.stroke("measure", (one.path,), f' data-ref="{svg.attribute(one.ref)}"', color=color)
    long = length(one.path)
    if long > 3 * _HEAD:
        heads = [_head(one.path[0], at(one.path, _HEAD)), _head(one.path[-1], at(one.path, long - _HEAD))]
        yield svg.stroke("head", heads, color=color)
    elif long > 0:
        ticks = [_tick(one.path[0], one.path[-1]), _tick(one.path[-1], one.path[0])]
        yield svg.stroke("measure", ticks, color=color)


def _head(tip: Point, back: Point) -> Path:
    x, y = (back.y - tip.y) * 0.28, (tip.x - back.x) * 0.28
    return (tip, back.to(x, y), back.to(-x, -y), tip)


def _tick(end: Point, other: Point) -> Path:
    size = max(end.distance(other), 1e-6)
    x, y = (other.y - end.y) / size * 6, (end.x - other.x) / size * 6
    return (end.to(x, y), end.to(-x, -y))


def _label(one: Dimension, box: Box, color: str) -> str:
    left, top = box.center.x - box.wide / 2, box.center.y - box.high / 2
    nearest = min((at(one.path, length(one.path) * part / 20) for part in range(21)), key=box.center.distance)
    far = max(abs(nearest.x - box.center.x) - box.wide / 2, abs(nearest.y - box.center.y) - box.high / 2)
    leader = svg.stroke("extension", [(nearest, box.center)], color=color) if far > 3 else ""
    base = box.center.to(0, palette.TEXT * 0.34)
    words = svg.text(base, one.words or one.ref, anchor="middle", color=color, bold=True)
    return (
        f'{leader}<rect data-row="{svg.attribute(one.ref)}" x="{svg.short(left)}" y="{svg.short(top)}" '
        f'width="{svg.short(box.wide)}" height="{svg.short(box.high)}" rx="{svg.short(_HIGH / 2)}" '
        f'fill="#FFFFFF" stroke="{color}" stroke-width="1"/>{words}'
    )
