"""Taking: what people typed, formulas and pictures from the cells where they were found, and what stands beside them."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator
from typing import Any

from sheetgen.declare.entry import Entry, Place
from sheetgen.declare.kinds import DAY_ZERO, Kind, Picture, Value
from sheetgen.texts import say
from sheetgen.trade.lengths import parse_length
from sheetgen.workbook.model.engine import PICTURE_WORD
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.read.found import Returned, Stray
from sheetgen.workbook.read.loaded import Loaded
from sheetgen.workbook.read.ownwords import own_words


class Taker:
    """Takes typed values, formulas, pictures, and what stands where nothing belongs."""

    def __init__(self, found: Returned, loaded: Loaded) -> None:
        self.found, self.loaded = found, loaded
        self.unit = dict(found.ready.shape.words)["{unit}"]
        self.used: set[Cell] = set()
        self.frames: set[Cell] = set()
        self.pictures: dict[Cell, Picture] = {
            Cell(sheet.title, *at): picture for sheet in loaded.sheets.values() for at, picture in sheet.pictures
        }

    def take(self) -> None:
        """Fill in the values, formulas, strays and unlocked sheets."""
        found = self.found
        for address, column in found.ready.book.entries.items():
            for place, cell in found.where.places(address):
                self.used.add(cell)
                self._take(place, cell, column.entry)
        self._strays()
        for title in set(found.where.titles.values()):
            if not self.loaded.sheets[title].is_protected:
                found.unlocked.append(title)

    def _take(self, place: Place, cell: Cell, entry: Entry) -> None:
        held = self.loaded.sheets[cell.sheet].at(cell.row, cell.column)
        if entry.kind.name == "picture":
            self.frames.add(cell)
            if entry.who == "drawn":
                return
            if cell in self.pictures:
                self.found.typed[place] = self.pictures[cell]
            elif held.value not in (None, "", PICTURE_WORD):
                self.found.typed[place] = str(held.value)
            return
        if held.value is None or held.value == "":
            return
        if held.formula is not None:
            self.found.formulas[place] = held.formula
        else:
            self.found.typed[place] = from_cell(entry.kind, held.value)

    def _strays(self) -> None:
        """What stands outside all parts, pictures and comments too: reported, because it is not carried over."""
        own, renamed = own_words(self.found.ready), list(self._renamed())
        refs = {
            Cell(place.sheet, row, place.ref_column)
            for place in self.found.where.tables.values()
            for row in place.rows.values()
        }
        for title in dict.fromkeys(self.found.where.titles.values()):
            for (row, column), held in self.loaded.sheets[title].cells.items():
                cell = Cell(title, row, column)
                if held.comment is not None:
                    self.found.strays.append(Stray(cell, say("comment: {comment}", comment=held.comment)))
                if cell in self.used or cell in refs or held.formula is not None:
                    continue
                text = "" if held.value is None else str(held.value).strip()
                spare_ref = re.fullmatch(r"[A-Z][1-9]\d*", text)
                ours = text in own or any(text.replace(old, new) in own for old, new in renamed)
                if text and not ours and not spare_ref:
                    self.found.strays.append(Stray(cell, text))
        sheets = set(self.found.where.titles.values())
        self.found.strays.extend(
            Stray(cell, "a picture") for cell in self.pictures if cell.sheet in sheets and cell not in self.frames
        )

    def _renamed(self) -> Iterator[tuple[str, str]]:
        """Sizes and colorways that were given another name in their own table: as headings have them, as they are now."""
        names = {name for _, members in self.found.ready.shape.axes for name in members}
        for address, place in self.found.where.tables.items():
            for entry in self.found.ready.book.tables[address][1].entries:
                if entry.heading not in names or entry.name not in place.columns:
                    continue
                held = self.loaded.sheets[place.sheet].value(place.first - 1, place.columns[entry.name])
                old = "" if held is None else str(held).strip()
                if old and old != entry.heading:
                    yield old, entry.heading


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
