"""Lower pieces: legs of trousers and leggings, flies, gussets and skirts, in shares of their boxes."""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.drawing.shapes import Path, Point, both, curve, downward, line
from sheetgen.nesting.shares import STEPS, Drawn, Shares, clamped

_DEPTH_OF_RISE = 0.93
"""How deep the fork lies for a rise measured along the seam, as in the drawing of the garment."""


@dataclass(frozen=True)
class _Cut:
    """How a front and a back of trousers differ, in shares of the width and the length of the piece."""

    fork: tuple[float, float, float]
    lean: float
    center: float
    side: float
    waist: float
    knee: float
    leg: float


_FRONT = _Cut(fork=(0.05, 0.15, 0.24), lean=0.03, center=0.012, side=0.0, waist=0.76, knee=0.68, leg=0.6)
_BACK = _Cut(fork=(0.12, 0.27, 0.36), lean=0.15, center=0.0, side=0.03, waist=0.55, knee=0.64, leg=0.56)
"""Fork (least, usual, most): how far the crotch reaches beyond the center seam; lean: of that seam at the waist; center
and side: how far the waist lies below the box there. Shares as usual drafts have them, from memory."""


def front_leg(s: Shares) -> Path:
    """The front of a leg, side seam on the right."""
    return _leg(s, _FRONT)


def back_leg(s: Shares) -> Path:
    """The back of a leg: a longer crotch seam, higher at the center."""
    return _leg(s, _BACK)


def _depth(s: Shares) -> float:
    """How deep the fork lies below the waist."""
    if s.has("crotch depth"):
        return s.along("crotch depth", 0, 0.08, 0.6)
    return s.along("front rise", 0.26, 0.08, 0.6, _DEPTH_OF_RISE)


def _leg(s: Shares, cut: _Cut) -> Path:
    depth = _depth(s)
    least, usual, most = cut.fork
    fork = clamped(1 - s.across("hip", 1 - usual, 0, 1, 0.5) - 2 / s.whole, least, most) if s.has("hip") else usual
    top = Point(fork + cut.lean, cut.center)
    waist = Point(top.x + s.across("waist", cut.waist, 0.3, 1 - top.x, 0.5), cut.side)
    knee = s.across("knee", cut.knee, 0.2, 1)
    leg = s.across("leg", cut.leg, 0.15, 1)
    level = depth + (1 - depth) * 0.45
    side = downward([waist, Point(1, depth * 0.7), Point(0.5 + knee / 2, level), Point(0.5 + leg / 2, 1)], STEPS)
    inseam = downward([Point(0, depth), Point(0.5 - knee / 2, level), Point(0.5 - leg / 2, 1)], STEPS)
    return (*side, *inseam[::-1], *_crotch(Point(0, depth), fork, top)[1:])


def _crotch(fork: Point, reach: float, top: Point) -> Path:
    """The crotch seam from the fork, in a curve and then straight, up to the waist."""
    leave = Point(reach, fork.y * 0.6)
    return (*curve(fork, fork.to(reach * 0.7, 0), leave.to(0, fork.y * 0.22), leave, STEPS), top)


def whole_leg(s: Shares) -> Path:
    """A leg in one piece, without side seam: front crotch on the left, back crotch on the right."""
    depth = _depth(s)
    front, back = 0.09, 0.17
    knee, leg = s.across("knee", 0.62, 0.2, 0.95, 2), s.across("leg", 0.46, 0.15, 0.95, 2)
    level, middle = depth + (1 - depth) * 0.45, 0.49
    left, right = Point(front + 0.03, 0.025), Point(1 - back - 0.09, 0)
    inner = downward([Point(0, depth), Point(middle - knee / 2, level), Point(middle - leg / 2, 1)], STEPS)
    outer = downward([Point(1, depth), Point(middle + knee / 2, level), Point(middle + leg / 2, 1)], STEPS)
    behind = tuple(Point(1 - point.x, point.y) for point in _crotch(Point(0, depth), back, Point(1 - right.x, 0)))
    waist = curve(left, Point(left.x + 0.2, 0.03), Point(right.x - 0.25, 0.015), right, STEPS // 2)
    return (*_crotch(Point(0, depth), front, left), *waist[1:], *behind[::-1][1:], *outer[1:], *inner[::-1][:-1])


def fly(_: Shares) -> Path:
    """A fly piece or its shield: a straight edge, and one that curves to its foot."""
    return (
        *line((0, 0), (1, 0)),
        *curve(Point(1, 0.66), Point(1, 0.88), Point(0.7, 1), Point(0.12, 1), STEPS),
        Point(0, 1),
    )


def gusset(_: Shares) -> Path:
    """A crotch gusset: a lens with blunt ends."""
    edge = curve(Point(0.12, 0), Point(0.5, 0.16), Point(1, 0.34), Point(1, 0.5), STEPS)
    below = tuple(Point(point.x, 1 - point.y) for point in edge[::-1])
    return both(edge + below[1:])


def skirt_panel(s: Shares) -> Path:
    """A skirt's front or back from side to side."""
    return both(_skirt(s))


def half_skirt_panel(s: Shares) -> Path:
    """A skirt's front or back open at the center."""
    return _skirt(s)


def _skirt(s: Shares) -> Path:
    """The right half: waist curved down to the center, side over the hip, hem curved up to the side where it flares."""
    waist = s.beside("waist", "hip", 0.74, 0.25, 1)
    hem = s.beside("bottom", "hip", 1, 0.4, 1.6)
    points = [Point(waist, 0)]
    level = s.along("hip position", 0.3, 0.05, 0.6)
    if s.has("hip") or not s.has("bottom"):
        points.append(Point(s.beside("hip", "hip", 0.96, waist, 1), level))
    lift = clamped((hem - waist) * 0.05, 0, 0.05)
    side = downward([*points, Point(hem, 1 - lift)], STEPS)
    seam = curve(Point(0, 0.016), Point(waist * 0.5, 0.016), Point(waist * 0.8, 0.008), side[0], STEPS // 2)
    edge = curve(side[-1], Point(hem * 0.7, 1 - lift * 0.35), Point(hem * 0.35, 1), Point(0, 1), STEPS // 2)
    return (*seam, *side[1:], *edge[1:])


SHAPES = {
    "front leg": Drawn(front_leg),
    "back leg": Drawn(back_leg),
    "whole leg": Drawn(whole_leg),
    "fly": Drawn(fly),
    "gusset": Drawn(gusset),
    "skirt panel": Drawn(skirt_panel, centered=True),
    "half skirt panel": Drawn(half_skirt_panel),
}
