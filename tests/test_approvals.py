"""Approvals: what has a row of its own is decided there, and Approvals reads it; what has none is decided here."""

from __future__ import annotations

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.values import Values
from tests.blanking.emptied import Bench
from tests.loop import SAMPLES

ELSEWHERE = {
    "R2": "fit.rounds.decision",
    "D1": "colorways.dips.decision",
    "A1": "artwork.pieces.decision",
    "T1": "quality.tests.accepted",
}
STATES = {
    "approved": "done", "approved with comments": "done", "approved to try in bulk": "done", "dropped": "done", "yes": "done",
    "rejected": "open, again", "resubmit": "open, again", "no": "open, again", None: "open",
}  # fmt: skip
"""What a decision makes of an approval; a blank one is open."""
HERE = "approvals.items.decision"


def words_of(address: str) -> tuple[str, ...]:
    table, _, name = address.rpartition(".")
    return next(entry.kind.choices for entry in BOOK.tables[table][1].entries if entry.name == name)


def shown(changed: dict[Place, Value]) -> Values:
    """What the overshirt shows with other values."""
    return Bench({**api.build(SAMPLES / "overshirt" / "brief.toml").values, **changed}).before


def test_every_word_of_every_decision_is_known() -> None:
    for address in (HERE, *ELSEWHERE.values()):
        assert set(words_of(address)) <= set(STATES), address


@pytest.mark.parametrize("nth", range(4), ids=["first word", "second", "third", "none"])
def test_an_approval_follows_the_decision_where_it_is_made(nth: int) -> None:
    rows = dict(zip(("V1", "V2", "V3", "V4"), ELSEWHERE.items(), strict=True))
    changed: dict[Place, Value] = {}
    expected = {}
    for row, (ref, address) in rows.items():
        word = dict(enumerate(words_of(address))).get(nth)
        changed[Place("approvals.items.about", row)] = ref
        changed[Place(address, ref)] = word
        expected[row] = STATES[word]
    changed[Place(HERE, "V9")] = word = dict(enumerate(words_of(HERE))).get(nth)
    now = shown(changed)
    assert {row: now[Place("approvals.items.state", row)] for row in (*rows, "V9")} == expected | {"V9": STATES[word]}
    assert now[Place("checks.wrong_approvals_twice")] == 0


def test_a_decision_in_two_places_and_one_at_no_row_are_counted() -> None:
    now = shown({Place(HERE, "V4"): "approved", Place("approvals.items.about", "V9"): "R9"})
    assert now[Place("checks.wrong_approvals_twice")] == 1
    assert now[Place("checks.wrong_approvals_about")] == 1
    assert now[Place("approvals.items.state", "V4")] == "open"  # the row that it names is still open
    assert now[Place("approvals.items.state", "V9")] == "open"
