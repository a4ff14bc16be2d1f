"""All lengths of a style in another unit: what was typed, in every entry of that kind, and nothing else."""

from __future__ import annotations

from sheetgen.declare.parts import Book
from sheetgen.trade.lengths import convert
from sheetgen.workbook.model.values import Values


def lengths_in(book: Book, values: Values, then: str, now: str) -> Values:
    """The lengths among these values, converted; `book` is the expanded one, which knows the members of families."""
    if then == now:
        return {}
    found: Values = {}
    for place, value in values.items():
        column = book.entries.get(place.entry)
        if column is not None and column.entry.kind.name == "length" and isinstance(value, int | float):
            found[place] = convert(value, then, now)
    return found
