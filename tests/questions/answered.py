"""What a factory asks before a quote, a sample and bulk, looked up in the copy that it gets.

`questions.csv` holds the questions (headings of handbooks and standards, common practice): where the copy answers each, and
what has no place yet. Places are entries; all of them must be filled somewhere, and `^` marks one that the vendor fills.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import NamedTuple

from sheetgen.declare.entry import Place
from sheetgen.declare.parts import Column
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.workbook.exchange.issue import going
from sheetgen.workbook.model.calculation import shown_by
from sheetgen.workbook.model.values import Values, fixed_values
from tests.loop import SAMPLES


class Question(NamedTuple):
    """One question: where a copy for this purpose answers it, and what of it has no place."""

    number: int
    purpose: str
    words: str
    places: tuple[str, ...]
    wanting: str


@cache
def questions() -> tuple[Question, ...]:
    """All of them, in order."""
    text = (Path(__file__).with_name("questions.csv")).read_text("utf-8").splitlines()
    return tuple(
        Question(int(one["number"]), one["purpose"], one["question"], tuple(one["places"].split()), one["wanting"])
        for one in csv.DictReader(text, delimiter=";")
    )


class Copy(NamedTuple):
    """What stands in a copy: its entries, what is typed in it and what it works out."""

    entries: Mapping[str, Column]
    values: Values


@cache
def copy_of(style: str, purpose: str) -> Copy:
    """The copy for a purpose, as it goes to the vendor; what a sample has not decided yet does not keep it here."""
    values = load_style(BOOK, SAMPLES / style / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))
    ready, sent, *_ = going(BOOK, {**values, Place("style.purpose"): purpose})
    return Copy(ready.book.entries, {**fixed_values(ready), **sent, **shown_by(ready, sent)})


def unanswered(question: Question, style: str) -> list[str]:
    """The entries of a question of which nothing stands in the style's copy."""
    copy = copy_of(style, question.purpose)
    return [entry for entry in question.places if not _stands(copy, entry)]


def _stands(copy: Copy, entry: str) -> bool:
    of = re.compile(re.escape(entry.removesuffix("^")) + r"(_[a-z]\d+)*")
    if entry.endswith("^"):
        return any(of.fullmatch(one) and column.entry.who == "vendor" for one, column in copy.entries.items())
    return any(value not in (None, "") and of.fullmatch(place.entry) for place, value in copy.values.items())
