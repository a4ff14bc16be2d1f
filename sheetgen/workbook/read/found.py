"""What was found in a file: places, typed values, formulas, shown values, and what is lost or was added."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import Any, Literal, NamedTuple

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.geometry import Cell, Geometry
from sheetgen.workbook.model.values import Ready, Values
from sheetgen.workbook.model.written import Style, Written, WrittenCell, WrittenSheet
from sheetgen.workbook.read.alignment import Alignment
from sheetgen.workbook.read.loaded import Contents, Held, Loaded

State = Literal["kept", "filled", "changed", "moved", "lost"]
STATES: tuple[State, ...] = ("kept", "filled", "changed", "moved", "lost")


@dataclass(frozen=True)
class Lost:
    """Something that belongs in the workbook and is not there: a sheet, a field, a column or a row."""

    what: str
    address: str
    row: str = ""


@dataclass(frozen=True)
class Stray:
    """A cell that holds something where nothing belongs."""

    cell: Cell
    value: str


class Meeting(NamedTuple):
    """A cell that was sent and what stands there now; `place` is the entry's, None for words of ours."""

    sheet: WrittenSheet
    at: tuple[int, int]
    sent: WrittenCell
    cell: Cell
    held: Held
    place: Place | None


class WordsGone(NamedTuple):
    """Words of ours whose row or column is gone: the sheet, the cell that they were sent in, and the words."""

    sheet: WrittenSheet
    at: tuple[int, int]
    words: str


@dataclass
class Accounts:
    """How many cells were written, and how many are what now; words of ours that are others now, or gone.

    `meetings` are all cells that held something or waited to be filled, and are still there.
    """

    counts: dict[State, int] = field(default_factory=lambda: dict.fromkeys(STATES, 0))
    meetings: list[Meeting] = field(default_factory=list)
    changed: list[Meeting] = field(default_factory=list)
    gone: list[WordsGone] = field(default_factory=list)

    @property
    def written(self) -> int:
        """Cells that held something or waited to be filled."""
        return sum(self.counts.values())


@dataclass(repr=False)  # in words it would be whole books: gigabytes in a failing test
class Returned:
    """All that was found in a file.

    `written` is what its record or receipt says was written (None for files without such an account), `alignments` say by
    the title as sent where each of its sheets stands now, `sent_places` which entry each of its cells belonged to.
    """

    path: Path
    ready: Ready
    where: Geometry
    record: dict[str, Any]
    loaded: Loaded
    written: Written | None = None
    typed: Values = field(default_factory=dict)
    formulas: dict[Place, str] = field(default_factory=dict)
    shown: dict[Place, Value] = field(default_factory=dict)
    lost: list[Lost] = field(default_factory=list)
    added_rows: dict[Place, int] = field(default_factory=dict)
    unnamed_rows: list[Place] = field(default_factory=list)
    """Rows whose ref is gone from its cell, known by the rows around them."""
    doubled_rows: dict[Place, str] = field(default_factory=dict)
    """A row that carries the ref of a row above it: the ref that it got -> the ref that it carries."""
    strays: list[Stray] = field(default_factory=list)
    added_sheets: list[str] = field(default_factory=list)
    hidden: list[str] = field(default_factory=list)
    renamed: dict[str, str] = field(default_factory=dict)
    unlocked: list[str] = field(default_factory=list)
    moved_names: list[str] = field(default_factory=list)
    """Addresses whose workbook name points elsewhere than the words around their cell say."""
    alignments: dict[str, Alignment] = field(default_factory=dict)
    accounts: Accounts = field(default_factory=Accounts)
    used: dict[str, set[tuple[int, int]]] = field(default_factory=lambda: defaultdict(set))
    """Cells of entries and refs, by sheet."""

    @property
    def contents(self) -> Contents:
        """What the file carries besides its sheets."""
        return self.loaded.contents

    @cached_property
    def sent_places(self) -> dict[str, dict[tuple[int, int], Place]]:
        """Which entry each cell belonged to when it was sent: sheet's title -> row and column -> place."""
        places: dict[str, dict[tuple[int, int], Place]] = defaultdict(dict)
        if self.written is not None:
            where = self.written.where
            for address in self.written.ready.book.entries:
                for place, cell in where.places(address):
                    places[cell.sheet][cell.row, cell.column] = place
        return places

    @cached_property
    def sent_refs(self) -> dict[str, set[tuple[int, int]]]:
        """Cells that held a row's ref when they were sent, by the sheet's title as sent."""
        refs: dict[str, set[tuple[int, int]]] = defaultdict(set)
        if self.written is not None:
            for table in self.written.where.tables.values():
                refs[table.sheet].update((row, table.ref_column) for row in table.rows.values())
        return refs

    def written_style(self, cell: WrittenCell) -> Style:
        """How a cell looked when it was sent."""
        assert self.written is not None
        return self.written.styles[cell.style]
