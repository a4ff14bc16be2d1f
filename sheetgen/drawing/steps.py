"""Steps: how much the main girth and length grow from size to size, as bars, so that an uneven grade shows."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise
from statistics import median

from sheetgen.drawing import palette, svg
from sheetgen.drawing.garments import GIRTHS, LENGTHS
from sheetgen.drawing.measures import Measure, flat, key_of
from sheetgen.drawing.shapes import Point

Size = tuple[str, Sequence[Measure]]
EVEN = 0.05
"""Steps that differ by no more, in cm, are even: half a millimeter is less than anybody measures."""
_WIDE, _HIGH, _GAP = 500.0, 190.0, 66.0
STRIPS = 2 * (_HIGH + _GAP) + 70
"""How high both strips and the line below them are."""


def strips(sizes: Sequence[Size], left: Point, unit: str) -> Iterator[str]:
    """A strip of bars for the main girth and one for the main length; below, the refs of other uneven points."""
    yield svg.text(left, f"Step to the next size, {unit}", color=palette.FAINT)
    shown = main(sizes)
    for index, measures in enumerate(shown):
        steps = [flat(b) - flat(a) for a, b in pairwise(measures)]
        names = [f"{one} – {two}" for (one, _), (two, _) in pairwise(sizes)]
        top = left.to(0, 34 + index * (_HIGH + _GAP))
        yield from _strip(measures[0], names, steps, top, unit)
    others = [ref for ref in uneven_refs(sizes) if ref not in {measures[0].ref for measures in shown}]
    if others:
        words = svg.cut("Uneven as well: " + ", ".join(others), _WIDE)
        yield svg.text(left.to(0, 34 + len(shown) * (_HIGH + _GAP)), words, color=palette.MEASURE)


def main(sizes: Sequence[Size]) -> list[list[Measure]]:
    """The main girth over the sizes, and the main length: the first of each that all sizes have and that grows."""
    rows = [{key_of(one.name): one for one in reversed(measures) if math.isfinite(one.value)} for _, measures in sizes]
    found = []
    for keys in (GIRTHS, LENGTHS):
        able = [[row[key] for row in rows] for key in keys if rows and all(key in row for row in rows)]
        growing = [measures for measures in able if len({flat(measure) for measure in measures}) > 1]
        found += (growing or able)[:1]
    return found


def uneven(steps: Sequence[float]) -> list[bool]:
    """Which steps differ from the usual one, the median."""
    return [abs(step - median(steps)) > EVEN for step in steps]


def uneven_refs(sizes: Sequence[Size]) -> list[str]:
    """The refs of all points whose steps differ, in the order of the first size."""
    rows = [{one.ref: flat(one) for one in measures if math.isfinite(one.value)} for _, measures in sizes]
    shared = [ref for ref in (rows[0] if rows else ()) if all(ref in row for row in rows)]
    return [ref for ref in shared if any(uneven([b[ref] - a[ref] for a, b in pairwise(rows)]))]


def _strip(what: Measure, names: Sequence[str], steps: Sequence[float], top: Point, unit: str) -> Iterator[str]:
    """Each step as a bar up or down from a line; those that differ are filled otherwise, and the heading says so."""
    odd = uneven(steps)
    verdict = "uneven" if any(odd) else "even"
    yield svg.text(top, svg.cut(f"{what.ref} {what.name}", _WIDE - 80) + f": {verdict}", bold=True)
    most, least = max(0.0, *steps, 0.0), min(0.0, *steps, 0.0)
    per, each = (_HIGH - 76) / max(most - least, 0.001), _WIDE / max(len(steps), 1)
    line = top.to(0, 40 + most * per)
    level = top.y + _HIGH - (12 if least < 0 else 30) + 18
    for index, (name, step, strange) in enumerate(zip(names, steps, odd, strict=True)):
        middle = line.to(each * (index + 0.5), 0)
        yield from _bar(middle, step * per, min(each * 0.6, 60), strange)
        color = palette.MEASURE if strange else palette.INK
        over = middle.to(0, -6 - max(step, 0) * per) if step >= 0 else middle.to(0, 17 - step * per)
        yield svg.text(over, _words(step, unit), size=_size(each), anchor="middle", bold=strange, color=color)
        yield svg.text(Point(middle.x, level), svg.cut(name, each, 16), size=16, anchor="middle", color=palette.FAINT)
    yield svg.stroke("seam", [(line, line.to(_WIDE, 0))])
    if steps:
        usual = line.to(0, -median(steps) * per)
        yield svg.stroke("stitch", [(usual, usual.to(_WIDE, 0))])


def _bar(foot: Point, high: float, wide: float, strange: bool) -> Iterator[str]:
    yield (
        f'<rect class="step" x="{svg.short(foot.x - wide / 2)}" y="{svg.short(foot.y - max(high, 0))}" '
        f'width="{svg.short(wide)}" height="{svg.short(abs(high))}" '
        f'fill="{palette.UNEVEN if strange else palette.INSIDE}" '
        f'stroke="{palette.MEASURE if strange else palette.BAND}" stroke-width="{2.4 if strange else 1.2}"/>'
    )


def _size(each: float) -> float:
    """The size of the number over a bar; never below what reads on paper."""
    return palette.TEXT if each >= 58 else 16


def _words(step: float, unit: str) -> str:
    text = f"{step / 2.54 if unit == 'in' else step:+.2f}".rstrip("0").rstrip(".")
    return "0" if text in {"+0", "-0"} else text.replace("-", "−")
