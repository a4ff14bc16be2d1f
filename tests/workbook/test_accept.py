"""Accepting puts what was sent, what came back and what stands in the working file together: every case by hand."""

from __future__ import annotations

import datetime
from dataclasses import replace

import pytest

from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Picture, PictureMark, Value
from sheetgen.workbook.exchange.accept import Change, Wish, carried, merge, was_put_in
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.read.found import Stray
from tests.workbook.briefs import png
from tests.workbook.exchanged import FILLED, merged, versions, with_typed

PRICE = "goods.lines[M1].price"
NET = "goods.lines[M1].net"
LOCKED, PUT_IN, BOTH = "the cell was locked", "the row was put in by the vendor", "both sides changed it"


@pytest.mark.parametrize(
    ("sent", "now", "came", "outcome", "reason", "kept"),
    [
        (None, None, 4.0, "taken", "", 4.0),  # an answer to a question
        (4.0, 4.0, 5.0, "taken", "", 5.0),  # an answer that was changed
        (4.0, 4.0, None, "taken", "", None),  # an answer that was taken back
        (4.0, 5.0, 5.0, "taken", "", 5.0),  # both sides say the same
        (4.0, 6.0, 5.0, "conflict", BOTH, 6.0),
        (4.0, 6.0, None, "conflict", BOTH, 6.0),
        (4.0, None, 5.0, "conflict", BOTH, None),  # cleared here, changed there
        (None, 6.0, 5.0, "conflict", BOTH, 6.0),
        (4.0, None, None, "taken", "", None),  # cleared on both sides
    ],
)
def test_a_vendors_answer(
    sent: Value, now: Value, came: Value, outcome: str, reason: str, kept: Value
) -> None:  # fmt: skip
    accepted = merged(PRICE, sent=sent, now=now, came=came)
    assert accepted.changes == [Change(place_of(PRICE), outcome, sent, came, now, reason)]  # type: ignore[arg-type]
    assert accepted.values.get(place_of(PRICE)) == kept
    assert accepted.of(outcome) == accepted.changes  # type: ignore[arg-type]
    assert all(accepted.of(other) == [] for other in ("taken", "refused", "conflict") if other != outcome)


@pytest.mark.parametrize(
    ("sent", "now", "came"),
    [
        (4.0, 4.0, 4.0),
        (4.0, 6.0, 4.0),  # changed here while the vendor had it
        (None, 6.0, None),
        (4, 6.0, 4.0),
        ("two\nlines", "two\nlines", "two\r\nlines"),  # as some programs save it
        (None, None, ""),
    ],
)
def test_what_came_back_as_it_was_sent_changes_nothing(sent: Value, now: Value, came: Value) -> None:
    place = "goods.remark" if isinstance(sent, str) else PRICE
    accepted = merged(place, sent=sent, now=now, came=came)
    assert accepted.changes == []
    assert accepted.values.get(place_of(place)) == now


def test_a_locked_cell_is_refused_and_stays_as_it_is_here() -> None:
    accepted = merged(NET, sent=1.5, now=1.7, came=9.0)
    assert accepted.changes == [Change(place_of(NET), "refused", 1.5, 9.0, 1.7, LOCKED)]
    assert accepted.values[place_of(NET)] == 1.7


def test_a_locked_cell_that_was_cleared_is_refused() -> None:
    accepted = merged(NET, sent=1.5, now=1.5)
    assert [(one.outcome, one.returned, one.reason) for one in accepted.changes] == [("refused", None, LOCKED)]
    assert accepted.values[place_of(NET)] == 1.5


@pytest.mark.parametrize("take", [NET, "goods.lines[M1]", "goods.lines.net", "goods.lines", "goods"])
def test_a_locked_cell_is_taken_when_it_is_asked_for_by_its_place_or_its_row(take: str) -> None:
    accepted = merged(NET, sent=1.5, now=1.5, came=9.0, take=[take])
    assert accepted.changes == [Change(place_of(NET), "taken", 1.5, 9.0, 1.5)]
    assert accepted.values[place_of(NET)] == 9.0


@pytest.mark.parametrize("take", ["goods.lines[M2].net", "goods.lines[M2]", "goods.lines.price", "goods.net", "others"])
def test_asking_for_another_place_takes_nothing_here(take: str) -> None:
    assert [one.outcome for one in merged(NET, sent=1.5, now=1.5, came=9.0, take=[take]).changes] == ["refused"]


def test_a_conflict_is_taken_when_it_is_asked_for() -> None:
    accepted = merged(PRICE, sent=4.0, now=6.0, came=5.0, take=[PRICE])
    assert accepted.changes == [Change(place_of(PRICE), "taken", 4.0, 5.0, 6.0)]
    assert accepted.values[place_of(PRICE)] == 5.0


@pytest.mark.parametrize("take", [(), (PRICE,)])
def test_what_must_be_fixed_first_is_refused_whoever_asks_for_it(take: tuple[str, ...]) -> None:
    to_fix = {place_of(PRICE): "A comma stands for the decimal point."}
    accepted = merged(PRICE, sent=4.0, now=4.0, came="4,20", to_fix=to_fix, take=take)
    assert accepted.changes == [
        Change(place_of(PRICE), "refused", 4.0, "4,20", 4.0, "A comma stands for the decimal point.")
    ]
    assert accepted.values[place_of(PRICE)] == 4.0


def test_another_places_fault_keeps_nothing_out() -> None:
    accepted = merged(PRICE, came=4.0, to_fix={place_of("goods.lines[M2].price"): "wrong"})
    assert [one.outcome for one in accepted.changes] == ["taken"]


@pytest.mark.parametrize(
    ("typed", "taken"), [("12 3/8", 12.375), ("31.75 cm", 12.5), ("a hand", "a hand"), (12.0, 12.0)]
)
def test_a_length_typed_as_text_is_taken_as_the_number_that_it_means(typed: Value, taken: Value) -> None:
    """The style is in inches; what is no length stays as it was typed."""
    accepted = merged("goods.reach", came=typed)
    assert accepted.changes == [Change(Place("goods.reach"), "taken", None, taken, None)]
    assert accepted.values[Place("goods.reach")] == taken


def test_a_text_that_looks_like_a_length_stays_a_text() -> None:
    assert merged("goods.remark", came="12 3/8").values[Place("goods.remark")] == "12 3/8"


def test_pictures_are_compared_by_their_bytes() -> None:
    first, second = Picture(png()), Picture(png((1, 2, 3)))
    same = merged("goods.photo", sent=PictureMark(first.digest), now=first, came=first)
    assert same.changes == []
    changed = merged("goods.photo", sent=PictureMark(first.digest), now=first, came=second)
    assert changed.changes == [Change(Place("goods.photo"), "taken", PictureMark(first.digest), second, first)]
    assert changed.values[Place("goods.photo")] == second
    locked = merged("goods.sketch", sent=PictureMark(first.digest), now=first, came=second)
    assert [(one.outcome, one.reason) for one in locked.changes] == [("refused", LOCKED)]
    assert locked.values[Place("goods.sketch")] == first
    both = merged("goods.photo", sent=PictureMark(first.digest), now=Picture(png((9, 9, 9))), came=second)
    assert [one.outcome for one in both.changes] == ["conflict"]


def test_many_changes_come_in_the_order_in_which_they_were_sent_then_in_the_order_of_the_return() -> None:
    working, receipt, returned = versions()
    came = with_typed(returned, {"goods.remark": "none", PRICE: 4.0, NET: 2.0, "goods.made_of": "silk"})
    accepted = merge(working, receipt, came, {})
    assert [(str(one.place), one.outcome) for one in accepted.changes] == [
        ("goods.made_of", "refused"),
        (NET, "refused"),
        ("goods.remark", "taken"),
        (PRICE, "taken"),
    ]
    assert accepted.values == {**FILLED, Place("goods.remark"): "none", place_of(PRICE): 4.0}


def test_what_only_the_brand_has_stays() -> None:
    accepted = merged(PRICE, came=4.0)
    assert accepted.values[Place("goods.margin")] == 0.5


@pytest.mark.parametrize(
    "place",
    [
        Place("goods.gone"),  # an entry of an older form
        Place("goods.lines.price", "M9"),  # a row that does not stand in the return
        Place("goods.total"),  # worked out, nobody's answer
        Place("goods.grades.grade", "G1"),  # of the declaration
    ],
)
def test_what_has_no_cell_of_its_own_to_fill_is_passed_over(place: Place) -> None:
    working, receipt, returned = versions()
    sent = replace(receipt, values={**receipt.values, place: "sent"})
    assert merge(working, sent, returned, {}).changes == []
    came = replace(returned, typed={**returned.typed, place: "came"})
    assert merge(working, receipt, came, {}).changes == []


def test_a_row_that_the_vendor_put_in_is_refused_until_it_is_asked_for() -> None:
    row = {"goods.lines[M3].item": "Label", "goods.lines[M3].price": 0.2}
    working, receipt, returned = versions()
    came = with_typed(returned, row)
    refused = merge(working, receipt, came, {})
    assert [(str(one.place), one.outcome, one.reason) for one in refused.changes] == [
        ("goods.lines[M3].item", "refused", PUT_IN),
        ("goods.lines[M3].price", "refused", PUT_IN),
    ]
    assert refused.values == FILLED
    taken = merge(working, receipt, came, {}, Wish(("goods.lines[M3]",)))
    assert taken.values == {**FILLED, place_of("goods.lines[M3].item"): "Label", place_of("goods.lines[M3].price"): 0.2}


@pytest.mark.parametrize(
    ("place", "put_in"),
    [
        ("goods.lines[M1].price", False),  # a row that was sent
        ("goods.lines[M2].price", False),
        ("goods.lines[M3].price", True),  # a spare row of the brand's table
        ("goods.answers[M3].says", False),  # a table that follows another one
        ("goods.steps[U1].price", False),  # the vendor's own table
        ("goods.grades[G2].found", False),  # rows of the declaration
        ("goods.remark", False),  # no row at all
    ],
)
def test_which_rows_were_put_in(place: str, put_in: bool) -> None:
    _, receipt, returned = versions()
    assert was_put_in(place_of(place), receipt, returned) is put_in


@pytest.mark.parametrize("place", ["goods.lines[M1].price", "goods.steps[U1].price"])
def test_a_row_that_got_its_ref_from_us_was_put_in_whatever_its_table_is(place: str) -> None:
    _, receipt, returned = versions()
    table, row = place_of(place).entry.rpartition(".")[0], place_of(place).row
    found = replace(returned, added_rows={Place(f"{table}.ref", row): 30})
    assert was_put_in(place_of(place), receipt, found)


def test_a_row_sent_in_a_table_of_another_name_is_another_row() -> None:
    _, receipt, returned = versions()
    sent = replace(
        receipt, values={Place("goods.linestoo.item", "M1"): "Twill", Place("goods.lines.item", "M2"): "Button"}
    )
    assert was_put_in(place_of("goods.lines[M1].price"), sent, returned)


def test_a_working_file_gives_all_that_people_typed_to_the_next_one() -> None:
    working, _, _ = versions()
    values, lost = carried(with_typed(working, {PRICE: 4.0, "goods.grades[G1].found": 3}))
    assert values == {**FILLED, place_of(PRICE): 4.0, place_of("goods.grades[G1].found"): 3}
    assert lost == []


def test_lengths_typed_as_text_are_carried_as_numbers() -> None:
    working, _, _ = versions()
    typed = {NET: "2 1/2", "goods.wide": "wide", "goods.made_of": "1/2 wool"}
    values, _ = carried(with_typed(working, typed))
    assert [values[place_of(place)] for place in typed] == [2.5, "wide", "1/2 wool"]


def test_a_figure_typed_over_a_formula_goes_to_the_entry_that_keeps_it() -> None:
    working, _, _ = versions()
    values, lost = carried(with_typed(working, {"goods.lines[M1].spec": "3 1/4"}))
    assert values == {**FILLED, place_of("goods.lines[M1].fix"): 3.25}
    assert lost == []


def test_what_has_no_place_in_the_next_file_is_named() -> None:
    working, _, _ = versions()
    at = working.where.at(place_of("goods.lines[M1].cost"))
    assert at is not None
    found = replace(
        with_typed(working, {"goods.lines[M1].cost": 3.1}),
        strays=[Stray(Cell("Bought goods", 40, 2), "ask the mill")],
        added_sheets=["Ideas"],
    )
    values, lost = carried(found)
    assert values == FILLED
    assert lost == [
        f"Bought goods {at.address}: 3.1 was typed over a formula that showed nothing",
        "Bought goods B40: “ask the mill” stands outside the tables",
        "Ideas: the whole sheet is not one of ours",
    ]
    assert merge(found, versions()[1], versions()[2], {}).not_carried == lost


def test_a_figure_over_a_formula_that_stands_nowhere_is_not_named() -> None:
    working, _, _ = versions()
    found = replace(working, typed={**working.typed, Place("goods.lines.cost", "M9"): 3.1})
    assert carried(found) == (FILLED, [])


def test_a_day_is_carried_as_it_is() -> None:
    working, _, _ = versions()
    due = datetime.date(2026, 12, 1)
    assert carried(with_typed(working, {"style.due": due}))[0][Place("style.due")] == due
