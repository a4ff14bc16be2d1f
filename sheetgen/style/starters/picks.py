"""Rows by name: a starter says which point or material it means in words, a brief by the row's ref.

Used when a starter is put together, so that a row put between others changes nothing. Which entries name a row is what
the book says: those that pick one of a table's refs.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from difflib import get_close_matches

from sheetgen.declare.entry import REF
from sheetgen.declare.parts import Table
from sheetgen.garments import Point
from sheetgen.sheets import BOOK
from sheetgen.style.starters.layers import Data, rows
from sheetgen.texts import say

_POINTS = "measurements.points"


def refs_for_names(data: Data, points: Sequence[Point], file: str) -> None:
    """Put refs in place of names, in all rows; the points are those that the measurement table will hold.

    ValueError names the file, the row and the entry whose word is no row's name.
    """
    found: dict[str, Mapping[str, str]] = {}
    for address, (_, table) in BOOK.tables.items():
        picks = {entry.name: source for entry in table.entries if (source := _table_of(entry.kind.source))}
        for row in rows(data, address) if picks else ():
            for name in picks.keys() & row.keys():
                source = picks[name]
                known = found.setdefault(source, _refs(data, source, points))
                row[name] = _ref(
                    str(row[name]),
                    known,
                    say(
                        "{file}: {address}, row {row!r}, {name}",
                        file=file,
                        address=address,
                        row=row[_first(row)],
                        name=name,
                    ),
                )


def _table_of(source: str) -> str:
    """The address of the table whose refs are picked, "" if none are."""
    table, _, column = source.rpartition(".")
    return table if column == REF else ""


def _refs(data: Data, address: str, points: Sequence[Point]) -> Mapping[str, str]:
    """The refs of a table's rows by the names of the rows."""
    table: Table = BOOK.tables[address][1]
    names = [point.point for point in points] if address == _POINTS else [row[table.key] for row in rows(data, address)]
    return {str(name): f"{table.ref}{number}" for number, name in enumerate(names, 1)}


def _ref(name: str, known: Mapping[str, str], where: str) -> str:
    if name in known:
        return known[name]
    near = get_close_matches(name, known, 1)
    raise ValueError(
        say(
            "{where}: no row is called {name!r}{hint}",
            where=where,
            name=name,
            hint=say(", the nearest is {near!r}", near=near[0]) if near else "",
        )
    )


def _first(row: Data) -> str:
    return next(iter(row))
