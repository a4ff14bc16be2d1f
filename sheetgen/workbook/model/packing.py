"""What was written, packed into text for a receipt or a hidden record, and read back from it.

JSON, compressed (xz, quick and half the size of deflate): Formulas are not listed cell by cell: each entry's
formula is kept once, and the places say where it stood.
"""

from __future__ import annotations

import base64
import binascii
import json
import lzma
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from sheetgen.texts import say
from sheetgen.workbook.model.frozen import frozen, thawed
from sheetgen.workbook.model.geometry import Cell, Geometry, TablePlace
from sheetgen.workbook.model.written import (
    Mark,
    Message,
    Shown,
    Style,
    Written,
    WrittenCell,
    WrittenDrawing,
    WrittenSheet,
)

RECORD_SHEET = "Record"
RECORD_MARK = "sheetgen record"
FORM = 3
"""The form of records and receipts. A file of a newer form is refused; for older ones see `sheets.forms`."""
MOST_PACKED = 4_000_000
MOST_UNPACKED = 40_000_000
MOST_MEMORY = 100_000_000
_PRESET = 2
_DIGITS = 12
"""Shown figures keep so many digits: more than any program stores alike, fewer than would not compress."""
_COLUMNS = 1 << 14
"""Columns of the widest sheet there is (ECMA-376): a cell's row and column as one number."""
_BLANK, _TYPED, _FORMULA = 0, 1, 2


class UnreadableError(ValueError):
    """Text that is no packed account of a workbook."""


class NewerFormError(Exception):
    """A file that a later program wrote, said in half a sentence."""


def refuse_newer(form: object) -> None:
    """NewerFormError if a file's form is one that this program cannot know."""
    if isinstance(form, int) and form > FORM:
        raise NewerFormError(
            say("was written by a newer sheetgen (form {form}; this one knows {known}); update sheetgen and try again",
                form=form, known=FORM)
        )  # fmt: skip


def packed(written: Written) -> str:
    """All that was written, as text."""
    data = {
        "form": FORM,
        "frozen": frozen(written.ready),
        "where": _where(written.where),
        "styles": [list(style) for style in written.styles],
        "sheets": [_sheet(sheet) for sheet in written.sheets],
    }
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return base64.b64encode(lzma.compress(text.encode("utf-8", "surrogatepass"), preset=_PRESET)).decode("ascii")


def unpacked(text: object) -> Written:
    """What `packed` made; UnreadableError for anything else, however it was made up."""
    if not isinstance(text, str) or len(text) > MOST_PACKED:
        raise UnreadableError(say("no account of what was written"))
    return _unpacked(text)


@lru_cache(maxsize=1)  # an issue asks twice for what the last copy's receipt says
def _unpacked(text: str) -> Written:
    try:
        unpacker = lzma.LZMADecompressor(memlimit=MOST_MEMORY)
        plain = unpacker.decompress(base64.b64decode(text, validate=True), MOST_UNPACKED)
        if not unpacker.eof:
            raise UnreadableError(say("an account longer than any workbook's"))
        data = json.loads(plain.decode("utf-8", "surrogatepass"))
        return Written(
            thawed(data["frozen"]),
            _placed(data["where"]),
            tuple(_unpacked_sheet(sheet) for sheet in data["sheets"]),
            tuple(_style(style) for style in data["styles"]),
            int(data["form"]),
        )
    except (
        binascii.Error,
        lzma.LZMAError,
        EOFError,
        RecursionError,
        LookupError,
        TypeError,
        AttributeError,
        ValueError,
    ) as error:
        raise UnreadableError(say("no account of what was written: {error}", error=type(error).__name__)) from None


def _where(where: Geometry) -> dict[str, Any]:
    titles = list(dict.fromkeys(where.titles.values()))
    number = {title: index for index, title in enumerate(titles)}
    return {
        "titles": where.titles,
        "sheets": titles,
        "fields": {address: [number[cell.sheet], cell.row, cell.column] for address, cell in where.fields.items()},
        "tables": {
            address: [number[at.sheet], at.first, at.last, at.ref_column, at.columns, at.rows]
            for address, at in where.tables.items()
        },
    }


def _placed(data: Mapping[str, Any]) -> Geometry:
    titles = data["sheets"]
    return Geometry(
        dict(data["titles"]),
        {address: Cell(titles[sheet], row, column) for address, (sheet, row, column) in data["fields"].items()},
        {
            address: TablePlace(titles[sheet], first, last, columns, rows, ref_column)
            for address, (sheet, first, last, ref_column, columns, rows) in data["tables"].items()
        },
    )


def _sheet(sheet: WrittenSheet) -> list[Any]:
    steps, sorts, styles, shown = [], [], [], []
    before = 0
    for (row, column), cell in sorted(sheet.cells.items()):
        at = row * _COLUMNS + column
        steps.append(at - before)
        before = at
        sorts.append(_FORMULA if cell.by_formula else _BLANK if cell.shown is None else _TYPED)
        styles.append(cell.style)
        if sorts[-1] != _BLANK:
            shown.append(_short(cell.shown))
    return [
        sheet.title,
        [steps, sorts, styles, shown],
        [[one.kind, *one.first, one.digest] for one in sheet.drawings],
        [sheet.header, sheet.footer],
        [list(message) for message in sheet.messages],
        [[mark.areas, mark.sort, list(mark.formulas), list(mark.style)] for mark in sheet.marks],
        [[*at, target] for at, target in sheet.links],
        *([int(sheet.hidden)] if sheet.hidden or sheet.hidden_columns else []),
        *([sorted(sheet.hidden_columns)] if sheet.hidden_columns else []),
    ]


def _short(shown: Shown) -> Shown:
    if not isinstance(shown, float):
        return shown
    short = float(f"{shown:.{_DIGITS}g}")
    return int(short) if short.is_integer() else short  # 5.0 and 5 are one number, and give the same bytes


def _unpacked_sheet(data: Sequence[Any]) -> WrittenSheet:
    title, (steps, sorts, styles, shown), drawings, (header, footer), messages, marks, links, *away = data
    cells: dict[tuple[int, int], WrittenCell] = {}
    at, values = 0, iter(shown)
    for step, sort, style in zip(steps, sorts, styles, strict=True):
        at += step
        cells[divmod(at, _COLUMNS)] = WrittenCell(
            None if sort == _BLANK else next(values, None), sort == _FORMULA, style
        )
    return WrittenSheet(
        title,
        cells,
        tuple(WrittenDrawing(kind, (row, column), digest) for kind, row, column, digest in drawings),
        header,
        footer,
        tuple(Message(*message) for message in messages),
        tuple(Mark(areas, sort, tuple(formulas), _style(style)) for areas, sort, formulas, style in marks),
        tuple(((row, column), target) for row, column, target in links),
        bool(away and away[0]),
        frozenset(map(int, away[1])) if len(away) > 1 else frozenset(),
    )


def _style(data: Sequence[Any]) -> Style:
    code, locked, ink, fill, struck, points = data
    return Style(str(code), bool(locked), str(ink), str(fill), bool(struck), float(points))
