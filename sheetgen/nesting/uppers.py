"""Upper pieces: fronts and backs of tops and dresses, yokes, sleeves and hoods, in shares of their boxes."""

from __future__ import annotations

import math

from sheetgen.drawing.shapes import Path, Point, both, curve, downward, line
from sheetgen.nesting.shares import STEPS, Drawn, Shares, clamped


def front(s: Shares) -> Path:
    """A front from side to side."""
    return both(_trunk(s, "neck drop", 0.36, "across front"))


def half_front(s: Shares) -> Path:
    """A front open at the center, which is a straight edge."""
    return _trunk(s, "neck drop", 0.36, "across front")


def back(s: Shares) -> Path:
    """A back from side to side."""
    return both(_trunk(s, "back neck drop", 0.08, "across back"))


def half_back(s: Shares) -> Path:
    """A back open at the center."""
    return _trunk(s, "back neck drop", 0.08, "across back")


def back_below_yoke(s: Shares) -> Path:
    """A back from side to side whose upper edge is the straight seam of the yoke."""
    shoulder = s.across("shoulder", 0.86, 0.5, 1, 0.5)
    depth = s.centimeters("armhole depth", s.centimeters("armhole", 0.88 * s.whole) + 4) - 8
    under = clamped(depth / s.piece.length, 0.08, 0.75)
    armhole = _armhole(Point(shoulder, 0), Point(1, under), shoulder - 0.02)
    return both(line((0, 0)) + armhole + _side_and_hem(s, under))


def _trunk(s: Shares, drop_key: str, usual_drop: float, middle_key: str) -> Path:
    """The right half from the center of the neck around to the center of the hem; 1 across is half the chest."""
    neck = s.across("neck", 0.35, 0.1, 0.66, 0.5)
    shoulder = s.across("shoulder", 0.86, neck + 0.08, 1, 0.5)
    slope = s.along("slope", 0.34 * (shoulder - neck) * s.whole / s.piece.length, 0, 0.15)
    drop = s.along(drop_key, usual_drop * s.whole / s.piece.length, 0.005, 0.45)
    under = _under(s, shoulder, slope)
    middle = s.across(middle_key, shoulder - 0.03, max(neck + 0.03, shoulder - 0.14), shoulder, 0.5)
    high = Point(neck, 0)
    steep = 0.42 if drop_key == "neck drop" else 0.35
    seam = curve(Point(0, drop), Point(neck * 0.65, drop), Point(neck, drop * steep), high, STEPS)
    return seam + _armhole(Point(shoulder, slope), Point(1, under), middle) + _side_and_hem(s, under)


def _under(s: Shares, shoulder: float, slope: float) -> float:
    """How deep the armhole is below the high shoulder point: as given, else from its straight length."""
    if s.has("armhole depth"):
        return s.along("armhole depth", 0, slope + 0.06, 0.8)
    straight = s.centimeters("armhole", 0.88 * s.whole)
    down = math.sqrt(max(straight**2 - ((1 - shoulder) * s.whole) ** 2, (0.4 * straight) ** 2))
    return clamped(slope + down / s.piece.length, slope + 0.06, 0.8)


def _armhole(shoulder: Point, under: Point, middle: float) -> Path:
    """From the shoulder over the narrowest place, midway, to the underarm point."""
    down = under.y - shoulder.y
    half = Point(middle, shoulder.y + down * 0.55)
    above = curve(shoulder, shoulder.toward(half, 0.3).to(0, down * 0.05), half.to(0, -down * 0.2), half, STEPS // 2)
    below = curve(half, half.to(0, down * 0.28), under.to((half.x - under.x) * 0.65, 0), under, STEPS)
    return above + below[1:]


def _side_and_hem(s: Shares, under: float) -> Path:
    """From below the underarm point to the center of the hem, drawn in at the waist, curved up at the side by a tail."""
    tail = s.along("tail", 0, 0, 0.15)
    bottom = s.beside("bottom", "chest", 1, 0.5, 1.3)
    points = [Point(1, under)]
    waist = s.along("waist position", 0, 0, 1)
    if s.has("waist") and under + 0.03 < waist < 0.97 - tail:
        points.append(Point(s.beside("waist", "chest", 1, 0.72, 1), waist))
    corner = Point(bottom, 1 - tail)
    side = downward([*points, corner], STEPS // 2)[1:]
    if not tail:
        return (*side, Point(0, 1))
    flat = Point(bottom * 0.45, 1)
    hem = curve(corner, corner.to(-bottom * 0.2, tail * 0.1), flat.to(bottom * 0.25, 0), flat, STEPS)
    return (*side, *hem[1:], Point(0, 1))


def yoke(s: Shares) -> Path:
    """A back yoke, whole: neck seam between the sloping shoulders, a straight seam below."""
    neck = s.across("neck", 0.38, 0.1, 0.7, 0.5)
    drop = s.along("back neck drop", 0.17, 0.02, 0.5)
    slope = s.along("slope", 0.33, 0.02, 0.6)
    seam = curve(Point(0, drop), Point(neck * 0.7, drop), Point(neck, drop * 0.35), Point(neck, 0), STEPS)
    armhole = curve(Point(1, slope), Point(0.985, slope + 0.2), Point(0.98, 0.85), Point(0.985, 1), STEPS // 2)
    return both(seam + armhole + line((0, 1)))


def sleeve(s: Shares) -> Path:
    """A set-in sleeve laid open, front on the left: its cap is hollower in front and fuller behind."""
    cap = s.along("cap height", 0.3 * s.whole / s.piece.length, 0.06, 0.75)
    below = (1 - cap) * s.piece.length / s.whole
    hem = s.across("opening", clamped(1 - 0.34 * below, 0.55, 0.95), 0.25, 1, 2)
    top = Point(0.48, 0)
    into = curve(Point(0, cap), Point(0.14, cap * 0.98), Point(0.2, cap * 0.52), Point(0.24, cap * 0.36), 4)
    over = curve(into[-1], Point(0.3, cap * 0.1), Point(0.39, 0), top, 4)
    down = curve(top, Point(0.6, 0), Point(0.69, cap * 0.12), Point(0.77, cap * 0.4), 4)
    out = curve(down[-1], Point(0.82, cap * 0.58), Point(0.87, cap * 0.94), Point(1, cap), 4)
    return (*into, *over[1:], *down[1:], *out[1:], Point(0.5 + hem / 2, 1), Point(0.5 - hem / 2, 1))


def hood(_: Shares) -> Path:
    """Half a hood: front edge on the left, crown above, neck seam below, lower behind than in front."""
    crown, widest, nape = Point(0.42, 0), Point(1, 0.42), Point(0.84, 0.95)
    return (
        *line((0, 0.93), (0.03, 0.07)),
        *curve(Point(0.03, 0.07), Point(0.16, 0.02), Point(0.3, 0), crown, STEPS // 2)[1:],
        *curve(crown, Point(0.78, 0), Point(1, 0.16), widest, STEPS)[1:],
        *curve(widest, Point(1, 0.64), Point(0.9, 0.82), nape, STEPS)[1:],
        *curve(nape, Point(0.6, 1.02), Point(0.25, 1.02), Point(0, 0.93), STEPS)[1:-1],
    )


SHAPES = {
    "front": Drawn(front, centered=True),
    "half front": Drawn(half_front),
    "back": Drawn(back, centered=True),
    "half back": Drawn(half_back),
    "back below yoke": Drawn(back_below_yoke, centered=True),
    "yoke": Drawn(yoke, centered=True),
    "sleeve": Drawn(sleeve),
    "hood": Drawn(hood),
}
