"""Which cells must be filled now: for this purpose, in a row that is used, in the round that is asked for."""

from __future__ import annotations

from collections.abc import Callable

from sheetgen.declare.entry import Place, Who
from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.values import Ready


def is_asked(ready: Ready, place: Place, value: Callable[[str, str], Value], stage: int, who: Who) -> bool:
    """Whether a place must be filled by `who` at this stage; `value` says what stands in an entry's row."""
    column = ready.book.entries[place.entry]
    entry = column.entry
    rank = ready.needed.get(place.entry, 0)
    if not rank or rank > stage or entry.who != who:
        return False
    if entry.asked_by and value(entry.asked_by, "") != (entry.asked_when or entry.member_title):
        return False
    if column.table is not None:
        table = f"{column.sheet.name}.{column.table.name}"
        key = f"{table}.{column.table.key}"
        if place.entry == key or value(key, place.row) in (None, ""):
            return False
        if entry.unless and value(f"{table}.{entry.unless}", place.row) not in (None, ""):
            return False
    return True
