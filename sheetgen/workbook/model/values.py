"""A style's data: what stands in which place, and what follows from it for the shape of the book."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache, partial

from sheetgen.declare.audience import for_vendor
from sheetgen.declare.entry import STAGES, Place
from sheetgen.declare.expansion import expand
from sheetgen.declare.formula import Formula
from sheetgen.declare.joined import refuse_raw_joins
from sheetgen.declare.kinds import PictureMark, Value
from sheetgen.declare.limits import refuse_unreadable
from sheetgen.declare.parts import Book, Table, Translate, as_it_is
from sheetgen.declare.remembered import declared_as, once, proven_once
from sheetgen.declare.wording import worded
from sheetgen.declare.words import refuse_wrong_words
from sheetgen.declare.zeros import refuse_silent_zeros

Values = dict[Place, Value]


@dataclass(frozen=True)
class Shape:
    """What decides which sheets, columns and words a workbook has. Rows are not in it."""

    axes: tuple[tuple[str, tuple[str, ...]], ...]
    words: tuple[tuple[str, str], ...]
    audience: str = "designer"


@dataclass(frozen=True, repr=False)  # in words it would be whole books: gigabytes in a failing test
class Ready:
    """An expanded, proven book with its formulas read."""

    book: Book
    formulas: Mapping[str, Formula]
    shape: Shape
    known_by: bytes = b""
    """What its proof is remembered under: how the book is declared, and how many members each axis has."""

    @cached_property
    def has_private(self) -> bool:
        """Whether anything in it is marked as the brand's own (a vendor's book has nothing)."""
        return any(column.sheet.private or column.entry.private for column in self.book.entries.values())

    @cached_property
    def needed(self) -> dict[str, int]:
        """Entries that must be filled -> from which purpose on (1 quote, 2 sample, 3 bulk)."""
        return {
            address: STAGES[column.entry.need] for address, column in self.book.entries.items() if column.entry.need
        }


def refs(table: str, values: Mapping[Place, Value | PictureMark]) -> list[str]:
    """Refs of a table's rows that hold anything, in the order in which they were given."""
    begins = f"{table}."
    return list(dict.fromkeys(row for entry, row in values if row and entry.startswith(begins)))


def free_row(letter: str, used: Collection[str]) -> str:
    """The first ref of a table that no row has yet; `letter` is the table's."""
    return next(ref for ref in (f"{letter}{number}" for number in range(1, len(used) + 2)) if ref not in used)


def shape_of(book: Book, values: Values, audience: str = "designer") -> Shape:
    """Sizes, colorways and rounds, and the words that headings carry, as these values have them."""
    axes = []
    for axis, address in book.axes.items():
        table = book.tables[address][1]
        if table.rows:
            names = [str(row[table.key]) for row in table.rows]
        else:
            key = f"{address}.{table.key}"
            names = [
                str(values.get(Place(key, ref)) or f"{axis.capitalize()} {number}")
                for number, ref in enumerate(refs(address, values), 1)
            ]
            if not names and axis not in book.optional_axes:
                names = [f"{axis.capitalize()} 1"]
        axes.append((axis, tuple(names)))
    about = book.about
    words = words_for(*(str(values.get(Place(field)) or "") for field in (about.unit, about.currency, about.fractions)))
    return Shape(tuple(axes), words, audience)


def words_for(unit: str, currency: str, fractions: str) -> tuple[tuple[str, str], ...]:
    """What the headings' holes mean, and into how many parts an inch is divided, for these entries of the style."""
    unit = unit if unit in {"cm", "mm", "in"} else "cm"
    return (
        ("{unit}", unit),
        ("{other}", "cm" if unit == "in" else "in"),
        ("{currency}", currency or "EUR"),
        ("{parts}", "8" if fractions == "eighths" else "16"),
    )


@lru_cache(maxsize=8)  # each is a book of some megabytes
def ready(book: Book, shape: Shape, translate: Translate = as_it_is) -> Ready:
    """The book for this shape: readable as declared, without the brand's own entries for a vendor, in the words of the copy,
    expanded, and proven.

    `translate` is the catalog of a copy in another language; there is none yet. Values go with it by `reworded`.
    """
    for_whom = for_vendor(book) if shape.audience == "vendor" else book
    in_words = for_whom if translate is as_it_is else worded(for_whom, translate)
    # All that follows is made of the book and of these; in other words it is another book, and known by nothing.
    declared = declared_as(book) if translate is as_it_is else b""
    known_by = declared and declared + shape.audience.encode()
    once("declaration", known_by, partial(_refuse_misdeclared, book, for_whom))
    expanded = _expanded(in_words, shape.axes)
    known_by = known_by and known_by + repr([len(names) for _, names in shape.axes]).encode()
    return Ready(expanded, proven_once(expanded, known_by), shape, known_by)


def _refuse_misdeclared(book: Book, for_whom: Book) -> None:
    """What is wrong with a book whatever its shape."""
    refuse_wrong_words(book)
    refuse_raw_joins(book)
    refuse_silent_zeros(book)
    refuse_unreadable(for_whom)


def only_shaped(book: Book, shape: Shape) -> Ready:
    """The brand's book in this shape for looking entries up: none of its formulas is read, nothing proven."""
    return Ready(_expanded(book, shape.axes), {}, shape)


@lru_cache(maxsize=8)
def _expanded(book: Book, axes: tuple[tuple[str, tuple[str, ...]], ...]) -> Book:
    return expand(book, dict(axes))


def with_words(text: str, shape: Shape) -> str:
    """A heading with unit and currency put in."""
    if "{" in text:
        for word, meaning in shape.words:
            text = text.replace(word, meaning)
    return text


def row_refs(ready_book: Ready, values: Values) -> dict[str, list[str]]:
    """All rows that each table gets: filled ones, the declared fixed ones, and spare ones; mirrors follow their source."""
    found: dict[str, list[str]] = {}
    by_table: dict[str, dict[str, None]] = {}
    for place in values:
        if place.row:
            by_table.setdefault(place.entry.rpartition(".")[0], {})[place.row] = None
    tables = ready_book.book.tables
    for address, (_, table) in sorted(tables.items(), key=lambda item: bool(item[1][1].mirrors)):
        if table.rows:
            found[address] = [f"{table.ref}{number}" for number in range(1, len(table.rows) + 1)]
        elif table.mirrors:
            found[address] = list(found.get(table.mirrors, []))
        else:
            found[address] = _with_spare(table, list(by_table.get(address, {})))
    return found


def _with_spare(table: Table, filled: list[str]) -> list[str]:
    taken = set(filled)
    wanted = max(len(filled) + table.spare, table.least)
    number = 1
    while len(filled) < wanted:
        if f"{table.ref}{number}" not in taken:
            filled.append(f"{table.ref}{number}")
        number += 1
    return filled


def fixed_values(ready_book: Ready) -> Values:
    """What the declaration itself fills."""
    return {
        Place(f"{address}.{name}", f"{table.ref}{number}"): value
        for address, (_, table) in ready_book.book.tables.items()
        for number, row in enumerate(table.rows, 1)
        for name, value in row.items()
    }
