"""Actions: what a person can do to a file: type, clear, overwrite a formula, drop a column, open a lock."""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from sheetgen.declare.blocks import read_by
from sheetgen.declare.entry import REF, Place, place_of
from sheetgen.declare.formula import ROW, compiled, read_formula
from sheetgen.declare.kinds import Picture, Value
from sheetgen.errors import UserError
from sheetgen.testing.package import Package
from sheetgen.testing.retouching import AFTERWARDS, ON_THE_SHEET
from sheetgen.workbook.model.engine import cell_value
from sheetgen.workbook.model.geometry import Cell, TablePlace, name_of
from sheetgen.workbook.model.packing import RECORD_SHEET
from sheetgen.workbook.read.found import Returned


@dataclass(frozen=True)
class Edit:
    """One change: where, what is done, and with which value. `ACTIONS` lists what can be done."""

    place: str
    action: str = "type"
    value: Any = None


@dataclass(frozen=True)
class Desk:
    """What an action works on: where things are, and the package that is changed."""

    got: Returned
    package: Package

    def cell(self, place: Place) -> Cell:
        """Where a place stands, a row's ref too; KeyError if it is nowhere."""
        cell = self.got.where.at(place)
        table = self.got.where.tables.get(place.entry.rpartition(".")[0])
        if cell is None and table is not None and place.row in table.rows and place.entry.endswith(f".{REF}"):
            return Cell(table.sheet, table.rows[place.row], table.ref_column)
        if cell is None:
            raise KeyError(f"{place} is not in {self.got.path.name}")
        return cell

    def put(self, cell: Cell, value: Value, formula: str = "") -> None:
        """Write a value or a formula into a cell."""
        self.package.sheet(cell.sheet).set(cell.row, cell.column, value, formula)

    def look_like_a_day(self, cell: Cell) -> None:
        """Give a cell the look of a date's cell, as programs do when they take what was typed for a day."""
        entries = self.got.ready.book.entries
        days = [address for address, column in entries.items() if column.entry.kind.name == "date"]
        other = next(one for address in days for _, one in self.got.where.places(address))
        style = self.package.sheet(other.sheet).style(other.row, other.column)
        self.package.sheet(cell.sheet).set_style(cell.row, cell.column, style)

    def table(self, address: str) -> TablePlace:
        """Where a table stands."""
        return self.got.where.tables[address]

    def value(self, place: Place) -> Value:
        """What a place holds or shows."""
        return self.got.typed.get(place, self.got.shown.get(place))

    def title(self, sheet: str) -> str:
        """A sheet's title in this file."""
        return self.got.where.titles[sheet]

    def spare_row(self, address: str) -> tuple[str, int]:
        """Ref and row of a table's first row in which nobody has typed anything."""
        used = {place.row for place in self.got.typed if place.entry.rpartition(".")[0] == address}
        return next((ref, row) for ref, row in self.table(address).rows.items() if ref not in used)


def _type(desk: Desk, edit: Edit) -> None:
    """A value typed into a cell; none clears it."""
    if isinstance(edit.value, Picture):
        raise UserError(f"{edit.place}: a picture cannot be typed in")
    place = place_of(edit.place)
    desk.put(desk.cell(place), edit.value)
    if isinstance(edit.value, datetime.date) and desk.got.ready.book.entries[place.entry].entry.kind.name != "date":
        desk.look_like_a_day(desk.cell(place))


def _times(desk: Desk, edit: Edit) -> None:
    """What stands there, multiplied."""
    held = desk.value(place_of(edit.place))
    if not isinstance(held, int | float):
        raise KeyError(f"{edit.place} holds no number")
    desk.put(desk.cell(place_of(edit.place)), held * edit.value)


def _formula(desk: Desk, edit: Edit) -> None:
    """Another formula, given by names."""
    place = place_of(edit.place)
    column = desk.got.ready.book.entries[place.entry]
    changed = column._replace(entry=replace(column.entry, formula=str(edit.value)))
    cell = desk.cell(place)
    text = compiled(read_formula(desk.got.ready.book, changed), desk.got.where, cell.sheet)
    if text is None:
        raise KeyError(f"{edit.value} cannot be written in {edit.place}")
    desk.put(cell, None, text.replace(ROW, str(cell.row)))


def _fill_down(desk: Desk, edit: Edit) -> None:
    """One value in every row of a column that holds something, from the row that is named on."""
    start = place_of(edit.place)
    begun = not start.row
    for place, cell in desk.got.where.places(start.entry):
        begun = begun or place == start
        if begun and desk.value(place) not in (None, ""):
            desk.put(cell, edit.value)


def _copy_from(desk: Desk, edit: Edit) -> None:
    """What another column of the same table shows, pasted into every row of this one that holds something; or so much more."""
    column, more = edit.value if isinstance(edit.value, tuple) else (edit.value, 0)
    for place, cell in desk.got.where.places(edit.place):
        if desk.value(place) not in (None, ""):
            shown = desk.value(Place(str(column), place.row))
            desk.put(cell, shown + more if more and isinstance(shown, int | float) else shown)


def _clear_row(desk: Desk, edit: Edit) -> None:
    """All cells of a row emptied, its ref too."""
    place = place_of(edit.place)
    table = desk.table(place.entry.rpartition(".")[0])
    for column in (table.ref_column, *table.columns.values()):
        desk.put(Cell(table.sheet, table.rows[place.row], column), None)


def _add_row(desk: Desk, edit: Edit) -> None:
    """Values typed into a table's first spare row."""
    table, (_, row) = desk.table(edit.place), desk.spare_row(edit.place)
    for name, value in dict(edit.value).items():
        desk.put(Cell(table.sheet, row, table.columns[name]), value)


def _add_nameless_row(desk: Desk, edit: Edit) -> None:
    """The same, the row's ref gone: as a row that somebody put in."""
    _add_row(desk, edit)
    table, (_, row) = desk.table(edit.place), desk.spare_row(edit.place)
    desk.put(Cell(table.sheet, row, table.ref_column), None)


def _double_row(desk: Desk, edit: Edit) -> None:
    """A row copied over the first spare one, its ref with it."""
    place = place_of(edit.place)
    address = place.entry.rpartition(".")[0]
    table, (_, spare) = desk.table(address), desk.spare_row(address)
    part = desk.package.sheet(table.sheet)
    for column in (table.ref_column, *table.columns.values()):
        if "<f>" not in part.inner(table.rows[place.row], column):
            part.copy(table.rows[place.row], column, spare)


def _drop_column(desk: Desk, edit: Edit) -> None:
    """A column emptied, heading and name too; formulas that read it read #REF!, as programs leave them."""
    places = list(desk.got.where.places(edit.place))
    for _, cell in places:
        desk.put(cell, None)
    table = desk.table(edit.place.rpartition(".")[0])
    desk.put(Cell(table.sheet, table.first - 1, places[0][1].column), None)
    desk.package.drop_name(name_of(edit.place))
    for address, formula in desk.got.ready.formulas.items():
        if edit.place in {read.address for read in read_by(desk.got.ready.book, formula)}:
            for _, cell in desk.got.where.places(address):
                desk.put(cell, None, "#REF!")


def _drop_sheet(desk: Desk, edit: Edit) -> None:
    desk.package.drop_sheet(desk.title(edit.place))


def _hide_sheet(desk: Desk, edit: Edit) -> None:
    desk.package.hide(desk.title(edit.place))


def _unlock(desk: Desk, edit: Edit) -> None:
    """A sheet's protection taken off."""
    desk.package.change(desk.title(edit.place), r"<sheetProtection[^>]*/>", "")


def _add_sheet(desk: Desk, edit: Edit) -> None:
    desk.package.add_sheet(edit.place, str(edit.value))


def _stray(desk: Desk, edit: Edit) -> None:
    """A word to the right of a table's row or of a field, where nothing belongs."""
    place = place_of(edit.place)
    if place.row:
        table = desk.table(place.entry.rpartition(".")[0])
        desk.put(Cell(table.sheet, table.rows[place.row], max(table.columns.values()) + 2), edit.value)
        return
    cell = desk.cell(place)
    used = max(column for _, cells in desk.package.sheet(cell.sheet).rows.values() for column in cells)
    desk.put(cell._replace(column=used + 1), edit.value)


def _drop_picture(desk: Desk, edit: Edit) -> None:
    cell = desk.cell(place_of(edit.place))
    if not desk.package.drop_picture(cell.sheet, cell.row, cell.column):
        raise KeyError(f"{edit.place} holds no picture")
    desk.put(cell, None)


def _record(desk: Desk, edit: Edit) -> None:
    """Words in the copy's hidden record replaced: from -> to."""
    part = desk.package.sheet(RECORD_SHEET)
    lines = list(_record_lines(desk, dict(edit.value)))
    before = max(part.rows) - 1
    for row, line in enumerate(
        [*lines, *[""] * (before - len(lines))], 2
    ):  # a shorter record leaves no line of the longer one
        part.set(row, 1, line)


def _record_lines(desk: Desk, words: Mapping[str, str]) -> Iterable[str]:
    text = json.dumps(desk.got.record, ensure_ascii=False)
    for old, new in words.items():
        text = text.replace(old, new)
    text = json.dumps(json.loads(text), ensure_ascii=True)
    return (text[start : start + 5000] for start in range(0, len(text), 5000))


def _shows(desk: Desk, edit: Edit) -> None:
    """Another stored value under an untouched formula, as an old program leaves behind."""
    cell = desk.cell(place_of(edit.place))
    cells = desk.package.sheet(cell.sheet).rows[cell.row][1]
    held, count = re.subn(r"<v>.*?</v>", f"<v>{cell_value(edit.value)}</v>", cells[cell.column])
    if count != 1:
        raise KeyError(f"{edit.place} shows no value")
    cells[cell.column] = held


def _no_values(desk: Desk, edit: Edit) -> None:  # noqa: ARG001 - all actions have one form
    """As saved by a program that stores formulas without their values."""
    for title in desk.package.titles():
        for _, cells in desk.package.sheet(title).rows.values():
            for column, cell in cells.items():
                if "<f>" in cell:
                    cells[column] = re.sub(r"<v>.*?</v>|<v/>", "", cell, flags=re.DOTALL)


def _part(name: str, content: bytes) -> Callable[[Desk, Edit], None]:
    def action(desk: Desk, _: Edit) -> None:
        desk.package.add(name, content)

    return action


ACTIONS: dict[str, Callable[[Desk, Edit], None]] = {
    "type": _type, "times": _times, "formula": _formula, "fill-down": _fill_down, "copy-from": _copy_from,
    "clear-row": _clear_row, "add-row": _add_row, "add-nameless-row": _add_nameless_row, "double-row": _double_row,
    "drop-column": _drop_column, "drop-sheet": _drop_sheet, "hide-sheet": _hide_sheet, "add-sheet": _add_sheet,
    "unlock": _unlock, "stray": _stray, "drop-picture": _drop_picture, "record": _record,
    "shows": _shows, "no-values": _no_values,
    **ON_THE_SHEET,
    "add-macro": _part("xl/vbaProject.bin", b"not a real macro"),
    "add-link": _part("xl/externalLinks/externalLink1.xml", b"<externalLink/>"),
    "add-object": _part("xl/embeddings/oleObject1.bin", b"not a real object"),
}  # fmt: skip
AFTER = frozenset({"shows", "no-values", "add-macro", "add-link", "add-object"}) | AFTERWARDS
"""Done to the finished file: calculating would undo them or refuse the file."""
