"""The measurement drawings of a style: from its calculated sizes to the pictures in the Measurements sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from sheetgen.declare.entry import Place
from sheetgen.declare.families import member_name
from sheetgen.declare.kinds import Value
from sheetgen.drawing import Measure, diagram, nested
from sheetgen.garments import BY_WORD
from sheetgen.style.closeups import CLOSEUPS, drawn_closeups, to_draw_closely
from sheetgen.style.drawn_once import drawn_once
from sheetgen.style.flats import drawn_flats, to_draw
from sheetgen.texts import say
from sheetgen.trade.lengths import convert, length_text
from sheetgen.workbook.model.pictures import from_svg
from sheetgen.workbook.model.values import Ready, Values, refs
from sheetgen.workbook.write.file import Artist

_POINTS = "measurements.points"
_PLACES = {
    Place("measurements.diagram"): Place("measurements.own_diagram"),
    Place("measurements.nested"): Place("measurements.own_nested"),
}


def artist(ready: Ready, values: Values) -> Artist | None:
    """Who draws this style's measurement drawings and flats; None if its garment cannot be drawn or nothing is measured yet.

    A drawing of the designer's own takes the place of the drawn one.
    """
    garment = values.get(Place("measurements.garment"))
    wanted = [place for place, own in _PLACES.items() if own not in values]
    flats = to_draw(values)
    if garment not in BY_WORD or not refs(_POINTS, values):
        return None
    closely = to_draw_closely(ready, values)
    if not (wanted or flats or closely):
        return None

    def draw(shown: Mapping[Place, Value]) -> Values:
        sizes = list(measures_of_sizes(ready, {**values, **shown}))
        sample, base = values.get(Place("style.sample_size")), _base(values, sizes)
        unit = dict(ready.shape.words)["{unit}"]
        number = str(values.get(Place("style.number")) or "")
        drawings = {
            Place("measurements.diagram"): lambda: drawn_once(
                diagram,
                str(garment),
                base,
                caption=say("{number} size {sample}", number=number, sample=sample).strip(),
                unit=unit,
            ),
            Place("measurements.nested"): lambda: drawn_once(
                nested, str(garment), sizes, caption=say("{number} all sizes", number=number).strip(), unit=unit
            ),
        }
        made: Values = {place: from_svg(drawings[place]()) for place in wanted}
        made |= drawn_flats(values, base)
        made |= drawn_closeups(ready, values, base, str(sample or sizes[0][0]), unit) if closely else {}
        return {place: value for place, value in made.items() if place.entry in ready.book.entries}

    places = (*wanted, *flats, *([CLOSEUPS] if closely else []))
    return Artist(tuple(place for place in places if place.entry in ready.book.entries), draw)


def flats_of(ready: Ready, values: Values, shown: Mapping[Place, Value]) -> Values:
    """The flats of a working file whose figures are worked out already."""
    if not to_draw(values):
        return {}
    return drawn_flats(values, _base(values, list(measures_of_sizes(ready, {**values, **shown}))))


def _base(values: Mapping[Place, Value], sizes: Sequence[tuple[str, list[Measure]]]) -> list[Measure]:
    """The measures of the sample size; of the first one where that is not among them."""
    sample = values.get(Place("style.sample_size"))
    return next((measures for name, measures in sizes if name == sample), sizes[0][1])


def measures_of_sizes(ready: Ready, shown: Mapping[Place, Value]) -> Iterator[tuple[str, list[Measure]]]:
    """Each size with its measures in centimeters, as far as they are worked out; `shown` are typed and computed values."""
    words = dict(ready.shape.words)
    unit, parts = words["{unit}"], int(words["{parts}"])
    rows = refs(_POINTS, shown)
    for number, name in enumerate(dict(ready.shape.axes)["size"], 1):
        measures = []
        for ref in rows:
            value = shown.get(Place(f"{_POINTS}.{member_name('spec', 'size', number)}", ref))
            known = shown.get(Place(f"{_POINTS}.drawn", ref)) or shown.get(Place(f"{_POINTS}.point", ref))
            if isinstance(value, int | float) and isinstance(known, str):
                half = shown.get(Place(f"{_POINTS}.extent", ref)) == "half"
                said = length_text(float(value), unit, parts)
                measures.append(Measure(ref, known.lower(), convert(float(value), unit, "cm"), half, said))
        yield name, measures
