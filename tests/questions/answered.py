"""What a factory asks before a quote, a sample and bulk, looked up in the copy that it gets.

`questions.csv` holds the questions (headings of handbooks and standards, common practice): where the copy answers each, and
what has no place yet. Places are entries; all of them must be filled somewhere, and `^` marks one that the vendor fills.
"""

from __future__ import annotations

import csv
import re
from functools import cache
from pathlib import Path
from typing import NamedTuple

from sheetgen import api
from sheetgen.sheets import BOOK
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned
from tests.kept import kept
from tests.loop import ISSUED, loop


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


@cache
def copy_of(style: str, purpose: str) -> Returned:
    """The copy for a purpose, read as anybody would; what a sample has not decided yet does not keep it here."""

    def make(folder: Path) -> None:
        issued = api.issue(
            loop(style) / "a-working.xlsx", purpose=purpose, issued=ISSUED, anyway="the questions of a factory"
        )
        (folder / "copy.xlsx").write_bytes(issued.data)

    return read(BOOK, kept(f"asked-{style}-{purpose}", make) / "copy.xlsx")


def unanswered(question: Question, style: str) -> list[str]:
    """The entries of a question of which nothing stands in the style's copy."""
    copy = copy_of(style, question.purpose)
    return [entry for entry in question.places if not _stands(copy, entry)]


def _stands(copy: Returned, entry: str) -> bool:
    of = re.compile(re.escape(entry.removesuffix("^")) + r"(_[a-z]\d+)*")
    if entry.endswith("^"):
        return any(
            of.fullmatch(one) and column.entry.who == "vendor" for one, column in copy.ready.book.entries.items()
        )
    return any(
        value not in (None, "") and of.fullmatch(place.entry)
        for values in (copy.typed, copy.shown)
        for place, value in values.items()
    )
