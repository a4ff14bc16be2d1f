"""A blank result can always be asked why: the cell says which ones it waits for."""

from __future__ import annotations

import io
from functools import cache

import openpyxl
import pytest

from sheetgen import api
from sheetgen.api.making import Built
from sheetgen.declare.entry import Place, place_of
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.values import Ready, ready, shape_of
from sheetgen.workbook.write.waiting import waits


@cache
def started(word: str) -> tuple[Built, Ready]:
    made = api.start(word)
    return made, ready(BOOK, shape_of(BOOK, made.values))


def blank_figures(word: str) -> list[Place]:
    """All that is worked out, stands in a row with a name, and shows nothing, on sheets that people read."""
    made, book = started(word)
    shown = {**made.values, **made.shown}
    found = []
    for place, value in made.shown.items():
        column = book.book.entries.get(place.entry)
        if value not in (None, "") or column is None or column.entry.who != "computed":
            continue
        key = Place(f"{column.sheet.name}.{column.table.name}.{column.table.key}", place.row) if column.table else None
        if column.sheet.printed and not column.sheet.derived and (key is None or shown.get(key) not in (None, "")):
            found.append(place)
    return found


@pytest.mark.parametrize("word", ["trousers", "jacket", "t-shirt"])
def test_every_blank_figure_says_what_it_is_worked_out_from(word):
    _, book = started(word)
    found = blank_figures(word)
    assert len(found) > 300
    silent = {place.entry for place in found if not waits(place.entry, book)}
    assert not silent


WAITS = {
    "materials.bom[M1].cost": ("Gross use", "Price, EUR"),
    "materials.bom[M1].price_here": ("Price per unit",),
    "fit.points[P1].deviation_r1": ("Vendor measured", "Brand measured"),
    "quote.over_target": ("The same, EUR",),
}


@pytest.mark.parametrize("address", WAITS)
def test_it_names_the_cells_as_they_are_called(address):
    made, book = started("trousers")
    place = place_of(address)
    if place.entry not in book.formulas:
        pytest.fail(f"{address} is not worked out")
    assert made.shown.get(place) in (None, "")
    for heading in WAITS[address]:
        assert heading in waits(place.entry, book)


def test_the_message_stands_at_the_cell_in_the_brands_file_and_in_no_copy():
    made, book = started("trousers")
    place = place_of("materials.bom[M1].cost")
    sheet = openpyxl.load_workbook(io.BytesIO(made.data))["Materials"]
    geometry = plan(book, made.values)[1]
    cell = geometry.at(place)
    message = next(one for one in sheet.data_validations.dataValidation if cell.address in one.sqref)
    assert message.type is None
    assert message.promptTitle == "Cost, EUR"
    assert "Blank until there is: " in message.prompt
