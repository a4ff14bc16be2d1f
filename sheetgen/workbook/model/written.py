"""What was written into a workbook, to the last cell: its words, values, looks and drawings, as the file was sent.

A return is accounted for against it. Rows and columns count from 1; cells that a merged frame covers are left out.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from sheetgen.workbook.model.geometry import Geometry, name_of
from sheetgen.workbook.model.values import Ready, Values

Shown = str | int | float | None
"""What a cell shows: a text, a number (a day is one), or nothing."""


class Style(NamedTuple):
    """How a cell is written out and drawn: colors as RRGGBB, `ink` empty for automatic, `fill` empty for none."""

    number_format: str = "General"
    locked: bool = True
    ink: str = ""
    fill: str = ""
    struck: bool = False
    points: float = 10.0


class Message(NamedTuple):
    """What a cell's choice list and its input message say; `areas` as the file writes them (`C5:C9 E5`)."""

    areas: str
    sort: str = ""
    formula: str = ""
    title: str = ""
    prompt: str = ""


class Mark(NamedTuple):
    """A conditional format: where, of what sort, by which formulas, and how the cells then look."""

    areas: str
    sort: str
    formulas: tuple[str, ...]
    style: Style


class WrittenCell(NamedTuple):
    """A cell: what it shows, whether by a formula, and a place in the styles."""

    shown: Shown
    by_formula: bool
    style: int


class WrittenDrawing(NamedTuple):
    """A picture or chart over the cells: the cell that it begins in, and the sha-256 of a picture's bytes."""

    kind: str
    first: tuple[int, int]
    digest: str = ""


@dataclass(frozen=True)
class WrittenSheet:
    """One sheet as it was written."""

    title: str
    cells: Mapping[tuple[int, int], WrittenCell]
    drawings: tuple[WrittenDrawing, ...] = ()
    header: str = ""
    footer: str = ""
    messages: tuple[Message, ...] = ()
    marks: tuple[Mark, ...] = ()
    links: tuple[tuple[tuple[int, int], str], ...] = ()
    hidden: bool = False
    hidden_columns: frozenset[int] = frozenset()


@dataclass(frozen=True)
class Written:
    """A whole workbook as it was written: the book, where its entries stood, and every cell."""

    ready: Ready
    where: Geometry
    sheets: tuple[WrittenSheet, ...]
    styles: tuple[Style, ...]
    form: int = 0
    names: Mapping[str, str] = field(default_factory=dict)
    """Entries that have moved since: today's address -> the one by which the file knows it."""

    def name_of(self, address: str) -> str:
        """The workbook name by which the file knows an entry."""
        return name_of(self.names.get(address, address))

    def sheet(self, title: str) -> WrittenSheet | None:
        """The sheet of that title."""
        return next((sheet for sheet in self.sheets if sheet.title == title), None)


def shown_when_written(written: Written) -> Values:
    """What every formula showed when the file was written."""
    cells = {sheet.title: sheet.cells for sheet in written.sheets}
    shown: Values = {}
    for address in written.ready.formulas:
        for place, cell in written.where.places(address):
            held = cells[cell.sheet].get((cell.row, cell.column))
            shown[place] = held.shown if held is not None else None
    return shown
