"""Audience: the vendor's book is the book without anything that is the brand's own: not hidden, absent.

Every kind of part has its case here, and the type checker refuses the module if one is missing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import assert_never

from .entry import Entry
from .mistakes import DeclarationError, concerning
from .parts import Book, Chart, Form, Ledger, Line, Part, Pictures, Section, Sheet, Table, Words, addresses


def for_vendor(book: Book) -> Book:
    """The book without anything that is the brand's own; DeclarationError where that would tear a part."""
    sheets = tuple(_shared_sheet(sheet) for sheet in book.sheets if not sheet.private)
    return replace(book, sheets=sheets, audience="vendor")


def _shared_sheet(sheet: Sheet) -> Sheet:
    with concerning(sheet.name):
        parts = tuple(kept for part in sheet.parts if (kept := shared_part(part)) is not None)
    return replace(sheet, parts=parts, checks=tuple(check for check in sheet.checks if not check.private))


def shared_part(part: Part) -> Part | None:
    """The part without the brand's own; None if nothing of it is left."""
    match part:
        case Form() | Pictures():
            entries = _shared(part.entries)
            return replace(part, entries=entries) if entries else None
        case Table():
            return _shared_table(part)
        case Ledger():
            return _shared_ledger(part)
        case Chart():
            return None if part.private else part
        case Words():
            return part
        case _:
            assert_never(part)


def _shared(entries: Iterable[Entry]) -> tuple[Entry, ...]:
    return tuple(entry for entry in entries if not entry.private)


def _shared_table(table: Table) -> Table | None:
    kept: list[Entry | Section] = []
    for column in table.columns:
        if isinstance(column, Section):
            inner = _shared(column.columns)
            kept.extend([replace(column, columns=inner)] if inner else [])
        elif not column.private:
            kept.append(column)
    if not kept:
        return None
    shared = replace(table, columns=tuple(kept))
    names = {entry.name for entry in shared.entries}
    rows = tuple({name: value for name, value in row.items() if name in names} for row in table.rows)
    return replace(shared, rows=rows)


def _shared_ledger(ledger: Ledger) -> Ledger | None:
    """Lines keep their columns, so what is the brand's own stands last in its line; columns left empty fall away."""
    lines = tuple(kept for line in ledger.lines if (kept := _shared_line(ledger, line)) is not None)
    if not lines:
        return None
    used = max(len(line.words) + len(line.entries) for line in lines)
    before = max(len(line.words) + len(line.entries) for line in ledger.lines)
    columns = used if used < before else len(ledger.headings)
    return replace(ledger, lines=lines, headings=ledger.headings[:columns], widths=ledger.widths[:columns])


def _shared_line(ledger: Ledger, line: Line) -> Line | None:
    kept = _shared(line.entries)
    if kept != line.entries[: len(kept)]:
        own = next(entry for entry in line.entries if entry.private)
        raise DeclarationError(
            f"ledger {ledger.title!r}: {own.name} is the brand's own and must stand last in its line"
        )
    return replace(line, entries=kept) if kept or not line.entries else None


def private_in(book: Book) -> Iterator[str]:
    """All that is marked as the brand's own, by name."""
    for sheet in book.sheets:
        if sheet.private:
            yield f"sheet {sheet.name}"
        yield from (f"entry {address}" for address, column in addresses(sheet) if column.entry.private)
        for part in sheet.parts:
            if getattr(part, "private", False):
                yield f"{sheet.name}, {type(part).__name__.lower()} {part.title!r}"
        yield from (f"{sheet.name}, check {check.name!r}" for check in sheet.checks if check.private)
