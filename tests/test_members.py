"""Sizes and colorways put in, taken out and sorted in the grid: what was typed for one goes along, and no size moves.

Rows are put in as a reader finds them after a spreadsheet program inserted, removed or sorted them: the sheet's columns are
those that the file was built with, its rows are others. (Done by typing in LibreOffice, too.)
"""

from __future__ import annotations

import shutil
from collections.abc import Sequence
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetgen import api
from sheetgen.api.settling import settled
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.style.figures import figures
from sheetgen.testing.edit import Edit, edited
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.found import Returned
from tests.loop import loop

SIZES, COLORWAYS = "style.sizes.name", "colorways.list.name"
SAMPLE = "Z3"
TYPED: dict[Place, Value] = {
    Place("measurements.points.over_z2", "P1"): 1.75,
    Place("measurements.points.over_z5", "P2"): 4.0,
    Place("measurements.points.every", "P4"): 2,
    Place("measurements.points.fix_z6", "P5"): 99.5,
}
"""Steps of one size, a point that holds over pairs of sizes, a size corrected by hand: what a place in a row could tear off."""


@cache
def file() -> Returned:
    got = api.read(loop() / "a-working.xlsx")
    return replace(got, typed={**got.typed, **TYPED})


def with_rows(table: str, rows: Sequence[str]) -> Returned:
    """The file with these rows of a table, new ones among them, in this order."""
    own = {place: value for place, value in file().typed.items() if place.entry.rpartition(".")[0] == table}
    rest = {place: value for place, value in file().typed.items() if place not in own}
    found: Values = {}
    for ref in rows:
        mine = {place: value for place, value in own.items() if place.row == ref}
        found |= mine or {Place(f"{table}.name", ref): f"new {ref}"}
    return replace(file(), typed={**found, **rest})


def by_name(values: Values, family: str) -> dict[tuple[str, str], float]:
    """Every figure of a family by size, under the name of its size."""
    names = [str(value) for place, value in values.items() if place.entry == SIZES]
    return {
        (place.row, names[int(place.entry.rpartition("_z")[2]) - 1]): value
        for place, value in figures(values)[1].items()
        if place.entry.startswith(f"{family}_z") and isinstance(value, int | float)
    }


ORIGINAL = tuple(f"Z{number}" for number in range(1, 7))
OTHERS = tuple(ref for ref in ORIGINAL if ref != SAMPLE)
NEW = ("Z7", "Z8")


@st.composite
def in_order(draw: st.DrawFn) -> list[str]:
    """The sample's size and some of the others as they stood, new ones put in anywhere."""
    rows = [ref for ref in ORIGINAL if ref == SAMPLE or draw(st.booleans())]
    for ref in draw(st.lists(st.sampled_from(NEW), unique=True, min_size=0 if len(rows) > 1 else 1)):
        rows.insert(draw(st.integers(0, len(rows))), ref)
    return rows


@st.composite
def in_any_order(draw: st.DrawFn) -> list[str]:
    """The sample's size with any other ones, in any order."""
    others = draw(st.lists(st.sampled_from((*OTHERS, *NEW)), unique=True, min_size=1))
    return draw(st.permutations((SAMPLE, *others)))


@settings(max_examples=12, deadline=None)
@given(in_order())
def test_no_size_moves_because_another_came_or_went(rows):
    before = by_name(settled(file())[0], "measurements.points.spec")
    after = by_name(settled(with_rows("style.sizes", rows))[0], "measurements.points.spec")
    stayed = {key: value for key, value in after.items() if not key[1].startswith("new ")}
    assert stayed
    assert stayed == {key: pytest.approx(before[key], abs=1e-9) for key in stayed}


@settings(max_examples=8, deadline=None)
@given(in_any_order())
def test_what_was_typed_for_a_size_stays_with_it_in_any_order(rows):
    names = {place.row: str(value) for place, value in file().typed.items() if place.entry == SIZES}
    values, lost, notes = settled(with_rows("style.sizes", rows))
    assert lost == []
    order = [place.row for place in values if place.entry == SIZES]
    fixed = Place(f"measurements.points.fix_z{order.index('Z6') + 1}", "P5") if "Z6" in order else None
    assert [place for place in values if place.entry.startswith("measurements.points.fix_z")] == (
        [fixed] if fixed else []
    )
    pieces = {place.row for place in values if place.entry.startswith("order.sizes.pieces_c")}
    assert pieces == set(order) & set(ORIGINAL)
    gone = set(ORIGINAL) - set(order)
    assert all(any(names[ref] in note for note in notes) for ref in gone)


def test_a_colorway_put_in_between_takes_nothing_of_the_others():
    colors = [place.row for place in file().typed if place.entry == COLORWAYS]
    values, _, notes = settled(with_rows("colorways.list", [colors[0], "C9", *colors[1:]]))
    typed = file().typed
    for place, value in typed.items():
        if place.entry == "materials.bom.color_c2":
            assert values[Place("materials.bom.color_c3", place.row)] == value
            assert Place("materials.bom.color_c2", place.row) not in values
    assert any("C9" in note for note in notes)


def test_a_size_put_in_between_is_asked_for_its_steps():
    rows = ["Z1", "Z2", "Z3", "Z7", *ORIGINAL[3:]]
    shown = figures(settled(with_rows("style.sizes", rows))[0])[1]
    assert shown[Place("checks.wrong_measurements_no_step")] == 1
    assert figures(settled(file())[0])[1][Place("checks.wrong_measurements_no_step")] == 0


def test_an_answer_that_is_accepted_into_a_file_with_a_size_less_moves_no_size(tmp_path):
    for name in ("a-issued.receipt.json", "a-returned.xlsx"):
        shutil.copy(loop() / name, tmp_path / name)
    working = tmp_path / "a-working.xlsx"
    edited(BOOK, loop() / "a-working.xlsx", [Edit("style.sizes[Z4]", "clear-row")], working)
    before = by_name(settled(api.read(loop() / "a-working.xlsx"))[0], "measurements.points.spec")
    made = api.accept(working, tmp_path / "a-returned.xlsx").built
    names = {str(value) for place, value in made.values.items() if place.entry == SIZES}
    assert len(names) == len(ORIGINAL) - 1
    stayed = {key: value for key, value in before.items() if key[1] in names}
    assert by_name(made.values, "measurements.points.spec") == {key: pytest.approx(stayed[key]) for key in stayed}
