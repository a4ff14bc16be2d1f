"""The letter's own words: what a brand writes around the points, from its brand file."""

from __future__ import annotations

import string
from collections.abc import Mapping
from dataclasses import dataclass, fields

from sheetgen.declare.entry import STAGES
from sheetgen.texts import marked, say

MOST_LETTERS = 600
HOLES = ("vendor", "what", "style", "revision", "purpose", "points", "contact")
"""What stands in braces in the words: {what} is the workbook, {points} `the 12 points below`, {contact} the brand's."""


@dataclass(frozen=True)
class LetterWords:
    """Sentences with holes: before points to correct, before questions alone, after them, and where there is nothing to ask."""

    greeting: str = marked("Dear {vendor},")
    opening: str = marked("Thank you for returning {what}. Before we can go on, we need your help with {points}.")
    questions: str = ""
    closing: str = marked("Kind regards,\n{contact}")
    thanks: str = marked(
        "Thank you for returning {what}. We have nothing to ask about it. We will come back to you with the next step."
    )

    def filled(self, name: str, given: Mapping[str, str]) -> str:
        """One of them with its holes filled; what is filled in is text and never a hole itself."""
        return say(str(getattr(self, name)), **{hole: given.get(hole, "") for hole in HOLES})


def letter_words(given: Mapping[str, object], purpose: str = "") -> LetterWords:
    """The words of a brand file's table, and over them those of its table for a purpose (`[letter.sample]`).

    ValueError in half a sentence for what they cannot be, of other purposes too.
    """
    own = {name: words for name, words in given.items() if name not in STAGES}
    _refuse_words("letter", own)
    for name in STAGES:
        table = given.get(name, {})
        if not isinstance(table, Mapping):
            raise ValueError(say("[letter.{name}] must be a table", name=name))
        _refuse_words(f"letter.{name}", table)
        if name == purpose:
            own |= table
    return LetterWords(**{name: str(words) for name, words in own.items()})


def _refuse_words(table: str, given: Mapping[str, object]) -> None:
    known = {one.name for one in fields(LetterWords)}
    for name, words in given.items():
        if name not in known:
            listed = ", ".join(sorted(known))
            raise ValueError(say("[{table}] knows no {name!r}; it has {known}", table=table, name=name, known=listed))
        if not isinstance(words, str) or not words.strip() or len(words) > MOST_LETTERS:
            raise ValueError(
                say(
                    "[{table}] {name} must be a text of at most {most} letters",
                    table=table,
                    name=name,
                    most=MOST_LETTERS,
                )
            )
        _refuse_holes(table, name, words)


def _refuse_holes(table: str, name: str, words: str) -> None:
    try:
        parts = [(hole, form, turned) for _, hole, form, turned in string.Formatter().parse(words) if hole is not None]
    except ValueError:
        parts = [("{", "", None)]
    wrong = next((hole for hole, form, turned in parts if hole not in HOLES or form or turned), None)
    if wrong is not None:
        holes = ", ".join("{" + hole + "}" for hole in HOLES)
        raise ValueError(
            say(
                "[{table}] {name}: {wrong!r} is no hole; there are {holes}",
                table=table,
                name=name,
                wrong=wrong,
                holes=holes,
            )
        )
