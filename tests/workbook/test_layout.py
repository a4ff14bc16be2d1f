"""Layout: every entry has its place, no two parts share a cell, rows follow their refs."""

from collections.abc import Iterator
from itertools import pairwise

import pytest

from sheetgen.declare.entry import Place
from sheetgen.offers import OFFERS_BOOK
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.geometry import Cell, Geometry, TablePlace, name_of, workbook_names
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.page import PlacedFields, PlacedLedger, PlacedTable, PlacedWords
from sheetgen.workbook.model.values import Shape, Values, ready, row_refs, shape_of, words_for

from .small import FILLED, SMALL, ready_for

MANY: Values = {
    **{Place("style.sizes.name", f"Z{n}"): f"Size {n}" for n in range(1, 13)},
    **{Place("colorways.list.name", f"C{n}"): f"Shade {n}" for n in range(1, 7)},
    **{Place("materials.bom.item", f"M{n}"): f"Article {n}" for n in range(1, 41)},
    **{Place("measurements.points.point", f"P{n}"): f"Point {n}" for n in range(1, 41)},
    Place("style.description"): "long words " * 200,
    Place("style.unit"): "in",
}


def cells_of(part: object) -> Iterator[tuple[int, int]]:
    """Every cell that a part writes, from what the planner says of it."""
    if isinstance(part, PlacedFields):
        yield part.title, 1
        for field in part.fields:
            for span in (field.label, field.value):
                yield from ((span.row, column) for column in range(span.first, span.last + 1))
    elif isinstance(part, PlacedTable):
        yield part.title, 1
        for row in range(part.sections, part.last + 1):
            yield row, 1
            yield from ((row, column) for _, column in part.columns)
    elif isinstance(part, PlacedLedger):
        yield part.title, 1
        for row in (part.headings, *(row for row, _ in part.lines)):
            yield from ((row, column) for column, _ in part.columns)
    elif isinstance(part, PlacedWords):
        yield part.title, 1
        yield from ((part.title + offset, 1) for offset in range(1, len(part.part.lines) + 1))


def planned(audience: str, values: Values, book=BOOK):
    made = ready(book, shape_of(book, values, audience))
    return made, *plan(made, values)


@pytest.mark.parametrize("audience", ["designer", "vendor"])
@pytest.mark.parametrize("values", [{}, MANY], ids=["empty", "many"])
def test_no_two_parts_of_a_sheet_share_a_cell(audience, values):
    _, pages, _ = planned(audience, values)
    for page in pages:
        seen: dict[tuple[int, int], str] = {}
        for part in page.parts:
            for cell in cells_of(part):
                assert cell not in seen, f"{page.sheet.title}: {part} writes on {seen[cell]}"
                assert cell[0] > 3, f"{page.sheet.title}: {part} writes on the sheet's title"
                assert cell[1] <= len(page.widths)
            seen.update(dict.fromkeys(cells_of(part), type(part).__name__))


@pytest.mark.parametrize("audience", ["designer", "vendor"])
@pytest.mark.parametrize("values", [{}, MANY], ids=["empty", "many"])
def test_every_entry_has_a_cell_of_its_own(audience, values):
    made, _, where = planned(audience, values)
    taken: dict[Cell, Place] = {}
    refs = row_refs(made, values)
    for address, column in made.book.entries.items():
        places = dict(where.places(address))
        rows = refs[address.rpartition(".")[0]] if column.table else [""]
        assert [place.row for place in places] == rows, address
        for place, cell in places.items():
            assert cell not in taken, f"{place} stands on {taken.get(cell)}"
            taken[cell] = place
            assert where.at(place) == cell


@pytest.mark.parametrize("audience", ["designer", "vendor"])
def test_names_are_the_addresses_and_no_two_are_alike(audience):
    made, _, where = planned(audience, MANY)
    names = workbook_names(where)
    refs = {f"{table}.ref" for table in made.book.tables}
    assert set(names) == {name_of(address) for address in {*made.book.entries, *refs}}
    lowered = [name.lower() for name in names]  # programs do not tell names apart by case
    assert len(set(lowered)) == len(lowered)
    assert all(len(name) <= 255 and "." not in name for name in names)


def test_rows_no_higher_and_sheets_no_wider_than_programs_take():
    _, pages, _ = planned("designer", MANY)
    for page in pages:
        assert max(page.heights.values()) <= 409, page.sheet.title
        assert len(page.widths) <= 256, page.sheet.title  # the engine's limit


def test_where_things_stand_in_the_small_book():
    _, where = plan(ready_for(FILLED), FILLED)
    rows = {ref: row - where.tables["goods.lines"].first for ref, row in where.tables["goods.lines"].rows.items()}
    assert rows == {"M1": 0, "M2": 1, "M3": 2, "M4": 3}  # two filled, two spare
    assert list(where.tables["goods.answers"].rows) == ["M1", "M2", "M3", "M4"]
    assert list(where.tables["style.sizes"].rows) == ["Z1", "Z2"]
    assert list(where.tables["scale.grades"].rows) == ["G1", "G2"]


def test_rows_keep_the_refs_that_they_have():
    values = {
        Place("goods.lines.item", "M7"): "a",
        Place("goods.lines.net", "M2"): 3,
        Place("goods.lines.item", "M2"): "b",
    }
    assert row_refs(ready_for(values), values)["goods.lines"] == ["M7", "M2", "M1", "M3"]


def test_a_geometry_answers_for_what_is_there_only():
    where = Geometry(
        fields={"a.x": Cell("A", 2, 3)}, tables={"a.t": TablePlace("A", 5, 9, {"k": 2}, {"K1": 5, "K4": 7})}
    )
    assert where.cell("a.x") == ("A", 2, 3)
    assert where.cell("a.y") is None
    assert where.column("a.t.k") == ("A", 2, 5, 9)
    assert where.column("a.t.ref") == ("A", 1, 5, 9)
    assert where.column("a.t.gone") is None
    assert where.column("a.u.k") is None
    assert where.at(Place("a.t.k", "K4")) == Cell("A", 7, 2)
    assert where.at(Place("a.t.k", "K2")) is None
    assert where.at(Place("a.t.gone", "K1")) is None
    assert list(where.places("a.t.k")) == [
        (Place("a.t.k", "K1"), Cell("A", 5, 2)),
        (Place("a.t.k", "K4"), Cell("A", 7, 2)),
    ]
    assert list(where.places("a.t.gone")) == []
    assert Cell("A", 14, 28).address == "AB14"


def test_places_in_words():
    assert str(Place("goods.lines.price", "M3")) == "goods.lines[M3].price"
    assert str(Place("style.number")) == "style.number"
    assert workbook_names(plan(ready_for(FILLED), FILLED)[1]).keys() >= {
        "goods__lines__price",
        "goods__lines__ref",
        "style__number",
    }
    assert SMALL.tables.keys() == {"style.sizes", "goods.lines", "goods.answers", "scale.grades", "own.plan"}


@pytest.mark.parametrize("book", [BOOK, OFFERS_BOOK], ids=["style", "offers"])
def test_members_of_a_family_stand_side_by_side_in_a_ledger(book):
    """Else their block holds cells that are none of theirs, and a place in it counts wrong."""
    axes = tuple((axis, ("One", "Two", "Three")) for axis in book.axes)
    made = ready(book, Shape(axes, words_for("cm", "EUR", "")))
    ledgers = [part for page in plan(made, {})[0] for part in page.parts if isinstance(part, PlacedLedger)]
    pairs = 0
    for part in ledgers:
        for _, line in part.lines:
            placed = list(zip(line.entries, part.columns[len(line.words) :], strict=False))
            for (entry, span), (other, beside) in pairwise(placed):
                if entry.family and entry.family == other.family:
                    pairs += 1
                    assert span == (beside[0] - 1, beside[0] - 1), entry.name
    assert pairs
