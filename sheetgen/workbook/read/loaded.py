"""What a file holds, as plain records: sheets with their cells, drawings and settings, and names. Knows no file library.

Every reader (`loading` for workbooks of the open standard, `other_formats` for the rest) gives these records; all that
finds and judges reads them alone.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any, Literal, NamedTuple

from sheetgen.declare.kinds import Picture
from sheetgen.workbook.model.written import Mark, Message, Style

__all__ = ["Area", "Contents", "Drawing", "Held", "Loaded", "LoadedSheet", "Mark", "Message", "Style"]


class Area(NamedTuple):
    """What a workbook name points at; rows and columns count from 1."""

    title: str
    first: int
    column: int
    last: int
    last_column: int


class Held(NamedTuple):
    """What a cell holds: its typed value, the text of its formula (None if it has none), its comment, or an error.

    `shown` is what the file stores as a formula's result (None if nothing is stored); `style` is a place in
    `Loaded.styles`.
    """

    value: Any
    formula: str | None = None
    comment: str | None = None
    is_error: bool = False
    shown: Any = None
    style: int = 0


class Drawing(NamedTuple):
    """Something that lies over the cells: where it begins and ends (row, column, from 1), what it says or shows.

    `digest` is the sha-256 of a picture's bytes; `cropped` says that a part of it is cut away, `turned` that it is
    mirrored or rotated.
    """

    kind: Literal["picture", "text", "shape", "chart", "object"]
    first: tuple[int, int]
    last: tuple[int, int]
    digest: str = ""
    text: str = ""
    cropped: bool = False
    turned: bool = False


_NOTHING = Held(None)


@dataclass(frozen=True)
class LoadedSheet:
    """One sheet. Cells that a merged frame covers are not in `cells`; `pictures` stand by their frame's first cell.

    `drawings` are all that lies over the cells, pictures too. `hidden_rows` and `hidden_columns` are those of no height
    or width as well. `header` and `footer` are as the file writes them, all kinds of pages joined. `links` are targets
    by cell.
    """

    title: str
    cells: Mapping[tuple[int, int], Held]
    last_row: int
    last_column: int
    is_visible: bool
    is_protected: bool
    pictures: tuple[tuple[tuple[int, int], Picture], ...]
    drawings: tuple[Drawing, ...] = ()
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    header: str = ""
    footer: str = ""
    messages: tuple[Message, ...] = ()
    marks: tuple[Mark, ...] = ()
    links: tuple[tuple[tuple[int, int], str], ...] = ()

    def at(self, row: int, column: int) -> Held:
        """What a cell holds; an empty one holds None."""
        return self.cells.get((row, column), _NOTHING)

    def value(self, row: int, column: int) -> Any:
        """A cell's value, None if it is empty."""
        return self.at(row, column).value


@dataclass(frozen=True)
class Contents:
    """What a workbook file carries besides its sheets: parts that the audit must tell about."""

    macros: bool = False
    external_links: bool = False
    embedded: bool = False
    connections: bool = False


@dataclass(frozen=True)
class Loaded:
    """A workbook: its sheets by title in their order, the names that point at one area, the styles of its cells.

    `missing` says in words what this format does not keep or what could not be read, so that nobody believes it was
    checked; `typed_only` that nothing but typed values can be trusted (an old binary file).
    """

    sheets: Mapping[str, LoadedSheet]
    names: Mapping[str, Area]
    styles: tuple[Style, ...] = (Style(),)
    contents: Contents = field(default_factory=Contents)
    missing: tuple[str, ...] = ()
    typed_only: bool = False

    def style(self, held: Held) -> Style:
        """How a cell is written out and drawn."""
        return self.styles[held.style] if held.style < len(self.styles) else Style()

    def text(self, area: Area | None, offset: int = 0) -> str:
        """The text so many rows below the start of a named area; empty outside it or without one."""
        if area is None or area.first + offset > area.last:
            return ""
        value = self.sheets[area.title].value(area.first + offset, area.column)
        return "" if value is None else str(value)
