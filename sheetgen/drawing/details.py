"""Details: the parts of a garment as they are drawn close up: laid by themselves, or seen through a window on front or back.

Here are those of necks, fronts and sleeves; pockets and waists have files of their own.

A detail that no number of the style shapes is none: each function gives None then. All lengths are in centimeters.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from sheetgen.drawing import necks
from sheetgen.drawing.closures import ring
from sheetgen.drawing.measures import Numbers
from sheetgen.drawing.shapes import Point, line
from sheetgen.drawing.tops import cuff_open, hooded
from sheetgen.drawing.views import Span, Stroke, View, of, one, pair

OUT = 1.5
"""Lanes from an edge to its dimension line."""
_EDGE_STITCH = 0.5


@dataclass(frozen=True)
class Detail:
    """What is drawn, what is measured on it, and the window through which it is seen (all of it if there is none)."""

    strokes: tuple[Stroke, ...]
    spans: tuple[Span, ...]
    window: tuple[Point, Point] | None = None


@dataclass(frozen=True)
class Seen:
    """A garment's numbers, and its front and back as flats show them."""

    numbers: Numbers
    front: View
    back: View

    def window(self, view: View, low: Point, up: Point, spans: Iterable[Span], more: tuple[Stroke, ...] = ()) -> Detail:
        """A part of a view, from its upper left corner to its lower right one."""
        return Detail((*view.strokes, *more), tuple(spans), (low, up))


def named(view: View, *keys: str) -> dict[str, Span]:
    """The view's measured lines of these names, on the spot."""
    return {span.key: span for span in view.spans if span.key in keys}


def neckline(seen: Seen) -> Detail | None:
    """The neck of a garment without a collar, as wide and deep as it is, with its rib."""
    n = seen.numbers
    if n.features.neck != "rib" or hooded(n) or not n.has("neck") or not n.has("neck drop"):
        return None
    high, low = seen.front.spots["high shoulder"], seen.front.spots["neck"]
    wide = high.x + max(3.5, n["neck rib"])
    found = named(seen.front, "neck", "neck drop", "neck rib", "notch")
    spans = [replace(span, lane=1.6 if span.key == "neck" else span.lane) for span in found.values()]
    deep = low.y + (n["notch"] if n.has("notch") else 0) + 4
    return seen.window(seen.front, Point(-wide, -2.5), Point(wide, deep), spans)


def collar(seen: Seen) -> Detail | None:
    """The collar laid open: its height, and on a band that of the band and the length of its points."""
    n = seen.numbers
    if n.features.neck == "rib" or hooded(n) or not n.has("collar"):
        return None
    known = n.has("collar height")
    if n.features.neck == "collar on a band":
        known = n.has("collar point") and (known or n.has("collar band"))
    if not known:
        return None
    return laid_open(necks.collar_open(n))


def laid_open(view: View) -> Detail:
    """A detail that the measurement drawing has, too."""
    return Detail(view.strokes, view.spans)


def hood(seen: Seen) -> Detail | None:
    """The hood folded along its middle."""
    n = seen.numbers
    return laid_open(necks.hood_flat(n)) if hooded(n) and n.has("hood height") and n.has("hood width") else None


def placket(seen: Seen) -> Detail | None:
    """A piece of the buttoned front, with two of its buttons."""
    n = seen.numbers
    if n.features.front != "buttoned" or not n.has("placket"):
        return None
    half = n["placket"] / 2
    gap, wide = half * 3.2, half * 4.4
    if wide < _EDGE_STITCH * 4:
        return None
    edges = pair("seam", line((half, -gap), (half, gap)))
    stitches = pair("stitch", line((half - _EDGE_STITCH, -gap), (half - _EDGE_STITCH, gap)))
    cloth = one("cloth", line((-wide, -gap), (wide, -gap), (wide, gap), (-wide, gap), (-wide, -gap)))
    buttons = one("button", *(ring(Point(0, y), 0.55) for y in (-gap * 0.55, gap * 0.55)), part="button")
    holes = one("seam", *(line((0, y - 0.7), (0, y + 0.7)) for y in (-gap * 0.55, gap * 0.55)))
    return Detail(
        (cloth, edges, stitches, buttons, holes),
        (Span("placket", line((-half, 0), (half, 0))),),
        (Point(-wide, -gap), Point(wide, gap)),
    )


def front_zip(seen: Seen) -> Detail | None:
    """The zip of a whole front, shortened by a break in its middle: it would be a thin line."""
    n = seen.numbers
    if n.features.front != "zipped" or not n.has("zip"):
        return None
    tape, long, gap, down = 1.7, 6.0, 1.0, 0.9
    bend = line((tape, long - down), (tape / 3, long + down / 2), (-tape / 3, long - down / 2), (-tape, long + down))
    upper = (*line((-tape, 0), (tape, 0)), *bend, Point(-tape, 0))
    end = 2 * long + gap
    lower = (*(p.to(0, gap) for p in bend[::-1]), *line((tape, end), (-tape, end)))
    lower = (*lower[:4], Point(tape, end), Point(-tape, end), lower[0])
    teeth = [line((-0.35, y / 3), (0.35, y / 3)) for y in range(4, int(end * 3)) if abs(y / 3 - long - gap / 2) > 1.6]
    slider = line((-0.45, 0.2), (0.45, 0.2), (0.6, 1.3), (-0.6, 1.3), (-0.45, 0.2))
    pull = line((-0.25, 1.3), (0.25, 1.3), (0.25, 3), (-0.25, 3), (-0.25, 1.3))
    stop = line((-0.6, end - 1), (0.6, end - 1), (0.6, end), (-0.6, end), (-0.6, end - 1))
    return Detail(
        of("zip", one("cloth", upper, lower), one("seam", upper, lower), one("rib", *teeth),
           one("cloth", stop, pull, slider), one("seam", stop, pull, slider)),
        (Span("zip", line((tape, 0), (tape, end)), OUT),),
    )  # fmt: skip


def cuff(seen: Seen) -> Detail | None:
    """A buttoned cuff laid open, or a ribbed one at the end of its sleeve."""
    n = seen.numbers
    if not _has_sleeves(n) or not n.has("cuff height"):
        return None
    if n.features.cuffs == "buttoned":
        return laid_open(cuff_open(n)) if n.has("cuff") else None
    return _sleeve_end(n, n["cuff height"]) if n.features.cuffs == "ribbed" and n.has("opening") else None


def sleeve_hem(seen: Seen) -> Detail | None:
    """The end of a sleeve without a cuff."""
    n = seen.numbers
    plain = n.features.cuffs == "plain" and not n.has("cuff height")
    return _sleeve_end(n, 0.0) if _has_sleeves(n) and plain and n.has("opening") else None


def _has_sleeves(n: Numbers) -> bool:
    return n.features.silhouette in {"top", "with a waist seam"} and n.features.sleeves != "none"


def _sleeve_end(n: Numbers, rib: float) -> Detail:
    half = n["opening"] / 2
    full, above = half * (1.18 if rib else 1.0), max(half * 1.3, 5.0)
    top = full * 1.06
    arm = line((-top, -rib - above), (top, -rib - above), (full, -rib), (-full, -rib), (-top, -rib - above))
    sides = pair("outline", line((top, -rib - above), (full, -rib)))
    spans = [Span("opening", line((-half, 0), (half, 0)), -OUT)]
    if rib:
        box = line((-half * 1.04, -rib), (half * 1.04, -rib), (half, 0), (-half, 0), (-half * 1.04, -rib))
        count = max(int(half / 0.5), 2)
        ribs = (line((x * 1.04, -rib), (x, 0)) for x in (half * i / count for i in range(1, count)))
        strokes = [
            one("cloth", arm),
            sides,
            one("ribbed", box, part="rib"),
            pair("rib", *ribs, line((0, -rib), (0, 0))),
        ]
        spans.append(Span("cuff height", line((half, -rib), (half, 0)), OUT))
    else:
        hem = min(2.0, above * 0.4)
        side = full * (1 + 0.06 * hem / above)
        strokes = [one("cloth", arm), sides, one("outline", line((-full, 0), (full, 0)))]
        strokes.append(one("stitch", line((-side, -hem), (side, -hem))))
    return Detail(tuple(strokes), tuple(spans), (Point(-top - 1.5, -rib - above + 0.5), Point(top + 1.5, 1.5)))


def hem(seen: Seen) -> Detail | None:
    """The corner of the hem at the side seam: its rib, or its stitching."""
    n, corner = seen.numbers, seen.front.spots.get("hem side")
    key = "rib" if n.has("rib") else "hem"
    if corner is None or not n.has(key) or (key == "hem" and n.features.hem == "tail"):
        return None
    high = n[key]
    span = Span(key, line(corner.to(0, -high), corner), OUT)
    low, up = corner.to(-max(9.0, high * 1.8), -high - max(4.5, high)), corner.to(3.0, 2.0)
    shown = replace(seen.front, strokes=tuple(one for one in seen.front.strokes if one.part != "pocket"))
    return seen.window(shown, low, up, (span,))
