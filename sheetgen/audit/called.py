"""What a place is called in a sentence: `the date when D1 Shell was sent`, `price per unit of M5 Button`."""

from __future__ import annotations

import re
from collections.abc import Callable

from sheetgen.audit.spoken import SPOKEN
from sheetgen.declare.entry import REF, Place
from sheetgen.declare.kinds import Value
from sheetgen.declare.parts import Book
from sheetgen.texts import say
from sheetgen.workbook.model.values import Ready, with_words

_MEMBER = re.compile(r"_[a-z]\d+(?=_|\Z)")
_UNIT = re.compile(r", (\{unit\}|\{currency\}|cm|mm|m|m²|kg|days|pieces)\Z")
"""A unit after a heading: beside a figure in a sentence it would stand twice, or say that it belongs to the words."""


def heading_of(ready: Ready, place: Place | None) -> str:
    """What stands above a column or before a field, without its unit; `This cell` for what is no entry."""
    if place is None:
        return say("This cell")
    if place.row and place.entry.endswith(f".{REF}"):
        return say("Ref")
    column = ready.book.entries.get(place.entry)
    return with_words(_UNIT.sub("", column.entry.heading), ready.shape) if column else say("This cell")


def called(ready: Ready, place: Place | None, line: str) -> str:
    """What a place is called; `line` is its row as a person calls it (empty for a field). Begins with a capital letter."""
    heading = heading_of(ready, place)
    words = SPOKEN.get(_MEMBER.sub("", place.entry)) if place else None
    if place is None or words is None:
        return say("{heading} of {line}", heading=heading, line=line) if line else heading
    named = say(words, row=line, member=ready.book.entries[place.entry].entry.member_title or heading)
    return named[:1].upper() + named[1:]


def row_in_words(book: Book, place: Place, value: Callable[[Place], Value]) -> str:
    """A row as a person calls it: `P1 Chest width`, by its ref and what stands in its key; `value` says what stands in a place."""
    table = place.entry.rpartition(".")[0]
    key = value(Place(f"{table}.{book.tables[table][1].key}", place.row)) if table in book.tables else None
    return f"{place.row} {key}" if key not in (None, "") else place.row
