"""Sizes, colorways, rounds and lengths put in, taken out or sorted in the grid: what belongs to one goes along with it.

Columns of a family go by the place of its member (the third size); when a row is put in before it, what was typed for the
third size belongs to the fourth. And no graded size moves because another came or went: the steps make up for it.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from sheetgen.declare.entry import Place
from sheetgen.declare.families import MEMBER
from sheetgen.sheets import BOOK
from sheetgen.style.figures import figures
from sheetgen.texts import say
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.values import Values, refs
from sheetgen.workbook.model.written import Shown
from sheetgen.workbook.read.found import Returned

_SIZES, _NAME, _STEP, _EVEN = "style.sizes", "style.sizes.name", "measurements.points.over_z", 1e-9


class _Move(NamedTuple):
    """The rows of an axis: their refs as the file was built and as they stand now, and what they were called."""

    axis: str
    table: str
    names: Mapping[str, Shown]
    now: tuple[str, ...]

    @property
    def then(self) -> tuple[str, ...]:
        return tuple(self.names)

    def number(self, before: int) -> int:
        """Which member the one of that number is now; 0 if it is gone."""
        ref = self.then[before - 1]
        return self.now.index(ref) + 1 if ref in self.now else 0


def follow_members(got: Returned, values: Values) -> list[str]:
    """Put what was typed for a member where that member is now; says in words what followed and what was left behind."""
    notes: list[str] = []
    for axis, table in BOOK.axes.items():
        move = _Move(axis, table, named_when_built(got, table), tuple(refs(table, values)))
        if not move.then or move.now[: len(move.then)] == move.then:
            continue
        before = dict(values)
        gone = _carry(got, values, move)
        if axis == "size":
            _hold_sizes(before, values, move)
        notes += _said(values, move, gone)
    return notes


def built_with(got: Returned, cell: Cell | None) -> Shown:
    """What a cell held when the file was built."""
    sheet = got.written.sheet(cell.sheet) if got.written and cell else None
    held = sheet.cells.get((cell.row, cell.column)) if sheet and cell else None
    return held.shown if held else None


def named_when_built(got: Returned, table: str) -> dict[str, Shown]:
    """The refs of the rows that people name, as the file was built, in their order, each with what it was called."""
    then, key = got.written.where.tables.get(table) if got.written else None, BOOK.tables[table][1].key
    if then is None or BOOK.tables[table][1].rows or key not in then.columns:
        return {}
    named = {ref: built_with(got, Cell(then.sheet, row, then.columns[key])) for ref, row in then.rows.items()}
    return {ref: name for ref, name in named.items() if name not in (None, "")}


def _carry(got: Returned, values: Values, move: _Move) -> int:
    """Move the columns of the axis's families to their members' new places; how many cells belonged to members that are gone."""
    of_member = re.compile(rf"_{MEMBER[move.axis]}(?P<number>\d+)(?=_|\Z)")
    moved: Values = {}
    gone = 0
    for place in list(values):
        column = got.ready.book.entries.get(place.entry)
        table = place.entry.rpartition(".")[0]
        if (
            place.row
            and table in BOOK.tables
            and BOOK.tables[table][1].mirrors == move.table
            and place.row not in move.now
        ):
            del values[place]
            gone += 1
        elif column is not None and column.entry.member and (found := of_member.search(place.entry)):
            number, value = move.number(int(found["number"])), values.pop(place)
            if number:
                start, end = found.span("number")
                moved[Place(f"{place.entry[:start]}{number}{place.entry[end:]}", place.row)] = value
            else:
                gone += 1
    values.update(moved)
    return gone


def _hold_sizes(before: Values, values: Values, move: _Move) -> None:
    """Type the steps that keep every size that stayed where it was: one that was put in between begins as the one before it."""
    then = {place: value for place, value in before.items() if place.entry.rpartition(".")[0] != _SIZES}
    then |= {Place(_NAME, ref): str(name) for ref, name in move.names.items()}
    old, new = figures(then)[1], figures(values)[1]
    stayed = [ref for ref in move.now if ref in move.then]
    for row in refs("measurements.points", values):
        for first, second in pairwise(stayed):
            reached = _reached(old, row, move.then, first, second)
            reaches = _reached(new, row, move.now, first, second)
            if reached is None or reaches is None or abs(reached - reaches) < _EVEN:
                continue
            start, end = move.now.index(first) + 1, move.now.index(second) + 1
            for number in range(start + 1, end + 1):
                values[Place(f"{_STEP}{number}", row)] = reached if number == end else 0.0


def _reached(shown: Values, row: str, order: Sequence[str], first: str, second: str) -> float | None:
    """How much larger one size is than another, by the sum of steps."""
    sums = [shown.get(Place(f"measurements.points.reach_z{order.index(ref) + 1}", row)) for ref in (first, second)]
    small, large = (one if isinstance(one, int | float) else None for one in sums)
    return None if small is None or large is None else large - small


def _said(values: Values, move: _Move, gone: int) -> list[str]:
    key = f"{move.table}.{BOOK.tables[move.table][1].key}"
    came = [str(values.get(Place(key, ref)) or ref) for ref in move.now if ref not in move.then]
    went = [str(move.names[ref]) for ref in move.then if ref not in move.now]
    notes = []
    if came:
        notes.append(say("Put in: {names}. What was typed for the others went along with them.", names=", ".join(came)))
    if went:
        notes.append(
            say("Taken out: {names}, with {count} cells that were typed for it.", names=", ".join(went), count=gone)
        )
    return notes or [say("Put in another order: {names}.", names=", ".join(str(move.names[ref]) for ref in move.now))]
