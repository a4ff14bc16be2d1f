"""The grade asked of the vendor: the copy asks for every size, what comes is looked at, and what is taken is worked back exactly."""

from __future__ import annotations

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import typed_in
from sheetgen.workbook.model.values import Values
from tests.loop import ISSUED, SAMPLES

SIZES = range(1, 7)
AS_ASKED = (53.0, 55.5, 58.0, 60.5, 63.5, 66.5)
"""The overshirt's chest from S to XXXL (invented): base 58 in the third size, step 2.5, 3 from the fifth on."""


def places(point: str, figures) -> Values:
    return {Place(f"grade.points.value_z{number}", point): value for number, value in zip(SIZES, figures, strict=True)}


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """The overshirt with its sample size only, and the copy that asks for the rest."""
    folder = tmp_path_factory.mktemp("graded")
    values: dict[Place, Value] = {
        place: value for place, value in api.build(SAMPLES / "overshirt" / "brief.toml").values.items()
        if not place.entry.startswith(("measurements.points.step", "measurements.points.over_"))
    }  # fmt: skip
    values[Place("measurements.grade_by")] = "vendor"
    (folder / "a.xlsx").write_bytes(api.from_values(values).data)
    issued = api.issue(folder / "a.xlsx", purpose="sample", issued=ISSUED, anyway="the sizes are the vendor's to grade")
    (folder / "copy.xlsx").write_bytes(issued.data)
    (folder / "copy.receipt.json").write_text(issued.receipt.text, "utf-8")
    return folder


def accepted(folder, typed: Values):
    typed_in(BOOK, folder / "copy.xlsx", typed, folder / "back.xlsx")
    audit = api.audit(folder / "back.xlsx", receipt=folder / "copy.receipt.json")
    made = api.accept(folder / "a.xlsx", folder / "back.xlsx", receipt=folder / "copy.receipt.json")
    (folder / "b.xlsx").write_bytes(made.built.data)
    return audit, made.built


def taken(folder, *points: str):
    typed_in(BOOK, folder / "b.xlsx", {Place("grade.points.take", point): "yes" for point in points}, folder / "c.xlsx")
    return api.build(folder / "c.xlsx")


def test_the_copy_asks_for_every_size_of_every_point_and_for_no_step_of_the_brand(folder):
    asked = [place_of(one.place) for one in api.audit(folder / "copy.xlsx").findings if one.rule == "entry-missing"]
    assert len([one for one in asked if one.entry.startswith("grade.points.value_")]) == 6 * 20
    judged = api.audit(folder / "a.xlsx", purpose="sample").findings
    assert not [one for one in judged if one.place.startswith("measurements.points[") and one.rule == "entry-missing"]


def test_a_grade_that_is_taken_gives_the_vendors_sizes_exactly(folder):
    _, built = accepted(folder, places("P1", AS_ASKED))
    assert built.shown[Place("grade.points.verdict", "P1")] == "even"
    assert built.shown[Place("checks.wrong_grade_undecided")] == 1
    made = taken(folder, "P1")
    assert [made.shown[Place(f"measurements.points.spec_z{number}", "P1")] for number in SIZES] == pytest.approx(
        AS_ASKED
    )
    row = {place.entry.rpartition(".")[2]: value for place, value in made.values.items()
           if place.row == "P1" and place.entry.startswith("measurements.points.")}  # fmt: skip
    assert (row["step"], row["over_z5"], row["over_z6"]) == (2.5, 3.0, 3.0)
    assert "P1 has the vendor's grade now." in made.notes


def test_what_the_brand_changes_after_it_took_a_grade_stays(folder):
    accepted(folder, places("P1", AS_ASKED))
    (folder / "d.xlsx").write_bytes(taken(folder, "P1").data)
    typed_in(BOOK, folder / "d.xlsx", {Place("measurements.points.step", "P1"): 2.0}, folder / "e.xlsx")
    made = api.build(folder / "e.xlsx")
    assert made.values[Place("measurements.points.step", "P1")] == 2.0
    assert made.shown[Place("measurements.points.spec_z2", "P1")] == 56.0


def test_a_size_that_the_shops_grid_would_move_is_kept_as_a_correction(folder):
    odd = (53.1, 55.5, 58.0, 60.5, 63.5, 66.5)
    accepted(folder, places("P1", odd))
    typed_in(
        BOOK,
        folder / "b.xlsx",
        {Place("measurements.grid"): 0.5, Place("grade.points.take", "P1"): "yes"},
        folder / "c.xlsx",
    )
    made = api.build(folder / "c.xlsx")
    assert [made.shown[Place(f"measurements.points.spec_z{number}", "P1")] for number in SIZES] == pytest.approx(odd)
    assert [place.entry for place in made.values if ".fix_" in place.entry and place.row == "P1"] == [
        "measurements.points.fix_z1"
    ]


@pytest.mark.parametrize("figures, verdict", [
    ((54, 56.5, 59, 61.5, 64.5, 67.5), "another base"),
    ((53, 55.5, 58, 57, 60, 63), "turns"),
    ((53, 55, 58, 60, 66, 69), "jumps"),
    ((57.6, 57.8, 58, 58.2, 58.4, 58.6), "overlaps"),
    ((58, 58, 58, 58, 58, 58), "even"),
])  # fmt: skip
def test_what_is_odd_about_a_grade_is_said_in_the_return(folder, figures, verdict):
    audit, built = accepted(folder, places("P1", figures))
    assert built.shown[Place("grade.points.verdict", "P1")] == verdict
    told = [one.place for one in audit.findings if one.rule == "grade-odd"]
    assert told == ([] if verdict == "even" else ["grade.points[P1].verdict"])


def test_another_base_is_not_taken_and_said(folder):
    accepted(folder, places("P1", (54, 56.5, 59, 61.5, 64.5, 67.5)))
    made = taken(folder, "P1")
    assert "P1 is not taken: its sample size is 59.0, the base 58." in made.notes
    assert Place("measurements.points.step", "P1") not in made.values
