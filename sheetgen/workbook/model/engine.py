"""The calculation engine's one door: typed values and formulas in, every computed value out."""

from __future__ import annotations

import datetime
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from importlib import import_module
from typing import Any, TypeVar

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import DAY_ZERO, Picture, Value
from sheetgen.workbook.model.geometry import Cell

PICTURE_WORD = "picture"
"""Stands in a picture's cell, so that live checks see that there is one."""

ERRORS = {
    "Div": "#DIV/0!", "Na": "#N/A", "Name": "#NAME?", "Null": "#NULL!", "Num": "#NUM!", "Ref": "#REF!",
    "Value": "#VALUE!", "Circ": "#REF!",
}  # fmt: skip
ERROR_TEXTS = frozenset(ERRORS.values()) | {"#ERROR!"}
_ERROR = re.compile(r"#(?:[A-Z/0_]+[!?]|N/A|GETTING_DATA)|Err:\d{3}")
"""Errors of all programs; a screen color (#5B6B4A) is none."""
T = TypeVar("T")


def day_number(day: datetime.date) -> int:
    """A day as spreadsheets count days; a time of the day is left out."""
    return ((day.date() if isinstance(day, datetime.datetime) else day) - DAY_ZERO).days


def cell_value(value: Value) -> str | float | int | None:
    """What a cell holds for a value: dates as day numbers, pictures as a word."""
    if isinstance(value, datetime.date):
        return day_number(value)
    if isinstance(value, Picture):
        return PICTURE_WORD
    return value


def is_error(value: Value) -> bool:
    """Whether a shown value is one of the spreadsheet's errors."""
    return isinstance(value, str) and (value in ERROR_TEXTS or _ERROR.fullmatch(value) is not None)


def recalculate(
    titles: Iterable[str],
    constants: Iterable[tuple[Cell, Value]],
    formulas: Iterable[tuple[Place, Cell, str]],
) -> dict[Place, Value]:
    """Calculate a whole workbook in memory; errors come back as their text (`#N/A`), blanks as None.

    Constants and formulas are set column by column in blocks: one call per run of rows.
    """
    book: Any = import_module("formualizer").Workbook()  # loaded when something is calculated
    for title in titles:
        book.add_sheet(title)
    blocks: dict[str, dict[tuple[int, int], str | float | int]] = defaultdict(dict)
    for cell, value in constants:
        held = cell_value(value)
        if held is not None and held != "":
            blocks[cell.sheet][cell.row, cell.column] = held
    for title, cells in blocks.items():
        sheet = book.sheet(title)
        for row, column, run in _runs(cells):
            sheet.set_values_batch(row, column, len(run), 1, [[item] for item in run])
    placed = list(formulas)
    texts: dict[str, dict[tuple[int, int], str]] = defaultdict(dict)
    for _, cell, text in placed:
        texts[cell.sheet][cell.row, cell.column] = text
    for title, cells_with_text in texts.items():
        sheet = book.sheet(title)
        for row, column, formulas_below in _runs(cells_with_text):
            sheet.set_formulas_batch(row, column, len(formulas_below), 1, [[text] for text in formulas_below])
    book.evaluate_all()
    values: dict[Place, Value] = {}
    by_sheet: dict[str, list[tuple[Place, Cell]]] = defaultdict(list)
    for place, cell, _ in placed:
        by_sheet[cell.sheet].append((place, cell))
    for title, wanted in by_sheet.items():
        for place, cell in wanted:
            values[place] = plain_value(book.get_value(title, cell.row, cell.column))
    return values


def _runs(cells: Mapping[tuple[int, int], T]) -> Iterable[tuple[int, int, list[T]]]:
    """Cells one under another as runs: first row, column, items."""
    run: list[T] = []
    start: tuple[int, int] = (0, 0)
    last: tuple[int, int] = (0, 0)
    for (row, column), item in sorted(cells.items(), key=lambda pair: (pair[0][1], pair[0][0])):
        if run and column == last[1] and row == last[0] + 1:
            run.append(item)
        else:
            if run:
                yield start[0], start[1], run
            run, start = [item], (row, column)
        last = (row, column)
    if run:
        yield start[0], start[1], run


def plain_value(value: object) -> Value:
    """A value as the engine gives it, as a cell shows it: errors as their text, blanks as None."""
    # An error comes as a mapping; written as it is, it makes a file that nothing opens.
    if isinstance(value, dict):
        return ERRORS.get(str(value.get("kind")), "#ERROR!")
    if isinstance(value, bool):
        return 1 if value else 0
    if isinstance(value, datetime.date):
        return day_number(value)
    if isinstance(value, int | float | str):
        return value
    return None
