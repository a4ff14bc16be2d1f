"""Folding: findings that say the same of many cells, as one group with ranges, to keep reports short."""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from sheetgen.audit.rule import Finding
from sheetgen.declare.a1 import letters
from sheetgen.texts import say_many
from sheetgen.workbook.model.geometry import column_number

_ADDRESS = re.compile(r"([A-Z]{1,3})([1-9]\d*)")


@dataclass(frozen=True)
class Group:
    """Findings of one rule on one sheet under one heading: at least one, in the order in which they came."""

    findings: tuple[Finding, ...]

    @property
    def first(self) -> Finding:
        """The finding that speaks for the group."""
        return self.findings[0]

    @property
    def cells(self) -> str:
        """The cells as ranges: L12:L25, L30."""
        return ranges(finding.cell for finding in self.findings)

    @property
    def count(self) -> str:
        """How many cells there are, each once, in words: 14 cells."""
        return say_many("{count:,} cell", "{count:,} cells", len({finding.cell for finding in self.findings}))

    @property
    def rows(self) -> tuple[str, ...]:
        """The refs of the rows, each once."""
        return tuple(dict.fromkeys(finding.row for finding in self.findings if finding.row))

    @property
    def differs(self) -> bool:
        """Whether the findings do not all expect and find the same."""
        return len({(finding.expected, finding.found) for finding in self.findings}) > 1

    def shared(self, words: Callable[[Finding], str]) -> str | None:
        """What all of them say, once each one's own cell is read as the ranges; None if they differ."""
        if len(self.findings) == 1:
            return words(self.first)
        cells = self.cells
        texts = {_with_cells(words(finding), finding.cell, cells) for finding in self.findings}
        return texts.pop() if len(texts) == 1 else None


def folded(findings: Iterable[Finding], *, alike: bool = False) -> list[Group]:
    """Groups of the same rule, level, owner, sheet and heading, in the order of their first findings.

    With `alike`, also of the same expected and found, so that a group stands for all that its findings say.
    A finding without a cell stays alone.
    """
    groups: dict[Hashable, list[Finding]] = {}
    for number, one in enumerate(findings):
        key: tuple[Hashable, ...] = (one.rule, one.level, one.owner, one.sheet, one.column)
        if not one.cell:
            key = (number,)
        elif alike:
            key += (one.expected, one.found)
        groups.setdefault(key, []).append(one)
    return [Group(tuple(group)) for group in groups.values()]


def by_sheet(findings: Iterable[Finding]) -> dict[str, list[Finding]]:
    """Findings by their sheet, in the order in which the sheets first come."""
    sheets: dict[str, list[Finding]] = {}
    for finding in findings:
        sheets.setdefault(finding.sheet, []).append(finding)
    return sheets


class _Block(NamedTuple):
    first_row: int
    last_row: int
    left: int
    right: int

    @property
    def text(self) -> str:
        start = f"{letters(self.left)}{self.first_row}"
        end = f"{letters(self.right)}{self.last_row}"
        return start if start == end else f"{start}:{end}"


def ranges(cells: Iterable[str]) -> str:
    """Cell addresses as ranges, each cell once, by column and row: L12:L25, L30.

    What is no address comes last, as it is.
    """
    places: list[tuple[int, int]] = []
    others: list[str] = []
    for cell in dict.fromkeys(cells):
        match = _ADDRESS.fullmatch(cell)
        if match:
            places.append((column_number(match[1]), int(match[2])))
        elif cell:
            others.append(cell)
    blocks = sorted(_joined(_runs(sorted(places))), key=lambda block: (block.left, block.first_row))
    return ", ".join([*(block.text for block in blocks), *others])


def _runs(places: Sequence[tuple[int, int]]) -> list[_Block]:
    runs: list[_Block] = []
    for column, row in places:
        if runs and runs[-1].left == column and runs[-1].last_row == row - 1:
            runs[-1] = runs[-1]._replace(last_row=row)
        else:
            runs.append(_Block(row, row, column, column))
    return runs


def _joined(runs: Iterable[_Block]) -> list[_Block]:
    """Runs over the same rows in neighboring columns become one block."""
    blocks: list[_Block] = []
    for run in sorted(runs):
        last = blocks[-1] if blocks else None
        if last and last[:2] == run[:2] and last.right == run.left - 1:
            blocks[-1] = last._replace(right=run.right)
        else:
            blocks.append(run)
    return blocks


def _with_cells(text: str, cell: str, cells: str) -> str:
    # Not inside a longer address: L1 is not a part of L12.
    return re.sub(rf"(?<![\w$]){re.escape(cell)}(?!\w)", lambda _: cells, text)
