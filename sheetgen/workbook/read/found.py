"""What was found in a file: places, typed values, formulas, shown values, and what is lost or was added."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.geometry import Cell, Geometry
from sheetgen.workbook.model.values import Ready, Values
from sheetgen.workbook.read import safety


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


@dataclass
class Returned:
    """All that was found in a file."""

    path: Path
    ready: Ready
    where: Geometry
    record: dict[str, Any]
    contents: safety.Contents
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
