"""Waists close up: waistband with fly or zip, vent, gusset; and where the main label lies."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from sheetgen.drawing.bodies import body
from sheetgen.drawing.bottoms import gusset
from sheetgen.drawing.closures import ring
from sheetgen.drawing.details import OUT, Detail, Seen, laid_open
from sheetgen.drawing.legs import legs
from sheetgen.drawing.shapes import Path, Point, across, both, line
from sheetgen.drawing.views import Span, Stroke, one, pair


def fly(seen: Seen) -> Detail | None:
    """The middle of the front: waistband, its button, and the fly below."""
    n = seen.numbers
    if not n.features.fly or not (n.has("fly") and n.has("waistband")):
        return None
    made, band = legs(n, back=False), n["waistband"]
    wide = max(7.0, n["fly"] * 0.42)
    aside = wide * 0.62
    top = _height(made.waist, aside)
    button = one("button", ring(Point(0, made.band - band / 2), min(0.8, band * 0.3)), part="button")
    tack = one("seam", line((-0.5, made.band + n["fly"] - 0.3), (0.5, made.band + n["fly"] + 0.3)))
    spans = (
        Span("fly", line((0, made.band), (0, made.band + n["fly"])), -OUT),
        Span("waistband", line((aside, top), (aside, top + band)), 0.8),
    )
    low, up = Point(-wide, min(top, made.band - band) - 2), Point(wide, made.band + n["fly"] + 4)
    return seen.window(seen.front, low, up, spans, (button, tack))


def _height(path: Path, x: float) -> float:
    """How far down a path that runs from the center outward is, so far from the center."""
    return min(path, key=lambda p: abs(p.x - x)).y


def waistband_and_zip(seen: Seen) -> Detail | None:
    """A skirt's waistband at the center back, with the zip below."""
    n = seen.numbers
    if n.features.silhouette != "waist to hem" or not (n.has("waistband") and n.has("zip")):
        return None
    spans = (
        Span("zip", line((0, 0), (0, n["zip"])), -OUT),
        Span("waistband", line((4.5, 0), (4.5, n["waistband"])), 0.8),
    )
    return seen.window(seen.back, Point(-8, -2), Point(8, max(n["zip"], n["waistband"]) + 3), spans)


def waistband(seen: Seen) -> Detail | None:
    """A waistband without a fly, whole."""
    n = seen.numbers
    if n.features.fly or n.features.silhouette != "two legs" or not (n.has("waistband") and n.has("waist")):
        return None
    half, band = n["waist"] / 2, n["waistband"]
    top = line((-half, 0), (half, 0))
    spans = [Span("waist", top, OUT), Span("waistband", line((half, 0), (half, band)), OUT)]
    return seen.window(seen.front, Point(-half - 3, -2.5), Point(half + 3, band + 6), spans)


def vent(seen: Seen) -> Detail | None:
    """The vent at the center back of a skirt, from its top to the hem."""
    n, end = seen.numbers, seen.back.spots.get("hem center")
    if n.features.silhouette != "waist to hem" or not n.has("vent") or end is None:
        return None
    span = Span("vent", line((0, end.y - n["vent"]), (0, end.y)), OUT)
    wide = max(6.0, n["vent"] * 0.4)
    return seen.window(seen.back, Point(-wide, end.y - n["vent"] - 3), Point(wide, end.y + 2), (span,))


def gusset_flat(seen: Seen) -> Detail | None:
    """The gusset by itself."""
    return laid_open(gusset(seen.numbers)) if seen.numbers.has("gusset") else None


class Label(NamedTuple):
    """A main label: its ref, how large it is, and how far below the seam (None: not said), each with the words that say it."""

    ref: str
    wide: float
    high: float
    below: float | None
    words: Mapping[str, str]


def main_label(seen: Seen, label: Label, waist: bool) -> Detail | None:
    """Where the main label lies inside the center back, below the neck's or the waistband's seam."""
    n = seen.numbers
    tops = n.features.silhouette in {"top", "with a waist seam"}
    if waist is tops or not (0 < label.wide < 30 and 0 < label.high < 30):
        return None
    below = 0.0 if label.below is None else label.below
    if tops:
        strokes, seam, wide = _inside_of_neck(seen)
    else:
        strokes, seam, wide = _inside_of_waist(seen)
        below = max((n["waistband"] - label.high) / 2, 0.0) if label.below is None else below
    half, top = label.wide / 2, seam + below
    box = line((-half, top), (half, top), (half, top + label.high), (-half, top + label.high), (-half, top))
    spans = [
        Span("label width", line((-half, top + label.high), (half, top + label.high)), -OUT),
        Span("label height", line((half, top), (half, top + label.high)), OUT),
    ]
    if label.below:
        spans.append(Span("label below", line((0, seam), (0, top)), -2))
    wide = max(wide, half + 3)
    low, up = Point(-wide, -2.5), Point(wide, top + label.high + 4)
    return Detail((*strokes, one("button", box), one("seam", box)), tuple(spans), (low, up))


def _inside_of_neck(seen: Seen) -> tuple[tuple[Stroke, ...], float, float]:
    """The inside of the back around the neck, the height of its seam at the center, and how far the neck reaches."""
    made = body(seen.numbers, back=True)
    shoulders = pair("outline", (made.high, made.shoulder))
    return (
        (one("inside", both(made.edge)), one("outline", across(made.neck)), shoulders),
        made.neck[0].y,
        made.high.x + 2,
    )


def _inside_of_waist(seen: Seen) -> tuple[tuple[Stroke, ...], float, float]:
    n = seen.numbers
    half, band = n["waist"] / 2, n["waistband"]
    strokes = (
        one("inside", line((-half, 0), (half, 0), (half, band + 30), (-half, band + 30), (-half, 0))),
        one("cloth", line((-half, 0), (half, 0), (half, band), (-half, band), (-half, 0))),
        one("outline", line((-half, 0), (half, 0))),
        one("seam", line((-half, band), (half, band)), line((0, band), (0, band + 30))),
    )
    return strokes, 0.0, min(half, 9.0)
