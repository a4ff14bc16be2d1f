"""Accounts: what became of every cell that was written, and what stands where nothing was written.

Nothing is excused because it looks like ours: a word counts as sent only in the cell that it was sent in.
"""

from __future__ import annotations

from collections.abc import Container, Mapping
from typing import Any

from sheetgen.texts import say
from sheetgen.workbook.model.engine import cell_value
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.written import Shown, WrittenCell, WrittenSheet
from sheetgen.workbook.read.alignment import Alignment
from sheetgen.workbook.read.found import Meeting, Returned, Stray, WordsGone
from sheetgen.workbook.read.loaded import Held

Met = Mapping[str, set[tuple[int, int]]]
"""Cells that were met with, by the title of their sheet."""


def account_for(found: Returned) -> None:
    """Say what became of each cell that was written, and put together what was added."""
    if found.written is None:
        return
    met: dict[str, set[tuple[int, int]]] = {title: set() for title in found.loaded.sheets}
    open_styles = frozenset(number for number, style in enumerate(found.written.styles) if not style.locked)
    for sheet in found.written.sheets:
        alignment = found.alignments.get(sheet.title)
        if alignment is None:
            found.accounts.counts["lost"] += sum(1 for cell in sheet.cells.values() if _counts(cell, open_styles))
        else:
            _meet(found, sheet, alignment, open_styles, met)
    _additions(found, met)


def _meet(
    found: Returned,
    sheet: WrittenSheet,
    alignment: Alignment,
    open_styles: Container[int],
    met: Met,
) -> None:
    """The cells of one sheet: counts what became of each, and adds where it is met with. `open_styles` are the numbers of the
    styles that let a cell be typed in."""
    accounts, typed_only = found.accounts, found.loaded.typed_only
    places = found.sent_places.get(sheet.title, {})
    held_sheet = found.loaded.sheets[alignment.title]
    for at, sent in sheet.cells.items():
        place = places.get(at)
        cell = found.where.at(place) if place is not None else alignment.cell(at)
        counted = _counts(sent, open_styles)
        if cell is None:
            if counted:
                accounts.counts["lost"] += 1
                if place is None and isinstance(sent.shown, str):
                    accounts.gone.append(WordsGone(sheet, at, sent.shown))
            continue
        now = (cell.row, cell.column)
        if place is not None or sent.shown is not None:
            met[cell.sheet].add(now)
        if not counted:
            continue
        held = held_sheet.at(*now)
        meeting = Meeting(sheet, at, sent, cell, held, place)
        accounts.meetings.append(meeting)
        if _stands(sent, held, typed_only):
            accounts.counts["kept" if now == at else "moved"] += 1
            continue
        accounts.counts["filled" if sent.shown is None and sent.style in open_styles else "changed"] += 1
        if place is None:
            accounts.changed.append(meeting)


def _counts(cell: WrittenCell, open_styles: Container[int]) -> bool:
    return cell.shown is not None or cell.by_formula or cell.style in open_styles


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


def _additions(found: Returned, met: Met) -> None:
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
