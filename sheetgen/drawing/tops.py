"""Tops: front, back and the details that lie open beside them."""

from __future__ import annotations

from typing import Final

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
from sheetgen.drawing.closures import Part, chest_pockets, kangaroo, placket, ring, welts, zip_front
from sheetgen.drawing.measures import Numbers
from sheetgen.drawing.shapes import Path, Point, curve, level, line
from sheetgen.drawing.sleeves import Sleeve, sleeve, sleeve_spans, sleeve_strokes
from sheetgen.drawing.views import Laid, Span, Stroke, View, one, pair


def top(n: Numbers) -> tuple[View, ...]:
    """Front and back of a top, then its details."""
    return (front(n), back(n), *details(n))


def front(n: Numbers) -> View:
    """The front with both sleeves, if it has any: the left one shows its widths, the right one its length."""
    made, behind = body(n, back=False), body(n, back=True)
    arm = sleeve(n, made.shoulder, made.underarm)
    under, over, extra = _front_parts(n, made, behind)
    spans = (*front_spans(n, made), *front_sleeve_spans(n, arm), *extra)
    strokes = (*under, *trunk(n, made, arm), *hem_band(n, made), *over)
    return View("Front", strokes, spans, silhouette(made, arm), spots(made, arm), laid=laid(made, arm))


def back(n: Numbers) -> View:
    """The back with both sleeves, if it has any."""
    made = body(n, back=True)
    arm = sleeve(n, made.shoulder, made.underarm)
    under: tuple[Stroke, ...] = ()
    over: tuple[Stroke, ...] = ()
    extra = [*back_sleeve_spans(made, arm)]
    if hooded(n):
        under = necks.hood_up(n, made, front=False)
    else:
        over = _NECKS[n.features.neck](n, made, front=False)
    if n.features.yoke or n.has("yoke"):
        yoke = made.neck[0].y + n["yoke"]
        wide = min(level(made.armhole, yoke), n["across back"])
        over = (one("seam", line((-wide, yoke), (wide, yoke))), *over)
        extra.append(Span("yoke", line((0, made.neck[0].y), (0, yoke)), -1))
    strokes = (*under, *trunk(n, made, arm), *hem_band(n, made), *over)
    spans = (*back_spans(n, made), *extra)
    return View("Back", strokes, spans, silhouette(made, arm), spots(made, arm))


_NECKS: Final = {
    "rib": necks.neck_rib,
    "collar on a band": necks.banded_collar,
    "stand collar": necks.stand_collar,
}


def hooded(n: Numbers) -> bool:
    """Whether there is a hood: where it is declared, elsewhere if it is measured."""
    return n.features.hood or n.has("hood height", "hood width")


def _front_parts(
    n: Numbers, made: Body, behind: Body
) -> tuple[tuple[Stroke, ...], tuple[Stroke, ...], tuple[Span, ...]]:
    """What lies under the front, what lies on it, and what is measured there besides."""
    under: tuple[Stroke, ...] = (inside_neck(made, behind),)
    over: tuple[Stroke, ...] = ()
    spans: tuple[Span, ...] = ()
    if hooded(n):
        under = necks.hood_up(n, made, front=True)
    else:
        over = _NECKS[n.features.neck](n, made, front=True)
        if n.features.neck == "rib":
            under += necks.neck_rib(n, behind, front=False)
            spans = necks.neck_rib_span(n, made)
    for strokes, more in (*_closure(n, made), *_pockets(n, made)):
        over, spans = (*strokes, *over), (*spans, *more)
    return under, over, spans


def _closure(n: Numbers, made: Body) -> tuple[Part, ...]:
    match n.features.front:
        case "buttoned":
            return (placket(n, made),)
        case "zipped":
            return (zip_front(n, made, hooded(n)),)
        case "closed":
            return ()


def _pockets(n: Numbers, made: Body) -> tuple[Part, ...]:
    match n.features.pockets:
        case "on the chest":
            return (chest_pockets(n, made),)
        case "welts":
            return (welts(n, made),)
        case "pouch":
            return (kangaroo(n, made),)
        case "none":
            measured = n.features.front == "closed" and n.has("pocket width", "pocket opening")
            return (kangaroo(n, made),) if measured else ()


def trunk(n: Numbers, made: Body, arm: Sleeve | None) -> tuple[Stroke, ...]:
    """The trunk with both sleeves behind it; without sleeves the armhole is an edge."""
    if arm is None:
        return (*body_strokes(made), pair("outline", made.armhole))
    right = sleeve_strokes(n, arm, made.armhole)
    return (*right, *(stroke.turned() for stroke in right), *body_strokes(made))


def front_sleeve_spans(n: Numbers, arm: Sleeve | None) -> tuple[Span, ...]:
    """What is measured on the sleeves, seen from the front."""
    if arm is None:
        return ()
    left, right = sleeve_spans(n, arm)
    return (*(span.turned() for span in left), *right)


def back_sleeve_spans(made: Body, arm: Sleeve | None) -> tuple[Span, ...]:
    """What is measured on the right sleeve, seen from the back."""
    return (Span("sleeve back", (made.neck[0], *arm.fold.path), 1),) if arm else ()


def silhouette(made: Body, arm: Sleeve | None) -> Path:
    """The right half's edge, sleeve included."""
    return made.neck + arm.edge + made.below[1:] if arm else made.edge


def laid(made: Body, arm: Sleeve | None) -> tuple[Laid, ...]:
    """The body without its sleeve, and the sleeve straight."""
    body_alone = Laid("Half front, from the center line", made.edge, halves=True)
    return (body_alone, Laid("Sleeve, straight, from the shoulder point", arm.laid)) if arm else (body_alone,)


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
    if n.features.cuffs == "buttoned" and n.has("cuff", "cuff height"):
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
