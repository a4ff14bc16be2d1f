"""Which cells must or can be filled now: for this purpose, in a row that is used, in the round that is asked for."""

from __future__ import annotations

from collections.abc import Callable

from sheetgen.declare.entry import Place, Who
from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.values import Ready

Known = Callable[[str, str], Value]
"""What stands in an entry's row, typed or worked out."""


def is_asked(ready: Ready, place: Place, value: Known, stage: int, who: Who) -> bool:
    """Whether a place must be filled by `who` at this stage; `value` says what stands in an entry's row."""
    column = ready.book.entries[place.entry]
    rank = ready.needed.get(place.entry, 0)
    if not rank or rank > stage or column.entry.who != who or not _is_meant(ready, place, value):
        return False
    if column.table is None:
        return True
    key = f"{column.sheet.name}.{column.table.name}.{column.table.key}"
    return place.entry != key and value(key, place.row) not in (None, "")


def waits_for_vendor(ready: Ready, place: Place, value: Known) -> bool:
    """Whether a vendor's cell can hold an answer in this copy: it is of the round that is asked, not excused, and in a row
    that the brand has begun, where only the brand begins one."""
    column = ready.book.entries[place.entry]
    if not _is_meant(ready, place, value):
        return False
    if column.table is None:
        return True
    key = f"{column.sheet.name}.{column.table.name}.{column.table.key}"
    return ready.book.entries[key].entry.who == "vendor" or value(key, place.row) not in (None, "")


def _is_meant(ready: Ready, place: Place, value: Known) -> bool:
    column = ready.book.entries[place.entry]
    entry = column.entry
    if entry.asked_by and value(entry.asked_by, "") != (entry.asked_when or entry.member_title):
        return False
    if column.table is None or not entry.unless:
        return True
    return value(f"{column.sheet.name}.{column.table.name}.{entry.unless}", place.row) in (None, "")
