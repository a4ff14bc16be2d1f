"""Brand and vendor edit at random between issue and return: no value lands on what it did not answer, nothing typed is lost.

A state machine: each step is an edit on one side, or a word about what to take; after each, what accepting would make of it is
held to laws that do not follow its code.
"""

from __future__ import annotations

from dataclasses import replace

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule, run_state_machine_as_test

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.workbook.exchange.accept import Acceptance, Wish, carried, merge
from sheetgen.workbook.model.compare import same
from sheetgen.workbook.model.values import Values
from tests.workbook.exchanged import BOOK, versions

ROWS = ("M1", "M2", "M3")
SAYS = {"goods.lines": ("net",)}
WORDS = st.sampled_from(["Twill", "Button", "Zip", "wool", ""])
FIGURES = st.sampled_from([1.5, 2.0, 40.0, 0.25])
BRANDS = {
    "goods.lines.item": WORDS, "goods.lines.net": FIGURES, "goods.lines.fix": FIGURES,
}  # fmt: skip
VENDORS = {
    "goods.lines.price": FIGURES, "goods.lines.colour": WORDS, "goods.answers.says": WORDS,
}  # fmt: skip
STEPS = ("goods.steps.quantity", "goods.steps.price")


class Exchange(RuleBasedStateMachine):
    """One copy that is out, the working file at home, and what both sides type meanwhile."""

    @initialize()
    def issue(self) -> None:
        working, self.receipt, returned = versions()
        self.at_home: Values = dict(working.typed)
        self.came: Values = dict(returned.typed)
        self.take: set[str] = set()
        self.leave: set[str] = set()

    @rule(entry=st.sampled_from(sorted(BRANDS)), row=st.sampled_from(ROWS), data=st.data())
    def brand_types(self, entry: str, row: str, data: st.DataObject) -> None:
        _type(self.at_home, Place(entry, row), data.draw(BRANDS[entry]))

    @rule(row=st.sampled_from(ROWS))
    def brand_clears_a_row(self, row: str) -> None:
        for place in [place for place in self.at_home if place.row == row and place.entry.startswith("goods.lines.")]:
            del self.at_home[place]

    @rule(place=st.sampled_from(["goods.made_of", "goods.wide"]), data=st.data())
    def brand_types_a_field(self, place: str, data: st.DataObject) -> None:
        _type(self.at_home, Place(place), data.draw(WORDS if place.endswith("made_of") else FIGURES))

    @rule(entry=st.sampled_from(sorted(VENDORS)), row=st.sampled_from(ROWS), data=st.data())
    def vendor_answers(self, entry: str, row: str, data: st.DataObject) -> None:
        _type(self.came, Place(entry, row), data.draw(VENDORS[entry]))

    @rule(row=st.sampled_from(["U1", "U2"]), entry=st.sampled_from(STEPS), value=st.sampled_from([100, 500]))
    def vendor_fills_rows_of_its_own(self, row: str, entry: str, value: int) -> None:
        _type(self.came, Place(entry, row), value)

    @rule(value=WORDS)
    def vendor_remarks(self, value: str) -> None:
        _type(self.came, Place("goods.remark"), value)

    @rule(entry=st.sampled_from(sorted(BRANDS)), row=st.sampled_from(ROWS), data=st.data())
    def vendor_changes_what_is_locked(self, entry: str, row: str, data: st.DataObject) -> None:
        _type(self.came, Place(entry, row), data.draw(BRANDS[entry]))

    @rule(value=WORDS)
    def brand_answers_for_the_vendor(self, value: str) -> None:
        _type(self.at_home, Place("goods.remark"), value)

    @rule(row=st.sampled_from(ROWS), entry=st.sampled_from(sorted(VENDORS)), take=st.booleans())
    def brand_says_what_to_take(self, row: str, entry: str, take: bool) -> None:
        (self.take if take else self.leave).add(f"{entry}[{row}]")

    @invariant()
    def laws(self) -> None:
        if not hasattr(self, "receipt"):
            return
        working, _, returned = versions()
        home = replace(working, typed=self.at_home)
        wish = Wish(tuple(sorted(self.take)), tuple(sorted(self.leave)))
        done = merge(home, self.receipt, replace(returned, typed=self.came), {}, wish, SAYS)
        before, _ = carried(home)
        self._nothing_typed_at_home_is_lost(done, before)
        self._every_answer_is_told_of(done)
        self._nothing_lands_on_what_it_did_not_answer(done, before)

    def _nothing_typed_at_home_is_lost(self, done: Acceptance, before: Values) -> None:
        taken = {one.to or one.place for one in done.of("taken")}
        assert {at: value for at, value in done.values.items() if at not in taken} == {
            at: value for at, value in before.items() if at not in taken
        }

    def _every_answer_is_told_of(self, done: Acceptance) -> None:
        told = {one.place for one in done.changes}
        for place, value in self.came.items():
            entry = BOOK.entries[place.entry].entry
            if entry.who in {"vendor", "designer"} and not same(value, self.receipt.values.get(place)):
                assert place in told, place

    def _nothing_lands_on_what_it_did_not_answer(self, done: Acceptance, before: Values) -> None:
        for one in done.of("taken"):
            named = str(one.place) in self.take
            assert str(one.place) not in self.leave or named
            if BOOK.entries[one.place.entry].entry.who != "vendor":
                assert named, "what was locked"
            if named or not one.place.row.startswith("M"):
                continue
            now = [before.get(Place(f"goods.lines.{name}", one.place.row)) for name in ("item", "net")]
            asked = [self.receipt.values.get(Place(f"goods.lines.{name}", one.place.row)) for name in ("item", "net")]
            assert [value or None for value in now] == [value or None for value in asked], one.place
            assert same(before.get(one.place), one.sent) or same(before.get(one.place), one.returned)


def _type(values: Values, place: Place, value: Value) -> None:
    values.pop(place, None)
    if value not in (None, ""):
        values[place] = value


def test_whatever_both_sides_type_no_law_is_broken() -> None:
    rounds = settings(
        max_examples=120, stateful_step_count=25, deadline=None, suppress_health_check=[HealthCheck.too_slow]
    )
    run_state_machine_as_test(Exchange, settings=rounds)
