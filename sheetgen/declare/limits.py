"""Limits: how long and how deep a formula may be, so that a person can still read it.

A formula that is too long or too deep takes steps: entries of their own, with names.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from .formula import ROW, Formula, compiled
from .mistakes import DeclarationError
from .parts import Book, Form, Ledger, Pictures, Sheet, Table
from .tokens import Token, tokens

MOST_DECLARED = 250
"""Characters of a formula as it is declared, before families are opened."""
MOST_LEVELS = 6
"""Brackets inside brackets."""
MOST_COMPILED = 1000
"""Characters of a formula in its cell, with what it waits for."""

_LAST_COLUMN, _FIRST_ROW, _LAST_ROW = 256, 100, 999
"""Addresses as long as any that occurs: $IV$999. Sheets are at most 256 columns wide."""


def refuse_unreadable(book: Book, *, derived: bool = False) -> None:
    """DeclarationError for the first formula of the declaration that is longer or deeper than a person can read.

    Asked of the book as it is declared; of an expanded book only the sheets that were derived from it.
    """
    for sheet in book.sheets:
        if sheet.derived == derived:
            for address, formula in _declared(sheet):
                _refuse(address, formula)


def refuse_long(book: Book, formulas: Mapping[str, Formula]) -> None:
    """DeclarationError for the first formula whose text in a cell would be too long, wherever its entries stand."""
    where = _Anywhere({sheet.name: sheet.title for sheet in book.sheets})
    for address, formula in formulas.items():
        text = compiled(formula, where, where.titles[formula.sheet]) or ""
        length = len(text.replace(ROW, str(_LAST_ROW)))
        if length > MOST_COMPILED:
            raise DeclarationError(
                f"{address}: its formula has {length} characters in a cell, and at most {MOST_COMPILED} can be read; "
                "give its steps entries of their own, or a block (.all) in place of single members"
            )


@dataclass(frozen=True)
class _Anywhere:
    """Places for all entries that are as long to write as any."""

    titles: Mapping[str, str]

    def cell(self, address: str) -> tuple[str, int, int]:
        return self.titles[address.partition(".")[0]], _LAST_ROW, _LAST_COLUMN

    def column(self, address: str) -> tuple[str, int, int, int]:
        return self.titles[address.partition(".")[0]], _LAST_COLUMN, _FIRST_ROW, _LAST_ROW


def _declared(sheet: Sheet) -> Iterator[tuple[str, str]]:
    for part in sheet.parts:
        if isinstance(part, Table):
            entries, inside = part.entries, f"{sheet.name}.{part.name}"
        elif isinstance(part, Form | Pictures):
            entries, inside = part.entries, sheet.name
        elif isinstance(part, Ledger):
            entries, inside = tuple(entry for line in part.lines for entry in line.entries), sheet.name
        else:
            continue
        for entry in entries:
            yield from ((f"{inside}.{entry.name}", formula) for formula in (entry.formula, entry.first))
    yield from ((f"{sheet.name}, check {check.name}", check.formula) for check in sheet.checks)
    yield from ((f"{sheet.name}, caution {caution.name}", caution.formula) for caution in sheet.cautions)


def _refuse(address: str, formula: str) -> None:
    if len(formula) > MOST_DECLARED:
        raise DeclarationError(
            f"{address}: its formula has {len(formula)} characters, and at most {MOST_DECLARED} can be read; "
            "give its steps entries of their own"
        )
    levels = _levels(tokens(formula)) if formula.count("(") > MOST_LEVELS else 0
    if levels > MOST_LEVELS:
        raise DeclarationError(
            f"{address}: its formula is {levels} brackets deep, and at most {MOST_LEVELS} can be read; "
            "give its steps entries of their own"
        )


def _levels(parts: tuple[Token, ...]) -> int:
    depth = deepest = 0
    for part in parts:
        depth += {"(": 1, ")": -1}.get(part.text, 0)
        deepest = max(deepest, depth)
    return deepest
