"""Dresses and skirts: a bodice or a waistband, darts, a skirt to the hem."""

from __future__ import annotations

from sheetgen.drawing.bodies import Body, back_spans, body, front_spans, hem_band, inside_neck, level_span
from sheetgen.drawing.measures import Numbers
from sheetgen.drawing.shapes import Path, Point, across, both, curve, downward, length, level, line, solved
from sheetgen.drawing.sleeves import sleeve
from sheetgen.drawing.tops import back_sleeve_spans, front_sleeve_spans, laid, silhouette, spots, trunk
from sheetgen.drawing.views import Span, Stroke, View, one, pair


def dress(n: Numbers) -> tuple[View, ...]:
    """Front and back."""
    return (_dress(n, back=False), _dress(n, back=True))


def _dress(n: Numbers, back: bool) -> View:
    made = body(n, back)
    arm = sleeve(n, made.shoulder, made.underarm)
    inside = () if back else (inside_neck(made, body(n, back=True)),)
    strokes = (*inside, *trunk(n, made, arm), *hem_band(n, made), *_darts(n, made, back))
    if back:
        spans = (*back_spans(n, made), *back_sleeve_spans(made, arm))
    else:
        spans = (*_dress_front_spans(n, made), *front_sleeve_spans(n, arm))
    corners = spots(made, arm) | {"hip": Point(n["hip"] / 2, made.waist.y + n["hip position"])}
    return View(
        "Back" if back else "Front",
        strokes,
        spans,
        silhouette(made, arm),
        corners,
        laid=laid(made, arm),
    )


def _darts(n: Numbers, made: Body, back: bool) -> tuple[Stroke, ...]:
    """Waist seam and waist darts; bust darts in front, a zip behind."""
    waist = made.waist.y
    x, up, down = made.waist.x * 0.48, max(waist - made.chest.y, 0) * 0.75, n["hip position"] * 0.55
    width = 0.9
    found = [
        one("seam", line((-level(made.side, waist), waist), (level(made.side, waist), waist))),
        pair("seam", line((x, waist - up), (x - width, waist), (x, waist + down), (x + width, waist), (x, waist - up))),
    ]
    if back:
        end = waist + n["hip position"] * 0.85
        return (
            *found,
            one("stitch", line((0, made.neck[0].y), (0, end))),
            one("seam", line((0, end), (0, made.hem[-1].y))),
        )
    tip = Point(_dart_x(n), n["dart"])
    start = made.chest.y + 2.0
    return (
        *found,
        pair("seam", line((level(made.side, start), start), tip, (level(made.side, start + 2.2), start + 2.2))),
    )


def _dart_x(n: Numbers) -> float:
    return n["chest"] / 2 * 0.44


def _dress_front_spans(n: Numbers, made: Body) -> tuple[Span, ...]:
    high, waist, hip = made.high, made.waist.y, made.waist.y + n["hip position"]
    return (
        *front_spans(n, made),
        level_span("hip", hip, n["hip"] / 2),
        Span("waist position", line((-high.x, 0), (-high.x, waist))),
        Span("hip position", line((-high.x, waist), (-high.x, hip))),
        Span("dart", line((_dart_x(n), 0), (_dart_x(n), n["dart"])), 1),
    )


def skirt(n: Numbers) -> tuple[View, ...]:
    """Front, and back with zip and vent."""
    return (_skirt(n, back=False), _skirt(n, back=True))


def _skirt(n: Numbers, back: bool) -> View:
    end = n["back length"]
    band = min(n["waistband"], end * 0.4)
    side = _skirt_side(n, band)
    hem = curve(side[-1], Point(side[-1].x * 0.6, end), Point(side[-1].x * 0.3, end), Point(0, end))
    edge = (Point(0, 0), *side, *hem[1:])
    x, waist = n["waist"] / 2 * 0.5, n["waist"] / 2
    dart = line((x - 0.9, band), (x, band + (12 if back else 9) * end / 60), (x + 0.9, band))
    strokes = [
        one("cloth", both(edge)),
        one("cloth", both(line((0, 0), side[0], (level(side, band), band), (0, band))), part="waistband"),
        one("outline", (*both(edge), edge[0])),
        one("seam", line((-level(side, band), band), (level(side, band), band))),
        pair("seam", dart),
        one("stitch", across(tuple(p.to(0, -min(n["hem"], end * 0.2)) for p in hem[::-1]))),
    ]
    spans = _skirt_back(n, end) if back else _skirt_front(n, side, band)
    if back:
        strokes += [one("stitch", line((0, 0), (0, n["zip"]))), one("seam", line((0, n["zip"]), (0, end - n["vent"])))]
        strokes += [
            one("outline", line((0, end - n["vent"]), (0, end))),
            one("stitch", line((0, end - n["vent"]), (-4, end - n["vent"] + 3))),
        ]
    corners = {
        "waist": Point(waist, 0),
        "hip": Point(n["hip"] / 2, band + 20),
        "hem side": side[-1],
        "hem center": edge[-1],
    }
    return View("Back" if back else "Front", tuple(strokes), spans, edge, corners)


def _skirt_side(n: Numbers, band: float) -> Path:
    """The side seam, as long as it is: hips lie 9 and 20 cm below the waist seam if the skirt is long enough."""

    def run(end: float) -> Path:
        points = [Point(n["waist"] / 2, band)]
        for key, below in (("high hip", 9.0), ("hip", 20.0)):
            if band + below < end - 1:
                points.append(Point(n[key] / 2, band + below))
        return (Point(n["waist"] / 2, 0), *downward([*points, Point(n["bottom"] / 2, end)]))

    return run(solved(lambda end: length(run(end)), n["side"], band + 0.5, band + max(n["side"], 1)))


def _skirt_front(n: Numbers, side: Path, band: float) -> tuple[Span, ...]:
    return (
        level_span("waist", 0, n["waist"] / 2, 1),
        level_span("high hip", band + 9, n["high hip"] / 2),
        level_span("hip", band + 20, n["hip"] / 2),
        level_span("bottom", side[-1].y, side[-1].x, -1),
        Span("side", side, 1.4),
        Span("waistband", line((-side[0].x, 0), (-side[0].x, band)), -1),
        Span("hem", line((-side[-1].x, side[-1].y - n["hem"]), (-side[-1].x, side[-1].y)), -1),
    )


def _skirt_back(n: Numbers, end: float) -> tuple[Span, ...]:
    return (
        Span("back length", line((-n["hip"] / 2, 0), (-n["hip"] / 2, end)), -2),
        Span("zip", line((0, 0), (0, n["zip"])), 1),
        Span("vent", line((0, end - n["vent"]), (0, end)), 1),
    )
