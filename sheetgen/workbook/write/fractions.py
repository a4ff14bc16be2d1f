"""Inches as the trade writes them: 1/2 and not 8/16, by number formats that follow what stands in the cell."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from sheetgen.declare.a1 import letters
from sheetgen.declare.kinds import Kind
from sheetgen.workbook.model.page import Page, PlacedFields, PlacedTable
from sheetgen.workbook.model.values import Ready
from sheetgen.workbook.write.checks import Target, paint
from sheetgen.workbook.write.formats import Formats

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

_REDUCED = {1: "0", 2: "# ?/2", 4: "# ?/4", 8: "# ?/8"}
"""Parts of an inch -> number format; what needs more parts keeps the cell's own format."""


def reduce_fractions(formats: Formats, sheet: Worksheet, page: Page, ready: Ready) -> None:
    """Give every cell that shows inches a format for whole inches, halves, quarters and (beside sixteenths) eighths."""
    words = dict(ready.shape.words)
    finest = int(words["{parts}"])
    shades = {parts: formats.mark(num_format=form) for parts, form in _REDUCED.items() if parts < finest}
    for targets in _in_inches(page, words["{unit}"]):
        first = targets[0]
        cell = f"{letters(first.first_column + 1)}{first.first_row + 1}"
        for parts, shade in shades.items():
            test = f"=AND(ISNUMBER({cell}),MOD(ROUND({cell}*{finest},0),{finest // parts})=0)"
            paint(sheet, targets, test, shade)


def _shows_inches(kind: Kind, unit: str) -> bool:
    return (kind.name == "length" and unit == "in") or (kind.name == "other_length" and unit != "in")


def _in_inches(page: Page, unit: str) -> Iterator[list[Target]]:
    """Cells that show inches, in groups whose first is the one at the top left."""
    for part in page.parts:
        if isinstance(part, PlacedFields):
            for placed in part.fields:
                if _shows_inches(placed.entry.kind, unit):
                    row, column = placed.value.row - 1, placed.value.first - 1
                    yield [Target(row, column, row, column)]
        elif isinstance(part, PlacedTable) and part.refs:
            found = [
                Target(part.first - 1, column - 1, part.last - 2, column - 1)
                for entry, column in part.columns
                if _shows_inches(entry.kind, unit)
            ]
            if found:
                yield found
