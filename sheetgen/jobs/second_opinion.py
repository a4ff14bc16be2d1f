"""A second opinion: another engine, which shares no code with ours, works out every formula of a file.

It is slow, so it gets each formula with what stands in the cells that it reads. If every cell then gives what ours gives there,
the whole file does: no formula reads itself, so an error would show in the first cell that has it. A formula that differs from
that of another row only in the row's number is read once, and worked out once for the same values.
"""

from __future__ import annotations

import re
import warnings
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from importlib import import_module
from importlib.metadata import version
from pathlib import Path
from typing import Any, NamedTuple

from sheetgen.declare.entry import Place
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.texts import say
from sheetgen.workbook.model.engine import cell_value, recalculate
from sheetgen.workbook.model.geometry import Cell, column_number
from sheetgen.workbook.read.file import opened

Held = float | str
_ENGINE = "formulas"
_TOLERANCE = 1e-9
"""Of the larger of two numbers: what two engines may differ by in their last digits."""
_AREA = re.compile(r"\$?([A-Z]{1,3})\$?(\d+)(?::\$?([A-Z]{1,3})\$?(\d+))?")


class Difference(NamedTuple):
    """A cell on which the two engines do not agree, and what each gives."""

    cell: Cell
    ours: Held
    theirs: Held


class Opinion(NamedTuple):
    """How many formulas another engine worked out, its name, and where it does not agree with ours."""

    formulas: int
    engine: str
    differences: tuple[Difference, ...]


def second_opinion(path: Path) -> Opinion:
    """Every formula of a workbook worked out by the `formulas` package. UserError without that package, or (status 3) for a
    file that cannot be used."""
    _library()
    sheets = opened(BOOK, path).loaded.sheets
    texts: dict[Cell, str] = {}
    held: dict[Cell, Any] = {}
    for title, sheet in sheets.items():
        for (row, column), one in sheet.cells.items():
            cell = Cell(title, row, column)
            if one.formula is not None:
                texts[cell] = one.formula
            elif (value := cell_value(one.value)) not in (None, ""):
                held[cell] = plain(value)
    names = {Place(f"{cell.sheet}!{cell.address}"): cell for cell in texts}
    ours = recalculate(sheets, held.items(), ((place, cell, texts[cell]) for place, cell in names.items()))
    given = {cell: plain(ours[place]) for place, cell in names.items()}
    engine = SecondEngine(texts, {**held, **given})
    differences = (
        Difference(cell, value, theirs)
        for cell, value in given.items()
        if not same(value, theirs := engine.works_out(cell))
    )
    return Opinion(len(texts), " ".join((_ENGINE, version(_ENGINE))), tuple(differences))


def plain(value: object) -> Held:
    """A value as number or text; a blank as an empty text."""
    if value is None:
        return ""
    return float(value) if isinstance(value, int | float) else str(value)


def same(one: Held, other: Held) -> bool:
    """Whether two shown values are one and the same: a text to the letter, a number to its ninth digit."""
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= _TOLERANCE * max(abs(one), abs(other))
    return one == other


@dataclass
class _Read:
    """A formula that the package has read: what to call, and the areas to call it with."""

    function: Callable[..., Any]
    row: int
    areas: list[tuple[str, str]] = field(default_factory=list)
    given: dict[tuple[Any, ...], Held] = field(default_factory=dict)
    """What it gave for values that it had before."""


class SecondEngine:
    """Works out cells of a file from what the cells that they read hold. Formulas that were read serve for further files."""

    _read: dict[tuple[str, str], _Read] = {}  # noqa: RUF012 - one for all: reading takes most of the time

    def __init__(self, formulas: Mapping[Cell, str], held: Mapping[Cell, Any]) -> None:
        self._formulas, self._held = formulas, held
        self._titles = {cell.sheet.upper(): cell.sheet for cell in (*held, *formulas)}

    def works_out(self, cell: Cell) -> Held:
        """What the formula in a cell gives."""
        read = self._reading(cell)
        areas = [
            (area, list(self._values(sheet or cell.sheet, area, read.row, cell.row))) for sheet, area in read.areas
        ]
        known = tuple(tuple(map(tuple, values)) for _, values in areas)
        if known not in read.given:
            numpy = import_module("numpy")
            value = numpy.ravel(read.function(*(_ranges(area, values) for area, values in areas)))[0]
            value = value.item() if isinstance(value, numpy.generic) else value
            read.given[known] = plain(value if isinstance(value, int | float) else str(value))
        return read.given[known]

    def _reading(self, cell: Cell) -> _Read:
        # Of its own row a formula reads $K14; a row number with a dollar before it is another cell's.
        text = self._formulas[cell]
        pattern = re.sub(rf"(\$[A-Z]+){cell.row}\b", r"\1#", text)
        key = (cell.sheet, pattern if f"${cell.row}" not in text else text)
        if key not in self._read:
            function = _library().Parser().ast(text)[1].compile()
            areas = [name.rpartition("!") for name in function.inputs]
            titles = [(self._titles.get(sheet.strip("'"), ""), area) for sheet, _, area in areas]
            self._read[key] = _Read(function, cell.row, titles)
        return self._read[key]

    def _values(self, title: str, area: str, read_row: int, row: int) -> Iterator[list[Any]]:
        empty = import_module("schedula").EMPTY
        left, top, right, bottom = _edges(area)
        if top == bottom == read_row:
            top = bottom = row
        for down in range(top, bottom + 1):
            yield [self._held.get(Cell(title, down, across), empty) for across in range(left, right + 1)]


def _edges(area: str) -> tuple[int, int, int, int]:
    found = _AREA.fullmatch(area)
    assert found is not None, area
    left, top, right, bottom = found[1], found[2], found[3] or found[1], found[4] or found[2]
    return column_number(left), int(top), column_number(right), int(bottom)


def _ranges(area: str, values: list[list[Any]]) -> Any:
    array = import_module("numpy").array(values, dtype=object)
    return import_module("formulas.ranges").Ranges().push(area, array)


def _library() -> Any:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            return import_module("formulas")
        except ImportError:
            raise UserError(
                say("A second opinion needs another engine: pip install 'sheetgen[referee]', then try again.")
            ) from None
