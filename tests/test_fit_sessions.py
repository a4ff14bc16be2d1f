"""Fit sessions as they happen: a second fit is a row of its own, what is decided stays, comments come back until they are closed."""

from __future__ import annotations

import datetime
from functools import cache
from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.api.making import Built
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import typed_in
from sheetgen.workbook.model.values import Values
from tests.loop import ISSUED, SAMPLES, loop

CHEST = "fit.points[P1].{0}"


def places(typed: dict[str, Value]) -> Values:
    return {place_of(address): value for address, value in typed.items()}


def changed(typed: dict[str, Value]) -> Built:
    """The overshirt with these values, built."""
    values = {**brief(), **places(typed)}
    return api.from_values({place: value for place, value in values.items() if value is not None})


@cache
def brief() -> Values:
    return api.build(SAMPLES / "overshirt" / "brief.toml").values


SECOND = {"fit.rounds[R2].round": "Fit", "fit.rounds[R2].size": "M"}
THIRD = {"fit.rounds[R3].round": "Fit 2", "fit.rounds[R3].size": "M"}


def test_a_new_style_begins_with_one_round():
    made = api.start("shirt")
    assert {place.row: value for place, value in made.values.items() if place.entry == "fit.rounds.round"} == {
        "R1": "Proto"
    }


def test_a_second_fit_typed_below_the_rounds_gets_its_columns_and_is_asked_for(tmp_path):
    path = tmp_path / "a.xlsx"
    typed_in(BOOK, loop() / "a-working.xlsx", places({**SECOND, **THIRD, "fit.round_now": "Fit 2"}), path)
    made = api.build(path)
    assert made.not_carried == ()
    assert made.shown[place_of(CHEST.format("spec_r3"))] == 58
    path.write_bytes(made.data)
    issued = api.issue(path, purpose="sample", issued=ISSUED)
    (tmp_path / "c.xlsx").write_bytes(issued.data)
    asked = {str(one.place) for one in api.audit(tmp_path / "c.xlsx").findings if one.rule == "entry-missing"}
    assert CHEST.format("value_r3") in asked
    assert not {place for place in asked if place.endswith((".value_r1", ".value_r2"))}


DECIDED = {**SECOND, CHEST.format("own_r1"): 59.2, "fit.rounds[R1].decision": "approved with comments"}
SHOWN = {"spec_r1": 58, "deviation_r1": 1.2, "verdict_r1": "out"}


@pytest.mark.parametrize("later", [
    {"measurements.points[P1].plus": 2.0},
    {"measurements.points[P1].base": 60.0},
    {"measurements.points[P1].step": 4.0, "fit.rounds[R1].size": "XL"},
])  # fmt: skip
def test_what_was_asked_in_a_decided_round_stays(later):
    decided = changed(DECIDED)
    assert {name: decided.shown[place_of(CHEST.format(name))] for name in SHOWN} == SHOWN
    after = api.from_values({**decided.values, **places(later)})
    assert {name: after.shown[place_of(CHEST.format(name))] for name in SHOWN} == SHOWN
    open_again = api.from_values({place: value for place, value in {**decided.values, **places(later)}.items()
                                  if place != Place("fit.rounds.decision", "R1")})  # fmt: skip
    assert {name: open_again.shown[place_of(CHEST.format(name))] for name in SHOWN} != SHOWN
    assert not [place for place in open_again.values if ".kept_" in place.entry]


def test_what_was_asked_goes_along_into_another_unit(tmp_path):
    decided = changed(DECIDED)
    path = tmp_path / "a.xlsx"
    path.write_bytes(decided.data)
    inches = api.build(path, settle=api.Settle(unit="in"))
    assert inches.shown[place_of(CHEST.format("spec_r1"))] == pytest.approx(58 / 2.54)
    assert inches.shown[place_of(CHEST.format("verdict_r1"))] == "out"


STANDS_AWAY = {
    "fit.comments[F1].seen": "Collar stands away at the back", "fit.comments[F1].round": "Proto",
    "fit.comments[F1].change": "Lower the back neck by 0.5", "fit.comments[F1].whose": "pattern",
}  # fmt: skip


def test_an_open_comment_comes_back_with_the_next_copy_and_its_answer_is_taken(tmp_path: Path):
    closed = {
        "fit.comments[F2].seen": "Cuff twists",
        "fit.comments[F2].round": "Proto",
        "fit.comments[F2].closed": "Proto",
    }
    built = changed({**STANDS_AWAY, **closed})
    working, copy, back = (tmp_path / name for name in ("a.xlsx", "a-issued.xlsx", "a-returned.xlsx"))
    working.write_bytes(built.data)
    issued = api.issue(working, purpose="sample", issued=ISSUED)
    copy.write_bytes(issued.data)
    (tmp_path / "a-issued.receipt.json").write_text(issued.receipt.text, "utf-8")
    missing = {str(one.place) for one in api.audit(copy).findings if one.rule == "entry-missing"}
    assert "fit.comments[F1].answer" in missing
    assert "fit.comments[F2].answer" not in missing
    typed_in(BOOK, copy, places({"fit.comments[F1].answer": "Done on pattern 3"}), back)
    taken = api.accept(working, back, date=datetime.date(2026, 12, 12))
    assert taken.built.values[place_of("fit.comments[F1].answer")] == "Done on pattern 3"


@pytest.mark.parametrize(
    ("decision", "count"), [("approved", 1), ("approved with comments", 0), ("rejected", 0), (None, 0)]
)
def test_a_round_with_open_comments_is_not_approved_without_a_word(decision, count):
    made = changed({**STANDS_AWAY, "fit.rounds[R1].decision": decision})
    assert made.shown[Place("checks.wrong_fit_open_comments")] == count
    shut = changed({**STANDS_AWAY, "fit.rounds[R1].decision": decision, "fit.comments[F1].closed": "Proto"})
    assert shut.shown[Place("checks.wrong_fit_open_comments")] == 0


def test_a_round_that_is_renamed_is_followed_by_all_that_names_it(tmp_path):
    working = tmp_path / "a.xlsx"
    working.write_bytes(changed(STANDS_AWAY).data)
    renamed = tmp_path / "b.xlsx"
    typed_in(BOOK, working, places({"fit.rounds[R1].round": "First proto"}), renamed)
    values = api.build(renamed).values
    assert values[Place("fit.round_now")] == "First proto"
    assert values[Place("fit.comments.round", "F1")] == "First proto"
