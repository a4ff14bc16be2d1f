"""Rows that hold nothing of an entry: titles, notes, and the small gaps between the parts of a sheet."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.workbook.model.page import (
    TOP_ROWS,
    Page,
    PlacedCharts,
    PlacedFields,
    PlacedLedger,
    PlacedTable,
    PlacedWords,
)

BAND_HEIGHT, TITLE_HEIGHT, LINE_ROW, GAP = 26.0, 20.0, 15.0, 7.0
"""Points: the band over a sheet, the title of a part, a note or a line of words over columns, a row that holds nothing."""


def set_heights_between(page: Page) -> None:
    """Give every row down to the last one its height: what a part has not given one itself is a title, a line, or a gap."""
    page.heights[1] = BAND_HEIGHT
    for row in range(2, TOP_ROWS + 1):
        page.heights[row] = LINE_ROW
    for title, lines in map(_titles, page.parts):
        if title:
            page.heights[title] = TITLE_HEIGHT
        for row in lines:
            page.heights.setdefault(row, LINE_ROW)
    for row in range(TOP_ROWS + 1, page.last_row):
        page.heights.setdefault(row, GAP)


def _titles(part: object) -> tuple[int, Iterator[int]]:
    """The row of a part's title (0: it has none), and those of its note, headings' lines and labels."""
    if isinstance(part, PlacedTable):
        lines = (row for row in range(part.title, part.headings) if row != part.sections or part.section_spans)
        return part.title if part.table.title else 0, lines
    if isinstance(part, PlacedFields):
        rows = {part.title, *(one for field in part.fields for one in (field.label.row, field.value.row))}
        return part.title if part.part.title else 0, iter(range(part.title, max(rows) + 1))
    if isinstance(part, PlacedLedger):
        return part.title if part.part.title else 0, iter(range(part.title, part.headings))
    if isinstance(part, PlacedWords):
        return part.title if part.part.title else 0, iter((part.title,))
    assert isinstance(part, PlacedCharts)
    return 0, iter(())
