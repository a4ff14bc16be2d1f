"""References: which cells point at a row of another table that is not there, or that holds nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from sheetgen.declare.entry import REF, Place
from sheetgen.declare.kinds import PictureMark, Value
from sheetgen.declare.parts import Book
from sheetgen.workbook.model.values import Values


def astray(book: Book, values: Values) -> Iterator[tuple[Place, Value]]:
    """Every cell that points at nothing, with what it says; rows are there when their key is filled."""
    there: dict[str, frozenset[str]] = {}
    for place, value in values.items():
        column = book.entries.get(place.entry)
        if column is None or not column.entry.kind.must_stand or value in (None, ""):
            continue
        source = column.entry.kind.source
        if source not in there:
            there[source] = standing(book, source, values)
        if as_word(value) not in there[source]:
            yield place, value


def standing(book: Book, source: str, values: Mapping[Place, Value | PictureMark]) -> frozenset[str]:
    """What a cell may point at: the refs, or the names, of a table's filled rows."""
    table, _, column = source.rpartition(".")
    declared = book.tables[table][1]
    key = declared.key if column == REF else column
    typed = {
        place.row: value
        for place, value in values.items()
        if place.entry == f"{table}.{key}" and value not in (None, "")
    }
    fixed = {f"{declared.ref}{number}": row.get(key) for number, row in enumerate(declared.rows, 1)}
    rows = {**fixed, **typed}
    return frozenset(map(as_word, rows if column == REF else rows.values()))


def as_word(value: object) -> str:
    """A name as it is compared: sizes are numbers in some files and texts in others, and case has no weight."""
    if isinstance(value, float) and value == int(value):
        value = int(value)
    return str(value).strip().casefold()
