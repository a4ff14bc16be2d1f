"""Joining: two people went on from one file; what each of them changed, put together.

Nothing that was typed on either side is lost: what both changed is a conflict, and the first file's stands.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import NamedTuple

from sheetgen.declare.entry import REF, Place
from sheetgen.declare.kinds import Value
from sheetgen.declare.parts import Book
from sheetgen.workbook.model.compare import same
from sheetgen.workbook.model.values import Values, free_row, refs


class Both(NamedTuple):
    """A place that both changed: what stood there, and what each has."""

    place: Place
    before: Value
    first: Value
    second: Value


@dataclass
class Joined:
    """The values of both, what both changed, how many cells the second changed, and rows of its own that got another ref."""

    values: Values
    conflicts: list[Both] = field(default_factory=list)
    taken: int = 0
    moved: dict[str, str] = field(default_factory=dict)


def joined(book: Book, before: Values, first: Values, second: Values) -> Joined:
    """The first file's values with what the second changed since `before`.

    `book` is the expanded one, which knows the members of families. A row that one side took out and the other changed
    stays, as a conflict.
    """
    result = Joined(dict(first))
    second = _with_rows_apart(book, before, first, second, result)
    gone = _rows_gone(before, first) - _rows_gone(before, second)
    for place in dict.fromkeys((*before, *first, *second)):
        was, one, other = before.get(place), first.get(place), second.get(place)
        if same(other, was) or same(other, one):
            continue
        if same(one, was):
            _put(result.values, place, other)
            result.taken += 1
        elif _row(place) not in gone:
            result.conflicts.append(Both(place, was, one, other))
    _keep_rows(result, before, second, gone)
    return result


def _row(place: Place) -> tuple[str, str]:
    return place.entry.rpartition(".")[0], place.row


def _rows(values: Mapping[Place, Value]) -> set[tuple[str, str]]:
    return {_row(place) for place, value in values.items() if place.row and value not in (None, "")}


def _rows_gone(before: Values, now: Values) -> set[tuple[str, str]]:
    return _rows(before) - _rows(now)


def _keep_rows(result: Joined, before: Values, second: Values, gone: set[tuple[str, str]]) -> None:
    """Rows that the first took out while the second changed them stand as the second has them."""
    changed = {
        _row(place) for place, value in second.items() if _row(place) in gone and not same(value, before.get(place))
    }
    for place, value in second.items():
        if _row(place) in changed:
            if not same(value, before.get(place)):
                result.conflicts.append(Both(place, before.get(place), None, value))
            result.values[place] = value


def _with_rows_apart(book: Book, before: Values, first: Values, second: Values, result: Joined) -> Values:
    """The second's values, its new rows under refs that the first has not given to others; what points at them follows."""
    for address, (_, table) in book.tables.items():
        if table.mirrors or table.rows:
            continue
        old, here, there = (refs(address, values) for values in (before, first, second))
        used = [*old, *here, *there]
        for row in [one for one in there if one not in old and one in here]:
            if _content(address, row, first) != _content(address, row, second):
                new = free_row(table.ref, used)
                used.append(new)
                result.moved[f"{address}[{row}]"] = new
                second = dict(_renamed(book, address, row, new, second, old))
    return second


def _content(address: str, row: str, values: Values) -> dict[str, Value]:
    return {place.entry: value for place, value in values.items() if _row(place) == (address, row)}


def _renamed(
    book: Book, address: str, row: str, new: str, values: Values, old: list[str]
) -> Iterator[tuple[Place, Value]]:  # fmt: skip
    """Values in which a row has another ref: in its own table, in those that mirror it, and where a cell points at it."""
    homes = {address, *(other for other, (_, table) in book.tables.items() if table.mirrors == address)}
    for place, value in values.items():
        column = book.entries.get(place.entry)
        points = column is not None and column.entry.kind.source == f"{address}.{REF}"
        table = place.entry.rpartition(".")[0]
        moved = place.row == row and table in homes and row not in old
        yield Place(place.entry, new) if moved else place, new if points and value == row else value


def _put(values: Values, place: Place, value: Value) -> None:
    if value in (None, ""):
        values.pop(place, None)
    else:
        values[place] = value
