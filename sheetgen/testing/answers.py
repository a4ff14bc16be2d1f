"""Answers: what a vendor types into its copy, from a file; for an entry that the file does not know, one by its kind.

So a new column of the sheets is answered in every sample by itself; whoever wants better answers writes them into the
samples' files.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from pathlib import Path

from sheetgen.declare.entry import STAGES, Place
from sheetgen.declare.kinds import Kind, Value
from sheetgen.declare.parts import Book
from sheetgen.testing.actions import Edit
from sheetgen.testing.edit import edited_bytes
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.exchange.toml import read_toml
from sheetgen.workbook.model.asked import is_asked
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned

GENERATED = "generated answer"
"""How a generated text reads, so that nobody takes it for somebody's words."""
_NUMBERS = {"percent": 0.05, "whole": 1}
_GRAY = "#808080"
_DAY = datetime.date(2026, 11, 20)


def answer(book: Book, source: Path, answers: Path, known: Values, target: Path) -> Values:
    """Copy a vendor's copy with the answers of a file typed in, and with those that had to be generated: they are given back.

    `known` are the style's own values, by whose rows and sizes the file speaks. UserError if the file cannot be used.
    """
    got = read(book, source)
    given = values_of(book, read_toml(answers), answers, known)
    made = generated(got, given)
    edits = [Edit(str(place), "type", value) for place, value in {**given, **made}.items()]
    target.write_bytes(edited_bytes(got, source.read_bytes(), edits))
    return made


def generated(got: Returned, given: Mapping[Place, Value]) -> Values:
    """An answer for every cell that must be filled of entries for which none is given in any row."""
    answered = {place.entry for place in given}
    purpose = str(got.typed.get(Place(got.ready.book.about.purpose)) or "")

    def value(address: str, row: str) -> Value:
        place = Place(address, row)
        return given.get(place, got.typed.get(place, got.shown.get(place)))

    found: Values = {}
    for address, column in got.ready.book.entries.items():
        if address in answered or column.entry.who != "vendor":
            continue
        for place, _ in got.where.places(address):
            asked = is_asked(got.ready, place, value, STAGES.get(purpose, 1), "vendor")
            if asked and got.typed.get(place) in (None, "") and (answer := _answer(got, column.entry.kind)) is not None:
                found[place] = answer
    return found


def _answer(got: Returned, kind: Kind) -> Value:
    """A value that the kind allows; None for a picture, which cannot be typed."""
    if kind.source:
        held = (got.typed.get(place, got.shown.get(place)) for place, _ in got.where.places(kind.source))
        return next((value for value in held if value not in (None, "")), GENERATED)
    if kind.choices:
        return kind.choices[0]
    if kind.is_number:
        within = float(_NUMBERS.get(kind.name, 1))
        within = within if kind.least is None else max(within, kind.least)
        within = within if kind.most is None else min(within, kind.most)
        return int(within) if kind.name == "whole" else within
    others: dict[str, Value] = {"date": _DAY, "color": _GRAY, "picture": None}
    return others.get(kind.name, GENERATED)
