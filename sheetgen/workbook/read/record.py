"""The hidden record of a workbook, read alone: whose file it is and what it answers, without loading the rest."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path
from typing import Any

import python_calamine

from sheetgen.errors import UserError
from sheetgen.workbook.model.packing import RECORD_MARK, RECORD_SHEET
from sheetgen.workbook.read.loaded import Loaded, LoadedSheet
from sheetgen.workbook.read.safety import check


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
    try:
        check(path)
        rows = python_calamine.CalamineWorkbook.from_path(str(path)).get_sheet_by_name(RECORD_SHEET).to_python()
    except (UserError, python_calamine.CalamineError, zipfile.BadZipFile, OSError):
        return {}
    if not rows or rows[0][0] != RECORD_MARK:
        return {}
    return _parsed("".join(str(row[0]) for row in rows[1:]))
