"""The whole file: sheets, names, hidden record, properties."""

from __future__ import annotations

import datetime
import io
import json
from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any, NamedTuple

import xlsxwriter

from sheetgen.declare.a1 import letters, quoted
from sheetgen.declare.about import About
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, Value
from sheetgen.workbook.model import look
from sheetgen.workbook.model.calculation import calculated
from sheetgen.workbook.model.geometry import Geometry, workbook_names
from sheetgen.workbook.model.layout import fit_to_shown, plan
from sheetgen.workbook.model.packing import FORM, RECORD_MARK, RECORD_SHEET, packed
from sheetgen.workbook.model.values import Ready, Values, fixed_values
from sheetgen.workbook.model.visible import hidden_sheets
from sheetgen.workbook.model.written import Style, Written
from sheetgen.workbook.write.cells import SheetWriter, cells_with_formulas
from sheetgen.workbook.write.charts import add_charts
from sheetgen.workbook.write.checks import add_checks, asked_cells
from sheetgen.workbook.write.formats import Formats
from sheetgen.workbook.write.fractions import reduce_fractions
from sheetgen.workbook.write.paper import set_paper
from sheetgen.workbook.write.recording import RecordingSheet

_CHUNK = 5000
_LONGEST_PROPERTY = 255
_CREATED = datetime.datetime(2000, 1, 1)
"""A fixed date of creation: the same input gives the same bytes. The revision's date stands in the sheets."""
_PROTECTION = {
    "objects": True, "insert_rows": True, "format_columns": True, "format_rows": True,
    "select_locked_cells": True, "select_unlocked_cells": True,
}  # fmt: skip


class Artist(NamedTuple):
    """Draws pictures from the calculated values: where they will stand (known before), and how they are made."""

    places: tuple[Place, ...]
    draw: Callable[[Mapping[Place, Value]], Values]


_TO_BE_DRAWN = Picture(b"")


def _options() -> dict[str, Any]:
    """Anew for each book: the library keeps notes of its own in them, and the second book would differ from the first."""
    letters = {"font_name": look.FONT, "font_size": 10}
    return {"in_memory": True, "strings_to_urls": False, "default_format_properties": letters}


class Finished(NamedTuple):
    """A workbook: the .xlsx, what its formulas give, all that was written, packed as its record and receipt keep it; what
    was typed or drawn, and where it stands."""

    data: bytes
    shown: Values
    written: str
    values: Values
    where: Geometry


def workbook_bytes(ready: Ready, values: Values, record: Mapping[str, object], artist: Artist | None = None) -> bytes:
    """The finished .xlsx of a book, as `finished` makes it."""
    return finished(ready, values, record, artist).data


def finished(
    ready: Ready, values: Values, record: Mapping[str, object], artist: Artist | None = None,
    unseen: frozenset[str] | None = None, asked: Mapping[Place, str] = MappingProxyType({}),
) -> Finished:  # fmt: skip
    """The .xlsx of a book, every computed cell with formula and value; its hidden record says what was written, too.

    A vendor's book is locked. `artist` draws the pictures that the program draws itself, from what was calculated. Sheets
    that are `unseen` are hidden; if nobody says which, purpose and wishes do. In cells that are `asked` about a word says so.
    """
    values = {**values, **fixed_values(ready)}
    to_draw = dict.fromkeys(artist.places if artist else (), _TO_BE_DRAWN)
    pages, where = plan(ready, {**values, **to_draw})
    formulas, shown = calculated(ready, {**values, **to_draw}, where)
    if artist is not None:
        values.update(artist.draw(shown))
    by_cell, known = cells_with_formulas(formulas), {**values, **shown}
    fit_to_shown(pages, known)
    hidden = hidden_sheets(ready, known, where) if unseen is None else unseen
    buffer = io.BytesIO()
    book = xlsxwriter.Workbook(buffer, _options())
    formats = _formats(book, ready, values)
    sheets: list[RecordingSheet] = []
    for page in pages:
        sheet: Any = book.add_worksheet(page.sheet.title, RecordingSheet)
        sheets.append(sheet)
        sheet.hide_gridlines(2)
        if page.sheet.name in hidden:
            sheet.hide()
        SheetWriter(sheet, page, ready, formats, values, shown, by_cell, hidden, frozenset(asked)).write()
        add_checks(formats, sheet, page, ready, asked_cells(asked, where, page.sheet.title))
        reduce_fractions(formats, sheet, page, ready)
        set_paper(sheet, page, ready.book.about, values)
        add_charts(book, sheet, page, ready, where, known)
        sheet.set_tab_color("#8A6BA3" if page.sheet.private else formats.accent.band)
        if ready.shape.audience == "vendor":
            sheet.protect("", dict(_PROTECTION))
    _define_names(book, where)
    styles: dict[Style, int] = {}
    kept = tuple(sheet.written(formats.style, styles) for sheet in sheets)
    written = packed(Written(ready, where, kept, tuple(styles)))
    _write_record(book, {**record, "form": FORM, "written": written})
    _set_properties(book, ready.book.about, values, record)
    book.close()
    return Finished(buffer.getvalue(), shown, written, values, where)


def _formats(book: xlsxwriter.Workbook, ready: Ready, values: Values) -> Formats:
    words, accent = dict(ready.shape.words), look.accent_of(values.get(Place(ready.book.about.accent)))
    return Formats(book, words["{unit}"], words["{parts}"], accent)


def _define_names(book: xlsxwriter.Workbook, where: Geometry) -> None:
    for name, (title, first, left, last, right) in workbook_names(where).items():
        start = f"${letters(left)}${first}"
        end = "" if (first, left) == (last, right) else f":${letters(right)}${last}"
        if book.define_name(name, f"={quoted(title)}!{start}{end}"):
            raise RuntimeError(f"the name {name} could not be written")


def _write_record(book: xlsxwriter.Workbook, record: Mapping[str, object]) -> None:
    sheet = book.add_worksheet(RECORD_SHEET)
    sheet.write_string(0, 0, RECORD_MARK)
    text = json.dumps(record, ensure_ascii=True)
    for number, start in enumerate(range(0, len(text), _CHUNK), 1):
        sheet.write_string(number, 0, text[start : start + _CHUNK])
    sheet.very_hidden()


def _set_properties(book: xlsxwriter.Workbook, about: About, values: Values, record: Mapping[str, object]) -> None:
    number, name, company = (str(values.get(Place(field)) or "") for field in (about.number, about.name, about.company))
    book.set_properties(
        {
            "title": f"{number} {name}".strip(),
            "company": company,
            "created": _CREATED,
        }
    )
    book.set_custom_property("sheetgen", str(record.get("issue_id") or "working")[:_LONGEST_PROPERTY], "text")
    book.set_calc_mode("auto")
