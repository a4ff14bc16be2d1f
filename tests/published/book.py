"""A small style put into the workbook, and what its live formulas then show.

Used by the checks against published figures: they type the published inputs and read the computed cells.
"""

from collections.abc import Mapping
from pathlib import Path

from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.workbook.brief import values_of
from sheetgen.workbook.edit import place_of
from sheetgen.workbook.layout import plan
from sheetgen.workbook.values import fixed_values, ready, shape_of
from sheetgen.workbook.writing.file import calculated

STYLE: Mapping[str, object] = {"unit": "cm", "currency": "USD", "sample_size": "M", "sizes": [{"name": "M"}]}


class Shown:
    """The computed cells of a workbook, by name: `order.cartons`, `order.buy[M1].need`."""

    def __init__(self, data: Mapping[str, object]) -> None:
        style = {**STYLE, **dict(data.get("style", {}))}  # type: ignore[call-overload]  # words by hand
        values = values_of(BOOK, {**data, "style": style}, Path("published"))
        book = ready(BOOK, shape_of(BOOK, values))
        values |= fixed_values(book)
        self._values = calculated(book, values, plan(book, values)[1])[1]

    def __getitem__(self, place: str) -> Value:
        return self._values[place_of(place)]

    def number(self, place: str) -> float:
        """A computed number; fails on text or blank."""
        value = self[place]
        assert isinstance(value, int | float), f"{place} shows {value!r}"
        return value
