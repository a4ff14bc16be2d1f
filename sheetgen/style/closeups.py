"""Close-ups of a style's details: drawn from its measurements and its main label, anew at every build.

A detail that the designer has drawn, in the table of details, is left out; a word on Construction leaves out all of them.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, Value
from sheetgen.drawing import Measure, closeups, shown_closeups
from sheetgen.drawing.closeups import Shown
from sheetgen.drawing.waists import Label
from sheetgen.garments import BY_WORD
from sheetgen.sheets.construction import LEFT_BLANK
from sheetgen.sheets.labels import MAIN_LABEL
from sheetgen.style.drawn_once import drawn_once
from sheetgen.texts import say
from sheetgen.trade.lengths import convert, length_text
from sheetgen.workbook.model.pictures import from_svg
from sheetgen.workbook.model.values import Ready, Values, refs

CLOSEUPS = Place("construction.closeups")
_DETAILS, _LABELS, _POINTS = "construction.details", "labels.items", "measurements.points"
_SHARP = 900
"""Pixels of the longer side: enough for a sheet on the screen; paper has it as lines."""
_BELOW = re.compile(r"\b(\d+(?:\.\d+)?) (cm|mm|in) below\b")


def to_draw_closely(ready: Ready, values: Mapping[Place, Value]) -> bool:
    """Whether there is a detail to draw, as far as what is typed tells: which points have a base, not what comes of it."""
    if (
        values.get(Place("construction.flats")) == LEFT_BLANK
        or values.get(Place("measurements.garment")) not in BY_WORD
    ):
        return False
    return bool(_shown(ready, values, _begun(values)))


def _begun(values: Mapping[Place, Value]) -> Sequence[Measure]:
    """The points that have a figure or will have one, with some length."""
    found = []
    for ref in refs(_POINTS, values):
        base, follows = (values.get(Place(f"{_POINTS}.{name}", ref)) for name in ("base", "follows"))
        known = values.get(Place(f"{_POINTS}.drawn", ref)) or values.get(Place(f"{_POINTS}.point", ref))
        if isinstance(known, str) and (isinstance(base, int | float) or follows is not None):
            found.append(Measure(ref, known.lower(), 20.0, half=True))
    return found


def drawn_closeups(
    ready: Ready, values: Mapping[Place, Value], measures: Sequence[Measure], sample: str, unit: str
) -> Values:  # fmt: skip
    """The close-ups of these measures of the sample size as one drawing; nothing where no detail is known."""
    caption = say(
        "Figures as in Measurements and Labels ({unit}), size {sample}; not to scale", unit=unit, sample=sample
    )
    drawing = drawn_once(closeups, _shown(ready, values, measures), caption)
    return {CLOSEUPS: from_svg(drawing, _SHARP)} if drawing else {}


def _shown(ready: Ready, values: Mapping[Place, Value], measures: Sequence[Measure]) -> list[Shown]:
    garment = str(values[Place("measurements.garment")])
    return shown_closeups(garment, measures, _own(values), _main_label(ready, values))


def _own(values: Mapping[Place, Value]) -> list[str]:
    """The names of the details that the designer has drawn."""
    return [
        str(values.get(Place(f"{_DETAILS}.detail", ref)) or "") for ref in refs(_DETAILS, values)
        if isinstance(values.get(Place(f"{_DETAILS}.shown", ref)), Picture)
    ]  # fmt: skip


def _main_label(ready: Ready, values: Mapping[Place, Value]) -> tuple[Label, bool] | None:
    """The main label that lies inside the center back, and whether at the waist; None in a book that holds no labels."""
    if f"{_LABELS}.label" not in ready.book.entries:
        return None
    words = dict(ready.shape.words)
    unit, parts = words["{unit}"], int(words["{parts}"])
    for ref in refs(_LABELS, values):
        name, where = (str(values.get(Place(f"{_LABELS}.{one}", ref)) or "").lower() for one in ("label", "placement"))
        wide, high = (values.get(Place(f"{_LABELS}.{one}", ref)) for one in ("width", "height"))
        centered = "inside" in where and "center" in where and ("back" in where or "waist" in where)
        if name != MAIN_LABEL or not centered or not isinstance(wide, int | float) or not isinstance(high, int | float):
            continue
        said = {"label width": length_text(wide, unit, parts), "label height": length_text(high, unit, parts)}
        found = _BELOW.search(where)
        below = convert(float(found[1]), found[2], "cm") if found else None
        if found:
            said["label below"] = found[1] if found[2] == unit else f"{found[1]} {found[2]}"
        return Label(ref, convert(wide, unit, "cm"), convert(high, unit, "cm"), below, said), "waist" in where
    return None
