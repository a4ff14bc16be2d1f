"""All that a rule may see of a file: what was sent, what came back, what follows from it, and what can be trusted."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from sheetgen.audit.recalculating import answers_given
from sheetgen.declare.blocks import read_by
from sheetgen.declare.entry import REF, Entry, Place
from sheetgen.declare.formula import Reference
from sheetgen.declare.judgment import USUAL, Limits
from sheetgen.declare.kinds import PictureMark, Value
from sheetgen.declare.parts import Column
from sheetgen.workbook.exchange.receipts import Receipt
from sheetgen.workbook.model.compare import same
from sheetgen.workbook.model.engine import Calculator
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.found import Returned

_Rows = dict[str, set[str | None]]
"""Entries with some of their rows; None in the set means all of them."""


@dataclass(frozen=True, repr=False)  # in words it would be whole books: gigabytes in a failing test
class Case:
    """What was sent, what came back, what follows from it, and what for.

    `follows` is what the file's own cells give; `meant` is what they give once the brand's values and formulas are put
    back: what the answers mean for what was asked. Rules about the garment and the offer look at `meant`, so that a
    changed locked cell is one finding and not many.
    `shown_when_sent` says what the sheets showed then; few rules ask.
    `own` is the designer's working file: nothing was sent. `wanted` is the receipt that the file is held against;
    `later` is the id of a later issue of the same style to the same vendor.
    """

    sent: Mapping[Place, Value | PictureMark]
    got: Returned
    follows: Values
    meant: Values
    stage: int
    own: bool
    shown_when_sent: Callable[[], Values]
    expected_formulas: tuple[tuple[Place, Cell, str], ...]
    intact: frozenset[Place]
    """Where the formula that stands there is the declared one, but for what other programs write otherwise."""
    calculator: Calculator
    wanted: Receipt | None = None
    later: str = ""
    last_issue: Callable[[], Receipt | None] = lambda: None
    """Of a working workbook: finds the receipt beside it of its newest issue as the same revision to the same vendor."""
    limits: Limits = USUAL
    """By which rules judge: the brand's where its brand file sets some."""
    record_altered: bool = False
    """Whether the copy's hidden record is another one than its receipt says."""

    @cached_property
    def answers_by_formula(self) -> Values:
        """What the formulas give that the vendor typed as answers."""
        return answers_given(self.got, self.expected_formulas, self.calculator)

    @cached_property
    def _places(self) -> dict[Cell, Place]:
        return {cell: place for address in self.book_entries for place, cell in self.got.where.places(address)}

    def place_of_cell(self, cell: Cell) -> Place | None:
        """The entry that a cell of this file belongs to."""
        return self._places.get(cell)

    def frame_at(self, cell: Cell) -> Place | None:
        """The frame for a picture that a cell lies in: the last one of its row that begins before it."""
        frames = [
            (at.column, place) for at, place in self._places.items()
            if at[:2] == cell[:2] and at.column <= cell.column and self.entry(place).kind.name == "picture"
        ]  # fmt: skip
        return max(frames)[1] if frames else None

    @cached_property
    def sent_follows(self) -> Values:
        """What the sheets showed when they were sent."""
        return self.shown_when_sent()

    @property
    def book_entries(self) -> dict[str, Column]:
        """Every entry of the book by its address."""
        return self.got.ready.book.entries

    def entry(self, place: Place) -> Entry:
        """The declaration of a place."""
        return self.book_entries[place.entry].entry

    def value(self, address: str, row: str = "") -> Value:
        """What stands in a place as it was meant: what was asked, what was answered, or what follows from both."""
        place = Place(address, row)
        column = self.book_entries.get(address)
        if column is not None and self.is_locked(column.entry) and not self.is_new_row(place):
            sent = self.sent.get(place)
            return None if isinstance(sent, PictureMark) else sent
        if column is not None and column.entry.who == "computed":
            return self.meant.get(place)
        return self.got.typed.get(place)

    def number(self, address: str, row: str = "") -> float | None:
        """The same as a number, None if it is none or cannot be trusted."""
        if self.is_doubtful(Place(address, row)):
            return None
        value = self.value(address, row)
        return float(value) if isinstance(value, int | float) else None

    def day(self, address: str, row: str = "") -> datetime.date | None:
        """The same as a day, None if it is none or cannot be trusted."""
        value = self.value(address, row)
        return value if isinstance(value, datetime.date) and not self.is_doubtful(Place(address, row)) else None

    def rows(self, table: str) -> list[str]:
        """Refs of the rows whose key is filled."""
        where = self.got.where.tables.get(table)
        if where is None:
            return []
        key = f"{table}.{self.got.ready.book.tables[table][1].key}"
        return [ref for ref in where.rows if self.value(key, ref) not in (None, "")]

    def fills(self, entry: Entry) -> bool:
        """Whether the person who returns this file fills that entry."""
        return entry.who == "vendor" or (self.own and entry.who == "designer")

    def typed_by_filler(self) -> Iterator[tuple[Place, Entry, Value]]:
        """Every value that the person who returns this file typed where they should."""
        for place, value in self.got.typed.items():
            entry = self.entry(place)
            if self.fills(entry):
                yield place, entry, value

    def is_new_row(self, place: Place) -> bool:
        """Whether the place stands in a row in which nothing was sent, of a table whose rows are the brand's."""
        table = place.entry.rpartition(".")[0]
        if self.own or self.wanted is None or not place.row or table not in self._brand_tables:
            return False
        return (table, place.row) not in self._sent_rows

    @cached_property
    def _brand_tables(self) -> set[str]:
        tables = self.got.ready.book.tables
        keys = {address: f"{address}.{table.key}" for address, (_, table) in tables.items()}
        return {
            address
            for address, key in keys.items()
            if key in self.book_entries and self.entry(Place(key)).who != "vendor"
        }

    @cached_property
    def _sent_rows(self) -> set[tuple[str, str]]:
        rows = {(place.entry.rpartition(".")[0], place.row) for place in self.sent if place.row}
        for address, (_, table) in self.got.ready.book.tables.items():
            if table.mirrors:
                rows |= {(address, row) for source, row in rows if source == table.mirrors}
        return rows

    def is_locked(self, entry: Entry) -> bool:
        """Whether the brand's value in this entry was sent, and is not the vendor's to change."""
        return self.wanted is not None and not self.own and entry.who in {"designer", "fixed"}

    def is_locked_change(self, place: Place) -> bool:
        """Whether a value that the brand sent, or left blank, is another one now; rows that were put in do not count."""
        column = self.book_entries.get(place.entry)
        if column is None or not self.is_locked(column.entry) or self.got.where.at(place) is None:
            return False
        if self.got.loaded.typed_only and column.entry.kind.name == "picture":
            return False  # the format is not read for pictures
        return not self.is_new_row(place) and not same(self.sent.get(place), self.got.typed.get(place))

    def is_tainted(self, place: Place) -> bool:
        """Whether a value of the wrong kind, an error or something lost flows into a place: what it shows proves nothing."""
        return _holds(self._tainted, place)

    def is_doubtful(self, place: Place) -> bool:
        """Whether something wrong that the vendor typed, or something lost, flows into a place: that comes first."""
        return _holds(self._doubtful, place)

    def _stands(self, address: str) -> bool:
        return self.got.where.cell(address) is not None or self.got.where.column(address) is not None

    @cached_property
    def _tainted(self) -> _Rows:
        seeds = self._lost
        for place, value in self.got.typed.items():
            kind = self.entry(place).kind
            if isinstance(value, str) and (kind.is_number or kind.name == "date"):
                seeds.setdefault(place.entry, set()).add(place.row)
        return self._flowing(seeds)

    @property
    def _lost(self) -> _Rows:
        return {
            address: {None} for address in self.got.ready.formulas
            if any(not self._stands(read.address) for read in self._reads[address])
        }  # fmt: skip

    @cached_property
    def _reads(self) -> dict[str, tuple[Reference, ...]]:
        """What the formula of each computed entry reads."""
        book = self.got.ready.book
        return {address: tuple(read_by(book, formula)) for address, formula in self.got.ready.formulas.items()}

    @cached_property
    def _doubtful(self) -> _Rows:
        seeds = self._lost
        for place, entry, value in self.typed_by_filler():
            if entry.kind.wrong(value) is not None:
                seeds.setdefault(place.entry, set()).add(place.row)
        return self._flowing(seeds)

    def _flowing(self, tainted: _Rows) -> _Rows:
        """The seeds and every formula that reads them, row by row where it reads its own row."""
        done: set[str] = set()

        def visit(address: str) -> None:
            if address in done or address not in self._reads:
                return
            done.add(address)
            rows = tainted.get(address, set())
            for reference in self._reads[address]:
                visit(reference.address)
                other = tainted.get(reference.address)
                if other:
                    rows |= other if reference.sort == "row" else {None}
            if rows:
                tainted[address] = rows

        for address in self.got.ready.formulas:
            visit(address)
        return tainted

    def cell(self, place: Place) -> Cell | None:
        """Where a place stands in the file that came back; a row's ref stands in front of it."""
        at = self.got.where.at(place)
        table, _, name = place.entry.rpartition(".")
        where = self.got.where.tables.get(table)
        if at is None and name == REF and where is not None and place.row in where.rows:
            return Cell(where.sheet, where.rows[place.row], where.ref_column)
        return at


def _holds(rows_of: _Rows, place: Place) -> bool:
    rows = rows_of.get(place.entry)
    return rows is not None and (None in rows or place.row in rows)
