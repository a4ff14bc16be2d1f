"""Geometry: where every entry stands, planned by the builder or found in a file. The only module that knows addresses."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from sheetgen.declare.a1 import letters
from sheetgen.declare.entry import REF, Place
from sheetgen.declare.formula import ROW, compiled
from sheetgen.workbook.model.values import Ready


def column_number(name: str) -> int:
    """Column A is 1, AA is 27."""
    number = 0
    for letter in name:
        number = number * 26 + ord(letter) - 64
    return number


class Cell(NamedTuple):
    """One cell: its sheet's title, row and column counted from 1."""

    sheet: str
    row: int
    column: int

    @property
    def address(self) -> str:
        """The address as people read it: K14."""
        return f"{letters(self.column)}{self.row}"


@dataclass
class TablePlace:
    """Where a table stands: its sheet, the columns that are there, the rows by ref, and the range's first and last row."""

    sheet: str
    first: int
    last: int
    columns: dict[str, int] = field(default_factory=dict)
    rows: dict[str, int] = field(default_factory=dict)
    ref_column: int = 1


@dataclass
class Geometry:
    """Fields by address, tables by address, sheet titles by sheet name. What is missing from it is gone."""

    titles: dict[str, str] = field(default_factory=dict)
    fields: dict[str, Cell] = field(default_factory=dict)
    tables: dict[str, TablePlace] = field(default_factory=dict)

    def cell(self, address: str) -> tuple[str, int, int] | None:
        """Sheet title, row, column of a field."""
        return self.fields.get(address)

    def column(self, address: str) -> tuple[str, int, int, int] | None:
        """Sheet title, column, first and last row of a table's column (its refs under the name `ref`)."""
        table, _, name = address.rpartition(".")
        place = self.tables.get(table)
        if place is None:
            return None
        column = place.ref_column if name == REF else place.columns.get(name)
        return (column and (place.sheet, column, place.first, place.last)) or None

    def at(self, place: Place) -> Cell | None:
        """The cell of a place; None if its sheet, column or row is gone."""
        entry, ref = place
        if not ref:
            return self.fields.get(entry)
        table, _, name = entry.rpartition(".")
        found = self.tables.get(table)
        if found is None:
            return None
        row, column = found.rows.get(ref), found.columns.get(name)
        return Cell(found.sheet, row, column) if row and column else None

    def places(self, address: str) -> Iterator[tuple[Place, Cell]]:
        """All places of an entry with their cells: one for a field, one for each row of a column."""
        if address in self.fields:
            yield Place(address), self.fields[address]
            return
        table, _, name = address.rpartition(".")
        found = self.tables.get(table)
        if found is None or name not in found.columns:
            return
        column = found.columns[name]
        for ref, row in found.rows.items():
            yield Place(address, ref), Cell(found.sheet, row, column)


def formula_texts(ready: Ready, where: Geometry) -> Iterator[tuple[Place, Cell, str]]:
    """Every computed cell with the formula that belongs in it, compiled for these places.

    Entries whose formula reads something that is gone are left out.
    """
    for address, formula in ready.formulas.items():
        title = where.titles.get(formula.sheet)
        if title is None:
            continue
        text = compiled(formula, where, title)
        if text is None:
            continue
        if ROW in text:
            pieces = text.split(ROW)
            for place, cell in where.places(address):
                yield place, cell, str(cell.row).join(pieces)
        else:
            for place, cell in where.places(address):
                yield place, cell, text


def workbook_names(where: Geometry) -> dict[str, tuple[str, int, int, int, int]]:
    """A workbook name for each field and each table's column and refs -> sheet, first row, first column, last row, last column.

    The name is the address with two low lines for a dot: dots do not survive every program.
    """
    names: dict[str, tuple[str, int, int, int, int]] = {}
    for address, cell in where.fields.items():
        names[name_of(address)] = (cell.sheet, cell.row, cell.column, cell.row, cell.column)
    for table, place in where.tables.items():
        columns: Mapping[str, int] = {**place.columns, REF: place.ref_column}
        for entry, column in columns.items():
            names[name_of(f"{table}.{entry}")] = (place.sheet, place.first, column, place.last, column)
    return names


def name_of(address: str) -> str:
    """`materials.bom.price` -> `materials__bom__price`."""
    return address.replace(".", "__")
