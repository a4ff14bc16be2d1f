"""Formulas by name: from `net * (1 + waste)` to the text in a cell, for wherever the entries stand.

Written once in a sheet's declaration; compiled against the planned places at build and against the places found
in a returned file at audit. A lower-case word is an entry, an upper-case word before a bracket a spreadsheet function;
`families` says what the words about members mean.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal, NamedTuple, Protocol

from .a1 import letters, quoted
from .entry import REF
from .mistakes import DeclarationError
from .parts import Book, Column, Sheet, Table
from .tokens import Token, tokens

SAFE_FUNCTIONS = frozenset(
    "ABS AND ATAN2 AVERAGE CEILING CHOOSE COS COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS DATE DAY DEGREES EDATE "
    "EXACT EXP FIND FLOOR HLOOKUP IF IFERROR INDEX INT ISBLANK ISERROR ISTEXT LARGE LEFT LEN LN LOOKUP LOWER "
    "MATCH MAX MEDIAN MID MIN MOD MONTH N NOT OR PI POWER RADIANS RANK REPT RIGHT ROUND ROUNDDOWN ROUNDUP SEARCH "
    "SIGN SIN SMALL SQRT SUBSTITUTE SUM SUMIF SUMIFS SUMPRODUCT TEXT TRUNC UPPER VALUE VLOOKUP YEAR".split()
)
"""Functions on which LibreOffice, both compiled engines and the reference engine agree (measured)."""

RANGE_FUNCTIONS = frozenset(
    "AVERAGE COUNT COUNTA COUNTBLANK COUNTIF COUNTIFS HLOOKUP INDEX LARGE LOOKUP MATCH MAX MEDIAN MIN RANK SMALL "
    "SUM SUMIF SUMIFS SUMPRODUCT VLOOKUP".split()
)
ROW = "\x00"
"""Stands for the row's number in a compiled formula, so that a column is compiled once."""


class Reference(NamedTuple):
    """What a name in a formula points at: one `cell` (a field, or this row's entry), this row's `ref`, or a whole `column`."""

    sort: Literal["cell", "row", "ref", "column"]
    address: str


def resolve(book: Book, sheet: Sheet, table: Table | None, name: str) -> Reference:
    """What `name` means inside `table` of `sheet`; DeclarationError with a suggestion if nothing is called so."""
    parts = name.split(".")
    if len(parts) == 1:
        if table is not None and name == REF:
            return Reference("ref", f"{sheet.name}.{table.name}.{REF}")
        if table is not None and f"{sheet.name}.{table.name}.{name}" in book.entries:
            if f"{sheet.name}.{name}" in book.entries:
                raise DeclarationError(f"{name!r} is both a field and a column of {sheet.name}.{table.name}")
            return Reference("row", f"{sheet.name}.{table.name}.{name}")
        return _known(book, f"{sheet.name}.{name}", "cell", name)
    if len(parts) == 2:
        if f"{sheet.name}.{parts[0]}" in book.tables:
            return _known(book, f"{sheet.name}.{name}", "column", name)
        return _known(book, name, "cell", name)
    return _known(book, name, "column", name)


def _known(book: Book, address: str, sort: Literal["cell", "column"], name: str) -> Reference:
    if sort == "column" and address.rpartition(".")[2] == REF and address.rpartition(".")[0] in book.tables:
        return Reference(sort, address)
    if address not in book.entries:
        last = name.rpartition(".")[2]
        near = get_close_matches(last, {known.rpartition(".")[2] for known in book.entries}, 1)
        if near == [name]:
            near = [known for known in book.entries if known.endswith(f".{name}")]
        raise DeclarationError(f"nothing is called {name!r}" + (f"; is it {near[0]!r}?" if near else ""))
    if (book.entries[address].table is None) != (sort == "cell"):
        raise DeclarationError(f"{name!r} is {'a field' if sort == 'column' else 'a column'}, used as the other")
    return Reference(sort, address)


@dataclass(frozen=True)
class Formula:
    """A formula read once: its tokens, what each name means, and which single cells must be filled before it shows.

    Those of `waits_for` that are `numbers` must hold one: a word there, or an error, is waited for like a blank.
    """

    sheet: str
    tokens: tuple[Token, ...]
    references: tuple[Reference | None, ...]
    waits_for: tuple[Reference, ...]
    numbers: tuple[Reference, ...] = ()

    @property
    def reads(self) -> Iterator[str]:
        """Addresses of all entries that the formula reads."""
        yield from (reference.address for reference in self.references if reference is not None)
        yield from (reference.address for reference in self.waits_for)


def read_formula(book: Book, column: Column) -> Formula:
    """Resolve an entry's formula and note what it waits for: the row's key and every cell that it does not test itself.

    A formula that asks `x = ""` anywhere, makes text of it with `x & ""` or takes `N(x)` deals with a blank x itself, and so
    does an entry that says so of x by `may_be_blank`.
    """
    sheet, table, entry = column
    parts = tokens(entry.formula)
    references = tuple([resolve(book, sheet, table, text) if sort == "name" else None for sort, text in parts])
    named = [(index, reference) for index, reference in enumerate(references) if reference is not None]
    handled = {reference for index, reference in named if _handles_blank(parts, index)}
    handled |= _declared_blank(book, column, parts)
    waits: list[Reference] = []
    if table is not None and entry.name != table.key:
        waits.append(Reference("row", f"{sheet.name}.{table.name}.{table.key}"))
    for index, reference in named:
        if reference.sort not in {"cell", "row"} or reference in handled or reference in waits:
            continue
        if not any(parts[near].text == ":" for near in (index - 1, index + 1) if 0 <= near < len(parts)):
            waits.append(reference)
    return Formula(sheet.name, parts, references, tuple(waits), tuple(one for one in waits if _is_number(book, one)))


def _is_number(book: Book, reference: Reference) -> bool:
    column = book.entries.get(reference.address)
    return column is not None and (column.entry.kind.is_number or column.entry.kind.name == "date")


def _declared_blank(book: Book, column: Column, parts: Sequence[Token]) -> set[Reference]:
    """What the entry itself says may be blank; DeclarationError for a name that its formula does not read or not wait for."""
    found = set()
    for name in column.entry.may_be_blank:
        reference = resolve(book, column.sheet, column.table, name)
        if Token("name", name) not in parts:
            raise DeclarationError(f"{name!r} may be blank, but the formula does not read it")
        if reference.sort not in {"cell", "row"}:
            raise DeclarationError(f"{name!r} may be blank, but no formula waits for a {reference.sort}")
        found.add(reference)
    return found


def _handles_blank(parts: Sequence[Token], index: int) -> bool:
    if index + 2 < len(parts) and parts[index + 2].text == '""' and parts[index + 1].text in {"=", "<>", "&"}:
        return True
    return index > 1 and parts[index - 1].text == "(" and parts[index - 2].text in {"N", "ISBLANK", "ISTEXT"}


class Addresses(Protocol):
    """Where entries stand: planned by the builder, or found in a file. None means that it is gone."""

    def cell(self, address: str) -> tuple[str, int, int] | None:
        """Sheet title, row and column (1-based) of a field."""

    def column(self, address: str) -> tuple[str, int, int, int] | None:
        """Sheet title, column, first and last row of a table's column."""


def compiled(formula: Formula, where: Addresses, title: str) -> str | None:
    """The formula's text for `where`, with ROW in place of the row's number; None if something it reads is gone."""
    pieces: list[str] = []
    parts, references = formula.tokens, formula.references
    index = 0
    while index < len(parts):
        reference = references[index]
        if reference is None:
            pieces.append(parts[index].text)
            index += 1
            continue
        other = references[index + 2] if index + 2 < len(parts) and parts[index + 1].text == ":" else None
        written = _block(reference, other, where, title) if other else _written(reference, where, title)
        if written is None:
            return None
        pieces.append(written)
        index += 3 if other else 1
    body = "".join(pieces)
    cells: list[str] = []
    numbers: list[str] = []
    for reference in formula.waits_for:
        written = _written(reference, where, title)
        if written is None:
            return None
        (numbers if reference in formula.numbers else cells).append(written)
    return "=" + _blank_until(body, cells, numbers)


def _blank_until(body: str, cells: list[str], numbers: list[str]) -> str:
    """COUNT counts numbers alone: a blank, a word that was pasted and an error all make it fall short."""
    tests = [f'{cell}=""' for cell in cells]
    if numbers:
        tests.append(f"COUNT({','.join(numbers)})<{len(numbers)}")
    if not tests:
        return body
    return f'IF({tests[0] if len(tests) == 1 else "OR(" + ",".join(tests) + ")"},"",{body})'


def _written(reference: Reference, where: Addresses, title: str) -> str | None:
    if reference.sort == "cell":
        cell = where.cell(reference.address)
        return cell and f"{_prefix(cell[0], title)}${letters(cell[2])}${cell[1]}"
    column = where.column(reference.address)
    if column is None:
        return None
    sheet, number, first, last = column
    if reference.sort == "column":
        return f"{_prefix(sheet, title)}${letters(number)}${first}:${letters(number)}${last}"
    return f"${letters(number)}{ROW}"


def _block(first: Reference, last: Reference, where: Addresses, title: str) -> str | None:
    if first.sort == "cell":
        corner, other = where.cell(first.address), where.cell(last.address)
        if corner is None or other is None:
            return None
        return f"{_prefix(corner[0], title)}${letters(corner[2])}${corner[1]}:${letters(other[2])}${other[1]}"
    start, end = where.column(first.address), where.column(last.address)
    if start is None or end is None:
        return None
    if first.sort == "row":
        return f"${letters(start[1])}{ROW}:${letters(end[1])}{ROW}"
    return f"{_prefix(start[0], title)}${letters(start[1])}${start[2]}:${letters(end[1])}${end[3]}"


def _prefix(sheet: str, title: str) -> str:
    return "" if sheet == title else quoted(sheet) + "!"
