"""Inches as the trade writes them: 1/2 and not 8/16, by number formats that follow what stands in the cell.

Nothing is shown coarser than it is held without a word: a sixteenth in a style of eighths shows as a sixteenth, and what
somebody typed that is no fraction of an inch (a length that was converted) shows with a sign before its nearest one.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from sheetgen.declare.a1 import letters
from sheetgen.declare.kinds import Kind, length
from sheetgen.workbook.model.look import number_format
from sheetgen.workbook.model.page import Page, PlacedFields, PlacedTable
from sheetgen.workbook.model.values import Ready
from sheetgen.workbook.write.checks import paint
from sheetgen.workbook.write.formats import Formats
from sheetgen.workbook.write.targets import Target

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

_REDUCED = {1: "0", 2: "# ?/2", 4: "# ?/4", 8: "# ?/8"}
"""Parts of an inch -> number format; what needs more parts keeps the cell's own format."""


_FINER = {16: "# ??/16", 32: "# ??/32", 64: "# ??/64"}
_ABOUT = '"≈"'
_EXACT = "0.000001"
"""Inches; a fraction that a program worked out is not held to the last bit."""


def reduce_fractions(formats: Formats, sheet: Worksheet, page: Page, ready: Ready) -> None:
    """Give every cell that shows inches a format for the parts of an inch that stand in it."""
    words = dict(ready.shape.words)
    finest = int(words["{parts}"])
    own = number_format(length(), "in", words["{parts}"])
    coarse = {parts: formats.mark(num_format=form) for parts, form in _REDUCED.items() if parts < finest}
    finer = {parts: formats.mark(num_format=form) for parts, form in _FINER.items() if parts > finest}
    about = formats.mark(num_format=f"{_ABOUT}{own}")
    for is_typed, targets in _in_inches(page, words["{unit}"]):
        first = targets[0]
        cell = f"{letters(first.first_column + 1)}{first.first_row + 1}"
        for parts, shade in finer.items():
            paint(
                sheet,
                targets,
                f"=AND(ISNUMBER({cell}),{_off(cell, parts // 2)}>{_EXACT},{_off(cell, parts)}<={_EXACT})",
                shade,
            )
        if is_typed:
            paint(sheet, targets, f"=AND(ISNUMBER({cell}),{_off(cell, max(_FINER))}>{_EXACT})", about)
        for parts, shade in coarse.items():
            test = f"=AND(ISNUMBER({cell}),MOD(ROUND({cell}*{finest},0),{finest // parts})=0)"
            paint(sheet, targets, test, shade)


def _off(cell: str, parts: int) -> str:
    """How far a cell lies from the nearest of so many parts of an inch, in those parts; 0 if it is no number."""
    return f"ABS(N({cell})*{parts}-ROUND(N({cell})*{parts},0))"


def _shows_inches(kind: Kind, unit: str) -> bool:
    return (kind.name == "length" and unit == "in") or (kind.name == "other_length" and unit != "in")


def _in_inches(page: Page, unit: str) -> Iterator[tuple[bool, list[Target]]]:
    """Cells that show inches, in groups whose first is the one at the top left, and whether people type into them."""
    for part in page.parts:
        if isinstance(part, PlacedFields):
            for placed in part.fields:
                if _shows_inches(placed.entry.kind, unit):
                    row, column = placed.value.row - 1, placed.value.first - 1
                    yield placed.entry.who != "computed", [Target(row, column, row, column)]
        elif isinstance(part, PlacedTable) and part.refs:
            for is_typed in (True, False):
                found = [
                    Target(part.first - 1, column - 1, part.last - 2, column - 1)
                    for entry, column in part.columns
                    if _shows_inches(entry.kind, unit) and (entry.who != "computed") == is_typed
                ]
                if found:
                    yield is_typed, found
