"""Diagram: front, back and details of one garment to one scale, each measured point with its line and ref."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sheetgen.drawing import palette, svg
from sheetgen.drawing.dimension import LANE, Dimension, Field, drawn
from sheetgen.drawing.garments import views
from sheetgen.drawing.measures import Measure, key_of, known
from sheetgen.drawing.shapes import Path, Point, bounds, parallel
from sheetgen.drawing.views import View

_EDGE = 40.0
_HEAD = 64.0
_FOOT = 64.0
_MARGIN = 46.0
"""Room beside each view for lines drawn outside it."""
_TITLE = 34.0
_LINE = palette.TEXT * 1.35


@dataclass(frozen=True)
class Placed:
    """A view on the drawing: units for each cm, and where its own zero lies."""

    view: View
    scale: float
    zero: Point

    def path(self, path: Path) -> Path:
        """A path of the view in units of the drawing."""
        return tuple(Point(self.zero.x + p.x * self.scale, self.zero.y + p.y * self.scale) for p in path)


def diagram(garment: str, measures: Sequence[Measure], *, caption: str = "", unit: str = "cm") -> str:
    """One SVG, 1600 units wide: the garment to scale with a line and ref for each point it knows.

    Points it can't draw are named below. A point not given is drawn from the others in proportion, without a line.
    `unit`, "cm" or "in", is that of the scale bar only; measures are in cm.
    """
    name = known(garment).word
    shown = views(name, measures)
    lines = _lines(shown, measures)
    missing = [one for one in measures if one.ref not in {measure.ref for _, measure in lines.values()}]
    notes = _notes(missing)
    placed, height = _layout(shown, _FOOT + _LINE * len(notes))
    room = Field(height)
    elements = [svg.text(Point(_EDGE, 42), svg.cut(caption or name.capitalize(), 1500, 26), size=26, bold=True)]
    dimensions: list[Dimension] = []
    for one in placed:
        elements += _garment(one)
        outlines = [one.path(p) for s in one.view.strokes if s.kind not in {"rib", "cloth", "stitch"} for p in s.paths]
        room.take(outlines, 2)
        dimensions += _dimensions(one, lines)
    elements += drawn(dimensions, room)
    elements += scale_bar(Point(_EDGE, height - 26 - _LINE * len(notes)), placed[0].scale, unit)
    elements += _below(notes, height)
    return svg.page(elements, caption or name, height)


def _lines(shown: Sequence[View], measures: Sequence[Measure]) -> dict[str, tuple[View, Measure]]:
    """Each key that is measured -> the view that shows it: the last that can, as details come last."""
    found: dict[str, tuple[View, Measure]] = {}
    able = {span.key: view for view in shown for span in view.spans}
    for measure in measures:
        key = key_of(measure.name)
        if key in able and key not in found and math.isfinite(measure.value):
            found[key] = (able[key], measure)
    return found


def _layout(shown: Sequence[View], foot: float) -> tuple[list[Placed], float]:
    """Front and back in a row, details beside or below them, whichever lets all be larger; and the drawing's height."""
    sizes = [bounds([p for s in view.strokes for p in s.paths]) for view in shown]
    first, last = min(low.y for low, _ in sizes[:2]), max(up.y for _, up in sizes[:2])
    sizes[:2] = [(Point(low.x, first), Point(up.x, last)) for low, up in sizes[:2]]
    every = range(len(shown))
    choices = [[list(every)], [list(every[:2]), list(every[2:])]] if len(shown) > 2 else [[list(every)]]
    boxes = [
        ((up.x - low.x) * view.zoom, (up.y - low.y) * view.zoom) for view, (low, up) in zip(shown, sizes, strict=True)
    ]
    rows = max(choices, key=lambda rows: _scale(rows, boxes, foot))
    scale = _scale(rows, boxes, foot)
    placed, y = [], _HEAD + _TITLE + _MARGIN
    for row in rows:
        gap = (svg.WIDTH - 2 * _EDGE - sum(boxes[i][0] * scale for i in row)) / len(row)
        x = _EDGE
        for i in row:
            each, low = scale * shown[i].zoom, sizes[i][0]
            placed.append(Placed(shown[i], each, Point(x + gap / 2 - low.x * each, y - low.y * each)))
            x += gap + boxes[i][0] * scale
        y += max(boxes[i][1] for i in row) * scale + _TITLE + 2 * _MARGIN
    return placed, y - _TITLE - _MARGIN + foot


def _scale(rows: Sequence[Sequence[int]], boxes: Sequence[tuple[float, float]], foot: float) -> float:
    """Units for each cm at which these rows fill the drawing."""
    tall = svg.HEIGHT - _HEAD - foot - len(rows) * (_TITLE + 2 * _MARGIN)
    high = sum(max(boxes[i][1] for i in row) for row in rows)
    frees = [
        (svg.WIDTH - 2 * _EDGE - 2 * _MARGIN * len(row)) / max(sum(boxes[i][0] for i in row), 0.01) for row in rows
    ]
    return min(tall / max(high, 0.01), *frees)


def _garment(one: Placed) -> Iterator[str]:
    low, up = bounds([p for s in one.view.strokes for p in s.paths])
    middle = one.path(((low.toward(up, 0.5)),))[0].x
    top = one.path((low,))[0].y - _MARGIN - 8
    title = one.view.title + (f" ({one.view.zoom:g} × the scale)" if one.view.zoom != 1 else "")
    yield svg.text(Point(middle, top), title, anchor="middle", color=palette.FAINT)
    for stroke in one.view.strokes:
        mark = ' class="outline"' if stroke.kind == "outline" else ""
        yield svg.stroke(stroke.kind, [one.path(path) for path in stroke.paths], mark)


def _dimensions(one: Placed, lines: dict[str, tuple[View, Measure]]) -> Iterator[Dimension]:
    for span in one.view.spans:
        if span.key in lines and lines[span.key][0] is one.view:
            measured = one.path(span.path)
            yield Dimension(lines[span.key][1].ref, parallel(measured, span.lane * LANE), measured)


def _notes(missing: Sequence[Measure]) -> list[str]:
    """Lines below the drawing, cut where they are full."""
    lines: list[str] = []
    words = [f"{one.ref} {one.name}" for one in missing]
    room = int((svg.WIDTH - 2 * _EDGE) / (palette.TEXT * 0.5))
    for index, word in enumerate(words):
        piece = word + (";" if index < len(words) - 1 else "")
        if lines and len(lines[-1]) + len(piece) < room:
            lines[-1] += " " + piece
        else:
            lines.append(("" if lines else "not drawn: ") + piece)
    return lines


def _below(notes: Sequence[str], height: float) -> Iterator[str]:
    for index, note in enumerate(notes):
        y = height - 14 - _LINE * (len(notes) - 1 - index)
        yield svg.text(Point(_EDGE, y), note, color=palette.FAINT)


def scale_bar(left: Point, scale: float, unit: str) -> Iterator[str]:
    """Ten centimeters or four inches at this scale, in black and white halves."""
    long = (10 if unit != "in" else 4 * 2.54) * scale
    half = long / 2
    for x, fill in ((left.x, palette.INK), (left.x + half, "#FFFFFF")):
        yield (
            f'<rect x="{svg.short(x)}" y="{svg.short(left.y - 9)}" width="{svg.short(half)}" height="9" '
            f'fill="{fill}" stroke="{palette.INK}" stroke-width="1.2"/>'
        )
    yield svg.text(Point(left.x + long + 10, left.y), "4 in" if unit == "in" else "10 cm")
