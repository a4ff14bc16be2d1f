"""Bodies: the trunk of a top or dress, front or back, from neck to hem, with its armholes."""

from __future__ import annotations

import math
from dataclasses import dataclass

from sheetgen.drawing.measures import Numbers
from sheetgen.drawing.shapes import Path, Point, across, band, both, curve, downward, line
from sheetgen.drawing.sleeves import BELOW_ARMHOLE
from sheetgen.drawing.views import Span, Stroke, one, pair

_TAIL = 6.0
"""How far the side of a hem with a tail lies above its middle."""


@dataclass(frozen=True)
class Body:
    """The right half of a trunk; the center line is x = 0, the high shoulder point lies at y = 0."""

    neck: Path
    shoulder: Point
    armhole: Path
    side: Path
    hem: Path
    chest: Point
    waist: Point

    @property
    def high(self) -> Point:
        """The high shoulder point."""
        return self.neck[-1]

    @property
    def underarm(self) -> Point:
        """Where armhole and side seam meet."""
        return self.side[0]

    @property
    def below(self) -> Path:
        """From the underarm point to the center of the hem."""
        return self.side + self.hem[1:]

    @property
    def edge(self) -> Path:
        """From the center of the neck around to the center of the hem, sleeve left out."""
        return self.neck + self.armhole + self.below[1:]


def body(n: Numbers, back: bool) -> Body:
    """The trunk of these numbers. Width of chest, waist and hem, and all lengths, are true.

    An armhole too short to reach from shoulder to chest width is drawn as long as it must be.
    """
    high, shoulder = Point(n["neck"] / 2, 0), Point(n["shoulder"] / 2, n["slope"])
    half, armhole = n["chest"] / 2, n["armhole"]
    down = math.sqrt(max(armhole**2 - (half - shoulder.x) ** 2, (armhole * 0.4) ** 2))
    underarm = Point(half, shoulder.y + down)
    chest = underarm.to(0, BELOW_ARMHOLE)
    drop = n["back neck drop"] if back else n["neck drop"]
    end = n["back neck drop"] + n["back length"] if back else n["length"]
    side, waist = _side(n, underarm, chest, end)
    hem = _hem(n, side[-1], end)
    middle = n["across back" if back else "across front"] / 2
    return Body(_neck(high, drop, back), shoulder, _armhole(shoulder, underarm, middle), side, hem, chest, waist)


def _neck(high: Point, drop: float, back: bool) -> Path:
    round_, steep = (0.75, 0.35) if back else (0.62, 0.42)
    return curve(Point(0, drop), Point(high.x * round_, drop), Point(high.x, drop * steep), high)


def _armhole(shoulder: Point, underarm: Point, half: float) -> Path:
    """From shoulder to underarm through the width across, midway."""
    down = underarm.y - shoulder.y
    middle = Point(half, shoulder.y + down * 0.5)
    above = curve(shoulder, shoulder.toward(middle, 0.3).to(0, down * 0.05), middle.to(0, -down * 0.2), middle)
    below = curve(middle, middle.to(0, down * 0.3), underarm.to((middle.x - underarm.x) * 0.6, 0), underarm)
    return above + below[1:]


def _side(n: Numbers, underarm: Point, chest: Point, end: float) -> tuple[Path, Point]:
    """The side seam down to where the hem begins, and the place of the waist."""
    points, bottom = [underarm, chest], n["bottom"] / 2
    waist = Point(n["waist"] / 2 if n["waist"] else chest.x, n["waist position"])
    if n["waist"] and chest.y < waist.y < end:
        points.append(waist)
    hip = Point(n["hip"] / 2, waist.y + n["hip position"])
    if n["hip"] and points[-1].y < hip.y < end:
        points.append(hip)
    if n["rib"]:
        seam = end - min(n["rib"], end * 0.4)
        blouse = Point(bottom + max(chest.x - bottom, 0) * 0.55, seam - 1.2)
        return downward([*points, blouse, Point(bottom, seam)])[:-1] + line((bottom, seam), (bottom, end)), waist
    rise = min(_TAIL, end * 0.1) if n.features.hem == "tail" else 0
    return downward([*points, Point(bottom, end - rise)]), waist


def _hem(n: Numbers, corner: Point, end: float) -> Path:
    """From the side seam to the center; one with a tail is curved up at the side."""
    if n.features.hem != "tail":
        return (corner, Point(0, end))
    flat, rise = Point(corner.x * 0.45, end), end - corner.y
    return (*curve(corner, corner.to(-corner.x * 0.2, rise * 0.1), flat.to(corner.x * 0.25, 0), flat), Point(0, end))


def body_strokes(made: Body) -> tuple[Stroke, ...]:
    """The trunk filled, with its outline heavier than the armhole seam, which a sleeve continues."""
    whole = both(made.edge)
    return (
        one("cloth", whole),
        pair("armhole", made.armhole),
        one("outline", across(made.neck)),
        pair("outline", (made.high, made.shoulder), made.side),
        one("outline", across(made.hem[::-1])),
    )


def inside_neck(made: Body, back: Body) -> Stroke:
    """The inside of the back, seen through the front's neck."""
    return one("inside", band(made.neck, back.neck))


def hem_band(n: Numbers, made: Body) -> tuple[Stroke, ...]:
    """The hem: ribbed, or stitched in a row above the edge."""
    bottom, end = made.side[-1].x, made.hem[-1].y
    if n["rib"]:
        seam = made.side[-2].y
        count = max(min(int(bottom / 1.1), 80), 1)
        ribs = [line((bottom * i / count, seam), (bottom * i / count, end)) for i in range(1, count)]
        box = both(line((0, seam), (bottom, seam), (bottom, end), (0, end)))
        return one("ribbed", box, part="rib"), pair("rib", line((0, seam), (0, end)), *ribs, part="rib")
    up = min(n["hem"] or 2.0, end * 0.2)
    tail = n.features.hem == "tail"
    edge = made.hem if tail else (made.side[-1], made.hem[-1])
    lift = 1.0 if tail else up
    stitched = tuple(Point(point.x, point.y - lift) for point in edge)
    return (one("stitch", across(stitched[::-1])),)


def level_span(key: str, y: float, half: float, lane: float = 0) -> Span:
    """A width straight across the garment."""
    return Span(key, line((-half, y), (half, y)), lane)


def front_spans(n: Numbers, made: Body) -> tuple[Span, ...]:
    """What is measured on the front of every top."""
    middle = made.shoulder.toward(made.underarm, 0.5)
    return (
        level_span("chest", made.chest.y, made.chest.x),
        level_span("waist", made.waist.y, made.waist.x),
        level_span("across front", middle.y, n["across front"] / 2),
        level_span("bottom", made.side[-1].y, made.side[-1].x, 0 if n.features.hem == "tail" else -1),
        level_span("neck", 0, made.high.x, 1),
        Span("neck drop", line((0, 0), (0, made.neck[0].y))),
        Span("slope", line((made.shoulder.x, 0), made.shoulder), 1).turned(),
        Span("armhole", line(made.shoulder, made.underarm)).turned(),
        Span("length", line(made.high, (made.high.x, n["length"]))),
        Span("rib", line((made.side[-1].x, made.side[-2].y), made.side[-1]), 1),
        Span("hem", line((made.side[-1].x, made.side[-1].y - n["hem"]), made.side[-1]), 1),
    )


def back_spans(n: Numbers, made: Body) -> tuple[Span, ...]:
    """What is measured on the back of every top."""
    middle = made.shoulder.toward(made.underarm, 0.5)
    return (
        Span("back length", line((0, made.neck[0].y), (0, made.hem[-1].y))),
        Span("back neck drop", line((0, 0), (0, made.neck[0].y))),
        level_span("shoulder", made.shoulder.y, made.shoulder.x),
        level_span("across back", middle.y, n["across back"] / 2),
    )
