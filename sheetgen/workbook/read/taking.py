"""Taking: what people typed, formulas and pictures, from the cells where they were found."""

from __future__ import annotations

import datetime
from typing import Any

from sheetgen.declare.entry import Entry, Place
from sheetgen.declare.kinds import DAY_ZERO, Kind, Picture, Value
from sheetgen.trade.lengths import parse_length
from sheetgen.workbook.model.engine import PICTURE_WORD, day_number
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.read.found import Returned


class Taker:
    """Takes typed values, formulas, what they show, and pictures."""

    def __init__(self, found: Returned) -> None:
        self.found, self.loaded = found, found.loaded
        self.pictures: dict[Cell, Picture] = {
            Cell(sheet.title, *at): picture for sheet in self.loaded.sheets.values() for at, picture in sheet.pictures
        }

    def take(self) -> None:
        """Fill in the values, formulas, what formulas show, and unlocked sheets."""
        found = self.found
        for address, column in found.ready.book.entries.items():
            for place, cell in found.where.places(address):
                found.used[cell.sheet].add((cell.row, cell.column))
                self._take(place, cell, column.entry)
        for table in found.where.tables.values():
            found.used[table.sheet].update((row, table.ref_column) for row in table.rows.values())
        for title in set(found.where.titles.values()):
            if not self.loaded.sheets[title].is_protected:
                found.unlocked.append(title)

    def _take(self, place: Place, cell: Cell, entry: Entry) -> None:
        held = self.loaded.sheets[cell.sheet].at(cell.row, cell.column)
        if entry.kind.name == "picture":
            if entry.who == "drawn":
                return
            if cell in self.pictures:
                self.found.typed[place] = self.pictures[cell]
            elif held.value not in (None, "", PICTURE_WORD):
                self.found.typed[place] = str(held.value)
            return
        if held.value is None or held.value == "" or (self.loaded.typed_only and entry.who == "computed"):
            return
        if held.formula is None:
            self.found.typed[place] = from_cell(entry.kind, held.value)
            return
        self.found.formulas[place] = held.formula
        if held.shown is not None and held.shown != "":
            self.found.shown[place] = _as_shown(held.shown)
            if entry.who != "computed":
                # A formula that somebody typed where a value belongs counts as the value that it shows.
                self.found.typed[place] = from_cell(entry.kind, self.found.shown[place])


def _as_shown(value: Any) -> Value:
    """A stored result as the engine gives it: days as numbers, yes and no as 1 and 0."""
    if isinstance(value, datetime.date):
        return day_number(value)
    if isinstance(value, bool):
        return 1 if value else 0
    return value if isinstance(value, int | float | str) else str(value)


def from_cell(kind: Kind, value: Any) -> Value:
    """A cell's content as the kind's value where it plainly is one; else as it stands, for the audit to judge."""
    if isinstance(value, datetime.datetime):
        return value.date()
    if isinstance(value, datetime.time | datetime.timedelta):
        return str(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if kind.name == "date" and isinstance(value, int | float) and 20000 < value < 80000:
        return DAY_ZERO + datetime.timedelta(days=int(value))
    if isinstance(value, str):
        # So the file format writes the carriage return that some programs paste.
        return value.replace("_x000D_\n", "\n").replace("_x000D_", "\n")
    return value if isinstance(value, int | float | datetime.date) else str(value)


def as_length(value: Value, unit: str) -> float | None:
    """A length that was typed as text (`12 3/8`) as a number in the style's unit; None if it is none."""
    return parse_length(value, unit) if isinstance(value, str) else None
