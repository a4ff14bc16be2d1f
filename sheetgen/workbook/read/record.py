"""The hidden record of a workbook, read alone: whose file it is and what it answers, without loading the rest."""

from __future__ import annotations

import json
import re
import zipfile
from collections.abc import Iterable
from functools import partial
from pathlib import Path
from typing import Any

import python_calamine

from sheetgen.errors import UserError
from sheetgen.store import told
from sheetgen.workbook.model.geometry import column_number, name_of
from sheetgen.workbook.model.packing import RECORD_MARK, RECORD_SHEET
from sheetgen.workbook.read.loaded import Loaded, LoadedSheet
from sheetgen.workbook.read.package import open_package
from sheetgen.workbook.read.safety import first_look


def is_record(sheet: LoadedSheet) -> bool:
    """Whether a sheet is a hidden record: our mark, and under it a record that can be read."""
    return bool(_record_on(sheet))


def record_in(loaded: Loaded) -> dict[str, Any]:
    """The hidden record of a loaded workbook, found by its title or by its mark; empty if it has none."""
    sheets = sorted(loaded.sheets.values(), key=lambda one: one.title != RECORD_SHEET)
    return next((record for sheet in sheets if (record := _record_on(sheet))), {})


def _record_on(sheet: LoadedSheet) -> dict[str, Any]:
    if sheet.value(1, 1) != RECORD_MARK:
        return {}
    return _parsed("".join(str(sheet.value(row, 1) or "") for row in range(2, sheet.last_row + 1)))


def _parsed(text: str) -> dict[str, Any]:
    try:
        record = json.loads(text)
    except (ValueError, RecursionError):
        return {}
    return record if isinstance(record, dict) else {}


def record_of(path: Path) -> dict[str, Any]:
    """The hidden record of a workbook, empty if it is none of ours or cannot be opened."""
    if path.name.startswith("~$"):
        return {}
    record: dict[str, Any] = told("record", path, _record_of)
    return record


def _record_of(path: Path) -> dict[str, Any]:
    try:
        open_package(path)  # refuses what is none, or larger than any
        rows = _rows(python_calamine.CalamineWorkbook.from_path(str(path)), RECORD_SHEET)
    except _CANNOT_BE_READ:
        return {}
    if not rows or rows[0][0] != RECORD_MARK:
        return {}
    return _parsed("".join(str(row[0]) for row in rows[1:]))


def figures_of(path: Path, addresses: Iterable[str]) -> dict[str, float]:
    """What single cells show as numbers, found by the workbook's names, which follow when rows are put in; without those that
    show none. Empty for a file that cannot be opened."""
    wanted = list(addresses)
    figures: dict[str, float] = told(" ".join(("figures", *wanted)), path, partial(_figures_of, addresses=wanted))
    return figures


def _figures_of(path: Path, addresses: Iterable[str]) -> dict[str, float]:
    try:
        names, book = first_look(path).names, python_calamine.CalamineWorkbook.from_path(str(path))
        sheets: dict[str, list[list[Any]]] = {}
        found = {}
        for address in addresses:
            cell = _ONE_CELL.fullmatch(names.get(name_of(address), ""))
            if cell is None:
                continue
            title = (cell["quoted"] or cell["plain"]).replace("''", "'")
            if title not in sheets:
                sheets[title] = _rows(book, title)
            rows = sheets[title]
            row, column = int(cell["row"]) - 1, column_number(cell["column"]) - 1
            value = rows[row][column] if row < len(rows) and column < len(rows[row]) else None
            if isinstance(value, int | float) and not isinstance(value, bool):
                found[address] = float(value)
    except _CANNOT_BE_READ:
        return {}
    return found


def _rows(book: python_calamine.CalamineWorkbook, title: str) -> list[list[Any]]:
    return book.get_sheet_by_name(title).to_python(skip_empty_area=False)


_CANNOT_BE_READ = (UserError, python_calamine.CalamineError, zipfile.BadZipFile, OSError)
_ONE_CELL = re.compile(
    r"=?(?:'(?P<quoted>(?:[^']|'')+)'|(?P<plain>[^'!]+))!\$?(?P<column>[A-Z]{1,3})\$?(?P<row>[0-9]{1,7})"
)
