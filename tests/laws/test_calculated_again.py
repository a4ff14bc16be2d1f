"""A law: what is calculated again for other cells is what a calculation from the start gives for them."""

import random
from functools import cache
from types import SimpleNamespace

import pytest

from sheetgen.declare.kinds import Picture
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.workbook.model.engine import Calculator, recalculate
from sheetgen.workbook.model.geometry import Cell, formula_texts
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.values import fixed_values, ready, shape_of
from tests.loop import SAMPLES

WORDS = (None, "", "a word", 0, 1, -3.5, 1e9, 0.1, 46000, "M", "yes")

ODD = (
    "={own}*1.1",
    "=SUM({own})",
    "=SUM(1;2)",
    "=1+",
    "=",
    "=1/0",
    "=Nowhere!A1",
    "=" + "(" * 100,
    "=" + "+".join(["1"] * 600),
    "{text}+1",
)
"""Formulas as people type them: that read themselves, that cannot be read, that nothing stands behind, and sound ones."""


@cache
def overshirt():
    """The titles, typed cells and formulas of a whole sample book."""
    values = load_style(BOOK, SAMPLES / "overshirt" / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))
    book = ready(BOOK, shape_of(BOOK, values))
    values = {**values, **fixed_values(book)}
    where = plan(book, values)[1]
    constants = {
        at: value for place, value in values.items() if (at := where.at(place)) and not isinstance(value, Picture)
    }
    for table in where.tables.values():
        constants |= {Cell(table.sheet, row, table.ref_column): ref for ref, row in table.rows.items()}
    return tuple(where.titles.values()), constants, tuple(formula_texts(book, where))


def edited(chance, constants, formulas):
    """Some typed cells with something else in them, some formulas typed over, some rows' words where nothing stood."""
    other = dict(constants)
    for at in chance.sample(list(constants), chance.randint(1, 25)):
        other[at] = chance.choice(WORDS)
    over = {one[1] for one in chance.sample(formulas, chance.randint(0, 8))}
    other |= {at: chance.choice(WORDS) for at in over}  # some are gone and nothing stands in their place
    free = [Cell(at.sheet, at.row + 1, at.column) for at in chance.sample(list(constants), 3)]
    other |= {at: chance.choice(WORDS) for at in free if at not in constants and all(at != one[1] for one in formulas)}
    left = [one for one in formulas if one[1] not in over]
    for number in chance.sample(range(len(left)), 2):
        place, at, text = left[number]
        left[number] = (place, at, chance.choice(ODD).format(own=at.address, text=text))
    return other, tuple(left)


@pytest.mark.parametrize("seed", range(4))
def test_calculated_again_is_calculated_anew(seed):
    titles, constants, formulas = overshirt()
    chance = random.Random(seed)
    calculator = Calculator(titles)
    first = calculator.given(constants.items(), formulas)
    for _ in range(3):
        other, left = edited(chance, constants, formulas)
        again, anew = calculator.given(other.items(), left), recalculate(titles, other.items(), left)
        assert again == anew
        assert again != first
    assert calculator.given(constants.items(), formulas) == first


class Watched:
    """A sheet of the engine that notes what is put into it."""

    def __init__(self, sheet, put):
        self.sheet, self.put = sheet, put

    def __getattr__(self, name):
        if name.startswith("set_"):
            self.put.append(name)
        return getattr(self.sheet, name)


def test_only_cells_that_hold_something_else_are_put_in():
    put = []

    class Noting(Calculator):
        def _hold(self, title, cells, *, is_first):
            book, self._book = self._book, SimpleNamespace(sheet=lambda title: Watched(book.sheet(title), put))
            super()._hold(title, cells, is_first=is_first)
            self._book = book

    one, other, total = Cell("A", 1, 1), Cell("A", 2, 1), [("sum", Cell("A", 3, 1), "=A1+A2")]
    calculator = Noting(["A"])
    assert calculator.given([(one, 1), (other, 2)], total) == {"sum": 3}
    for constants, given, calls in (
        ([(one, 1), (other, 5)], 6, ["set_values_batch"]),
        ([(one, 1), (other, 5)], 6, []),
        ([(one, 1)], 1, ["set_values_batch"]),
    ):
        put.clear()
        assert calculator.given(constants, total) == {"sum": given}
        assert put == calls
    put.clear()
    assert calculator.given([(one, 1)], [("sum", Cell("A", 3, 1), "=A1*7")]) == {"sum": 7}
    assert put == ["set_formula"]


def test_a_cell_on_a_sheet_that_was_not_named_and_one_that_was_empty_count_too():
    here, formulas = Cell("A", 1, 1), [("sum", Cell("A", 2, 1), "=A1+N(Elsewhere!A1)")]
    calculator = Calculator(["A"])
    assert calculator.given([(here, 1)], [("sum", Cell("A", 2, 1), "=A1+1")]) == {"sum": 2}
    assert calculator.given([(here, 1), (Cell("Elsewhere", 1, 1), 5)], formulas) == {"sum": 6}
    there = [*formulas, ("more", Cell("Elsewhere", 2, 1), "=A1*10")]
    assert calculator.given([(here, 2), (Cell("Elsewhere", 1, 1), 7)], there) == {"sum": 9, "more": 70}
    assert calculator.given([(here, 2)], formulas) == {"sum": 2}
