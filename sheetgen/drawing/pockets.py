"""Pockets close up: patch, welt, pouch, slanted and back pocket, each where its numbers are known."""

from __future__ import annotations

from dataclasses import replace

from sheetgen.drawing.bottoms import slanted_pocket
from sheetgen.drawing.closures import OPENING_HEM, patch_pocket
from sheetgen.drawing.details import OUT, Detail, Seen, named
from sheetgen.drawing.legs import legs
from sheetgen.drawing.shapes import Path, Point, bounds, line, parallel
from sheetgen.drawing.views import Span, of, one

_TOPSTITCH = 0.6


def chest_pocket(seen: Seen) -> Detail | None:
    """A patch pocket as wide and high as it is, under its flap if that is measured."""
    n = seen.numbers
    if n.features.pockets != "on the chest" or not (n.has("pocket width") and n.has("pocket height")):
        return None
    patch, flap = patch_pocket(n, Point(0, 0))
    half, high, up = n["pocket width"] / 2, n["pocket height"], n["pocket flap"]
    around = [one("outline", patch), one("stitch", _inside(patch, half)[1:5] if flap else _inside(patch, half)[0:5])]
    if flap:
        around += [one("cloth", flap), one("outline", flap), one("stitch", _inside(flap, half)[0:5])]
    elif high * 0.4 > OPENING_HEM:
        around.append(one("stitch", line((-half, OPENING_HEM), (half, OPENING_HEM))))
    return Detail(
        of("pocket", one("cloth", patch), *around),
        (
            Span("pocket width", line((-half, 0), (half, 0)), OUT),
            Span("pocket height", line((half, 0), (half, high)), OUT),
            Span("pocket flap", line((-half, 0), (-half, up)), -OUT),
        ),
    )


def _inside(pointed: Path, half: float) -> Path:
    """A pointed shape a little smaller: the topstitching along its edges."""
    part = max(1 - _TOPSTITCH / max(half, 1.0), 0.6)
    return tuple(Point(p.x * part, p.y if p.y == 0 else p.y - _TOPSTITCH / 2 * (1 + (p.x == 0))) for p in pointed)


def welt_pocket(seen: Seen) -> Detail | None:
    """The slanted welt of the right front with a part of the front around it."""
    n = seen.numbers
    if n.features.pockets != "welts" or not n.has("pocket opening"):
        return None
    span = named(seen.front, "pocket opening")["pocket opening"]
    low, _ = bounds([span.path])
    return seen.window(
        seen.front, low.to(-4.5, -4.5), seen.front.spots["hem side"].to(2, 2), (replace(span, lane=OUT),)
    )


def pouch(seen: Seen) -> Detail | None:
    """The pouch above the bottom rib, with its slanted openings."""
    n = seen.numbers
    if not (n.has("pocket opening") and n.has("pocket width")) or n.features.pockets not in {"pouch", "none"}:
        return None
    found = named(seen.front, "pocket opening", "pocket width")
    if len(found) < 2:
        return None
    low, up = bounds([found["pocket opening"].path, found["pocket width"].path])
    spans = [found["pocket opening"], replace(found["pocket width"], lane=-OUT)]
    return seen.window(seen.front, low.to(-3, -4), up.to(3, 4.5), spans)


def front_pocket(seen: Seen) -> Detail | None:
    """The slanted pocket below the waistband, from it to the side seam."""
    n = seen.numbers
    if not n.features.slanted_pockets or not n.has("front pocket"):
        return None
    opening = slanted_pocket(n, legs(n, back=False))
    stitch = of("pocket", one("stitch", parallel(opening, -_TOPSTITCH)))
    low, up = bounds([opening])
    return seen.window(seen.front, low.to(-5, -6), up.to(5, 5), (Span("front pocket", opening, OUT),), stitch)


def back_pocket(seen: Seen) -> Detail | None:
    """A welt pocket of the back under its dart."""
    n = seen.numbers
    found = named(seen.back, "back pocket", "loop")
    if not n.features.back_pockets or not n.has("back pocket"):
        return None
    low, up = bounds([found["back pocket"].path])
    spans = [replace(found["back pocket"], lane=-OUT), *([found["loop"]] if "loop" in found else [])]
    top = min(p.y for p in found["loop"].path) if "loop" in found else 0.0
    return seen.window(seen.back, Point(low.x - 3.5, top - 2), up.to(3.5, 4), spans)
