"""What a rule is, and all that it may see. A rule yields facts; its words stand above it, once."""

from __future__ import annotations

import string
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Literal, NamedTuple

from sheetgen.declare.kinds import Value
from sheetgen.declare.parts import Column, Entry, Place
from sheetgen.workbook.geometry import Cell
from sheetgen.workbook.issue import PictureMark
from sheetgen.workbook.read import Returned, is_error
from sheetgen.workbook.values import Values

Level = Literal["fix", "query", "note"]
Owner = Literal["vendor", "designer"]
LEVELS: tuple[Level, ...] = ("fix", "query", "note")


class Fault(NamedTuple):
    """A fact that a rule found: where (a place, or a sheet and cell), what was expected, what stands there."""

    place: Place | None
    expected: str = ""
    found: str = ""
    sheet: str = ""
    cell: str = ""
    owner: Owner | None = None


@dataclass(frozen=True)
class Example:
    """A case of a rule: changes made to a filled vendor copy, and all that the audit then says of it."""

    says: str
    changes: Mapping[str, object] = field(default_factory=dict)
    finds: tuple[str, ...] = ()


@dataclass(frozen=True)
class Rule:
    """A rule with its words. Holes in `message` and `fix`: sheet, cell, row, heading, expected, found, line."""

    name: str
    title: str
    level: Level
    source: str
    message: str
    why: str
    fix: str
    check: Callable[[Case], Iterator[Fault]]
    bad: tuple[Example, ...]
    fine: tuple[Example, ...]
    owner: Owner = "vendor"


_HOLES = {"sheet", "cell", "row", "heading", "expected", "found", "line"}


def rule(
    *, title: str, level: Level, source: str, message: str, why: str, fix: str,
    bad: tuple[Example, ...], fine: tuple[Example, ...], owner: Owner = "vendor",
) -> Callable[[Callable[[Case], Iterator[Fault]]], Rule]:  # fmt: skip
    """Make a rule of a generator of faults; its name is the function's with hyphens. ValueError on an unknown hole."""

    def made(check: Callable[[Case], Iterator[Fault]]) -> Rule:
        name = check.__name__.replace("_", "-")
        for text in (message, fix):
            unknown = {part[1] for part in string.Formatter().parse(text) if part[1]} - _HOLES
            if unknown:
                raise ValueError(f"{name}: no hole is called {unknown}")
        if not bad or not fine:
            raise ValueError(f"{name}: needs an example that fails and one that passes")
        return Rule(name, title, level, source, message, why, fix, check, bad, fine, owner)

    return made


@dataclass(frozen=True)
class Finding:
    """What the audit says: rule, level, whose turn, where, and in words what is wrong, why it matters, what to do."""

    rule: str
    level: Level
    owner: Owner
    sheet: str
    cell: str
    row: str
    column: str
    expected: str
    found: str
    message: str
    why: str
    action: str
    place: str = ""

    @property
    def short(self) -> str:
        """Rule and place in one line: how tests compare findings."""
        return f"{self.rule} {self.place or (self.sheet + (' ' + self.cell if self.cell else ''))}".strip()


@dataclass(frozen=True)
class Case:
    """All that a rule may see: what was sent, what came back, what follows from it, and what for."""

    sent: Mapping[Place, Value | PictureMark]
    got: Returned
    follows: Values
    stage: int
    own: bool
    sent_follows: Values
    expected_formulas: tuple[tuple[Place, Cell, str], ...]
    sent_id: str = ""
    sent_style: str = ""

    @property
    def book_entries(self) -> dict[str, Column]:
        """Every entry of the book by its address."""
        return self.got.ready.book.entries

    def entry(self, place: Place) -> Entry:
        """The declaration of a place."""
        return self.book_entries[place.entry].entry

    def value(self, address: str, row: str = "") -> Value:
        """What stands in a place now: typed, or what follows from what was typed."""
        place = Place(address, row)
        return self.got.typed[place] if place in self.got.typed else self.follows.get(place)

    def number(self, address: str, row: str = "") -> float | None:
        """The same as a number, None if it is none or cannot be trusted."""
        if self.is_tainted(Place(address, row)):
            return None
        value = self.value(address, row)
        return float(value) if isinstance(value, int | float) else None

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

    def is_tainted(self, place: Place) -> bool:
        """Whether a value of the wrong kind stands in the place or flows into it: what is shown there proves nothing."""
        rows = self._tainted.get(place.entry)
        return rows is not None and (None in rows or place.row in rows)

    @cached_property
    def _tainted(self) -> dict[str, set[str | None]]:
        """Entries with the rows that are tainted; None in the set means all of them."""
        tainted: dict[str, set[str | None]] = {}
        for place, value in self.got.typed.items():
            kind = self.entry(place).kind
            if (kind.is_number or kind.name == "date") and isinstance(value, str):
                tainted.setdefault(place.entry, set()).add(place.row)
        for place, value in self.got.shown.items():
            if place.entry not in self.got.ready.formulas and is_error(value):
                tainted.setdefault(place.entry, set()).add(place.row)
        done: set[str] = set()

        def visit(address: str) -> None:
            if address in done:
                return
            done.add(address)
            formula = self.got.ready.formulas.get(address)
            if formula is None:
                return
            rows = tainted.get(address, set())
            for reference in (*formula.references, *formula.waits_for):
                if reference is None:
                    continue
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
        """Where a place stands in the file that came back."""
        return self.got.where.at(place)
