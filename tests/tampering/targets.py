"""Cells of a return that somebody may tamper with: every cell that was written, by what stands in it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from sheetgen.declare.entry import Place
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.written import Shown
from sheetgen.workbook.read.found import Meeting, Returned

SORTS = ("asked number", "asked words", "asked blank", "worked number", "worked words", "worked blank",
         "answered number", "answered words", "to answer", "our words", "ref")  # fmt: skip
"""What a cell can hold: of the brand's, a formula's, the vendor's; a heading, label or other word of the sheet; a row's ref."""


class Target(NamedTuple):
    """One cell as it came back clean: what it holds or shows, its formula, and the kind of its entry.

    The kind of a row's ref is who fills the row's key.
    """

    cell: Cell
    sort: str
    value: Shown
    formula: str
    place: Place | None
    kind: str


def targets(got: Returned) -> list[Target]:
    """Every cell of a clean return that a person could change, sheet by sheet; frames of pictures are left out."""
    assert got.written is not None
    found = []
    for sheet in got.written.sheets:
        alignment = got.alignments[sheet.title]
        for at, sent in sheet.cells.items():
            place = got.sent_places.get(sheet.title, {}).get(at)
            cell = got.where.at(place) if place is not None else alignment.cell(at)
            if cell is not None:
                held = got.loaded.sheets[cell.sheet].at(cell.row, cell.column)
                found.extend(_target(got, Meeting(sheet, at, sent, cell, held, place)))
    return found


def _target(got: Returned, meeting: Meeting) -> Iterator[Target]:
    held, place = meeting.held, meeting.place
    entry = got.ready.book.entries[place.entry].entry if place is not None else None
    value = held.shown if held.formula is not None else held.value
    if (entry is not None and entry.kind.name == "picture") or isinstance(value, bool):
        return
    if not isinstance(value, str | int | float) and value is not None:
        value = meeting.sent.shown  # a day: compared as a number
        if not isinstance(value, int | float):
            return
    shape = "blank" if value in (None, "") else "words" if isinstance(value, str) else "number"
    if entry is None:
        refs = got.sent_refs[meeting.sheet.title]
        sort = "ref" if meeting.at in refs else f"our {shape}"
    elif entry.who == "vendor":
        sort = "to answer" if shape == "blank" else f"answered {shape}"
    else:
        sort = f"{'worked' if held.formula is not None else 'asked'} {shape}"
    if sort in SORTS:
        kind = entry.kind.name if entry else _who_fills(got, meeting) if sort == "ref" else ""
        yield Target(meeting.cell, sort, value, held.formula or "", place, kind)


def _who_fills(got: Returned, meeting: Meeting) -> str:
    """Whose the rows are of the table that a ref belongs to: whoever fills the table's key."""
    assert got.written is not None
    for address, table in got.written.where.tables.items():
        if (
            table.sheet == meeting.sheet.title
            and table.ref_column == meeting.at[1]
            and meeting.at[0] in table.rows.values()
        ):
            key = f"{address}.{got.ready.book.tables[address][1].key}"
            return got.ready.book.entries[key].entry.who
    return ""
