"""The calculation engine's one door: typed values and formulas in, every computed value out."""

from __future__ import annotations

import datetime
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from importlib import import_module
from operator import itemgetter
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
    library: Any = import_module("formualizer")  # loaded when something is calculated
    book = library.Workbook(config=_once(library))
    for title in titles:
        book.add_sheet(title)
    held: dict[str, dict[tuple[int, int], str | float | int]] = defaultdict(dict)
    for cell, value in constants:
        if (word := cell_value(value)) is not None and word != "":
            held[cell.sheet][cell.column, cell.row] = word
    for title, cells in held.items():
        sheet = book.sheet(title)
        for column, row, words in _runs(cells):
            sheet.set_values_batch(row, column, len(words), 1, [[word] for word in words])
    placed: dict[str, dict[tuple[int, int], tuple[Place, str]]] = defaultdict(dict)
    for place, cell, text in formulas:
        placed[cell.sheet][cell.column, cell.row] = place, text
    runs = {title: list(_runs(there)) for title, there in placed.items()}
    for title, below in runs.items():
        sheet = book.sheet(title)
        for column, row, run in below:
            sheet.set_formulas_batch(row, column, len(run), 1, [[text] for _, text in run])
    book.evaluate_all()
    values: dict[Place, Value] = {}
    for title, below in runs.items():
        sheet = book.sheet(title)
        for column, row, run in below:
            given = sheet.get_values(library.RangeAddress(title, row, column, row + len(run) - 1, column))
            values.update((place, plain_value(one)) for (place, _), (one,) in zip(run, given, strict=True))
    return values


def _once(library: Any) -> Any:
    """For a book that is calculated once and thrown away: no history of its changes, no list of every cell of a small area
    that a formula reads, and no threads, whose start costs more than they save."""
    how = library.EvaluationConfig()
    how.enable_parallel = False
    how.range_expansion_limit = 0
    return library.WorkbookConfig(enable_changelog=False, eval_config=how)


def _runs(cells: Mapping[tuple[int, int], T]) -> Iterable[tuple[int, int, list[T]]]:
    """Cells (by column and row) one under another as runs: column, first row, items."""
    run: list[T] = []
    start: tuple[int, int] = (0, 0)
    for at, item in sorted(cells.items(), key=itemgetter(0)):
        if run and at == (start[0], start[1] + len(run)):
            run.append(item)
        else:
            if run:
                yield *start, run
            run, start = [item], at
    if run:
        yield *start, run


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
