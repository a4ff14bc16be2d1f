"""Next season's style from this one: the design stays; prices, answers, measured rounds, decisions, dates and history go."""

from __future__ import annotations

from collections import Counter

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.declare.parts import Book, Column
from sheetgen.texts import say
from sheetgen.workbook.model.values import Values

_SHEETS = frozenset({"fit", "revisions", "quote", "order", "cutting", "questions"})
"""Sheets that are about one season's samples, offers and order alone."""
_KINDS = frozenset({"money", "date"})
_ENTRIES = frozenset({
    "style.season", "style.vendor", "style.vendor_contact", "style.vendor_email", "approvals.items.decision",
    "approvals.items.by", "approvals.items.comment", "approvals.items.given",
    "approvals.items.given_revision", "colorways.dips.decision", "colorways.dips.comment", "materials.rates.rate",
    "materials.rates.from_where", "materials.rates.code",
})  # fmt: skip
_BEGUN: dict[str, Value] = {"style.revision": 1, "style.purpose": "quote"}


def design_of(book: Book, values: Values, number: str) -> tuple[Values, list[str]]:
    """What of a style is its design, as style `number`; and in words what was left behind, counted by sheet.

    `book` is the expanded one, in the style's own shape.
    """
    kept: Values = {}
    dropped: Counter[str] = Counter()
    for place, value in values.items():
        column = book.entries.get(place.entry)
        if column is None or _is_of_the_season(column, place):
            dropped[column.sheet.title if column else place.entry] += 1
        else:
            kept[place] = value
    kept[Place("style.number")] = number
    kept.update({Place(entry): value for entry, value in _BEGUN.items()})
    said = ", ".join(f"{title} {count}" for title, count in dropped.items())
    return kept, [say("Left behind (cells by sheet): {said}.", said=said)] if said else []


def _is_of_the_season(column: Column, place: Place) -> bool:
    entry = column.entry
    return entry.who == "vendor" or column.sheet.name in _SHEETS or entry.kind.name in _KINDS or place.entry in _ENTRIES
