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
from pathlib import Path
from typing import Any

import openpyxl
import python_calamine
from openpyxl.utils.cell import range_boundaries

from sheetgen.declare.families import MEMBER
from sheetgen.declare.kinds import Value
from sheetgen.declare.parts import Book
from sheetgen.errors import UserError
from sheetgen.workbook.model.geometry import Geometry, name_of
from sheetgen.workbook.model.values import Shape, ready, words_for
from sheetgen.workbook.read import safety
from sheetgen.workbook.read.finding import Finder
from sheetgen.workbook.read.found import Returned
from sheetgen.workbook.read.taking import Taker, from_cell
from sheetgen.workbook.write.file import RECORD_MARK, RECORD_SHEET

_DRAWING = re.compile(rb"<Relationship [^>]*/drawing\"[^>]*>")
_LONGEST_BOOK = 20
_MOST_MEMBERS = 200
"""A name that somebody put in must not make a thousand sizes: no sheet has more columns than this."""
_BORDER = re.compile(rb"<border[ >].*?</border>", re.DOTALL)
_NO_BORDER = b"<border><left/><right/><top/><bottom/></border>"
_ERROR_CELL = re.compile(rb'<c [^>]*\bt="e"')
_EPOCH = datetime.date(1899, 12, 30)


def read(book: Book, path: Path, audience: str | None = None) -> Returned:
    """Read a working, vendor or returned workbook. UserError (status 3) if it is no workbook of ours or unsafe to open."""
    contents = safety.check(path)
    loaded = _load(path)
    record = _record(loaded)
    for_whom = audience or ("vendor" if record.get("issue_id") else "designer")
    names = _names(loaded)
    other = str(record.get("book") or "")
    if other != book.name:
        kind = f"made to compare {other[:_LONGEST_BOOK]}" if other else "of a style"
        raise UserError(f"{path}: is a workbook {kind}; name the style's working workbook or a return.", status=3)
    if not record and not names:
        raise UserError(f"{path}: is no workbook made by sheetgen; nothing in it can be found.", status=3)
    shape = _shape(book, loaded, names, for_whom)
    found = Returned(path, ready(book, shape), Geometry(), record, contents)
    Finder(found, loaded, names).find()
    Taker(found, loaded).take()
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
                return openpyxl.load_workbook(_lightened(path, drawings=drawings), keep_links=False, data_only=shown)
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
        if title in loaded.sheetnames and left and first and right and last:
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
        axes.append((axis, tuple(title or f"{axis.capitalize()} {number}" for number, title in enumerate(titles, 1))))

    def field_text(address: str, otherwise: str) -> str:
        area = names.get(name_of(address))
        return (_text_at(loaded, area, 0) if area else "") or otherwise

    words = words_for(field_text("style.unit", ""), field_text("style.currency", ""), field_text("style.fractions", ""))
    return Shape(tuple(axes), words, audience)


def _text_at(loaded: Any, area: tuple[str, int, int, int, int], offset: int) -> str:
    title, first, column, last, _ = area
    if first + offset > last:
        return ""
    value = loaded[title].cell(first + offset, column).value
    return "" if value is None else str(value)


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
                ["" if value is None else value for value in row] for row in slow[title].iter_rows(values_only=True)
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
