"""Tops: T-shirt, sweatshirts, shirt and jacket, each front, back and the details that lie open beside them."""

from __future__ import annotations

from sheetgen.drawing import necks
from sheetgen.drawing.bodies import (
    Body,
    back_spans,
    body,
    body_strokes,
    front_spans,
    hem_band,
    inside_neck,
)
from sheetgen.drawing.closures import chest_pockets, kangaroo, placket, ring, welts, zip_front
from sheetgen.drawing.measures import Numbers
from sheetgen.drawing.shapes import Path, Point, curve, level, line
from sheetgen.drawing.sleeves import Sleeve, sleeve, sleeve_spans, sleeve_strokes
from sheetgen.drawing.views import Span, Stroke, View, one


def top(n: Numbers) -> tuple[View, ...]:
    """Front and back of a top, then its details."""
    return (front(n), back(n), *details(n))


def front(n: Numbers) -> View:
    """The front with both sleeves: the left one shows its widths, the right one its length."""
    made, behind = body(n, back=False), body(n, back=True)
    arm = sleeve(n, made.shoulder, made.underarm)
    under, over, extra = _front_parts(n, made, behind)
    left, right = sleeve_spans(n, arm)
    spans = (*front_spans(n, made), *(span.turned() for span in left), *right, *extra)
    strokes = (*under, *sleeves(n, arm, made.armhole), *body_strokes(made), *hem_band(n, made), *over)
    return View("Front", strokes, spans, silhouette(made, arm), spots(made, arm), hang=arm.fold.headings[0])


def back(n: Numbers) -> View:
    """The back with both sleeves."""
    made = body(n, back=True)
    arm = sleeve(n, made.shoulder, made.underarm)
    under: tuple[Stroke, ...] = ()
    over: tuple[Stroke, ...] = ()
    extra = [Span("sleeve back", (made.neck[0], *arm.fold.path), 1)]
    if hooded(n):
        under = necks.hood_up(n, made, front=False)
    elif n.garment == "shirt":
        over = necks.shirt_collar(n, made, front=False)
    elif n.garment == "jacket":
        over = necks.stand_collar(n, made, front=False)
    else:
        over = necks.neck_rib(n, made, front=False)
    if n.garment == "shirt" or n.has("yoke"):
        yoke = made.neck[0].y + n["yoke"]
        wide = min(level(made.armhole, yoke), n["across back"])
        over = (one("seam", line((-wide, yoke), (wide, yoke))), *over)
        extra.append(Span("yoke", line((0, made.neck[0].y), (0, yoke)), -1))
    strokes = (*under, *sleeves(n, arm, made.armhole), *body_strokes(made), *hem_band(n, made), *over)
    return View(
        "Back",
        strokes,
        (*back_spans(n, made), *extra),
        silhouette(made, arm),
        spots(made, arm),
        hang=arm.fold.headings[0],
    )


def hooded(n: Numbers) -> bool:
    """Whether there is a hood: always on a hooded sweatshirt, elsewhere if it is measured."""
    return n.garment == "hooded sweatshirt" or n.has("hood height", "hood width")


def _front_parts(
    n: Numbers, made: Body, behind: Body
) -> tuple[tuple[Stroke, ...], tuple[Stroke, ...], tuple[Span, ...]]:
    """What lies under the front, what lies on it, and what is measured there besides."""
    under: tuple[Stroke, ...] = (inside_neck(made, behind),)
    over: tuple[Stroke, ...] = ()
    spans: tuple[Span, ...] = ()
    if hooded(n):
        under = necks.hood_up(n, made, front=True)
    elif n.garment == "shirt":
        over = necks.shirt_collar(n, made, front=True)
    elif n.garment == "jacket":
        over = necks.stand_collar(n, made, front=True)
    else:
        under = (inside_neck(made, behind), *necks.neck_rib(n, behind, front=False))
        over, spans = necks.neck_rib(n, made, front=True), necks.neck_rib_span(n, made)
    parts = []
    if n.garment == "shirt":
        parts = [placket(n, made), chest_pockets(n, made)]
    elif n.garment == "jacket":
        parts = [zip_front(n, made, hooded(n)), welts(n, made)]
    elif n.garment == "hooded sweatshirt" or n.has("pocket width", "pocket opening"):
        parts = [kangaroo(n, made)]
    for strokes, more in parts:
        over, spans = (*strokes, *over), (*spans, *more)
    return under, over, spans


def sleeves(n: Numbers, arm: Sleeve, armhole: Path) -> tuple[Stroke, ...]:
    """Both sleeves."""
    right = sleeve_strokes(n, arm, armhole)
    return (*right, *(stroke.turned() for stroke in right))


def silhouette(made: Body, arm: Sleeve | None) -> Path:
    """The right half's edge, sleeve included."""
    return made.neck + arm.edge + made.below[1:] if arm else made.edge


def spots(made: Body, arm: Sleeve | None) -> dict[str, Point]:
    """The corners of the right half by name."""
    found = {
        "neck": made.neck[0],
        "high shoulder": made.high,
        "shoulder": made.shoulder,
        "underarm": made.underarm,
        "chest": made.chest,
        "waist": made.waist,
        "hem side": made.side[-1],
        "hem center": made.hem[-1],
    }
    if arm:
        found |= {"cuff fold": arm.fold.path[-1], "cuff seam": arm.seam[-1]}
    return found


def details(n: Numbers) -> tuple[View, ...]:
    """Hood, collar and cuff laid flat, where the garment has them and a point measures them."""
    found = []
    if hooded(n):
        found.append(necks.hood_flat(n))
    if n.has("collar", "collar height", "collar band", "collar point"):
        found.append(necks.collar_open(n))
    if n.garment == "shirt" and n.has("cuff", "cuff height"):
        found.append(cuff_open(n))
    return tuple(found)


def cuff_open(n: Numbers) -> View:
    """A buttoned cuff laid open; twice the scale."""
    long = n["cuff"] if n.has("cuff") else (n["opening"] + 1) * 2
    high = n["cuff height"]
    box = (
        *line((0, 0), (long, 0)),
        *curve(Point(long, high * 0.75), Point(long, high), Point(long, high), Point(long - high * 0.25, high), 6),
        *curve(Point(high * 0.25, high), Point(0, high), Point(0, high), Point(0, high * 0.75), 6),
        Point(0, 0),
    )
    button = ring(Point(1.5, high / 2), min(0.55, high * 0.2))
    return View(
        "cuff, laid open",
        (
            one("cloth", box),
            one("outline", box),
            one("seam", button, line((long - 2.2, high / 2), (long - 1, high / 2))),
        ),
        (Span("cuff", line((0, high), (long, high)), -1), Span("cuff height", line((long / 2, 0), (long / 2, high)))),
        zoom=2,
    )
