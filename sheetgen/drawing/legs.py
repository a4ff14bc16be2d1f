"""Legs: the right half of a bottom, so placed that the widths and both leg lengths are true.

Between the given places the edges are smooth. The fork lies so deep that the side seam is as long as given. The
rises run along a curved seam, so that they are true only in the view from the side.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from sheetgen.drawing.measures import Numbers
from sheetgen.drawing.shapes import Path, Point, downward, length, level, moved, solved

_HIP_LIFT = 3.5
"""How far the ends of the hip line lie above its middle: the hip is measured over three points."""
_BELOW_CROTCH = 2.5
_ABOVE_HALF = 5.0
_DEPTH_OF_RISE = 0.93
"""How deep the fork lies for a front rise measured along the seam, if no leg length tells."""
_DIP = 1.0
"""How far the front's waist dips at the center."""


@dataclass(frozen=True)
class Legs:
    """The right half: `waist` runs from center to side, `side` and `inseam` down to the hem."""

    waist: Path
    side: Path
    inseam: Path
    fork: Point
    band: float
    spots: Mapping[str, Point]

    @property
    def edge(self) -> Path:
        """From the center of the waist around to the fork."""
        return self.waist + self.side[1:] + self.inseam[::-1]


def legs(n: Numbers, back: bool) -> Legs:
    """Front or back; on the back the waist rises at the center by a quarter of what its rise is longer."""
    depth = _depth(n)
    inseam, side, spots = _leg(n, depth, _inseam(n))
    front, behind = n["front rise"], n["back rise"]
    dip = -max(behind - front, 0) * 0.25 if back else min(_DIP, depth * 0.1)
    top = side[0]
    waist = tuple(Point(top.x * i / 12, dip * (1 - (i / 12) ** 2)) for i in range(13))
    return Legs(waist, side, inseam, Point(0, depth), dip + n["waistband"], spots)


def _depth(n: Numbers) -> float:
    """How far the fork lies below the side of the waist."""
    rise = n["front rise"] * _DEPTH_OF_RISE
    if not (n.has("inside") and n.has("outside")):
        return max(rise, 1.0)
    inseam = _inseam(n)
    return solved(lambda depth: length(_leg(n, depth, inseam)[1]), n["outside"], 0.3 * rise, 2 * rise + 1)


def _leg(n: Numbers, depth: float, hanging: tuple[Path, Point]) -> tuple[Path, Path, Mapping[str, Point]]:
    """Inside seam, side seam and the places where the leg is measured, for a fork so deep."""
    inseam, knee = moved(hanging[0], 0, depth), hanging[1].to(0, depth)
    calf_y = knee.y + (inseam[-1].y - knee.y) * 0.45
    low = depth + min(_BELOW_CROTCH, (knee.y - depth) * 0.2)
    places = {
        "waist": Point(n["waist"] / 2, 0),
        **_hip(n, depth),
        "thigh": Point(level(inseam, low) + n["thigh"], low),
        "fork": Point(0, depth),
        "knee in": knee,
        "knee": knee.to(n["knee"], 0),
        "calf in": Point(level(inseam, calf_y), calf_y),
        "calf": Point(level(inseam, calf_y) + n["calf"], calf_y),
        "hem side": inseam[-1].to(n["leg"], 0),
        "hem in": inseam[-1],
    }
    stations = ["waist", "hip", "thigh", "knee", *(["calf"] if n.has("calf") else []), "hem side"]
    return inseam, downward([places[name] for name in stations]), places


def _hip(n: Numbers, depth: float) -> dict[str, Point]:
    """Middle and right end of the hip line, its two halves together as long as the hip is wide."""
    middle = max(depth - n.features.hip_above_crotch_cm, depth * 0.6)
    lift = min(_HIP_LIFT, middle * 0.2, n["hip"] * 0.2)
    return {
        "hip middle": Point(0, middle),
        "hip": Point(math.sqrt((n["hip"] / 2) ** 2 - lift**2), middle - lift),
    }


def _inseam(n: Numbers) -> tuple[Path, Point]:
    """The inside seam from a fork at zero, as long as it is, and its place at the knee.

    The legs stand apart by as much as the thigh is wider than the knee, so that the side runs straight down.
    """
    inside, knee, hem = n["inside"], n["knee"], n["leg"]
    down = max(inside / 2 - _ABOVE_HALF, inside * 0.35)
    spread = min(max(n["thigh"] - knee + 2, down * 0.04), down * 0.32)
    bend = Point(spread, math.sqrt(down**2 - spread**2))
    foot = spread + (knee - hem) * 0.6 + spread * 0.15

    def run(end: float) -> Path:
        return downward([Point(0, 0), bend, Point(foot, max(end, bend.y + 0.01))])

    return run(solved(lambda end: length(run(end)), inside, bend.y, bend.y + inside)), bend
