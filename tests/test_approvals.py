"""Approvals: what has a row of its own is decided there, and Approvals reads it; what has none is decided here."""

from __future__ import annotations

import pytest

from sheetgen import api
from sheetgen.api.making import Built, from_values
from sheetgen.declare.entry import Place, place_of
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


BRIEF = SAMPLES / "overshirt" / "brief.toml"
SECOND: dict[Place, Value] = {
    Place("fit.rounds.round", "R2"): "Fit",
    Place("fit.rounds.size", "R2"): "M",
    Place("approvals.items.about", "V5"): "R2",
}
"""The round after the first, and the approval that is decided there."""


def words_of(address: str) -> tuple[str, ...]:
    table, _, name = address.rpartition(".")
    return next(entry.kind.choices for entry in BOOK.tables[table][1].entries if entry.name == name)


def shown(changed: dict[Place, Value]) -> Values:
    """What the overshirt shows with other values."""
    return Bench({**api.build(BRIEF).values, **SECOND, **changed}).before


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


COVERED = {
    "measurements.points[P1].base": (59.0, {"V5", "V9"}),
    "measurements.points[P3].plus": (0.5, {"V5", "V9"}),
    "measurements.points[P1].step": (2.25, {"V5", "V9"}),
    "fit.points[P1].revise_r2": (57.0, {"V9"}),  # of the rounds after it; what that round was asked is the same
    "materials.bom[M1].composition": ("98 % cotton, 2 % elastane", {"V3", "V9"}),
    "labels.items[L3].wording": ("Made elsewhere", {"V3", "V9"}),
    "colorways.components[K1].color_c1": ("Fern", {"V1", "V9"}),
    "colorways.dips[D1].limit": (2.0, {"V1", "V9"}),
    "artwork.pieces[A1].width": (9.0, {"V2", "V9"}),
    "style.name": ("Another name", set()),
}
"""What is changed after five approvals, and which of them were then given to something else."""


@pytest.fixture(scope="module")
def approved() -> Built:
    """The overshirt after five approvals: lab dips, strike-off, trims card, fit sample, sealed reference."""
    decided = {"fit.rounds[R2].decision": "approved", "artwork.pieces[A1].decision": "approved"}
    here = {f"{HERE.rpartition('.')[0]}[{row}].decision": "approved" for row in ("V1", "V3", "V9")}
    changed: dict[Place, Value] = {place_of(place): value for place, value in {**decided, **here}.items()}
    return from_values({**api.build(BRIEF).values, **SECOND, **changed})


def older(built: Built) -> set[str]:
    return {
        place.row for place, value in built.shown.items() if place.entry.endswith("since") and value == "changed since"
    }


def test_a_build_keeps_what_each_approval_was_given_to(approved: Built) -> None:
    kept = {place.row: value for place, value in approved.values.items() if place.entry == "approvals.items.given"}
    assert set(kept) == {"V1", "V2", "V3", "V5", "V9"}
    assert len(set(kept.values())) == len(kept)
    assert approved.values[Place("approvals.items.given_revision", "V2")] == 1
    assert older(approved) == set()


@pytest.mark.parametrize("place", COVERED)
def test_what_changes_after_an_approval_makes_it_one_of_an_older_version(approved: Built, place: str) -> None:
    value, expected = COVERED[place]
    made = from_values({**approved.values, place_of(place): value})
    assert older(made) == expected
    assert made.shown[Place("checks.wrong_approvals_older")] == len(expected)
    assert older(from_values({**made.values, place_of(place): approved.values.get(place_of(place))})) == set()


def test_an_approval_that_is_cleared_and_given_again_is_given_to_what_stands_there(approved: Built) -> None:
    changed = from_values({**approved.values, place_of("artwork.pieces[A1].width"): 9.0})
    again = from_values({place: value for place, value in changed.values.items() if place.entry[-6:] != ".given"})
    assert older(again) == set()
    taken_back = from_values({**again.values, place_of("artwork.pieces[A1].decision"): "resubmit"})
    assert Place("approvals.items.given", "V2") not in taken_back.values
