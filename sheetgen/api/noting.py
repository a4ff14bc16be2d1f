"""What a vendor added where nothing has a place: remarks, comments, text boxes, photos. None of it is lost.

Each comes onto Questions as a row of its own, about the row beside which it stood, with its photo.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import NamedTuple

from sheetgen.audit.run import Audit
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Picture, PictureMark, Value
from sheetgen.sheets import BOOK
from sheetgen.sheets.questions import ABOUT
from sheetgen.texts import say
from sheetgen.workbook.model.compare import same
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.values import Values, free_row, refs

_TOLD = frozenset({"stray-text", "drawing-added", "laid-over"})
"""Rules that tell of something added."""
_ASKED = "questions.asked"
_CAN_BE_ASKED_ABOUT = frozenset(column.rpartition(".")[0] for _, _, column in ABOUT)
_MOST = 40
"""More than so many are no remarks: something was pasted beside a table."""


class Noted(NamedTuple):
    """Something added: its words, where it stood, the row that it is about (or nothing), its photo."""

    words: str
    sheet: str
    cell: str
    about: str
    picture: Picture | None


def noted(result: Audit) -> list[Noted]:
    """All that was added to a return, but for whole rows and sheets."""
    found = []
    for finding in result.findings:
        if finding.rule in _TOLD:
            place = place_of(finding.place)
            found.append(
                Noted(
                    finding.found,
                    finding.sheet,
                    finding.cell,
                    _about(place),
                    _photo(result, finding.sheet, finding.cell),
                )
            )
    return found


def _about(place: Place) -> str:
    table = place.entry.rpartition(".")[0]
    declared = BOOK.tables.get(table)
    of = declared[1].mirrors or table if declared else ""
    return place.row if of in _CAN_BE_ASKED_ABOUT else ""


def _photo(result: Audit, sheet: str, cell: str) -> Picture | None:
    """The picture whose upper left corner lies there."""
    loaded = result.got.loaded.sheets.get(sheet)
    for (row, column), picture in loaded.pictures if loaded else ():
        if Cell(sheet, row, column).address == cell:
            return picture
    return None


def put_on_questions(values: Values, found: Collection[Noted]) -> tuple[list[Noted], list[Noted]]:
    """Put them into the working values; what was put, and what was not (more than can be remarks). One that stands there
    already, from an earlier acceptance, is not put twice."""
    if len(found) > _MOST:
        return [], list(found)
    standing = {values.get(Place(f"{_ASKED}.question", row)) for row in refs(_ASKED, values)}
    put = []
    for one in found:
        words = say("{words} (stood at {sheet} {cell})", words=one.words, sheet=one.sheet, cell=one.cell)
        if words not in standing:
            row = free_row(BOOK.tables[_ASKED][1].ref, refs(_ASKED, values))
            line: dict[str, Value] = {"question": words, "about": one.about, "picture": one.picture}
            values.update({Place(f"{_ASKED}.{name}", row): value for name, value in line.items() if value})
            put.append(one)
    return put, []


def photos(result: Audit, sent: Mapping[Place, Value | PictureMark], found: Collection[Noted]) -> dict[str, bytes]:
    """All pictures that a return brought, by a name that says style, sheet and row or cell."""
    saved: dict[str, bytes] = {}
    for name, picture in _pictures(result, sent, found):
        full, number = f"{name}.{picture.ending}", 1
        while full in saved and saved[full] != picture.data:
            number += 1
            full = f"{name}-{number}.{picture.ending}"
        saved[full] = picture.data
    return saved


def _pictures(
    result: Audit, sent: Mapping[Place, Value | PictureMark], found: Collection[Noted]
) -> Iterator[tuple[str, Picture]]:  # fmt: skip
    style = result.got.typed.get(Place("style.number")) or "style"
    for place, value in result.got.typed.items():
        column = result.got.ready.book.entries[place.entry]
        if isinstance(value, Picture) and column.entry.who == "vendor" and not same(value, sent.get(place)):
            yield (
                "-".join(_in_a_name(part) for part in (style, column.sheet.name, place.row, column.entry.name) if part),
                value,
            )
    for one in found:
        if one.picture is not None:
            yield "-".join(_in_a_name(part) for part in (style, one.sheet, one.about, one.cell) if part), one.picture


def _in_a_name(text: Value) -> str:
    """Letters and digits alone: what a file may be called everywhere."""
    return "".join(sign if sign.isalnum() or sign == "_" else "-" for sign in str(text)).strip("-").lower() or "x"
