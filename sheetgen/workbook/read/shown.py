"""What a file shows for its formulas: stored values by the quick reader, errors by the thorough one."""

from __future__ import annotations

import datetime
import re
import zipfile
from pathlib import Path
from typing import Any

import python_calamine

from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.engine import day_number
from sheetgen.workbook.read.found import Returned
from sheetgen.workbook.read.loading import load

_ERROR_CELL = re.compile(rb'<c [^>]*\bt="e"')


def take_shown(found: Returned, path: Path) -> None:
    """Put in what the file shows for each of its formulas."""
    _take_values(found, path)
    _take_errors(found, path)


def _take_values(found: Returned, path: Path) -> None:
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
            found.shown[place] = _plain(value)


def _grids(path: Path, titles: set[str]) -> dict[str, list[list[Any]]]:
    try:
        shown = python_calamine.CalamineWorkbook.from_path(str(path))
        return {title: shown.get_sheet_by_name(title).to_python(skip_empty_area=False) for title in titles}
    except (python_calamine.CalamineError, OSError, zipfile.BadZipFile):
        # It refuses a sheet with an error value that it does not know (#SPILL!); the slower reader takes any.
        slow = load(path, shown=True)
        return {
            title: [
                ["" if (held := slow.sheets[title].value(row, column)) is None else held
                 for column in range(1, slow.sheets[title].last_column + 1)]
                for row in range(1, slow.sheets[title].last_row + 1)
            ]
            for title in titles
        }  # fmt: skip


def _take_errors(found: Returned, path: Path) -> None:
    """Error values: the quick reader passes over them, so a file that has any is read a second time."""
    with zipfile.ZipFile(path) as package:
        parts = [name for name in package.namelist() if name.startswith("xl/worksheets/")]
        if not any(_ERROR_CELL.search(package.read(name)) for name in parts):
            return
    loaded = load(path, shown=True)
    for place in found.formulas:
        cell = found.where.at(place)
        if cell is not None and place not in found.shown:
            held = loaded.sheets[cell.sheet].at(cell.row, cell.column)
            if held.is_error:
                found.shown[place] = str(held.value)


def _plain(value: Any) -> Value:
    if isinstance(value, datetime.date):
        return day_number(value)
    if isinstance(value, bool):
        return 1 if value else 0
    return value if isinstance(value, int | float | str) else str(value)
