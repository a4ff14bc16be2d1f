"""openpyxl's one door: a file becomes what was found in it: places, typed values, formulas, shown values, losses.

Everything found is kept and judged later: a wrong value is never refused here and never repaired in silence.
"""

from __future__ import annotations

import datetime
import io
import json
import re
import warnings
import zipfile
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import openpyxl
import python_calamine
from openpyxl.utils.cell import range_boundaries

from sheetgen.declare.families import MEMBER
from sheetgen.declare.kinds import Kind, Picture, Value
from sheetgen.declare.parts import REF, Book, Entry, Place, Table
from sheetgen.trade.lengths import parse_length
from sheetgen.workbook import safety
from sheetgen.workbook.engine import ERROR_TEXTS, PICTURE_WORD
from sheetgen.workbook.geometry import Cell, Geometry, TablePlace, name_of
from sheetgen.workbook.ownwords import own_words
from sheetgen.workbook.values import Ready, Shape, UserError, Values, ready, with_words, words_for
from sheetgen.workbook.writing.cells import END_OF_TABLE
from sheetgen.workbook.writing.file import RECORD_MARK, RECORD_SHEET

_DRAWING = re.compile(rb"<Relationship [^>]*/drawing\"[^>]*>")
_MOST_MEMBERS = 200
"""A name that somebody put in must not make a thousand sizes: no sheet has more columns than this."""
_BORDER = re.compile(rb"<border[ >].*?</border>", re.DOTALL)
_NO_BORDER = b"<border><left/><right/><top/><bottom/></border>"
_ERROR_CELL = re.compile(rb'<c [^>]*\bt="e"')
_ERROR = re.compile(r"#(?:[A-Z/0_]+[!?]|N/A|GETTING_DATA)|Err:\d{3}")
"""Errors of all programs; a screen color (#5B6B4A) is none."""
_EPOCH = datetime.date(1899, 12, 30)


@dataclass(frozen=True)
class Lost:
    """Something that belongs in the workbook and is not there: a sheet, a field, a column or a row."""

    what: str
    address: str
    row: str = ""


@dataclass(frozen=True)
class Stray:
    """A cell that holds something where nothing belongs."""

    cell: Cell
    value: str


@dataclass
class Returned:
    """All that was found in a file."""

    path: Path
    ready: Ready
    where: Geometry
    record: dict[str, Any]
    contents: safety.Contents
    typed: Values = field(default_factory=dict)
    formulas: dict[Place, str] = field(default_factory=dict)
    shown: dict[Place, Value] = field(default_factory=dict)
    lost: list[Lost] = field(default_factory=list)
    added_rows: dict[Place, int] = field(default_factory=dict)
    doubled_rows: dict[Place, str] = field(default_factory=dict)
    """A row that carries the ref of a row above it: the ref that it got -> the ref that it carries."""
    strays: list[Stray] = field(default_factory=list)
    added_sheets: list[str] = field(default_factory=list)
    hidden: list[str] = field(default_factory=list)
    renamed: dict[str, str] = field(default_factory=dict)
    unlocked: list[str] = field(default_factory=list)


def read(book: Book, path: Path, audience: str | None = None) -> Returned:
    """Read a working, vendor or returned workbook. UserError (status 3) if it is no workbook of ours or unsafe to open."""
    contents = safety.check(path)
    loaded = _load(path)
    record = _record(loaded)
    for_whom = audience or ("vendor" if record.get("issue_id") else "designer")
    names = _names(loaded)
    if not record and not names:
        raise UserError(f"{path}: is no workbook made by sheetgen; nothing in it can be found.", status=3)
    shape = _shape(book, loaded, names, for_whom)
    found = Returned(path, ready(book, shape), Geometry(), record, contents)
    _Finder(found, loaded, names).find()
    _Values(found, loaded).take()
    _shown_values(found, path)
    _shown_errors(found, path)
    _formulas_in_entries(found)
    return found


def _formulas_in_entries(found: Returned) -> None:
    """A formula that somebody typed where a value belongs counts as the value that it shows."""
    for place in found.formulas:
        entry = found.ready.book.entries[place.entry].entry
        if entry.who != "computed" and place in found.shown:
            found.typed[place] = from_cell(entry.kind, found.shown[place])


def _load(path: Path, *, shown: bool = False) -> Any:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # openpyxl warns of print areas and extensions that do not concern us
        # One broken drawing stops openpyxl; without the drawings all that was typed can still be read.
        for drawings in (True, False):
            try:
                return openpyxl.load_workbook(
                    _lightened(path, drawings=drawings), keep_links=False, data_only=shown
                )
            except Exception as error:
                trouble = type(error).__name__
    raise UserError(f"{path}: is damaged ({trouble}); ask for it to be sent again.", status=3)


def _lightened(path: Path, *, drawings: bool) -> io.BytesIO:
    """The file with its borders gone: drawing those of merged cells takes openpyxl longer than all the rest."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(path) as source, zipfile.ZipFile(buffer, "w", zipfile.ZIP_STORED) as target:
        for entry in source.infolist():
            content = source.read(entry)
            if entry.filename == "xl/styles.xml":
                content = _BORDER.sub(_NO_BORDER, content)
            elif not drawings and entry.filename.startswith("xl/worksheets/_rels/"):
                content = _DRAWING.sub(b"", content)
            target.writestr(entry.filename, content)
    buffer.seek(0)
    return buffer


def _record(loaded: Any) -> dict[str, Any]:
    """The hidden record, found by its title or by its mark."""
    for sheet in sorted(loaded.worksheets, key=lambda one: one.title != RECORD_SHEET):
        if sheet.cell(1, 1).value == RECORD_MARK:
            text = "".join(str(row[0].value or "") for row in sheet.iter_rows(min_row=2, max_col=1))
            try:
                record = json.loads(text)
            except ValueError:
                return {}
            return record if isinstance(record, dict) else {}
    return {}


def _names(loaded: Any) -> dict[str, tuple[str, int, int, int, int]]:
    """Workbook names that point at one area -> sheet title, first row, first column, last row, last column."""
    found = {}
    for name, defined in loaded.defined_names.items():
        text = defined.attr_text or ""
        title, mark, area = text.rpartition("!")
        if not mark or "#REF" in text or "," in text:
            continue
        title = title.strip("'").replace("''", "'")
        try:
            left, first, right, last = range_boundaries(area)
        except (ValueError, TypeError):
            continue
        if title in loaded.sheetnames and None not in (left, first, right, last):
            found[name] = (title, int(first), int(left), int(last), int(right))
    return found


def _shape(book: Book, loaded: Any, names: dict[str, tuple[str, int, int, int, int]], audience: str) -> Shape:
    """Sizes, colorways and rounds as the file has them: counted by their columns' names, named by their own table."""
    axes = []
    for axis, address in book.axes.items():
        table = book.tables[address][1]
        if table.rows:
            axes.append((axis, tuple(str(row[table.key]) for row in table.rows)))
            continue
        numbers = [
            int(match.group(1))
            for name in names
            if (match := re.search(rf"_{MEMBER[axis]}([1-9]\d{{0,2}})(?:_|\Z)", name))
        ]
        least = 0 if axis in book.optional_axes else 1
        count = max([least, *(number for number in numbers if number <= _MOST_MEMBERS)])
        area = names.get(name_of(f"{address}.{table.key}"))
        titles = [_text_at(loaded, area, index) for index in range(count)] if area else [""] * count
        axes.append(
            (axis, tuple(title or f"{axis.capitalize()} {number}" for number, title in enumerate(titles, 1)))
        )

    def field_text(address: str, otherwise: str) -> str:
        area = names.get(name_of(address))
        return (_text_at(loaded, area, 0) if area else "") or otherwise

    words = words_for(field_text("style.unit", "cm"), field_text("style.currency", "EUR"), field_text("style.fractions", ""))
    return Shape(tuple(axes), words, audience)


def _text_at(loaded: Any, area: tuple[str, int, int, int, int], offset: int) -> str:
    title, first, column, last, _ = area
    if first + offset > last:
        return ""
    value = loaded[title].cell(first + offset, column).value
    return "" if value is None else str(value)


class _Finder:
    """Finds places: by workbook names first, by headings where a name is gone."""

    def __init__(
        self, found: Returned, loaded: Any, names: dict[str, tuple[str, int, int, int, int]]
    ) -> None:
        self.found, self.loaded, self.names = found, loaded, names
        self.book, self.where = found.ready.book, found.where

    def find(self) -> None:
        for address, column in self.book.entries.items():
            if column.table is None and (area := self.names.get(name_of(address))):
                self.where.fields[address] = Cell(area[0], area[1], area[2])
        for address, (_, table) in self.book.tables.items():
            self._table(address, table)
        self._titles()
        self._by_heading()
        self._losses()

    def _titles(self) -> None:
        for sheet in self.book.sheets:
            cells = [
                cell.sheet
                for address, cell in self.where.fields.items()
                if address.startswith(f"{sheet.name}.")
            ]
            tables = [
                place.sheet
                for address, place in self.where.tables.items()
                if address.startswith(f"{sheet.name}.")
            ]
            counted = [*cells, *tables]
            if counted:
                title = max(set(counted), key=counted.count)
            elif sheet.title in self.loaded.sheetnames:
                title = sheet.title
            else:
                continue
            self.where.titles[sheet.name] = title
            if title != sheet.title:
                self.found.renamed[sheet.name] = title
        ours = {*self.where.titles.values(), RECORD_SHEET}
        for sheet in self.loaded.worksheets:
            if sheet.title in ours:
                if sheet.sheet_state != "visible" and sheet.title != RECORD_SHEET:
                    self.found.hidden.append(sheet.title)
            elif sheet.cell(1, 1).value != RECORD_MARK:
                self.found.added_sheets.append(sheet.title)

    def _table(self, address: str, table: Table) -> None:
        areas = {
            entry.name: area
            for entry in table.entries
            if (area := self.names.get(name_of(f"{address}.{entry.name}")))
        }
        refs = self.names.get(name_of(f"{address}.{REF}"))
        any_area = refs or next(iter(areas.values()), None)
        if any_area is None:
            return
        title, first, _, last, _ = any_area
        ref_column = refs[2] if refs else max(1, min(area[2] for area in areas.values()) - 1)
        place = TablePlace(title, first, last, ref_column=ref_column)
        place.columns = {name: area[2] for name, area in areas.items() if area[0] == title}
        self.where.tables[address] = place
        self._rows(address, table, place)

    def _rows(self, address: str, table: Table, place: TablePlace) -> None:
        """Rows by their refs; a row that someone added takes the next free ref, so that it is audited like any other."""
        cells = self.loaded[place.sheet]._cells
        columns = [column for name, column in place.columns.items() if name in _typed_names(table)]
        nameless: list[int] = []
        copies: list[tuple[int, str]] = []
        for row in range(place.first, min(place.last, self.loaded[place.sheet].max_row) + 1):
            ref = _value_of(cells, row, place.ref_column)
            text = "" if ref is None else str(ref).strip()
            if text == END_OF_TABLE:
                continue
            if re.fullmatch(re.escape(table.ref) + r"[1-9]\d*", text):
                if text not in place.rows:
                    place.rows[text] = row
                else:
                    copies.append((row, text))
            elif any(_value_of(cells, row, column) not in (None, "") for column in columns):
                nameless.append(row)
        self._number(address, table, place, nameless, copies)

    def _number(
        self,
        address: str,
        table: Table,
        place: TablePlace,
        nameless: list[int],
        copies: list[tuple[int, str]],
    ) -> None:
        """Refs for rows that have none of their own: the one that is missing between its neighbors, or a new one."""
        at = {row: ref for ref, row in place.rows.items()}
        free = max((_ref_number(ref) for ref in place.rows), default=0) + 1
        for row in nameless:
            before, after = _ref_number(at.get(row - 1, "")), _ref_number(at.get(row + 1, ""))
            missing = before + 1 if before else after - 1
            if (
                missing > 0
                and f"{table.ref}{missing}" not in place.rows
                and (not after or not before or after == missing + 1)
            ):
                place.rows[f"{table.ref}{missing}"] = row
                at[row] = f"{table.ref}{missing}"
                continue
            place.rows[f"{table.ref}{free}"] = row
            self.found.added_rows[Place(f"{address}.{REF}", f"{table.ref}{free}")] = row
            free += 1
        for row, text in copies:
            place.rows[f"{table.ref}{free}"] = row
            self.found.added_rows[Place(f"{address}.{REF}", f"{table.ref}{free}")] = row
            self.found.doubled_rows[Place(f"{address}.{REF}", f"{table.ref}{free}")] = text
            free += 1
        place.rows = dict(sorted(place.rows.items(), key=lambda item: item[1]))

    def _by_heading(self) -> None:
        """The second anchor: a column or field whose name is gone is looked for by its words, where its part stands."""
        for address, column in self.book.entries.items():
            title = self.where.titles.get(column.sheet.name)
            if title is None or next(self.where.places(address), None) is not None:
                continue
            heading = with_words(column.entry.heading, self.found.ready.shape)
            cells = self.loaded[title]._cells
            if column.table is None:
                self._field_by_heading(address, heading, title, cells)
            elif (place := self.where.tables.get(f"{column.sheet.name}.{column.table.name}")) is not None:
                taken = set(place.columns.values())
                for number in range(1, self.loaded[title].max_column + 1):
                    if number not in taken and _value_of(cells, place.first - 1, number) == heading:
                        place.columns[column.entry.name] = number
                        break

    def _field_by_heading(self, address: str, heading: str, title: str, cells: Any) -> None:
        taken = set(self.where.fields.values())
        for (row, number), cell in list(cells.items()):
            if isinstance(cell.value, str) and cell.value.split("  ·")[0] == heading:
                right = min(
                    (
                        key[1]
                        for key in cells
                        if key[0] == row and key[1] > number and _is_anchor(self.loaded[title], key)
                    ),
                    default=0,
                )
                if right and Cell(title, row, right) not in taken:
                    self.where.fields[address] = Cell(title, row, right)
                    return

    def _losses(self) -> None:
        for sheet in self.book.sheets:
            if sheet.name not in self.where.titles:
                self.found.lost.append(Lost("sheet", sheet.name))
        for address, column in self.book.entries.items():
            if column.sheet.name not in self.where.titles:
                continue
            if column.table is None:
                if address not in self.where.fields:
                    self.found.lost.append(Lost("field", address))
                continue
            table = f"{column.sheet.name}.{column.table.name}"
            if table in self.where.tables and column.entry.name not in self.where.tables[table].columns:
                self.found.lost.append(Lost("column", address))
        for address, (sheet, _) in self.book.tables.items():
            if address not in self.where.tables and sheet.name in self.where.titles:
                self.found.lost.append(Lost("table", address))


def _ref_number(ref: str) -> int:
    return int(ref.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ") or 0)


def _is_anchor(sheet: Any, key: tuple[int, int]) -> bool:
    return type(sheet._cells[key]).__name__ != "MergedCell"


def _typed_names(table: Table) -> set[str]:
    return {entry.name for entry in table.entries if entry.who in {"designer", "vendor"}}


def _value_of(cells: Any, row: int, column: int) -> Any:
    cell = cells.get((row, column))
    return None if cell is None else cell.value


class _Values:
    """Takes typed values, formulas, pictures, and what stands where nothing belongs."""

    def __init__(self, found: Returned, loaded: Any) -> None:
        self.found, self.loaded = found, loaded
        self.unit = dict(found.ready.shape.words)["{unit}"]
        self.used: set[Cell] = set()
        self.frames: set[Cell] = set()
        self.pictures = {cell: picture for cell, picture in _pictures(loaded)}
        self.cells = {sheet.title: sheet._cells for sheet in loaded.worksheets}

    def take(self) -> None:
        found = self.found
        for address, column in found.ready.book.entries.items():
            for place, cell in found.where.places(address):
                self.used.add(cell)
                self._take(place, cell, column.entry)
        self._strays()
        for title in set(found.where.titles.values()):
            if not self.loaded[title].protection.sheet:
                found.unlocked.append(title)

    def _take(self, place: Place, cell: Cell, entry: Entry) -> None:
        held = self.cells[cell.sheet].get((cell.row, cell.column))
        if entry.kind.name == "picture":
            self.frames.add(cell)
            if entry.who == "drawn":
                return
            if cell in self.pictures:
                self.found.typed[place] = self.pictures[cell]
            elif held is not None and held.value not in (None, "", PICTURE_WORD):
                self.found.typed[place] = str(held.value)
            return
        if held is None or held.value is None or held.value == "":
            return
        if held.data_type == "f":
            text = held.value if isinstance(held.value, str) else getattr(held.value, "text", "") or ""
            self.found.formulas[place] = text if text.startswith("=") else f"={text}"
        else:
            self.found.typed[place] = from_cell(entry.kind, held.value)

    def _strays(self) -> None:
        """What stands outside all parts, pictures and comments too: reported, because it is not carried over."""
        own = own_words(self.found.ready)
        refs = {
            Cell(place.sheet, row, place.ref_column)
            for place in self.found.where.tables.values()
            for row in place.rows.values()
        }
        for title in dict.fromkeys(self.found.where.titles.values()):
            for (row, column), held in self.loaded[title]._cells.items():
                cell = Cell(title, row, column)
                if held.comment is not None:
                    self.found.strays.append(Stray(cell, f"comment: {held.comment.text.strip()}"))
                if cell in self.used or cell in refs or held.data_type == "f":
                    continue
                text = "" if held.value is None else str(held.value).strip()
                spare_ref = re.fullmatch(r"[A-Z][1-9]\d*", text)
                if text and text not in own and not spare_ref:
                    self.found.strays.append(Stray(cell, text))
        ours = set(self.found.where.titles.values())
        self.found.strays.extend(
            Stray(cell, "a picture")
            for cell in self.pictures
            if cell.sheet in ours and cell not in self.frames
        )


def from_cell(kind: Kind, value: Any) -> Value:
    """A cell's content as the kind's value where it plainly is one; else as it stands, for the audit to judge."""
    if isinstance(value, datetime.datetime):
        return value.date()
    if isinstance(value, datetime.time | datetime.timedelta):
        return str(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if kind.name == "date" and isinstance(value, int | float) and 20000 < value < 80000:
        return _EPOCH + datetime.timedelta(days=int(value))
    if isinstance(value, str):
        # So the file format writes the carriage return that some programs paste.
        return value.replace("_x000D_\n", "\n").replace("_x000D_", "\n")
    return value if isinstance(value, int | float | datetime.date) else str(value)


def as_length(value: Value, unit: str) -> float | None:
    """A length that was typed as text (`12 3/8`) as a number in the style's unit; None if it is none."""
    return parse_length(value, unit) if isinstance(value, str) else None


def _pictures(loaded: Any) -> Iterator[tuple[Cell, Picture]]:
    for sheet in loaded.worksheets:
        for image in getattr(sheet, "_images", []):
            start = getattr(image.anchor, "_from", None)
            if start is not None:
                yield _frame(sheet, start.row + 1, start.col + 1), Picture(_bytes_of(image))


def _frame(sheet: Any, row: int, column: int) -> Cell:
    """A centered picture begins in the middle of its frame: the frame's first cell is the one that counts."""
    for area in sheet.merged_cells.ranges:
        if area.min_row <= row <= area.max_row and area.min_col <= column <= area.max_col:
            return Cell(sheet.title, area.min_row, area.min_col)
    return Cell(sheet.title, row, column)


def _bytes_of(image: Any) -> bytes:
    image.ref.seek(0)
    return bytes(image.ref.read())


def _shown_values(found: Returned, path: Path) -> None:
    """The values that the file shows for its formulas; a second, much faster reader takes them."""
    grids: dict[str, list[list[Any]]] = {}
    for place in found.formulas:
        cell = found.where.at(place)
        if cell is None:
            continue
        if not grids:
            grids = _grids(path, {at.sheet for one in found.formulas if (at := found.where.at(one))})
        grid = grids[cell.sheet]
        value = (
            grid[cell.row - 1][cell.column - 1]
            if cell.row <= len(grid) and cell.column <= len(grid[cell.row - 1])
            else ""
        )
        if value != "":
            found.shown[place] = _plain_shown(value)


def _grids(path: Path, titles: set[str]) -> dict[str, list[list[Any]]]:
    try:
        shown = python_calamine.CalamineWorkbook.from_path(str(path))
        return {title: shown.get_sheet_by_name(title).to_python(skip_empty_area=False) for title in titles}
    except (python_calamine.CalamineError, OSError, zipfile.BadZipFile):
        # It refuses a sheet with an error value that it does not know (#SPILL!); the slower reader takes any.
        slow = openpyxl.load_workbook(path, data_only=True, keep_links=False)
        return {
            title: [
                ["" if value is None else value for value in row]
                for row in slow[title].iter_rows(values_only=True)
            ]
            for title in titles
        }


def _shown_errors(found: Returned, path: Path) -> None:
    """Error values: the fast reader passes over them, so a file that has any is read a second time."""
    with zipfile.ZipFile(path) as package:
        parts = [name for name in package.namelist() if name.startswith("xl/worksheets/")]
        if not any(_ERROR_CELL.search(package.read(name)) for name in parts):
            return
    loaded = _load(path, shown=True)
    for place in found.formulas:
        cell = found.where.at(place)
        if cell is not None and place not in found.shown:
            held = loaded[cell.sheet].cell(cell.row, cell.column)
            if held.data_type == "e":
                found.shown[place] = str(held.value)


def _plain_shown(value: Any) -> Value:
    if isinstance(value, datetime.datetime):
        return (value.date() - _EPOCH).days
    if isinstance(value, datetime.date):
        return (value - _EPOCH).days
    if isinstance(value, bool):
        return 1 if value else 0
    return value if isinstance(value, int | float | str) else str(value)


def is_error(value: Value) -> bool:
    """Whether a shown value is one of the spreadsheet's errors."""
    return isinstance(value, str) and (value in ERROR_TEXTS or _ERROR.fullmatch(value) is not None)
