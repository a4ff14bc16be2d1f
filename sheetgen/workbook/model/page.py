"""A page as planned: the parts of a sheet with their rows and columns, the sheet's widths, heights and page breaks.

Made by `grid` and `layout`; the writer follows it.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from sheetgen.declare.entry import Entry
from sheetgen.declare.parts import Chart, Form, Ledger, Line, Pictures, Sheet, Table, Words

TOP_ROWS = 3
"""Title, purpose and legend."""


class Span(NamedTuple):
    """A row's cells from one column to another (1-based, inclusive)."""

    row: int
    first: int
    last: int


@dataclass
class PlacedField:
    """A form's entry: label beside value."""

    entry: Entry
    label: Span
    value: Span


@dataclass
class PlacedTable:
    """A table: title row, then section titles, who fills, headings, the rows, and the line that ends it."""

    table: Table
    address: str
    title: int
    sections: int
    headings: int
    first: int
    last: int
    columns: list[tuple[Entry, int]]
    section_spans: list[tuple[str, int, int]]
    refs: list[str]


@dataclass
class PlacedFields:
    """A form or a row of picture frames."""

    part: Form | Pictures
    title: int
    fields: list[PlacedField]


@dataclass
class PlacedCharts:
    """A chart, or two of half the width side by side: their frames in one row, which holds nothing else."""

    frames: list[tuple[Chart, Span]]

    @property
    def title(self) -> int:
        """The row that it begins with."""
        return self.frames[0][1].row


@dataclass
class PlacedLedger:
    """A ledger: headings, then its lines."""

    part: Ledger
    title: int
    headings: int
    lines: list[tuple[int, Line]]
    columns: list[tuple[int, int]]


@dataclass
class PlacedWords:
    """Sentences, one a row."""

    part: Words
    title: int


Part = PlacedFields | PlacedTable | PlacedCharts | PlacedLedger | PlacedWords


@dataclass
class Page:
    """One sheet as planned."""

    sheet: Sheet
    widths: list[float] = field(default_factory=list)
    heights: dict[int, float] = field(default_factory=dict)
    parts: list[Part] = field(default_factory=list)
    breaks: list[int] = field(default_factory=list)
    last_row: int = 0
    row_breaks: list[int] = field(default_factory=list)
    """Rows before which a printed page begins: large drawings are not torn apart."""
    printed_columns: int = 0
    """Columns from the first on that are printed; 0 for all."""
    open_columns: int = 0
    """Columns from the first on that are in sight in the brand's own file; 0 for all: the others are folded away."""
    machinery: frozenset[int] = frozenset()
    """Columns beyond these that hold nothing but steps: in a copy, whose groups cannot be opened, they are hidden."""
    printed_rows: int = 0
    """Rows from the first on that are printed; 0 for all: what follows is steps, or frames without a picture."""

    @property
    def first_page(self) -> int:
        """How many columns stand on the first printed page."""
        return self.breaks[0] if self.breaks else self.printed_columns or len(self.widths)

    @property
    def last_on_paper(self) -> int:
        """The last row that is printed; of a sheet that nobody prints only the title is."""
        return (self.printed_rows or self.last_row) if self.sheet.printed else TOP_ROWS

    @property
    def main_table(self) -> PlacedTable | None:
        """The table whose headings stay in sight on the screen."""
        return self.parts[0] if self.sheet.main and isinstance(self.parts[0], PlacedTable) else None

    @property
    def last_table(self) -> PlacedTable | None:
        """The table that ends the paper: its headings repeat on every page that it runs over."""
        printed = [part for part in self.parts if part.title <= self.last_on_paper]
        return printed[-1] if printed and isinstance(printed[-1], PlacedTable) else None

    def first_content(self, part: Part) -> int:
        """The first row of what a part's title and headings stand over."""
        if isinstance(part, PlacedTable):
            return part.first
        if isinstance(part, PlacedFields):
            return part.fields[0].value.row if part.fields else part.title
        if isinstance(part, PlacedLedger):
            return part.headings + 1
        return part.title + 1 if isinstance(part, PlacedWords) else part.title

    def width(self, first: int, last: int) -> float:
        """Characters from one column to another."""
        return sum(self.widths[first - 1 : last])
