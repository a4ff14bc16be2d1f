"""Tables on the pages: which rows and columns of a sheet's table stand there, how wide, and with what room to write in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from sheetgen.declare.entry import Entry, Place
from sheetgen.declare.families import member_name
from sheetgen.pack.pages import ROOM_MM, FitForm, Lines, Rows
from sheetgen.pack.taking import Taking
from sheetgen.texts import say

_CLOSE_MM = 0.9
"""Above and below the words of a row that is read."""
_SHORT = 14
"""Letters of a column that needs no more room than its words."""


def entries(taking: Taking, table: str, names: tuple[str, ...]) -> list[tuple[str, Entry]]:
    """The named columns of a table, families opened, in the order of the names."""
    declared = taking.got.ready.book.tables.get(table)
    if declared is None:
        return []
    return [
        (f"{table}.{entry.name}", entry) for name in names for entry in declared[1].entries
        if name in (entry.name, entry.family) and taking.column(f"{table}.{entry.name}") is not None
    ]  # fmt: skip


def filled(taking: Taking, table: str) -> list[str]:
    """Refs of the rows that have a name."""
    declared = taking.got.ready.book.tables.get(table)
    if declared is None:
        return []
    key = f"{table}.{declared[1].key}"
    return [place.row for place, _ in taking.got.where.places(key) if taking.value(place) is not None]


def rows_of(taking: Taking, block: Rows) -> Iterator[dict[str, Any]]:
    """A table's rows that the block means, as a table of its columns in which something stands."""
    column, wanted = block.where or block.unless
    rows = [
        ref for ref in filled(taking, block.table)
        if not column or (taking.value(Place(f"{block.table}.{column}", ref)) == wanted) is bool(block.where)
    ]  # fmt: skip
    for name, beside, words in block.stands_for_blank:
        for ref in rows:
            place = Place(f"{block.table}.{name}", ref)
            if taking.value(place) is None and taking.value(Place(f"{block.table}.{beside}", ref)) is not None:
                taking.known[place] = words
    columns = entries(taking, block.table, block.columns)
    write_in = (*map(say, block.write_in), *dict(taking.got.ready.shape.axes).get(block.write_in_each, ()))
    yield from _table(taking, block.title, columns, rows, write_in, block.room_mm)


def _table(
    taking: Taking, title: str, columns: list[tuple[str, Entry]], rows: list[str], write_in: tuple[str, ...], room_mm: float
) -> Iterator[dict[str, Any]]:  # fmt: skip
    cells = {(address, ref): taking.cell(Place(address, ref), entry) for address, entry in columns for ref in rows}
    shown = [(address, entry) for address, entry in columns if any(cells[address, ref] is not None for ref in rows)]
    if not rows or not shown:
        return
    headings = [taking.column_heading(entry, [one for _, one in shown]) for _, entry in shown]
    shares = [_share([cells[address, ref] for ref in rows]) for address, _ in shown]
    yield {
        "sort": "rows",
        "title": say(title) if title else "",
        "headings": ["", *headings, *write_in],
        "widths": [0, *shares, *(6 for _ in write_in)],
        "numbers": [False, *(entry.kind.is_number for _, entry in shown), *(False for _ in write_in)],
        "rows": [
            [taking.anchor(ref), *(cells[address, ref] for address, _ in shown), *(None for _ in write_in)]
            for ref in rows
        ],
        "room": room_mm if write_in else _CLOSE_MM,
    }


def _share(texts: list[Any]) -> float:
    """A column's share of the width: 0 where it is as wide as its words, which are short; long texts by how long they are."""
    words = [text for text in texts if isinstance(text, str)]
    longest = max(map(len, words), default=0)
    word = max((len(one) for text in words for one in text.split()), default=0)
    return 0 if longest <= _SHORT else round(max(longest**0.6, 0.75 * word), 2)


def fit_form(taking: Taking, block: FitForm) -> Iterator[dict[str, Any]]:
    """Only where a round is asked for that has its columns."""
    sheet = block.table.partition(".")[0]
    asked = taking.value(Place(f"{sheet}.round_now"))
    names = dict(taking.got.ready.shape.axes).get("round", ())
    if asked not in names:
        return
    spec = member_name(block.asked, "round", names.index(str(asked)) + 1)
    columns = entries(taking, block.table, (*block.columns[:1], spec, *block.columns[1:]))
    yield from _table(
        taking, str(asked), columns, filled(taking, block.table), tuple(map(say, block.write_in)), ROOM_MM
    )


def lines(taking: Taking, block: Lines) -> dict[str, Any]:
    """Rows to be written in by hand, with a column for each member of the axis after the first heading."""
    each = dict(taking.got.ready.shape.axes).get(block.each, ())
    headings = [*map(say, block.before), *each, *map(say, block.after)]
    return {
        "sort": "rows",
        "title": say(block.title) if block.title else "",
        "headings": ["", *headings],
        "widths": [0, *(6 for _ in headings)],
        "numbers": [False] * (len(headings) + 1),
        "rows": [[str(number), *(None for _ in headings)] for number in range(1, block.count + 1)],
        "room": ROOM_MM,
    }
