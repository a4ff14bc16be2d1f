"""Edits a file as a person with a spreadsheet program would: types, clears, overwrites formulas, spoils sheets.

The demonstration and the rules' examples use it. Places are names, never addresses; afterwards all formulas are
calculated again and their values stored, as a spreadsheet program does on saving.
"""

from __future__ import annotations

import datetime
import json
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any

import formualizer

from sheetgen.declare.formula import ROW, compiled, read_formula
from sheetgen.declare.kinds import Picture, Value
from sheetgen.declare.parts import REF, Book, Place
from sheetgen.workbook.brief import read_toml
from sheetgen.workbook.engine import cell_value
from sheetgen.workbook.geometry import Cell, TablePlace, name_of
from sheetgen.workbook.package import Package
from sheetgen.workbook.read import Returned, read
from sheetgen.workbook.values import UserError
from sheetgen.workbook.writing.file import RECORD_SHEET

_PLACE = re.compile(r"(?P<table>[a-z_]+\.[a-z_0-9]+)\[(?P<row>[A-Z]+\d+)\](?:\.(?P<entry>[a-z_0-9]+))?\Z")


@dataclass(frozen=True)
class Edit:
    """One change: where, what is done, and with which value. `ACTIONS` lists what can be done."""

    place: str
    action: str = "type"
    value: Any = None


@dataclass(frozen=True)
class PlantedFault:
    """A fault to plant in a vendor's return: in words, as an edit, and the findings (rule and place) it must lead to."""

    says: str
    edit: Edit
    finds: tuple[str, ...]


def place_of(text: str) -> Place:
    """`materials.bom[M3].price` or `quote.fob` as a place."""
    match = _PLACE.match(text)
    if match is None:
        return Place(text)
    return Place(f"{match['table']}.{match['entry'] or 'ref'}", match["row"])


def edited(book: Book, source: Path, edits: Sequence[Edit], target: Path) -> None:
    """Copy `source` to `target` with the edits made and all values calculated again; KeyError on an unknown place."""
    target.write_bytes(edited_bytes(read(book, source), source.read_bytes(), edits))


def edited_bytes(got: Returned, data: bytes, edits: Sequence[Edit]) -> bytes:
    """The same for a file that was read already: `got` is what was found in `data`."""
    desk = _Desk(got, Package(data))
    now = [edit for edit in edits if edit.action not in _AFTER]
    for edit in now:
        ACTIONS[edit.action](desk, edit)
    finished = bytes(formualizer.recalculate_xlsx_bytes(desk.package.bytes())["bytes"])
    after = [edit for edit in edits if edit.action in _AFTER]
    if after:
        desk = _Desk(got, Package(finished))
        for edit in after:
            ACTIONS[edit.action](desk, edit)
        finished = desk.package.bytes()
    return finished


def typed_in(book: Book, source: Path, values: Mapping[Place, Value], target: Path) -> None:
    """Copy `source` to `target` with these values typed in and everything calculated again."""
    edited(book, source, [Edit(str(place), "type", value) for place, value in values.items()], target)


def load_faults(path: Path) -> list[PlantedFault]:
    """The planted faults of a file; UserError that names the fault and the word if one is not understood."""
    found = []
    for number, item in enumerate(read_toml(path).get("faults", []), 1):
        unknown = set(item) - {"says", "place", "action", "value", "finds"}
        action = item.get("action", "type")
        if unknown or "place" not in item or action not in ACTIONS:
            wrong = (
                f"unknown key {sorted(unknown)[0]}"
                if unknown
                else f"unknown action {action}"
                if "place" in item
                else "no place"
            )
            raise UserError(f"{path}: fault {number}: {wrong}; correct it in the file.")
        edit = Edit(item["place"], action, item.get("value"))
        found.append(PlantedFault(str(item.get("says", "")), edit, tuple(item.get("finds", ()))))
    return found


@dataclass(frozen=True)
class _Desk:
    """What an action works on: where things are, and the package that is changed."""

    got: Returned
    package: Package

    def cell(self, place: Place) -> Cell:
        cell = self.got.where.at(place)
        table = self.got.where.tables.get(place.entry.rpartition(".")[0])
        if cell is None and table is not None and place.row in table.rows and place.entry.endswith(f".{REF}"):
            return Cell(table.sheet, table.rows[place.row], table.ref_column)
        if cell is None:
            raise KeyError(f"{place} is not in {self.got.path.name}")
        return cell

    def put(self, cell: Cell, value: Value, formula: str = "") -> None:
        self.package.sheet(cell.sheet).set(cell.row, cell.column, value, formula)

    def look_like_a_day(self, cell: Cell) -> None:
        """Give a cell the look of a date's cell, as programs do when they take what was typed for a day."""
        entries = self.got.ready.book.entries
        days = (one for address, column in entries.items() if column.entry.kind.name == "date" for _, one in self.got.where.places(address))
        other = next(days)
        style = self.package.sheet(other.sheet).style(other.row, other.column)
        self.package.sheet(cell.sheet).set_style(cell.row, cell.column, style)

    def table(self, address: str) -> TablePlace:
        return self.got.where.tables[address]

    def value(self, place: Place) -> Value:
        return self.got.typed.get(place, self.got.shown.get(place))

    def title(self, sheet: str) -> str:
        return self.got.where.titles[sheet]

    def spare_row(self, address: str) -> tuple[str, int]:
        """Ref and row of a table's first row in which nobody has typed anything."""
        used = {place.row for place in self.got.typed if place.entry.rpartition(".")[0] == address}
        return next((ref, row) for ref, row in self.table(address).rows.items() if ref not in used)


def _type(desk: _Desk, edit: Edit) -> None:
    """A value typed into a cell; none clears it."""
    if isinstance(edit.value, Picture):
        raise UserError(f"{edit.place}: a picture cannot be typed in")
    place = place_of(edit.place)
    desk.put(desk.cell(place), edit.value)
    if isinstance(edit.value, datetime.date) and desk.got.ready.book.entries[place.entry].entry.kind.name != "date":
        desk.look_like_a_day(desk.cell(place))


def _times(desk: _Desk, edit: Edit) -> None:
    """What stands there, multiplied."""
    held = desk.value(place_of(edit.place))
    if not isinstance(held, int | float):
        raise KeyError(f"{edit.place} holds no number")
    desk.put(desk.cell(place_of(edit.place)), held * edit.value)


def _formula(desk: _Desk, edit: Edit) -> None:
    """Another formula, given by names."""
    place = place_of(edit.place)
    column = desk.got.ready.book.entries[place.entry]
    changed = column._replace(entry=replace(column.entry, formula=str(edit.value)))
    cell = desk.cell(place)
    text = compiled(read_formula(desk.got.ready.book, changed), desk.got.where, cell.sheet)
    if text is None:
        raise KeyError(f"{edit.value} cannot be written in {edit.place}")
    desk.put(cell, None, text.replace(ROW, str(cell.row)))


def _fill_down(desk: _Desk, edit: Edit) -> None:
    """One value in every row of a column that holds something, from the row that is named on."""
    start = place_of(edit.place)
    begun = not start.row
    for place, cell in desk.got.where.places(start.entry):
        begun = begun or place == start
        if begun and desk.value(place) not in (None, ""):
            desk.put(cell, edit.value)


def _copy_from(desk: _Desk, edit: Edit) -> None:
    """What another column of the same table shows, pasted into every row of this one that holds something."""
    for place, cell in desk.got.where.places(edit.place):
        if desk.value(place) not in (None, ""):
            desk.put(cell, desk.value(Place(str(edit.value), place.row)))


def _clear_row(desk: _Desk, edit: Edit) -> None:
    """All cells of a row emptied, its ref too."""
    place = place_of(edit.place)
    table = desk.table(place.entry.rpartition(".")[0])
    for column in (table.ref_column, *table.columns.values()):
        desk.put(Cell(table.sheet, table.rows[place.row], column), None)


def _add_row(desk: _Desk, edit: Edit) -> None:
    """Values typed into a table's first spare row."""
    table, (_, row) = desk.table(edit.place), desk.spare_row(edit.place)
    for name, value in dict(edit.value).items():
        desk.put(Cell(table.sheet, row, table.columns[name]), value)


def _add_nameless_row(desk: _Desk, edit: Edit) -> None:
    """The same, the row's ref gone: as a row that somebody put in."""
    _add_row(desk, edit)
    table, (_, row) = desk.table(edit.place), desk.spare_row(edit.place)
    desk.put(Cell(table.sheet, row, table.ref_column), None)


def _double_row(desk: _Desk, edit: Edit) -> None:
    """A row copied over the first spare one, its ref with it."""
    place = place_of(edit.place)
    address = place.entry.rpartition(".")[0]
    table, (_, spare) = desk.table(address), desk.spare_row(address)
    part = desk.package.sheet(table.sheet)
    for column in (table.ref_column, *table.columns.values()):
        if "<f>" not in part.inner(table.rows[place.row], column):
            part.copy(table.rows[place.row], column, spare)


def _drop_column(desk: _Desk, edit: Edit) -> None:
    """A column emptied, heading and name too; formulas that read it read #REF!, as programs leave them."""
    places = list(desk.got.where.places(edit.place))
    for _, cell in places:
        desk.put(cell, None)
    table = desk.table(edit.place.rpartition(".")[0])
    desk.put(Cell(table.sheet, table.first - 1, places[0][1].column), None)
    desk.package.drop_name(name_of(edit.place))
    for address, formula in desk.got.ready.formulas.items():
        if edit.place in formula.reads:
            for _, cell in desk.got.where.places(address):
                desk.put(cell, None, "#REF!")


def _drop_sheet(desk: _Desk, edit: Edit) -> None:
    desk.package.drop_sheet(desk.title(edit.place))


def _hide_sheet(desk: _Desk, edit: Edit) -> None:
    desk.package.hide(desk.title(edit.place))


def _unlock(desk: _Desk, edit: Edit) -> None:
    """A sheet's protection taken off."""
    desk.package.change(desk.title(edit.place), r"<sheetProtection[^>]*/>", "")


def _add_sheet(desk: _Desk, edit: Edit) -> None:
    desk.package.add_sheet(edit.place, str(edit.value))


def _stray(desk: _Desk, edit: Edit) -> None:
    """A word to the right of a table's row or of a field, where nothing belongs."""
    place = place_of(edit.place)
    if place.row:
        table = desk.table(place.entry.rpartition(".")[0])
        desk.put(Cell(table.sheet, table.rows[place.row], max(table.columns.values()) + 2), edit.value)
        return
    cell = desk.cell(place)
    used = max(column for _, cells in desk.package.sheet(cell.sheet).rows.values() for column in cells)
    desk.put(cell._replace(column=used + 1), edit.value)


def _drop_picture(desk: _Desk, edit: Edit) -> None:
    cell = desk.cell(place_of(edit.place))
    if not desk.package.drop_picture(cell.sheet, cell.row, cell.column):
        raise KeyError(f"{edit.place} holds no picture")
    desk.put(cell, None)


def _record(desk: _Desk, edit: Edit) -> None:
    """Words in the copy's hidden record replaced: from -> to."""
    part = desk.package.sheet(RECORD_SHEET)
    for row, text in enumerate(_record_lines(desk, dict(edit.value)), 2):
        part.set(row, 1, text)


def _record_lines(desk: _Desk, words: Mapping[str, str]) -> Iterable[str]:
    text = json.dumps(desk.got.record, ensure_ascii=False)
    for old, new in words.items():
        text = text.replace(old, new)
    text = json.dumps(json.loads(text), ensure_ascii=True)
    return (text[start : start + 5000] for start in range(0, len(text), 5000))


def _shows(desk: _Desk, edit: Edit) -> None:
    """Another stored value under an untouched formula, as an old program leaves behind."""
    cell = desk.cell(place_of(edit.place))
    cells = desk.package.sheet(cell.sheet).rows[cell.row][1]
    held, count = re.subn(r"<v>.*?</v>", f"<v>{cell_value(edit.value)}</v>", cells[cell.column])
    if count != 1:
        raise KeyError(f"{edit.place} shows no value")
    cells[cell.column] = held


def _no_values(desk: _Desk, _: Edit) -> None:
    """As saved by a program that stores formulas without their values."""
    for title in desk.package.titles():
        for _, cells in desk.package.sheet(title).rows.values():
            cells.update({
                column: re.sub(r"<v>.*?</v>|<v/>", "", cell, flags=re.DOTALL) for column, cell in cells.items() if "<f>" in cell
            })  # fmt: skip


def _part(name: str, content: bytes) -> Callable[[_Desk, Edit], None]:
    def action(desk: _Desk, _: Edit) -> None:
        desk.package.add(name, content)

    return action


ACTIONS: dict[str, Callable[[_Desk, Edit], None]] = {
    "type": _type, "times": _times, "formula": _formula, "fill-down": _fill_down, "copy-from": _copy_from,
    "clear-row": _clear_row, "add-row": _add_row, "add-nameless-row": _add_nameless_row, "double-row": _double_row,
    "drop-column": _drop_column, "drop-sheet": _drop_sheet, "hide-sheet": _hide_sheet, "add-sheet": _add_sheet,
    "unlock": _unlock, "stray": _stray, "drop-picture": _drop_picture, "record": _record,
    "shows": _shows, "no-values": _no_values,
    "add-macro": _part("xl/vbaProject.bin", b"not a real macro"),
    "add-link": _part("xl/externalLinks/externalLink1.xml", b"<externalLink/>"),
    "add-object": _part("xl/embeddings/oleObject1.bin", b"not a real object"),
}  # fmt: skip
_AFTER = frozenset({"shows", "no-values", "add-macro", "add-link", "add-object"})
"""Done to the finished file: calculating would undo them or refuse the file."""
