"""Materials known by a swatch or photo only: what the vendor named, and the brand said yes to, becomes the line's own."""

from __future__ import annotations

from sheetgen.declare.entry import Place
from sheetgen.texts import say
from sheetgen.workbook.model.values import Values

_TAKEN = {
    "composition": "named_composition",
    "weight": "named_weight",
    "weight_unit": "named_unit",
    "width": "named_width",
}
"""Entry of the line -> what the vendor named of it."""


def take_identified(values: Values) -> list[str]:
    """Fill what is blank in the lines of identified materials with what the vendor named; in words, what was taken.

    What the brand typed stays; a check on Checks counts where it says something else.
    """
    notes: list[str] = []
    for place in [one for one, value in values.items() if one.entry == "materials.bom.identified" and value == "yes"]:
        if values.get(Place("materials.bom.ask", place.row)) in (None, ""):
            continue
        found = {
            Place(f"materials.bom.{own}", place.row): values.get(Place(f"materials.bom.{named}", place.row))
            for own, named in _TAKEN.items()
        }
        new = {own: value for own, value in found.items() if value not in (None, "") and values.get(own) in (None, "")}
        if new:
            values.update(new)
            notes.append(
                say(
                    "{material} is what the vendor named: {what}.",
                    material=place.row, what=", ".join(str(value) for value in new.values()),
                )
            )  # fmt: skip
    return notes
