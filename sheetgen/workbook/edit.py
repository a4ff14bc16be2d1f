"""Edits a file as a person with a spreadsheet program would: types, clears, overwrites formulas, spoils sheets.

The demonstration and the rules' examples use it. Places are names, never addresses; afterwards all formulas are
calculated again and their values stored, as a spreadsheet program does on saving.
"""

from __future__ import annotations

import datetime
import io
import re
import zipfile
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import formualizer
import openpyxl

from sheetgen.declare.formula import ROW, compiled, read_formula
from sheetgen.declare.kinds import Picture, Value
from sheetgen.declare.parts import Book, Column, Place
from sheetgen.workbook.geometry import Cell, name_of
from sheetgen.workbook.read import Returned, read
from sheetgen.workbook.values import UserError

_PLACE = re.compile(r"(?P<table>[a-z_]+\.[a-z_0-9]+)\[(?P<row>[A-Z]+\d+)\](?:\.(?P<entry>[a-z_0-9]+))?\Z")


@dataclass(frozen=True)
class Edit:
    """One change: what is done, where, and with which value.

    `action` is one of: type, formula, clear, clear-row, row-without-ref, double-ref, drop-column, drop-sheet,
    hide-sheet, add-sheet, stray, shows, unlock, drop-picture, add-macro, add-link.
    """

    place: str
    action: str = "type"
    value: Any = None


def place_of(text: str) -> Place:
    """`materials.bom[M3].price` or `quote.fob` as a place."""
    match = _PLACE.match(text)
    if match is None:
        return Place(text)
    return Place(f"{match['table']}.{match['entry'] or 'ref'}", match["row"])


def edited(book: Book, source: Path, edits: list[Edit], target: Path) -> None:
    """Copy `source` to `target` with the edits made and all values calculated again; KeyError on an unknown place."""
    got = read(book, source)
    loaded = openpyxl.load_workbook(source)
    for edit in edits:
        _ACTIONS[edit.action](got, loaded, edit)
    buffer = io.BytesIO()
    loaded.save(buffer)
    data = _calculated(buffer.getvalue())
    for edit in edits:
        if edit.action == "shows":
            data = _with_shown(data, got, edit)
        elif edit.action == "add-macro":
            data = _with_part(data, "xl/vbaProject.bin", b"not a real macro")
        elif edit.action == "add-link":
            data = _with_part(data, "xl/externalLinks/externalLink1.xml", b"<externalLink/>")
    target.write_bytes(data)


def typed_in(book: Book, source: Path, values: Mapping[Place, Value], target: Path) -> None:
    """Copy `source` to `target` with these values typed in and everything calculated again."""
    edited(book, source, [Edit(str(place), "type", value) for place, value in values.items()], target)


def _calculated(data: bytes) -> bytes:
    try:
        return bytes(formualizer.recalculate_xlsx_bytes(data)["bytes"])
    except (OSError, ValueError):
        # A file spoiled on purpose may be refused; it is then sent as it was saved, without values.
        return data


def _cell(got: Returned, place: Place) -> Cell:
    cell = got.where.at(place)
    if cell is None:
        raise KeyError(f"{place} is not in {got.path.name}")
    return cell


def _at(loaded: Any, cell: Cell) -> Any:
    return loaded[cell.sheet].cell(cell.row, cell.column)


def _type(got: Returned, loaded: Any, edit: Edit) -> None:
    if isinstance(edit.value, Picture):
        raise UserError(f"{edit.place}: a picture cannot be typed in")
    value = edit.value
    if isinstance(value, datetime.datetime):
        value = value.date()
    held = _at(loaded, _cell(got, place_of(edit.place)))
    held.value = value
    if isinstance(value, str):
        held.data_type = "s"


def _formula(got: Returned, loaded: Any, edit: Edit) -> None:
    """Another formula, given by names."""
    place = place_of(edit.place)
    column = got.ready.book.entries[place.entry]
    entry = column.entry
    changed = Column(column.sheet, column.table, type(entry)(**{**entry.__dict__, "formula": str(edit.value)}))
    cell = _cell(got, place)
    text = compiled(read_formula(got.ready.book, changed), got.where, cell.sheet)
    if text is None:
        raise KeyError(f"{edit.value} cannot be written in {edit.place}")
    _at(loaded, cell).value = text.replace(ROW, str(cell.row))


def _clear(got: Returned, loaded: Any, edit: Edit) -> None:
    _at(loaded, _cell(got, place_of(edit.place))).value = None


def _row_cells(got: Returned, edit: Edit) -> tuple[str, int, list[int], int]:
    place = place_of(edit.place)
    table = got.where.tables[place.entry.rpartition(".")[0]]
    return table.sheet, table.rows[place.row], [table.ref_column, *table.columns.values()], table.ref_column


def _clear_row(got: Returned, loaded: Any, edit: Edit) -> None:
    title, row, columns, _ = _row_cells(got, edit)
    for column in columns:
        loaded[title].cell(row, column).value = None


def _row_without_ref(got: Returned, loaded: Any, edit: Edit) -> None:
    """A row that someone put in: values in a row that has no ref."""
    title, row, _, ref_column = _row_cells(got, edit)
    place = place_of(edit.place)
    table = got.where.tables[place.entry.rpartition(".")[0]]
    loaded[title].cell(row, ref_column).value = None
    for name, value in dict(edit.value).items():
        loaded[title].cell(row, table.columns[name]).value = value


def _double_ref(got: Returned, loaded: Any, edit: Edit) -> None:
    """A row copied over another, its ref with it."""
    title, row, columns, _ = _row_cells(got, edit)
    place = place_of(edit.place)
    other = got.where.tables[place.entry.rpartition(".")[0]].rows[str(edit.value)]
    for column in columns:
        held = loaded[title].cell(row, column)
        if held.data_type != "f":
            loaded[title].cell(other, column).value = held.value


def _drop_column(got: Returned, loaded: Any, edit: Edit) -> None:
    address = edit.place
    for _, cell in list(got.where.places(address)):
        _at(loaded, cell).value = None
    first = next(cell for _, cell in got.where.places(address))
    table = got.where.tables.get(address.rpartition(".")[0])
    if table is not None:
        loaded[first.sheet].cell(table.first - 1, first.column).value = None
    loaded.defined_names.pop(name_of(address), None)


def _drop_sheet(got: Returned, loaded: Any, edit: Edit) -> None:
    del loaded[got.where.titles[edit.place]]


def _hide_sheet(got: Returned, loaded: Any, edit: Edit) -> None:
    loaded[got.where.titles[edit.place]].sheet_state = "hidden"


def _add_sheet(_: Returned, loaded: Any, edit: Edit) -> None:
    loaded.create_sheet(edit.place)["A1"] = edit.value


def _stray(got: Returned, loaded: Any, edit: Edit) -> None:
    """A word to the right of a table's row, where no column is."""
    title, row, columns, _ = _row_cells(got, edit)
    loaded[title].cell(row, max(columns) + 2).value = edit.value


def _unlock(got: Returned, loaded: Any, edit: Edit) -> None:
    loaded[got.where.titles[edit.place]].protection.sheet = False


def _drop_picture(got: Returned, loaded: Any, edit: Edit) -> None:
    cell = _cell(got, place_of(edit.place))
    sheet = loaded[cell.sheet]
    sheet._images = [  # noqa: SLF001 - openpyxl has no public way to take a picture out
        image for image in sheet._images if image.anchor._from.row + 1 != cell.row  # noqa: SLF001
    ]
    _at(loaded, cell).value = None


def _later(_: Returned, __: Any, ___: Edit) -> None:
    """Done to the finished file."""


_ACTIONS: dict[str, Callable[[Returned, Any, Edit], None]] = {
    "type": _type, "formula": _formula, "clear": _clear, "clear-row": _clear_row, "row-without-ref": _row_without_ref,
    "double-ref": _double_ref, "drop-column": _drop_column, "drop-sheet": _drop_sheet, "hide-sheet": _hide_sheet,
    "add-sheet": _add_sheet, "stray": _stray, "unlock": _unlock, "drop-picture": _drop_picture,
    "shows": _later, "add-macro": _later, "add-link": _later,
}  # fmt: skip


def _with_shown(data: bytes, got: Returned, edit: Edit) -> bytes:
    """The file with another stored value under an untouched formula, as an old program leaves behind."""
    cell = _cell(got, place_of(edit.place))
    number = openpyxl.load_workbook(io.BytesIO(data), read_only=True).sheetnames.index(cell.sheet) + 1
    pattern = re.compile(rf'(<c r="{cell.address}"[^>]*?)(?: t="[a-z]+")?(>(?:<f>.*?</f>))<v>.*?</v>'.encode(), re.DOTALL)

    def changed(content: bytes) -> bytes:
        new, count = pattern.subn(rb"\1\2<v>" + str(edit.value).encode() + b"</v>", content)
        if count != 1:
            raise KeyError(f"{edit.place} shows no value")
        return new

    return _rewritten(data, lambda name, content: changed(content) if name == f"xl/worksheets/sheet{number}.xml" else content)


def _with_part(data: bytes, name: str, content: bytes) -> bytes:
    return _rewritten(data, lambda _, held: held, {name: content})


def _rewritten(data: bytes, change: Callable[[str, bytes], bytes], extra: Mapping[str, bytes] | None = None) -> bytes:
    buffer = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as source, zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as target:
        for entry in source.infolist():
            target.writestr(entry, change(entry.filename, source.read(entry)))
        for name, content in (extra or {}).items():
            target.writestr(name, content)
    return buffer.getvalue()
