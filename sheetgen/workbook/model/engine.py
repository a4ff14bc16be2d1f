"""The calculation engine's one door: typed values and formulas in, every computed value out."""

from __future__ import annotations

import datetime
import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
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
_DAY = datetime.timedelta(1)
T = TypeVar("T")
_Cells = dict[tuple[int, int], tuple[bool, str | float | int | None]]
"""By column and row: whether it is a formula, and its text or what the cell holds."""


def day_number(day: datetime.date) -> int:
    """A day as spreadsheets count days; a time of the day is left out."""
    return ((day.date() if isinstance(day, datetime.datetime) else day) - DAY_ZERO).days


def cell_value(value: Value | datetime.time | datetime.timedelta) -> str | float | int | None:
    """What a cell holds for a value: dates as day numbers, times as parts of a day, pictures as a word."""
    if isinstance(value, datetime.timedelta):
        return value / _DAY
    if isinstance(value, datetime.time):
        return datetime.timedelta(0, value.second, value.microsecond, 0, value.minute, value.hour) / _DAY
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
    """Calculate a whole workbook in memory; errors come back as their text (`#N/A`), blanks as None."""
    return Calculator(titles).given(constants, formulas)


class Calculator:
    """Sheets that are calculated, and calculated again for other cells: then only what follows from those is worked out."""

    def __init__(self, titles: Iterable[str]) -> None:
        self._library: Any = import_module("formualizer")  # loaded when something is calculated
        self._book = self._library.Workbook(config=_settings(self._library))
        self._held: dict[str, _Cells] = defaultdict(dict)
        for title in titles:
            self._book.add_sheet(title)

    def given(
        self, constants: Iterable[tuple[Cell, Value]], formulas: Iterable[tuple[Place, Cell, str]]
    ) -> dict[Place, Value]:
        """What each formula gives where these cells, and no others, hold something; errors as their text, blanks as None."""
        cells: dict[str, _Cells] = defaultdict(dict, {title: {} for title in self._held})
        for cell, value in constants:
            if (word := cell_value(value)) is not None and word != "":
                cells[cell.sheet][cell.column, cell.row] = (False, word)
        placed: dict[str, dict[tuple[int, int], Place]] = defaultdict(dict)
        for place, cell, text in formulas:
            at = (cell.column, cell.row)
            cells[cell.sheet][at], placed[cell.sheet][at] = (True, text), place
        is_first = not self._held
        for title, there in cells.items():
            self._hold(title, there, is_first=is_first)
        self._book.evaluate_all()
        return {place: value for title, there in placed.items() for place, value in self._shown(title, there)}

    def _hold(self, title: str, cells: _Cells, *, is_first: bool) -> None:
        """Change what a sheet holds, in blocks: one call for each run of rows."""
        others = cells if is_first else _others(self._held[title], cells)
        words = {at: word for at, (is_formula, word) in others.items() if not is_formula}
        texts = {at: text for at, (is_formula, text) in others.items() if is_formula}
        sheet = self._book.sheet(title)
        for column, row, run in _runs(words):
            sheet.set_values_batch(row, column, len(run), 1, [[word] for word in run])
        if is_first:
            for column, row, run in _runs(texts):
                sheet.set_formulas_batch(row, column, len(run), 1, [[text] for text in run])
        else:
            for (column, row), text in texts.items():
                _put(sheet, row, column, text)
        self._held[title] = cells

    def _shown(self, title: str, places: Mapping[tuple[int, int], Place]) -> Iterator[tuple[Place, Value]]:
        sheet = self._book.sheet(title)
        for column, row, run in _runs(places):
            area = self._library.RangeAddress(title, row, column, row + len(run) - 1, column)
            for place, (value,) in zip(run, sheet.get_values(area), strict=True):
                yield place, plain_value(value)


def _put(sheet: Any, row: int, column: int, text: object) -> None:
    """A formula into a cell of a book that was calculated: a block of them over what held values is not always worked out."""
    try:
        sheet.set_formula(row, column, text)
    except RuntimeError:  # it reads itself, or cannot be read: in a block that is an error that the cell shows
        sheet.set_formulas_batch(row, column, 1, 1, [[text]])


def _others(before: _Cells, now: _Cells) -> _Cells:
    """The cells that hold something else now; those that hold nothing any more hold None."""
    gone: _Cells = dict.fromkeys(before.keys() - now.keys(), (False, None))
    return gone | {
        at: one for at, one in now.items() if before.get(at) != one or type(before[at][1]) is not type(one[1])
    }


def _settings(library: Any) -> Any:
    """For a book that is soon thrown away: no history of its changes, no list of every cell of a small area that a formula
    reads (one that reads an area with itself in it is an error then, as in a large area), and no threads, whose start costs
    more than they save."""
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
    if isinstance(value, str | float):
        return value
    # An error comes as a mapping; written as it is, it makes a file that nothing opens.
    if isinstance(value, dict):
        return ERRORS.get(str(value.get("kind")), "#ERROR!")
    if isinstance(value, bool):
        return 1 if value else 0
    if isinstance(value, datetime.date):
        return day_number(value)
    return value if isinstance(value, int) else None
