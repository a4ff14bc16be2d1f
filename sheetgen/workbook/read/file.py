"""Reading: a file becomes what was found in it: places, typed values, formulas, shown values, losses.

Everything found is kept and judged later: a wrong value is never refused here and never repaired in silence.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

from sheetgen.declare.families import MEMBER
from sheetgen.declare.parts import Book
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.model.geometry import Geometry, name_of
from sheetgen.workbook.model.values import Shape, ready, words_for
from sheetgen.workbook.read import safety
from sheetgen.workbook.read.finding import Finder
from sheetgen.workbook.read.found import Returned
from sheetgen.workbook.read.loaded import Loaded
from sheetgen.workbook.read.loading import load
from sheetgen.workbook.read.shown import take_shown
from sheetgen.workbook.read.taking import Taker, from_cell
from sheetgen.workbook.write.file import RECORD_MARK, RECORD_SHEET

_LONGEST_BOOK = 20
_MOST_MEMBERS = 200
"""A name that somebody put in must not make a thousand sizes: no sheet has more columns than this."""


def read(book: Book, path: Path, audience: str | None = None) -> Returned:
    """Read a working, vendor or returned workbook. UserError (status 3) if it is no workbook of ours or unsafe to open."""
    contents = safety.check(path)
    loaded = load(path)
    record = _record(loaded)
    for_whom = audience or ("vendor" if record.get("issue_id") else "designer")
    other = str(record.get("book") or "")
    if other != book.name:
        kind = say("made to compare {other}", other=other[:_LONGEST_BOOK]) if other else say("of a style")
        raise UserError(
            say("{path}: is a workbook {kind}; name the style's working workbook or a return.", path=path, kind=kind),
            status=3,
        )
    if not record and not loaded.names:
        raise UserError(
            say("{path}: is no workbook made by sheetgen; nothing in it can be found.", path=path), status=3
        )
    shape = _shape(book, loaded, for_whom)
    found = Returned(path, ready(book, shape), Geometry(), record, contents)
    Finder(found, loaded).find()
    Taker(found, loaded).take()
    take_shown(found, path)
    _formulas_in_entries(found)
    return found


def _formulas_in_entries(found: Returned) -> None:
    """A formula that somebody typed where a value belongs counts as the value that it shows."""
    for place in found.formulas:
        entry = found.ready.book.entries[place.entry].entry
        if entry.who != "computed" and place in found.shown:
            found.typed[place] = from_cell(entry.kind, found.shown[place])


def _record(loaded: Loaded) -> dict[str, Any]:
    """The hidden record, found by its title or by its mark."""
    for sheet in sorted(loaded.sheets.values(), key=lambda one: one.title != RECORD_SHEET):
        if sheet.value(1, 1) == RECORD_MARK:
            text = "".join(str(sheet.value(row, 1) or "") for row in range(2, sheet.last_row + 1))
            try:
                record = json.loads(text)
            except ValueError:
                return {}
            return record if isinstance(record, dict) else {}
    return {}


def _shape(book: Book, loaded: Loaded, audience: str) -> Shape:
    """Sizes, colorways and rounds as the file has them: counted by their columns' names, named by their own table."""
    axes = []
    for axis, address in book.axes.items():
        table = book.tables[address][1]
        if table.rows:
            axes.append((axis, tuple(str(row[table.key]) for row in table.rows)))
            continue
        numbers = [
            int(match.group(1))
            for name in loaded.names
            if (match := re.search(rf"_{MEMBER[axis]}([1-9]\d{{0,2}})(?:_|\Z)", name))
        ]
        least = 0 if axis in book.optional_axes else 1
        count = max([least, *(number for number in numbers if number <= _MOST_MEMBERS)])
        area = loaded.names.get(name_of(f"{address}.{table.key}"))
        titles = [loaded.text(area, index) for index in range(count)]
        axes.append((axis, tuple(title or f"{axis.capitalize()} {number}" for number, title in enumerate(titles, 1))))
    fields = (book.about.unit, book.about.currency, book.about.fractions)
    words = words_for(*(loaded.text(loaded.names.get(name_of(field))) for field in fields))
    return Shape(tuple(axes), words, audience)
