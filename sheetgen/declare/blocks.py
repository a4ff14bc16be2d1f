"""Blocks: what a formula reads between the two ends of `first:last`, which it names alone."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .formula import Formula, Reference
from .mistakes import DeclarationError
from .parts import Book, Ledger
from .tokens import Token

_BETWEEN = Token("sign", ":")


def read_by(book: Book, formula: Formula) -> Iterator[Reference]:
    """Everything that a formula reads: what it names, what stands in its blocks, and what it waits for."""
    for index, reference in enumerate(formula.references):
        if reference is None:
            continue
        yield reference
        if formula.tokens[index + 1 : index + 2] == (_BETWEEN,):
            last = formula.references[index + 2]
            if last is not None:
                yield from _inside(book, reference, last)
    yield from formula.waits_for


def _inside(book: Book, first: Reference, last: Reference) -> Iterator[Reference]:
    """The entries between the ends of a block: columns of a table, or cells of a ledger's lines."""
    home, _, name = first.address.rpartition(".")
    place, _, other = last.address.rpartition(".")
    if place != home or first.sort != last.sort:
        raise _no_block(name, other)
    between = _cells_between if first.sort == "cell" else _columns_between
    for one in between(book, home, name, other):
        yield Reference(first.sort, f"{home}.{one}")


def _columns_between(book: Book, table: str, first: str, last: str) -> Sequence[str]:
    names = [entry.name for entry in book.tables[table][1].entries]
    if names.index(last) < names.index(first):
        raise DeclarationError(f"{last} stands before {first}, and a block goes from left to right")
    return names[names.index(first) + 1 : names.index(last)]


def _cells_between(book: Book, sheet: str, first: str, last: str) -> Sequence[str]:
    for part in book.sheet(sheet).parts:
        if not isinstance(part, Ledger):
            continue
        places = {
            entry.name: (down, across)
            for down, line in enumerate(part.lines)
            for across, entry in enumerate(line.entries)
        }
        if first in places and last in places:
            (top, left), (bottom, right) = places[first], places[last]
            return [
                name
                for name, (down, across) in places.items()
                if top <= down <= bottom and left <= across <= right and name not in {first, last}
            ]
    raise _no_block(first, last)


def _no_block(first: str, last: str) -> DeclarationError:
    return DeclarationError(f"{first} and {last} stand in no one table or ledger: no block goes from one to the other")
