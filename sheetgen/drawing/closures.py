"""Closures and pockets on the front of a top: placket and buttons, zip, pouch, patch and welt pockets."""

from __future__ import annotations

import math

from sheetgen.drawing.bodies import Body
from sheetgen.drawing.measures import Numbers
from sheetgen.drawing.shapes import Path, Point, line, mirrored
from sheetgen.drawing.views import Span, Stroke, of, one, pair

Part = tuple[tuple[Stroke, ...], tuple[Span, ...]]
_BUTTON = 0.55
OPENING_HEM = 2.0
"""Centimeters from the upper edge of a pocket without a flap to its stitching."""
_POUCH_SIDE = 5.0
_WELT_LEAN = math.radians(18)


def placket(n: Numbers, made: Body) -> Part:
    """The band of a buttoned front, with seven buttons down the center line."""
    half = n["placket"] / 2
    top, end = made.neck[0].y, made.hem[-1].y
    gap = (end - top) * 0.86 / 6.5
    buttons = [ring(Point(0, top + gap * (0.55 + i)), _BUTTON) for i in range(6)]
    low = top + gap * 5.2
    span = Span("placket", line((-half, low), (half, low)))
    return (pair("seam", line((half, top + 1), (half, end))), one("button", *buttons, part="button")), (span,)


def ring(center: Point, radius: float) -> Path:
    """A circle."""
    return tuple(
        center.to(radius * math.cos(math.tau * i / 16), radius * math.sin(math.tau * i / 16)) for i in range(17)
    )


def chest_pockets(n: Numbers, made: Body) -> Part:
    """One patch pocket on the wearer's left if a point measures it; two, with flaps, if a flap is measured."""
    if not n.has("pocket width", "pocket height"):
        return (), ()
    wide, high = n["pocket width"], n["pocket height"]
    flap = n["pocket flap"] if n.has("pocket flap") else 0
    left = n["placket"] / 2 + max((n["across front"] / 2 - n["placket"] / 2 - wide) * 0.6, 1)
    top = n["pocket position"]
    middle = left + wide / 2
    patch, cover = patch_pocket(n, Point(middle, top))
    if cover:
        strokes = [pair("cloth", patch), pair("seam", patch), pair("cloth", cover), pair("seam", cover)]
    else:
        opening = line((left, top + OPENING_HEM), (left + wide, top + OPENING_HEM))
        strokes = [one("cloth", patch), one("seam", patch), one("stitch", opening)]
    return of("pocket", *strokes), (
        Span("pocket width", line((left, top), (left + wide, top)), 0.8),
        Span("pocket height", line((left + wide, top), (left + wide, top + high)), 0.8),
        Span("pocket flap", line((-middle, top), (-middle, top + flap))),
        Span("pocket position", line((-made.high.x, 0), (-made.high.x, top))),
    )


def patch_pocket(n: Numbers, top: Point) -> tuple[Path, Path]:
    """A patch pocket below the middle of its opening, pointed, and its flap; () for the flap if none is measured."""
    half, high, flap = n["pocket width"] / 2, n["pocket height"], n["pocket flap"]
    return _pointed(top, half, high, high * 0.85), _pointed(top, half, flap, flap * 0.8) if n.has("pocket flap") else ()


def _pointed(top: Point, half: float, high: float, side: float) -> Path:
    """Upright sides and a point in the middle, closed."""
    return line(
        top.to(-half, 0), top.to(-half, side), top.to(0, high), top.to(half, side), top.to(half, 0), top.to(-half, 0)
    )  # fmt: skip


def zip_front(n: Numbers, made: Body, open_neck: bool) -> Part:
    """A zip from the hem up, as long as it is; without a hood it runs into the collar."""
    end = made.hem[-1].y
    top = made.neck[0].y - (0 if open_neck else n["collar height"])
    teeth = line((0, max(end - n["zip"], top) if n.has("zip") else top), (0, end))
    half = 0.5
    strokes = (
        pair("stitch", line((half * 2.4, top + 0.5), (half * 2.4, end))),
        pair("seam", line((half * 0.5, top), (half * 0.5, end)), part="zip"),
    )
    return strokes, (Span("zip", line((0, end - n["zip"]), teeth[-1])),)


def welts(n: Numbers, made: Body) -> Part:
    """Slanted welt pockets, as long as they are."""
    long, wide = n["pocket opening"], 2.0
    low = Point(made.chest.x * 0.78, made.hem[-1].y - n["hem"] - max(n["length"] * 0.07, 1))
    high = low.to(-math.sin(_WELT_LEAN) * long, -math.cos(_WELT_LEAN) * long)
    aside = Point(-math.cos(_WELT_LEAN) * wide, math.sin(_WELT_LEAN) * wide)
    welt = line(low, high, high.to(*aside), low.to(*aside), low)
    return of("pocket", pair("cloth", welt), pair("seam", welt)), (Span("pocket opening", line(high, low), 0.8),)


def kangaroo(n: Numbers, made: Body) -> Part:
    """A pouch above the bottom rib: its lower corners upright, then the slanted openings, as long as they are."""
    low, wide, slant = made.side[-2].y, n["pocket width"] / 2, n["pocket opening"]
    upper = max(wide * 0.6, wide - slant * 0.75)
    corner = Point(wide, low - min(_POUCH_SIDE, slant * 0.4))
    tip = Point(upper, corner.y - math.sqrt(max(slant**2 - (wide - upper) ** 2, 0)))
    edge = line((0, tip.y), tip, corner, (wide, low), (0, low))
    whole = edge + mirrored(edge)[::-1]
    inner = pair("stitch", line(tip.to(-1, 0.4), corner.to(-1, 0.4)))
    return of("pocket", one("cloth", whole), one("seam", whole), inner), (
        Span("pocket opening", line(tip, corner), 0.8),
        Span("pocket width", line((-wide, low), (wide, low)), 0.8),
    )
