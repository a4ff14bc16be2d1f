"""What a file holds, as plain records: sheets with their cells and pictures, and names. Knows no file library."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, NamedTuple

from sheetgen.declare.kinds import Picture


class Area(NamedTuple):
    """What a workbook name points at; rows and columns count from 1."""

    title: str
    first: int
    column: int
    last: int
    last_column: int


class Held(NamedTuple):
    """What a cell holds: its value, the text of its formula (None if it has none), its comment, or an error."""

    value: Any
    formula: str | None = None
    comment: str | None = None
    is_error: bool = False


_NOTHING = Held(None)


@dataclass(frozen=True)
class LoadedSheet:
    """One sheet. Cells that a merged frame covers are not in `cells`; `pictures` stand by their frame's first cell."""

    title: str
    cells: Mapping[tuple[int, int], Held]
    last_row: int
    last_column: int
    is_visible: bool
    is_protected: bool
    pictures: tuple[tuple[tuple[int, int], Picture], ...]

    def at(self, row: int, column: int) -> Held:
        """What a cell holds; an empty one holds None."""
        return self.cells.get((row, column), _NOTHING)

    def value(self, row: int, column: int) -> Any:
        """A cell's value, None if it is empty."""
        return self.at(row, column).value


@dataclass(frozen=True)
class Loaded:
    """A workbook: its sheets by title in their order, and the names that point at one area."""

    sheets: Mapping[str, LoadedSheet]
    names: Mapping[str, Area]

    def text(self, area: Area | None, offset: int = 0) -> str:
        """The text so many rows below the start of a named area; empty outside it or without one."""
        if area is None or area.first + offset > area.last:
            return ""
        value = self.sheets[area.title].value(area.first + offset, area.column)
        return "" if value is None else str(value)
