"""Callouts on the flats: where a row says a place on the drawing, its number stands there; the clean picture is kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, Value
from sheetgen.drawing.callouts import Box, Target, marks_of, placed
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.pictures import drawn_over, inked, width_and_height, with_shapes
from sheetgen.workbook.model.values import Values, refs

CALLOUTS = "construction.callouts"
_SHARP = 1300
"""Pixels of the longer side: 200 to an inch where the pack prints a flat as high as it does."""
FLATS = {"front": Place("construction.flat_front"), "back": Place("construction.flat_back")}
"""The word in a callout's row -> the drawing that it means; a blank one means the first."""


def with_marks(values: Mapping[Place, Value], known: Mapping[Place, Sequence[Target]] = MappingProxyType({})) -> Values:
    """The flats with their callouts drawn on them, the clean ones, and what was made of these; nothing for a flat on which no
    callout has a place. `known` are places of callouts that have none of their own, by the flat on which they lie."""
    made: Values = {}
    placed_ones = {target.word for word in FLATS for target in _targets(values, word)}
    for word, place in FLATS.items():
        picture, targets = values.get(place), list(_targets(values, word))
        targets += [target for target in known.get(place, ()) if target.word not in placed_ones]
        if not isinstance(picture, Picture) or not targets:
            continue
        picture = with_shapes(picture)
        width, height = width_and_height(str(place), picture.data)
        box = Box(*inked(picture.data))
        around = placed(targets, width, height, box)
        drawn = drawn_over(picture, marks_of(around), around.frame, _SHARP)
        original = BOOK.entries[place.entry].entry.original
        made |= {place: drawn, Place(original): picture, Place(f"{original}_of"): drawn.digest}
    return made


def _targets(values: Mapping[Place, Value], word: str) -> Iterator[Target]:
    for ref in refs(CALLOUTS, values):
        drawing = values.get(Place(f"{CALLOUTS}.drawing", ref)) or next(iter(FLATS))
        across, down = (values.get(Place(f"{CALLOUTS}.{name}", ref)) for name in ("across", "down"))
        if drawing == word and isinstance(across, int | float) and isinstance(down, int | float):
            yield Target(ref, min(max(float(across), 0.0), 1.0), min(max(float(down), 0.0), 1.0))
