"""Necks: ribs, collars and hoods, on the garment and as details laid open."""

from __future__ import annotations

import math

from sheetgen.drawing.bodies import Body
from sheetgen.drawing.closures import ring
from sheetgen.drawing.measures import Numbers
from sheetgen.drawing.shapes import Path, Point, across, band, both, curve, line
from sheetgen.drawing.views import Span, Stroke, View, of, one, pair

_HOOD_HALF = 0.56
"""Half of a hood as it stands, of its width folded flat: it is as deep as it is wide, and lies round."""
_WIDER_THAN_NECK = 1.18
"""A hood is never narrower than the neck that it is sewn to."""


def neck_rib(n: Numbers, made: Body, front: bool) -> tuple[Stroke, ...]:
    """A band in the neck, so high at the center: from the seam toward the neck hole."""
    height = min(n["neck rib"], made.high.x * 0.8)
    low = made.neck[0]
    upper = _rim(made.neck, height)
    count = 9
    ribs = [
        (made.neck[int(i * (len(upper) - 1) / count)], upper[int(i * (len(upper) - 1) / count)]) for i in range(count)
    ]
    notch = n["notch"] if front and n.has("notch") else 0
    mark = [one("seam", line((-notch * 0.55, low.y), (0, low.y + notch), (notch * 0.55, low.y)))] if notch else []
    return (one("ribbed", band(made.neck, upper), part="rib"), pair("rib", *ribs, part="rib"), *mark)


def _rim(neck: Path, height: float) -> Path:
    """The rib's free edge: square to the seam at the center, leaning in less than the seam turns at the shoulder.

    From the center it goes outward and up, never back: a seam that turns sharply would fold it otherwise.
    """
    rim: list[Point] = []
    for index, point in enumerate(neck):
        before, after = neck[max(index - 1, 0)], neck[min(index + 1, len(neck) - 1)]
        lean = min(max(math.atan2(before.y - after.y, after.x - before.x), 0), math.radians(50))
        free = point.to(-math.sin(lean) * height, -math.cos(lean) * height)
        rim.append(Point(max(free.x, rim[-1].x), min(free.y, rim[-1].y)) if rim else free)
    return tuple(rim)


def neck_rib_span(n: Numbers, made: Body) -> tuple[Span, ...]:
    """The rib's height at the center front, and the depth of a notch below it."""
    low = made.neck[0].y
    return (
        Span("neck rib", line((0, low - n["neck rib"]), (0, low)), 0.9),
        Span("notch", line((0, low), (0, low + n["notch"]))),
    )


def hood_up(n: Numbers, made: Body, front: bool) -> tuple[Stroke, ...]:
    """The hood standing behind the neck, as high as it is; seen from the front with its opening."""
    height = n["hood height"]
    half = max(n["hood width"] * _HOOD_HALF, made.high.x * _WIDER_THAN_NECK)
    widest = Point(half, -height * 0.45)
    crown = curve(Point(0, -height), Point(half * 0.62, -height), Point(half, -height * 0.8), widest, 20)
    foot = curve(widest, Point(half, -height * 0.2), made.high.to(made.high.x * 0.1, -height * 0.06), made.high)
    edge = crown + foot[1:]
    strokes = (one("cloth", both(edge + made.neck[::-1])), one("outline", across(edge)))
    low = made.neck[0]
    if not front:
        return of("hood", *strokes, one("seam", line((0, -height), low)))
    gap = curve(
        Point(0, -height * 0.86), Point(half * 0.6, -height * 0.86), Point(half * 0.78, -height * 0.16), low, 24
    )
    hem = tuple(Point(point.x * 1.13, point.y - 1.2) for point in gap[:-4])
    return of("hood", *strokes, one("inside", both(gap)), one("stitch", across(hem)))


def hood_flat(n: Numbers) -> View:
    """The hood folded along its middle: front edge on the left, back fold on the right, neck seam below."""
    height, wide = n["hood height"], n["hood width"]
    top, high = Point(0, -height * 0.94), Point(wide * 0.45, 0)
    edge = Point(0, top.y + n["hood opening"])
    back, widest = Point(wide * 0.84, -height * 0.02), Point(wide, -height * 0.55)
    crown = Point(high.x, -height)
    outline = (
        *line(edge, top),
        *curve(top, top.to(high.x * 0.4, -height * 0.05), crown.to(-high.x * 0.3, 0), crown),
        *curve(crown, crown.to(wide * 0.35, 0), widest.to(0, -height * 0.28), widest),
        *curve(widest, widest.to(0, height * 0.3), back.to(wide * 0.05, -height * 0.15), back),
        *curve(back, back.toward(high, 0.4), high.to(wide * 0.1, 0), high),
        *curve(high, high.to(-wide * 0.15, 0), edge.toward(high, 0.3), edge),
    )
    hem = min(2.5, wide * 0.15)
    return View(
        "hood, folded flat",
        (one("cloth", outline), one("outline", outline), one("stitch", line((hem, top.y - 0.4), (hem, edge.y - 0.6)))),
        (
            Span("hood height", line(high, crown)),
            Span("hood width", line((0, widest.y), widest)),
            Span("hood opening", line(edge, top), 1),
        ),
    )


def stand_collar(n: Numbers, made: Body, front: bool) -> tuple[Stroke, ...]:
    """A collar standing on the neck seam, closed in front."""
    height = n["collar height"]
    top = made.high.to(-made.high.x * 0.1, -height * 0.85)
    low = made.neck[0].y
    upper = curve(Point(0, low - height), Point(top.x * 0.6, low - height), top.to(-top.x * 0.02, height * 0.3), top)
    inner = curve(Point(0, -height * 1.02), Point(top.x * 0.6, -height * 1.02), top.to(-top.x * 0.2, -0.3), top)
    if not front:
        shape = band(made.neck, inner)
        return of("collar", one("cloth", shape), one("outline", shape))
    shape = band(made.neck, upper)
    closing = one("seam", line((0, low - height), (0, low)))
    return of(
        "collar", one("inside", band(upper, inner)), one("cloth", shape), closing, one("outline", shape, across(inner))
    )


def banded_collar(n: Numbers, made: Body, front: bool) -> tuple[Stroke, ...]:
    """A collar on a band, buttoned, its points lying on the front."""
    stand, height = n["collar band"], n["collar height"]
    top = Point(made.high.x * 0.84, -min(stand, height) * 0.9)
    fall = Point(made.high.x + height * 0.3, height * 0.25)
    arch = curve(Point(0, top.y - 0.9), Point(top.x * 0.6, top.y - 0.9), top.to(-0.6, -0.4), top)
    low = made.neck[0].y
    if not front:
        edge = curve(Point(0, top.y + height), Point(fall.x * 0.6, top.y + height), fall.to(-1, 0.6), fall)
        turn = curve(fall, fall.to(0, -height * 0.5), top.to(0.6, 0), top)
        shape = band(edge + turn[1:], arch)
        return of("collar", one("cloth", shape), one("outline", shape))
    start = Point(n["placket"] * 0.08, low - stand * 0.75)
    tip = start.to(math.sin(0.62) * n["collar point"], math.cos(0.62) * n["collar point"])
    leaf = (
        *line(start, tip),
        *curve(tip, tip.toward(fall, 0.5).to(0.4, 0.6), fall.to(0, 1), fall),
        *curve(fall, fall.to(0, -height * 0.5), top.to(0.6, 0), top),
        *curve(top, top.to(0, 2), start.to(top.x * 0.35, -1), start),
    )
    neck = band(curve(start, start.to(top.x * 0.35, -1), top.to(0, 2), top), arch)
    return of(
        "collar",
        one("inside", neck),
        one("cloth", both((Point(0, low), Point(top.x * 0.6, low - stand), start))),
        pair("cloth", leaf),
        pair("outline", leaf),
        one("outline", across(arch)),
        one("seam", line((-start.x, start.y), start)),
    )


def collar_open(n: Numbers) -> View:
    """A collar laid open, on its band if it has one, else a stand collar; twice the scale."""
    half, height = n["collar"] / 2, n["collar height"]
    if n.features.neck != "collar on a band":
        edge = curve(Point(0, -height), Point(half * 0.6, -height), Point(half, -height), Point(half, -height * 0.8))
        box = band(edge, line((0, 0), (half, 0)))
        return View(
            "collar, laid open",
            (one("cloth", box), one("outline", box)),
            (Span("collar", line((-half, 0), (half, 0)), -1), Span("collar height", line((0, -height), (0, 0)))),
            zoom=2,
        )
    return _banded_collar_open(n, half, height)


def _banded_collar_open(n: Numbers, half: float, height: float) -> View:
    high, point = n["collar band"], n["collar point"]
    end = half + 1.5
    stand = curve(Point(half * 0.8, -high), Point(end, -high), Point(end + 0.4, -high * 0.5), Point(end, 0))
    low = both(line((0, -high)) + stand + line((0, 0)))
    seam = Point(half - 0.8, -high)
    tip = seam.to(math.sin(0.25) * point, -math.cos(0.25) * point)
    fall = both(line((0, -high - height)) + _fall_edge(Point(0, -high - height), tip) + line(tip, seam, (0, -high)))
    button = ring(Point(-half, -high / 2), 0.55)
    hole = line((half - 1.2, -high / 2), (half, -high / 2))
    return View(
        "collar, laid open",
        (one("cloth", fall, low), one("outline", fall, low), one("seam", button, hole)),
        (
            Span("collar", line((-half, -high / 2), (half, -high / 2)), -1.6),
            Span("collar height", line((0, -high - height), (0, -high))),
            Span("collar band", line((-half * 0.3, -high), (-half * 0.3, 0))),
            Span("collar point", line(seam, tip), -1),
        ),
        zoom=2,
    )


def _fall_edge(middle: Point, tip: Point) -> Path:
    return curve(middle, middle.to(tip.x * 0.5, 0), tip.to(-tip.x * 0.3, (middle.y - tip.y) * 0.6), tip)
