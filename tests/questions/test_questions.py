"""What a factory asks, each looked up in the copy that it would get; what has no place yet stands in the list, and is counted."""

import pytest

from sheetgen.sheets import BOOK
from tests.audit.made import STYLES
from tests.questions.answered import questions, unanswered

NOT_ASKED = {
    ("overshirt", 22): "buttoned, no zip",
    ("overshirt", 66): "no cord",
    ("overshirt", 67): "no elastic",
    ("overshirt", 79): "fit in words; no body table is told",
    ("sweatshirt", 22): "a pullover, no zip",
    ("sweatshirt", 66): "no cord, as the caution asks for a child's hood",
    ("sweatshirt", 67): "ribs, no elastic",
    ("jacket", 79): "fit in words; no body table is told",
}
"""Questions that do not arise for a sample, and why."""
NOT_YET = {
    89: "blank: sizes are not rounded",
    90: "decided when the dips have come",
    91: "decided when the strike-offs have come",
    93: "comes with the first fitting",
    108: "confirmed by a person before bulk",
}
"""What the samples, which are at their first copy, have a place for and nothing in it."""
WITHOUT_A_PLACE = 0
"""How many questions have a part without a place; a place that is given lowers it."""


def test_there_are_120_of_them_in_three_parts():
    assert [one.number for one in questions()] == list(range(1, 121))
    assert {one.purpose: one.number for one in questions()} == {"quote": 40, "sample": 85, "bulk": 120}


@pytest.mark.parametrize("style", STYLES)
def test_a_copy_answers_what_has_a_place(style):
    open_ones = {
        one.number: unanswered(one, style)
        for one in questions()
        if (style, one.number) not in NOT_ASKED and one.number not in NOT_YET
    }
    assert {number: entries for number, entries in open_ones.items() if entries} == {}


def test_every_exception_is_one():
    for style, number in NOT_ASKED:
        assert unanswered(questions()[number - 1], style), f"{style} answers {number} now: take it out of the list"
    for number in NOT_YET:
        assert any(unanswered(questions()[number - 1], style) for style in STYLES), f"{number} is answered now"


def test_what_has_no_place_is_counted():
    assert all(one.places or one.wanting for one in questions())
    assert sum(bool(one.wanting) for one in questions()) == WITHOUT_A_PLACE


def test_every_place_is_an_entry():
    known = set(BOOK.entries)
    assert [entry for one in questions() for entry in one.places if entry.removesuffix("^") not in known] == []
