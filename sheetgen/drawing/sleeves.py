"""Sleeves: a set-in sleeve as it lies on the table beside the body, the fold on top.

The fold leaves the shoulder at the angle at which the underarm point lies the biceps width away from it; a long
sleeve then bends down, so that a whole garment finds room. Lengths along the fold and widths square to it are true.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from sheetgen.drawing.measures import Numbers
from sheetgen.drawing.shapes import Path, Point, at
from sheetgen.drawing.views import Span, Stroke, one

BELOW_ARMHOLE = 2.5
"""Chest and biceps are measured so far below the armhole."""
_STEPS = 60
_BEND = math.radians(36)
_FOREARM = 8.3
"""The forearm is measured so far above the cuff seam: three inches and a quarter."""


@dataclass(frozen=True)
class Fold:
    """The upper edge of a sleeve: its points and the heading at each, from shoulder to edge."""

    path: Path
    headings: tuple[float, ...]
    long: float

    def at(self, way: float) -> Point:
        """The point so far down the sleeve."""
        return at(self.path, way)

    def inward(self, way: float, width: float) -> Point:
        """The point a width square from the fold, on the side of the body."""
        index = min(round(way / self.long * _STEPS), _STEPS) if self.long else 0
        heading = self.headings[index]
        return self.at(way).to(-math.sin(heading) * width, math.cos(heading) * width)


@dataclass(frozen=True)
class Sleeve:
    """The right sleeve: fold, underarm seam, and the ways down the fold where it is measured or seamed."""

    fold: Fold
    seam: Path
    widths: tuple[tuple[float, float], ...]
    biceps: float
    cuff: float
    ways: tuple[float, ...] = ()

    @property
    def laid(self) -> Path:
        """The sleeve straight by itself: the fold level from the shoulder point, the armhole as a straight line."""
        (start, *_), heading = self.fold.path, self.fold.headings[0]
        dx, dy = self.seam[0].x - start.x, self.seam[0].y - start.y
        underarm = Point(
            dx * math.cos(heading) + dy * math.sin(heading), dy * math.cos(heading) - dx * math.sin(heading)
        )
        seam = [Point(way, _between(self.widths, way)) for way in reversed(self.ways)]
        return (Point(0, 0), Point(self.fold.long, 0), *seam, underarm, Point(0, 0))

    def across(self, way: float) -> Path:
        """From fold to seam, square to the fold."""
        return (self.fold.at(way), self.fold.inward(way, _between(self.widths, way)))

    @property
    def edge(self) -> Path:
        """Shoulder to sleeve edge and back to the underarm point."""
        return self.fold.path + self.seam[::-1]


def sleeve(n: Numbers, shoulder: Point, underarm: Point) -> Sleeve | None:
    """The sleeve of these numbers at this armhole, if there is one; it has a cuff if the garment has one."""
    if not sleeved(n):
        return None
    armhole, long = max(shoulder.distance(underarm), 0.1), n["sleeve"]
    falls = math.atan2(underarm.y - shoulder.y, underarm.x - shoulder.x)
    heading, reach = _heading(n, armhole, falls)
    biceps = min(reach + BELOW_ARMHOLE, long * 0.8)
    cuff = long - min(n["cuff height"], long * 0.2)
    fold = _fold(shoulder, heading, long, (biceps, cuff), min(max(long / armhole * 2 - 2.6, 0.0), 1.0))
    widths = _widths(n, biceps, cuff, long)
    ways = sorted({way for way, _ in widths} | {biceps + (cuff - biceps) * step / 24 for step in range(25)})
    seam = tuple(fold.inward(way, _between(widths, way)) for way in ways)
    return Sleeve(fold, (underarm, *seam), widths, biceps, cuff, tuple(ways))


def sleeved(n: Numbers) -> bool:
    """Whether there are sleeves; where only measured ones are drawn, a garment without any figure has them too."""
    if n.features.sleeves == "where measured":
        return n.has("sleeve", "sleeve back", "biceps", "opening") or not n.given
    return n.features.sleeves == "set in"


def _heading(n: Numbers, armhole: float, falls: float) -> tuple[float, float]:
    """The fold's angle at the shoulder, and how far down it the underarm point lies square below.

    There the sleeve is wider than at the biceps by as much as it narrows on the way, so that its seam is straight.
    """
    long, wide, reach, heading = n["sleeve"], n["biceps"], 0.0, 0.0
    for _ in range(4):
        left = max(long - reach - BELOW_ARMHOLE, 2.0)
        narrows = min(max((wide - n["opening"]) / left, 0.0), 0.5)
        lean = math.asin(min((wide + narrows * BELOW_ARMHOLE) / armhole, 0.97))
        heading = min(max(falls - lean, math.radians(-10)), math.radians(75)) if n.hang is None else n.hang
        reach = min(max(armhole * math.cos(falls - heading), 0.0), long * 0.7)
    return heading, reach


def _fold(start: Point, heading: float, long: float, bent: tuple[float, float], much: float) -> Fold:
    """The fold from the shoulder; it bends between two ways, by so much of the usual angle, never past hanging."""
    turn = max(min(_BEND * much, math.radians(78) - heading), 0.0)
    path, headings = [start], [heading]
    for step in range(_STEPS):
        part = ((step + 0.5) / _STEPS * long - bent[0]) / max(bent[1] - bent[0], 1e-6)
        part = min(max(part, 0.0), 1.0)
        now = heading + turn * part * part * (3 - 2 * part)
        path.append(path[-1].to(math.cos(now) * long / _STEPS, math.sin(now) * long / _STEPS))
        headings.append(now)
    return Fold(tuple(path), tuple(headings), long)


def _widths(n: Numbers, biceps: float, cuff: float, long: float) -> tuple[tuple[float, float], ...]:
    """Width at each way: straight between them; a cuff gathers the sleeve a little."""
    wide, narrow = n["biceps"], n["opening"]
    if long - cuff < 0.05:
        return ((biceps, wide), (long, narrow))
    full = narrow + max(wide - narrow, 0) * 0.16
    found = [(biceps, wide), (cuff - (long - cuff) * 0.2, full), (cuff, narrow * 1.04), (long, narrow)]
    if n.has("forearm") and cuff - _FOREARM > biceps:
        found.insert(1, (cuff - _FOREARM, n["forearm"]))
    return tuple(found)


def _between(widths: Sequence[tuple[float, float]], way: float) -> float:
    before = widths[0]
    for after in widths:
        if way <= after[0]:
            gap = after[0] - before[0]
            return before[1] + (after[1] - before[1]) * ((way - before[0]) / gap if gap > 0 else 1.0)
        before = after
    return widths[-1][1]


def sleeve_strokes(n: Numbers, made: Sleeve, armhole: Path) -> tuple[Stroke, ...]:
    """The right sleeve with its hem stitching, or with its cuff, which may be ribbed."""
    long = made.fold.long
    strokes = [one("cloth", made.edge + armhole[::-1], part="sleeve"), one("outline", made.edge, part="sleeve")]
    if long - made.cuff < 0.05:
        return (*strokes, one("stitch", made.across(long - min(2.0, long * 0.1)), part="sleeve"))
    fold_side = [made.fold.at(made.cuff), made.fold.at(long)]
    cuff = (*fold_side, made.across(long)[1], made.across(made.cuff)[1])
    ribbed = n.features.cuffs == "ribbed"
    strokes += [one("ribbed" if ribbed else "cuff", (*cuff, cuff[0]), part="rib" if ribbed else "cuff")]
    if ribbed:
        top, end = made.across(made.cuff), made.across(long)
        count = max(int(n["opening"] / 1.1), 2)
        ribs = [(top[0].toward(top[1], i / count), end[0].toward(end[1], i / count)) for i in range(1, min(count, 60))]
        strokes.append(one("rib", *ribs, part="rib"))
    return tuple(strokes)


def sleeve_spans(n: Numbers, made: Sleeve) -> tuple[tuple[Span, ...], tuple[Span, ...]]:
    """What is measured on the left sleeve and what on the right one, both as if right."""
    long = made.fold.long
    left = [Span("biceps", made.across(made.biceps)), Span("opening", made.across(long), 1)]
    if n.has("forearm"):
        left.append(Span("forearm", made.across(max(made.cuff - _FOREARM, made.biceps))))
    right = [
        Span("sleeve", made.fold.path, 1),
        Span("cuff height", made.across(made.cuff)[1:] + made.across(long)[1:], -1),
    ]
    return tuple(left), tuple(right)
