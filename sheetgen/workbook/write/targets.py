"""Which cells of a sheet an entry has, for what is set on them besides values: entry checks, messages, colors."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NamedTuple

from sheetgen.declare.a1 import letters
from sheetgen.declare.parts import Column
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.model import look
from sheetgen.workbook.model.page import Page, PlacedFields, PlacedLedger, PlacedTable
from sheetgen.workbook.model.values import Ready

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

MOST_TITLE, MOST_MESSAGE = 32, 255
"""Characters of an input message."""


class Target(NamedTuple):
    """Cells that share a rule: first row, column, last row, last column (0-based, as xlsxwriter counts)."""

    first_row: int
    first_column: int
    last_row: int
    last_column: int

    @property
    def text(self) -> str:
        """As a range: B4:B20."""
        return (
            f"{letters(self.first_column + 1)}{self.first_row + 1}:{letters(self.last_column + 1)}{self.last_row + 1}"
        )


class EntryCells(NamedTuple):
    """An entry's address, declaration and cells, and the column letter of its row's key (empty for a field)."""

    address: str
    column: Column
    target: Target
    key: str


def set_rule(sheet: Worksheet, title: str, target: Target, rule: dict[str, Any], heading: str, says: str) -> None:
    """Set an entry check on cells, with what is shown when one is chosen."""
    rule["input_title"] = look.shortened(heading, MOST_TITLE)
    rule["input_message"] = look.shortened(says, MOST_MESSAGE)
    if sheet.data_validation(*target, rule) not in (0, None):
        raise UserError(
            say("sheet {title}: the entry check of {heading} could not be written", title=title, heading=heading)
        )


def entry_targets(page: Page, ready: Ready) -> list[EntryCells]:
    """The cells of each entry of a page."""
    found: list[EntryCells] = []
    name = page.sheet.name
    for part in page.parts:
        if isinstance(part, PlacedFields):
            for placed in part.fields:
                row, column = placed.value.row - 1, placed.value.first - 1
                address = f"{name}.{placed.entry.name}"
                found.append(EntryCells(address, ready.book.entries[address], Target(row, column, row, column), ""))
        elif isinstance(part, PlacedTable) and part.refs:
            key = next(column for entry, column in part.columns if entry.name == part.table.key)
            for entry, column in part.columns:
                address = f"{part.address}.{entry.name}"
                target = Target(part.first - 1, column - 1, part.last - 2, column - 1)
                found.append(EntryCells(address, ready.book.entries[address], target, letters(key)))
        elif isinstance(part, PlacedLedger):
            for line_row, line in part.lines:
                for entry, (at, _) in zip(line.entries, part.columns[len(line.words) :], strict=False):
                    address = f"{name}.{entry.name}"
                    target = Target(line_row - 1, at - 1, line_row - 1, at - 1)
                    found.append(EntryCells(address, ready.book.entries[address], target, ""))
    return found
