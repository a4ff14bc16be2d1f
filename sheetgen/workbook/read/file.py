"""Reading: a file becomes what was found in it: places, typed values, formulas, shown values, losses.

A file is read by the book that it was written with, as its record or its receipt keeps it; today's declarations read only
what has no such account. Everything found is kept and judged later: a wrong value is never refused here and never
repaired in silence.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from importlib import import_module
from pathlib import Path
from typing import Any

from sheetgen.declare.families import MEMBER
from sheetgen.declare.parts import Book
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.model.geometry import Geometry, formula_texts, name_of
from sheetgen.workbook.model.moving import moved, moves_since
from sheetgen.workbook.model.packing import RECORD_MARK, NewerFormError, UnreadableError, refuse_newer, unpacked
from sheetgen.workbook.model.values import Shape, ready, words_for
from sheetgen.workbook.model.written import Written
from sheetgen.workbook.read.accounts import account_for
from sheetgen.workbook.read.binary import is_binary, load_binary
from sheetgen.workbook.read.finding import Finder
from sheetgen.workbook.read.found import Returned
from sheetgen.workbook.read.loaded import Loaded
from sheetgen.workbook.read.open_document import is_open_document, load_open_document
from sheetgen.workbook.read.package import start_of, unusable
from sheetgen.workbook.read.record import record_in
from sheetgen.workbook.read.remembered import read_before
from sheetgen.workbook.read.taking import Taker
from sheetgen.workbook.write.save import finish

_LONGEST_BOOK = 20
_MOST_MEMBERS = 200
"""A name that somebody put in must not make a thousand sizes: no sheet has more columns than this."""


@dataclass(frozen=True)
class Opened:
    """A file as it was loaded, and its hidden record (empty if it has none)."""

    path: Path
    loaded: Loaded
    record: Mapping[str, Any]

    @property
    def issue_id(self) -> str:
        """The issue that a copy says it is; empty for a working file and for one without a record."""
        return str(self.record.get("issue_id") or "")


def read(book: Book, path: Path) -> Returned:
    """Read a working, vendor or returned workbook by its own record. UserError (status 3) if it is none of ours or unsafe."""
    return found_in(book, opened(book, path))


def opened(book: Book, path: Path) -> Opened:
    """Load a workbook of ours. UserError (status 3) if it is none, of another book, of a newer form, or unsafe to open."""
    finish(path.parent)
    fields = [name_of(address) for address in _fields(book)]
    loaded = read_before(path, lambda one: _loaded(one, fields))
    record = record_in(loaded)
    if not record and not any(name in loaded.names for name in fields):
        raise unusable(path, say("is no workbook made by sheetgen; nothing in it can be found"))
    other = str(record.get("book") or "")
    if other != book.name:
        kind = say("of another kind ({other})", other=other[:_LONGEST_BOOK]) if other else say("of a style")
        raise UserError(
            say("{path}: is a workbook {kind}; name the style's working workbook or a return.", path=path, kind=kind),
            status=3,
        )
    try:
        refuse_newer(record.get("form"))
    except NewerFormError as error:
        raise UserError(f"{path}: {error}.", status=3) from None
    return Opened(path, loaded, record)


def _loaded(path: Path, fields: list[str]) -> Loaded:
    """By what the file itself says it is, not by its name."""
    if is_open_document(path):
        return load_open_document(path)
    if is_binary(path, start_of(path)):
        return load_binary(path)
    loading = import_module("sheetgen.workbook.read.loading")  # with its library, where no file was read before
    found: Loaded = loading.load(
        path, lambda first: first.has_mark(RECORD_MARK) or any(name in first.names for name in fields)
    )
    return found


def found_in(book: Book, file: Opened, written: Written | None = None) -> Returned:
    """What stands in a loaded file; `written` is what its receipt says was written, else its own record says it."""
    own = written or _written(file.record)
    if own is not None:
        own = moved(own, moves_since(book, own.form))
    if own is None:
        audience = "vendor" if file.issue_id else "designer"
        by = ready(book, _shape(book, file.loaded, audience))
    elif own.ready.shape.audience == "vendor":
        by = own.ready
    else:
        by = replace(own.ready, shape=_named_now(own, file.loaded))
    found = Returned(file.path, by, Geometry(), dict(file.record), file.loaded, own)
    Finder(found).find()
    Taker(found).take()
    if file.loaded.typed_only:
        # What formulas stand there cannot be seen: they count as those that were sent.
        found.formulas = {place: text for place, _, text in formula_texts(by, found.where)}
    account_for(found)
    return found


def _written(record: Mapping[str, Any]) -> Written | None:
    try:
        return unpacked(record.get("written"))
    except UnreadableError:
        return None


def _fields(book: Book) -> list[str]:
    about = book.about
    return [field for field in (about.number, about.name, about.unit, about.currency) if field] or list(book.entries)


def _named_now(written: Written, loaded: Loaded) -> Shape:
    """A working file's shape: as many sizes and colorways as when it was written, by the names that they have now.

    Unit and currency are those that it was written with: another one in its cell is a change that somebody must settle.
    """
    by, axes = written.ready, []
    for axis, names in by.shape.axes:
        address = by.book.axes[axis]
        table = by.book.tables[address][1]
        area = None if table.rows else loaded.names.get(written.name_of(f"{address}.{table.key}"))
        axes.append((axis, tuple(loaded.text(area, index) or name for index, name in enumerate(names))))
    return Shape(tuple(axes), by.shape.words, by.shape.audience)


def _words(book: Book, loaded: Loaded, written: Written | None = None) -> tuple[tuple[str, str], ...]:
    fields = (book.about.unit, book.about.currency, book.about.fractions)
    called = written.name_of if written else name_of
    return words_for(*(loaded.text(loaded.names.get(called(field))) for field in fields))


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
    return Shape(tuple(axes), _words(book, loaded), audience)
