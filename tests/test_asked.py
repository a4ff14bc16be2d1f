"""A vendor's questions: typed in the copy, taken into the working file, answered there, and read in the next copy."""

from __future__ import annotations

from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.declare.entry import place_of
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.sheets.questions import ABOUT
from sheetgen.testing.edit import typed_in
from sheetgen.workbook.model.values import Values
from tests.loop import ISSUED, fresh_loop

ASKED: dict[str, Value] = {
    "questions.asked[QN1].question": "May the facing be cut on the straight grain?",
    "questions.asked[QN1].about": "N2",
    "questions.asked[QN2].question": "Is the thread to match the button?",
    "questions.asked[QN2].about": "M3",
    "questions.asked[QN3].question": "Who pays the courier?",
}


def places(typed: dict[str, Value]) -> Values:
    return {place_of(address): value for address, value in typed.items()}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A working file into which a return with three questions was accepted."""
    folder = fresh_loop(tmp_path_factory.mktemp("asked"))
    typed_in(BOOK, folder / "a-returned.xlsx", places(ASKED), folder / "asked.xlsx")
    accepted = api.accept(folder / "a-working.xlsx", folder / "asked.xlsx")
    (folder / "b-working.xlsx").write_bytes(accepted.built.data)
    return folder


def test_a_question_is_no_finding_and_comes_into_the_working_file(folder):
    assert [str(one.place) for one in api.audit(folder / "asked.xlsx").findings] == []
    got = api.read(folder / "b-working.xlsx")
    assert {str(place): got.typed.get(place) for place in places(ASKED)} == ASKED
    assert got.shown[place_of("checks.wrong_questions_open")] == 3
    assert got.shown[place_of("questions.asked[QN1].what")] == "Collar stand"
    assert got.shown[place_of("construction.callouts[N2].question")] == "open"
    assert got.shown[place_of("materials.bom[M3].question")] == "open"


def test_the_answer_stands_in_the_next_copy_beside_the_question_and_at_the_row(folder):
    answers: dict[str, Value] = {
        "questions.asked[QN1].answer": "No: on the cross grain.",
        "questions.asked[QN3].answer": "We do.",
    }
    typed_in(BOOK, folder / "b-working.xlsx", places(answers), folder / "c-working.xlsx")
    issued = api.issue(folder / "c-working.xlsx", issued=ISSUED, revise="answers")
    (folder / "d-issued.xlsx").write_bytes(issued.data)
    copy = api.read(folder / "d-issued.xlsx")
    assert copy.typed[place_of("questions.asked[QN1].answer")] == "No: on the cross grain."
    assert copy.shown[place_of("construction.callouts[N2].question")] == "answered"
    assert copy.shown[place_of("materials.bom[M3].question")] == "open"


def test_a_question_about_a_row_that_is_not_there_is_counted_where_it_is_asked(folder):
    typed_in(
        BOOK, folder / "a-returned.xlsx", places({**ASKED, "questions.asked[QN2].about": "M99"}), folder / "astray.xlsx"
    )
    found = [(one.rule, str(one.place)) for one in api.audit(folder / "astray.xlsx").findings]
    assert found == [("answers-contradict", "checks.wrong_questions_nowhere")]


def test_a_changed_answer_is_found(folder):
    typed_in(BOOK, folder / "d-issued.xlsx", places({"questions.asked[QN1].answer": "Yes."}), folder / "turned.xlsx")
    assert "questions.asked[QN1].answer" in {
        str(one.place) for one in api.audit(folder / "turned.xlsx").findings if one.level == "fix"
    }


@pytest.mark.parametrize("address", [column.rpartition(".")[0] for _, _, column in ABOUT])
def test_a_ref_that_can_be_asked_about_is_one_of_one_table_alone(address):
    """Mirrors have the refs of what they mirror, and mean the same row."""
    refs = [BOOK.tables[column.rpartition(".")[0]][1].ref for _, _, column in ABOUT]
    assert refs.count(BOOK.tables[address][1].ref) == 1
