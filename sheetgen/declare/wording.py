"""Wording: the gate through which every declared text goes on its way into a copy in other words.

Declarations are plain English words. `worded` puts a book into the words that `translate` gives, before it is expanded, so
that a text still has its holes (`{size}`, `{currency}`). Choices go the same way everywhere: in the lists, in the rows of
published tables, and as words in quotes that a formula compares with them. Other words in quotes, which formulas show
(`out`, `too small`), are not touched. Derived sheets put their own words through the book's `say`.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from .entry import Entry, Place
from .expansion import expand
from .kinds import Kind, Value
from .mistakes import DeclarationError, concerning
from .parts import (
    Book,
    Caution,
    Chart,
    Check,
    Form,
    Ledger,
    Line,
    Pictures,
    Section,
    Sheet,
    Table,
    Translate,
    Words,
)
from .tokens import tokens
from .words import Spot, Vocabulary, chosen_words, holds_words, words_also_typed

READ_BY_PEOPLE: Mapping[type, tuple[str, ...]] = {
    Sheet: ("title", "purpose"),
    Section: ("title",),
    Form: ("title", "note"),
    Pictures: ("title", "note"),
    Chart: ("title", "unit", "description"),
    Words: ("title", "lines"),
    Ledger: ("title", "note", "headings", "mark_open"),
    Line: ("words",),
    Table: ("title", "note"),
    Check: ("title", "fix"),
    Caution: ("sentence", "source"),
    Entry: ("heading", "help", "blank", "asked_when"),
    Kind: ("choices",),
}
"""What of a declaration people read. Rows of tables and formulas have their own way below."""
ROWS = ("rows", "begins")
"""What of a table holds whole rows."""
HELD: Mapping[type, tuple[str, ...]] = {
    Sheet: ("parts", "checks", "cautions"),
    Section: ("columns",),
    Form: ("entries",),
    Pictures: ("entries",),
    Ledger: ("lines",),
    Line: ("entries",),
    Table: ("columns",),
    Entry: ("kind",),
}
"""What of a declaration holds other declarations."""
_HOLE = re.compile(r"\{\w+\}")


@dataclass(frozen=True)
class Text:
    """A text that people read, and where it stands: addresses with what it is there, `style.name heading`."""

    words: str
    places: tuple[str, ...]


def is_text(words: str) -> bool:
    """Whether there is anything to translate: a letter outside of the holes."""
    return any(sign.isalpha() for sign in _HOLE.sub("", words))


def worded(book: Book, translate: Translate) -> Book:
    """The declared book in the words that `translate` gives; with the identity an equal book.

    Choices that are also typed by people, such as currencies, stay as they are.
    DeclarationError where a translation loses or adds a hole, or makes one word of two choices.
    """
    signs = words_also_typed(book)

    def say(words: str) -> str:
        return _said(words, translate) if is_text(words) and words not in signs else words

    return replace(book, sheets=_Gate(book, lambda words, _: say(words)).sheets(), say=say)


def reworded(values: Mapping[Place, Value], book: Book, copy: Book) -> dict[Place, Value]:
    """What people chose in a book as its copy in other words says it; with the two exchanged, what was chosen in the copy.

    Choices, and picks from declared rows, take the word that stands at the same place of the list; all else stays. Both books
    are expanded for the same shape.
    """
    lists: dict[str, dict[str, str]] = {}
    for address in {place.entry for place in values} & book.entries.keys():
        lists[address] = dict(zip(_listed(book, address), _listed(copy, address), strict=True))
    return {
        place: lists.get(place.entry, {}).get(value, value) if isinstance(value, str) else value
        for place, value in values.items()
    }


def _listed(book: Book, address: str) -> tuple[str, ...]:
    """The declared words that an entry can hold, in their order; none where people type freely."""
    _, table, entry = book.entries[address]
    if entry.who == "fixed" and table is not None:
        return tuple(str(row.get(entry.name)) for row in table.rows)
    if entry.kind.source in book.entries:
        return _listed(book, entry.kind.source)
    return entry.kind.choices


def texts_of(book: Book) -> tuple[Text, ...]:
    """Every text of a book that people read, once, with all places where it stands; for both audiences."""
    found: dict[str, dict[str, None]] = {}
    signs = words_also_typed(book)

    def note(words: str, where: str) -> str:
        if is_text(words) and words not in signs:
            found.setdefault(words, {})[where] = None
        return words

    _Gate(book, note).sheets()
    # One member of each axis, called like its hole, is enough for the derived sheets to say all their words.
    members = {axis: ("{" + axis + "}",) for axis in book.axes}
    noting = replace(book, say=lambda words: note(words, "derived sheets"))
    expand(noting, members)
    expand(replace(noting, audience="vendor"), members)
    return tuple(Text(words, tuple(places)) for words, places in found.items())


def _said(words: str, translate: Translate) -> str:
    made = translate(words)
    if sorted(_HOLE.findall(made)) != sorted(_HOLE.findall(words)):
        raise DeclarationError(f"{made!r} has not the same holes as {words!r}")
    return made


class _Gate:
    """Goes through a book once; `change` takes a text and where it stands, and gives what shall stand there."""

    def __init__(self, book: Book, change: Callable[[str, str], str]) -> None:
        self.book, self.change = book, change
        self.vocabulary = Vocabulary(book)

    def sheets(self) -> tuple[Sheet, ...]:
        """All sheets, changed."""
        return tuple(self._changed(sheet, sheet.name, sheet, None) for sheet in self.book.sheets)

    def _changed(self, one: Any, where: str, sheet: Sheet, table: Table | None) -> Any:
        fields: dict[str, Any] = {}
        for name in READ_BY_PEOPLE[type(one)]:
            fields[name] = self._text(getattr(one, name), f"{where} {name}")
        inside = one if isinstance(one, Table) else table
        for name in HELD.get(type(one), ()):
            held = getattr(one, name)
            if isinstance(held, tuple):
                fields[name] = tuple(self._changed(each, _named(each, where), sheet, inside) for each in held)
            else:
                fields[name] = self._changed(held, where, sheet, inside)
        if isinstance(one, Table):
            fields |= {name: self._rows(getattr(one, name), where) for name in ROWS}
        if isinstance(one, Kind):
            _refuse_merged(where, one.choices, fields["choices"])
        for name in ("formula", "first"):
            if holds_words(getattr(one, name, "")):
                fields[name] = self._formula(Spot(where, getattr(one, name), sheet, table))
        return replace(one, **fields)

    def _text(self, held: str | tuple[str, ...], where: str) -> str | tuple[str, ...]:
        return self.change(held, where) if isinstance(held, str) else tuple(self.change(each, where) for each in held)

    def _rows(self, rows: Sequence[Mapping[str, Value]], where: str) -> tuple[Mapping[str, Value], ...]:
        changed = tuple(
            {
                name: self.change(value, f"{where}.{name} row") if isinstance(value, str) else value
                for name, value in row.items()
            }
            for row in rows
        )
        for name in {name for row in rows for name in row}:
            before, after = ([str(row.get(name)) for row in one] for one in (rows, changed))
            _refuse_merged(f"{where}.{name}", before, after)
        return changed

    def _formula(self, spot: Spot) -> str:
        with concerning(spot.name):
            chosen = chosen_words(self.vocabulary, spot)
        changed = {index: self.change(word, f"{spot.name} formula") for index, word in chosen.items()}
        if changed == chosen:
            return spot.formula
        parts = enumerate(tokens(spot.formula))
        return "".join(_quoted(changed[index]) if index in changed else token.text for index, token in parts)


def _refuse_merged(where: str, before: Sequence[str], after: Sequence[str]) -> None:
    """Two words may not become one: a formula could no longer tell them apart (capital and small letters are alike to it)."""
    if len({word.casefold() for word in after}) < len({word.casefold() for word in before}):
        raise DeclarationError(f"{where}: two words become one in {', '.join(after)}")


def _named(one: Any, where: str) -> str:
    """Where a declaration inside of another stands: an address if it has a name, else what it stands in."""
    if isinstance(one, Check | Caution):
        return f"{where}, {type(one).__name__.lower()} {one.name!r}"
    return f"{where}.{one.name}" if isinstance(one, Entry | Table) else where


def _quoted(word: str) -> str:
    return '"' + word.replace('"', '""') + '"'
