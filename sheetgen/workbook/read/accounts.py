"""Accounts: what became of every cell that was written, and what stands where nothing was written.

Nothing is excused because it looks like ours: a word counts as sent only in the cell that it was sent in.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from sheetgen.texts import say
from sheetgen.workbook.model.engine import cell_value
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.written import Shown, WrittenCell, WrittenSheet
from sheetgen.workbook.read.alignment import Alignment
from sheetgen.workbook.read.found import Meeting, Returned, Stray, WordsGone
from sheetgen.workbook.read.loaded import Held


def account_for(found: Returned) -> None:
    """Say what became of each cell that was written, and put together what was added."""
    if found.written is None:
        return
    met: dict[str, set[tuple[int, int]]] = {title: set() for title in found.loaded.sheets}
    for sheet in found.written.sheets:
        alignment = found.alignments.get(sheet.title)
        if alignment is None:
            found.accounts.counts["lost"] += sum(1 for cell in sheet.cells.values() if _counts(found, cell))
            continue
        for meeting in _met(found, sheet, alignment):
            met[meeting.cell.sheet].add(meeting.cell[1:])
    _additions(found, met)


def _met(found: Returned, sheet: WrittenSheet, alignment: Alignment) -> Iterator[Meeting]:
    """The cells of one sheet; counts what became of each on the way."""
    counts = found.accounts.counts
    places = found.sent_places.get(sheet.title, {})
    held_sheet = found.loaded.sheets[alignment.title]
    for at, sent in sheet.cells.items():
        place = places.get(at)
        cell = found.where.at(place) if place is not None else alignment.cell(at)
        counted = _counts(found, sent)
        if cell is None:
            if counted:
                counts["lost"] += 1
                if place is None and isinstance(sent.shown, str):
                    found.accounts.gone.append(WordsGone(sheet, at, sent.shown))
            continue
        held = held_sheet.at(cell.row, cell.column)
        meeting = Meeting(sheet, at, sent, cell, held, place)
        if place is not None or sent.shown is not None:
            yield meeting
        if not counted:
            continue
        found.accounts.meetings.append(meeting)
        if not _stands(sent, held, found.loaded.typed_only):
            waited = not found.written_style(sent).locked
            counts["filled" if waited and sent.shown is None else "changed"] += 1
            if place is None:
                found.accounts.changed.append(meeting)
        else:
            counts["kept" if (cell.row, cell.column) == at else "moved"] += 1


def _counts(found: Returned, cell: WrittenCell) -> bool:
    return cell.shown is not None or cell.by_formula or not found.written_style(cell).locked


def _stands(sent: WrittenCell, held: Held, typed_only: bool) -> bool:
    """Whether a cell holds what was sent: the same words or number, or a formula where a formula was."""
    if sent.by_formula:
        return held.formula is not None or typed_only
    if held.formula is not None:
        return False
    return same_shown(sent.shown, held.value)


def same_shown(sent: Shown, value: Any) -> bool:
    """Whether a cell's value is what was written: blanks at the ends and kinds of line ends have no weight."""
    if sent == value and type(sent) is type(value):
        return True
    now = cell_value(value) if not isinstance(value, bool) else int(value)
    if isinstance(sent, int | float) and isinstance(now, int | float):
        return abs(sent - now) <= 1e-9 * max(abs(sent), abs(now), 1e-3)
    return _plain(sent) == _plain(now)


def _plain(value: object) -> str:
    return "" if value is None else "\n".join(line.rstrip() for line in str(value).splitlines()).strip()


def _additions(found: Returned, met: Mapping[str, set[tuple[int, int]]]) -> None:
    """Cells that hold something where nothing was written, comments and pictures: they are not carried over."""
    ours = {alignment.title for alignment in found.alignments.values()}
    for title in dict.fromkeys(ours):
        known = met[title] | found.used.get(title, set())
        for (row, column), held in found.loaded.sheets[title].cells.items():
            cell = Cell(title, row, column)
            if held.comment is not None:
                found.strays.append(Stray(cell, say("comment: {comment}", comment=held.comment)))
            if (row, column) in known:
                continue
            text = held.formula or ("" if held.value is None else str(held.value).strip())
            if text:
                found.strays.append(Stray(cell, text))
