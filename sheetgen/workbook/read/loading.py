"""openpyxl's one door: a file's sheets as plain records of cells, pictures and names.

Nothing behind this door knows the library, and its private members are touched here alone.
"""

from __future__ import annotations

import io
import re
import warnings
import zipfile
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import openpyxl
from openpyxl.utils.cell import range_boundaries

from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.texts import say
from dataclasses import replace
from sheetgen.workbook.read import safety
from sheetgen.workbook.read.loaded import Area, Contents, Held, Loaded, LoadedSheet

_DRAWING = re.compile(rb"<Relationship [^>]*/drawing\"[^>]*>")
_BORDER = re.compile(rb"<border[ >].*?</border>", re.DOTALL)
_NO_BORDER = b"<border><left/><right/><top/><bottom/></border>"


def load(path: Path, *, shown: bool = False) -> Loaded:
    """Load a workbook; with `shown`, formulas are what the file shows for them. UserError (status 3) if it is damaged."""
    contents = safety.check(path)
    book = _opened(path, shown=shown)
    sheets = {sheet.title: _sheet(sheet) for sheet in book.worksheets}
    if not shown:
        other = load(path, shown=True)
        sheets = {t: replace(s, cells={at: h if h.formula is None else h._replace(shown=other.sheets[t].value(*at)) for at, h in s.cells.items()}) for t, s in sheets.items()}
    return Loaded(sheets, dict(_names(book, sheets)), contents=Contents(contents.macros,contents.external_links,contents.embedded,contents.connections))


def _opened(path: Path, *, shown: bool) -> Any:
    trouble = ""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # openpyxl warns of print areas and extensions that do not concern us
        # One broken drawing stops openpyxl; without the drawings all that was typed can still be read.
        for drawings in (True, False):
            try:
                return openpyxl.load_workbook(_lightened(path, drawings=drawings), keep_links=False, data_only=shown)
            except Exception as error:  # whatever a damaged file makes of a library that trusts it
                trouble = f"{type(error).__name__}{_raised_in(error)}"
    raise UserError(
        say("{path}: is damaged ({trouble}); ask for it to be sent again.", path=path, trouble=trouble), status=3
    )


def _raised_in(error: BaseException) -> str:
    """Where in the library it went wrong, for whoever mends it; never what the cell held, which may be private."""
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    if trace is None:
        return ""
    return say(
        " in {name} line {tb_lineno}", name=Path(trace.tb_frame.f_code.co_filename).name, tb_lineno=trace.tb_lineno
    )


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


def _sheet(sheet: Any) -> LoadedSheet:
    # The public ways to the cells make every empty one of a sheet: minutes where somebody typed into the last row.
    cells = {place: _held(cell) for place, cell in sheet._cells.items() if type(cell).__name__ != "MergedCell"}
    return LoadedSheet(
        sheet.title,
        cells,
        sheet.max_row,
        sheet.max_column,
        sheet.sheet_state == "visible",
        bool(sheet.protection.sheet),
        tuple(_pictures(sheet)),
    )


def _held(cell: Any) -> Held:
    comment = None if cell.comment is None else cell.comment.text.strip()
    if cell.data_type != "f":
        return Held(cell.value, None, comment, cell.data_type == "e")
    text = cell.value if isinstance(cell.value, str) else getattr(cell.value, "text", "") or ""
    return Held(cell.value, text if text.startswith("=") else f"={text}", comment)


def _pictures(sheet: Any) -> Iterator[tuple[tuple[int, int], Picture]]:
    for image in sheet._images:
        start = getattr(image.anchor, "_from", None)
        if start is not None:
            image.ref.seek(0)
            yield _frame(sheet, start.row + 1, start.col + 1), Picture(bytes(image.ref.read()))


def _frame(sheet: Any, row: int, column: int) -> tuple[int, int]:
    """A centered picture begins in the middle of its frame: the frame's first cell is the one that counts."""
    for area in sheet.merged_cells.ranges:
        if area.min_row <= row <= area.max_row and area.min_col <= column <= area.max_col:
            return area.min_row, area.min_col
    return row, column


def _names(book: Any, sheets: Mapping[str, LoadedSheet]) -> Iterator[tuple[str, Area]]:
    """Workbook names that point at one area of a sheet that is there."""
    for name, defined in book.defined_names.items():
        text = defined.attr_text or ""
        title, mark, area = text.rpartition("!")
        if not mark or "#REF" in text or "," in text:
            continue
        title = title.strip("'").replace("''", "'")
        try:
            left, first, right, last = range_boundaries(area)
        except (ValueError, TypeError):
            continue
        if title in sheets and left and first and right and last:
            yield name, Area(title, int(first), int(left), int(last), int(right))
