"""The hidden record of a workbook, read alone: whose file it is and what it answers, without loading the rest."""

from __future__ import annotations

import json
import zipfile
from pathlib import Path
from typing import Any

import python_calamine

from sheetgen.errors import UserError
from sheetgen.workbook.read.safety import check
from sheetgen.workbook.write.file import RECORD_MARK, RECORD_SHEET


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
    try:
        record = json.loads("".join(str(row[0]) for row in rows[1:]))
    except ValueError:
        return {}
    return record if isinstance(record, dict) else {}
