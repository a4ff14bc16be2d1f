"""The `formulas` package, an engine in plain Python that shares no code with ours, as a referee for a whole file.

It is slow (a minute a file when it works out a file by itself), so it gets each formula with the values that stand in the
cells it reads. If every cell then gives what stands in it, the whole file does: no formula reads itself (the
declaration is proven to have no circles), so an error would show in the first cell that has it. A formula that
differs from that of another row only in the row's number is read once, for all files, and worked out once for the same
values (spare rows, a vendor's copy of a file).
"""

import re
import warnings
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy
import openpyxl
from schedula import EMPTY

from tests.referee.books import CellName, Shown, opened, plain

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from formulas import Parser
    from formulas.ranges import Ranges


@dataclass
class Read:
    """A formula that the package has read: what to call, and the ranges to call it with."""

    function: Callable[..., Any]
    row: int
    areas: list[tuple[str, str]] = field(default_factory=list)
    given: dict[tuple[Any, ...], Shown] = field(default_factory=dict)
    """What it gave for values that it had before."""


_READ: dict[tuple[str, str], Read] = {}


class SecondEngine:
    """Works out cells of one file from what the cells they read hold."""

    def __init__(self, path: Path, shown: dict[CellName, Shown]) -> None:
        loaded = opened(path)
        self._titles = {sheet.title.upper(): sheet.title for sheet in loaded}
        self._formulas = {name: str(loaded[name[0]][name[1]].value) for name in shown}
        self._held: dict[tuple[str, int, int], Any] = {
            (sheet.title, cell.row, cell.column): plain(cell.value)
            for sheet in loaded for row in sheet.iter_rows() for cell in row if cell.value is not None
        }  # fmt: skip
        for (title, address), value in shown.items():
            cell = loaded[title][address]
            self._held[title, cell.row, cell.column] = value

    def works_out(self, name: CellName) -> Shown:
        """What the formula in a cell gives."""
        row = int(name[1].lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ"))
        read = self._reading(name[0], self._formulas[name], row)
        areas = [(area, self._values(sheet or name[0], area, read.row, row)) for sheet, area in read.areas]
        known = tuple(tuple(map(tuple, values)) for _, values in areas)
        if known not in read.given:
            held = read.function(*(_ranges(area, values) for area, values in areas))
            value = numpy.ravel(held)[0]
            read.given[known] = plain(
                value.item()
                if isinstance(value, numpy.generic)
                else value
                if isinstance(value, int | float)
                else str(value)
            )
        return read.given[known]

    def _reading(self, title: str, text: str, row: int) -> Read:
        # Of its own row a formula reads $K14; a row number with a dollar before it is another cell's.
        pattern = re.sub(rf"(\$[A-Z]+){row}\b", r"\1#", text)
        key = (title, pattern if f"${row}" not in text else text)
        if key not in _READ:
            function = Parser().ast(text)[1].compile()
            areas = [name.rpartition("!") for name in function.inputs]
            _READ[key] = Read(
                function, row, [(self._titles.get(sheet.strip("'"), ""), area) for sheet, _, area in areas]
            )
        return _READ[key]

    def _values(self, title: str, area: str, read_row: int, row: int) -> list[list[Any]]:
        left, top, right, bottom = openpyxl.utils.cell.range_boundaries(area)
        if top == bottom == read_row:
            top = bottom = row
        return [
            [self._held.get((title, down, across), EMPTY) for across in range(left, right + 1)]
            for down in range(top, bottom + 1)
        ]


def _ranges(area: str, values: list[list[Any]]) -> Any:
    return Ranges().push(area, numpy.array(values, dtype=object))
