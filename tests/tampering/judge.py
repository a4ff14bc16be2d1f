"""Batches of changes, put into copies of a clean return and audited: which of them were not found at their cell."""

from __future__ import annotations

import random
import tempfile
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import NamedTuple

from sheetgen.audit import RULES
from sheetgen.audit.rule import Finding
from sheetgen.audit.run import audit
from sheetgen.sheets import BOOK
from sheetgen.testing.package import Package
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.read.file import read
from tests.loop import loop
from tests.tampering.classes import CLASSES, Tamper
from tests.tampering.targets import Target, targets

STYLES = ("overshirt", "sweatshirt", "jacket")
IN_A_SHEET = 8
"""So many changes go into one sheet of a file, each in rows of its own: more of them, and a row is no longer the same row."""


class Change(NamedTuple):
    """One class of tampering, done to one cell."""

    name: str
    target: Target


class Batch(NamedTuple):
    """Changes that go into one file together."""

    style: str
    seed: int
    changes: tuple[Change, ...]


class Missed(NamedTuple):
    """A change that no right rule told of at its cell, alone in its file; `said` is what the audit said instead."""

    name: str
    style: str
    where: str
    said: tuple[str, ...]


@cache
def cells_of(style: str) -> list[Target]:
    """Every cell of a style's clean return that can be tampered with."""
    return targets(read(BOOK, loop(style) / "a-returned.xlsx"))


def batches(style: str, of_each: int, seed: int, every_cell: bool) -> list[Batch]:
    """So many changes of every class, at cells drawn with the seed; and one more for every cell that none of them met."""
    chance = random.Random(f"{seed} {style}")
    cells = cells_of(style)
    changes: list[Change] = []
    for name, tamper in CLASSES.items():
        fitting = [cell for cell in cells if cell.sort in tamper.sorts]
        changes += [Change(name, cell) for cell in chance.sample(fitting, min(of_each, len(fitting)))]
    if every_cell:
        met = {change.target.cell for change in changes}
        for cell in cells:
            names = [name for name, tamper in CLASSES.items() if cell.sort in tamper.sorts and tamper.near != "column"]
            if names and cell.cell not in met:
                changes.append(Change(chance.choice(names), cell))
    chance.shuffle(changes)
    return [Batch(style, seed, tuple(part)) for part in _parted(changes)]


@dataclass
class _File:
    """Changes that go into one file, how many of them into which sheet, and the rows and columns that they take."""

    changes: list[Change] = field(default_factory=list)
    in_sheet: Counter[str] = field(default_factory=Counter)
    rows: set[tuple[str, int]] = field(default_factory=set)
    columns: set[tuple[str, int]] = field(default_factory=set)

    def has_room(self, cell: Cell) -> bool:
        near = {(cell.sheet, row) for row in range(cell.row - 1, cell.row + 2)}
        free = not near & self.rows and (cell.sheet, cell.column) not in self.columns
        return free and self.in_sheet[cell.sheet] < IN_A_SHEET

    def add(self, change: Change) -> None:
        sheet, row, column = change.target.cell
        self.changes.append(change)
        self.in_sheet[sheet] += 1
        self.rows.add((sheet, row))
        self.columns.add((sheet, column))


def _parted(changes: Iterable[Change]) -> list[list[Change]]:
    """Spread over files, so that no two are near each other."""
    files: list[_File] = []
    for change in changes:
        file = next((one for one in files if one.has_room(change.target.cell)), None)
        if file is None:
            files.append(file := _File())
        file.add(change)
    return [file.changes for file in files]


def judged(batch: Batch) -> tuple[list[Change], list[Missed]]:
    """The changes that could be done, and those that the audit does not find: each was tried again in a file of its own."""
    done, lost = _tried(batch, batch.changes)
    missed = [
        Missed(change.name, batch.style, f"{change.target.cell.sheet}!{change.target.cell.address}", tuple(said))
        for one, _ in lost
        for change, said in _tried(batch, [one])[1]
    ]
    return done, missed


def _tried(batch: Batch, changes: Sequence[Change]) -> tuple[list[Change], list[tuple[Change, list[str]]]]:
    source = loop(batch.style)
    package = Package((source / "a-returned.xlsx").read_bytes())
    chance = random.Random(batch.seed)
    done = [change for change in changes if CLASSES[change.name].work(package, change.target, chance)]
    if not done:
        return [], []
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "returned.xlsx"
        path.write_bytes(package.data())
        findings = audit(BOOK, RULES, path, source / "a-issued.receipt.json").findings
    said = [one.short for one in findings] if len(changes) == 1 else []
    return done, [
        (one, said) for one in done if not any(_tells(told, one.target, CLASSES[one.name]) for told in findings)
    ]


def _tells(finding: Finding, target: Target, tamper: Tamper) -> bool:
    """Whether a finding is of the right rule and names the cell, or its row or column where that is what was changed."""
    if finding.rule not in tamper.rules or finding.sheet != target.cell.sheet:
        return False
    column = finding.cell.rstrip("0123456789")
    row = finding.cell[len(column) :]
    if tamper.near == "row":
        return row == str(target.cell.row)
    if tamper.near == "column":
        return column == target.cell.address.rstrip("0123456789")
    return finding.cell == target.cell.address
