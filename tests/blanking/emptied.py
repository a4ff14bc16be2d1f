"""Empties the typed cells of a style one at a time, or puts something else into them, in one workbook of the engine."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache, cached_property
from importlib import import_module
from pathlib import Path
from typing import Any, NamedTuple

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, Value
from sheetgen.declare.parts import Section
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.engine import cell_value, is_error, plain_value
from sheetgen.workbook.model.geometry import Cell, formula_texts
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.values import Values, fixed_values, ready, shape_of

STYLES = ("overshirt", "sweatshirt", "jacket", "trousers", "dress", "t-shirt")
"""The samples, and three starters."""
RUBBISH: dict[str, Value] = {"emptied": None, "a word": "rubbish", "below nought": -7.5, "nought": 0, "huge": 1e14}
IN_BLANK = ("a word", "below nought", "huge")
"""What is typed into cells that a style leaves blank: samples leave each other's formulas untried."""
SAMPLES = Path(__file__).parents[2] / "sample_inputs"


@cache
def bench(style: str) -> Bench:
    """The bench of a style, made once."""
    brief = SAMPLES / style / "brief.toml"
    return Bench((api.build(brief) if brief.exists() else api.start(style)).values)


class Outcome(NamedTuple):
    """What came of one change: the cells that show an error, and those whose figure is another one: before, after."""

    place: Place
    errors: tuple[Place, ...]
    moved: Mapping[Place, tuple[Value, Value]]


class Bench:
    """A style in the engine: a cell is changed, all is calculated, and the cell is put back."""

    def __init__(self, values: Values) -> None:
        self.ready = ready(BOOK, shape_of(BOOK, values))
        self.values = {**values, **fixed_values(self.ready)}
        _, self.where = plan(self.ready, self.values)
        self.book: Any = import_module("formualizer").Workbook()
        for title in self.where.titles.values():
            self.book.add_sheet(title)
        for place, value in self.values.items():
            if (cell := self.where.at(place)) is not None:
                self._set(cell, value)
        for table in self.where.tables.values():
            for ref, row in table.rows.items():
                self._set(Cell(table.sheet, row, table.ref_column), ref)
        self.formulas = list(formula_texts(self.ready, self.where))
        for _, cell, text in self.formulas:
            self.book.set_formula(cell.sheet, cell.row, cell.column, text)
        self.before = self.shown()

    def _set(self, cell: Cell, value: Value) -> None:
        self.book.set_value(cell.sheet, cell.row, cell.column, cell_value(value))

    def shown(self) -> Values:
        """What every formula gives now."""
        self.book.evaluate_all()
        return {
            place: plain_value(self.book.get_value(cell.sheet, cell.row, cell.column))
            for place, cell, _ in self.formulas
        }

    @cached_property
    def steps(self) -> frozenset[str]:
        """Columns of sections that no page shows."""
        return frozenset(
            f"{address}.{entry.name}"
            for address, (_, table) in self.ready.book.tables.items()
            for section in table.columns
            if isinstance(section, Section) and not section.printed
            for entry in section.columns
        )

    def inputs(self) -> Iterator[Place]:
        """Every cell in which somebody typed something."""
        for place, value in self.values.items():
            column = self.ready.book.entries.get(place.entry)
            if column is not None and column.entry.who in {"designer", "vendor"} and not isinstance(value, Picture):
                yield place

    def not_filled(self) -> Iterator[Place]:
        """A cell of every entry that is left blank: of a field, and of each table's first row in which something stands."""
        typed = {(place.entry.rpartition(".")[0], place.row) for place in self.values}
        for entry, column in self.ready.book.entries.items():
            if column.entry.who not in {"designer", "vendor"} or column.entry.kind.name == "picture":
                continue
            address = entry.rpartition(".")[0]
            table = self.where.tables.get(address)
            place = Place(entry, next((ref for ref in table.rows if (address, ref) in typed), "") if table else "")
            if self.values.get(place) is None and self.where.at(place) is not None:
                yield place

    def tried(self, place: Place, value: Value) -> Outcome:
        """What the sheets show with this value there (None: emptied)."""
        cell = self.where.at(place)
        assert cell is not None
        self._set(cell, value)
        now = self.shown()
        self._set(cell, self.values.get(place))
        errors = tuple(at for at, one in now.items() if is_error(one) and not is_error(self.before[at]))
        moved = {at: (self.before[at], one) for at, one in now.items() if _differs(self.before[at], one)}
        return Outcome(place, errors, moved)


def in_silence(of: Bench, outcome: Outcome) -> dict[Place, tuple[Value, Value]]:
    """The figures that an emptied cell made others without a word.

    A word is: the entry declares what a blank means, a check counts more, or a sum says "at least". Counts of the Guide
    and steps in the Workings are no figures that anybody works by.
    """
    if of.ready.book.entries[outcome.place.entry].entry.blank or any(map(_told, outcome.moved.items())):
        return {}
    return {
        place: (before, after)
        for place, (before, after) in outcome.moved.items()
        if isinstance(after, int | float)
        and place.entry.partition(".")[0] not in _MACHINERY
        and place.entry not in of.steps
    }


_MACHINERY = frozenset({"checks", "guide", "workings"})
_COUNTS = ("checks.open_", "checks.wrong_")


def _told(moved: tuple[Place, tuple[Value, Value]]) -> bool:
    place, (before, after) = moved
    if isinstance(before, int | float) and isinstance(after, int | float):
        return after > before and place.entry.startswith(_COUNTS)
    return str(after or "").startswith("at least")


def _differs(before: Value, after: Value) -> bool:
    if isinstance(before, int | float) and isinstance(after, int | float):
        return abs(before - after) > 1e-9
    return (before or "") != (after or "")
