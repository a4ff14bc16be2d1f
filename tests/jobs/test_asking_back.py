"""Asking back in the vendor's own file: what is asked is marked and listed, corrected there, and taken in the end."""

from __future__ import annotations

import datetime
import io
from pathlib import Path

import openpyxl
import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place, place_of
from sheetgen.errors import UserError
from sheetgen.jobs.asked_again import became
from sheetgen.jobs.asking_back import query_copy
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit, typed_in
from tests.edits import edited
from tests.kept import kept
from tests.loop import fresh_loop, loop

DAY = datetime.date(2026, 11, 27)
WRONG = {
    "fit.points[P1].value_r1": 22.75, "materials.bom[M3].price": "1,80", "quote.fob": 41.0, "materials.bom[M5].currency": "SEK",
}  # fmt: skip
LOCKED = Edit("measurements.points[P2].plus", "type", 9.0)


def _make(folder: Path) -> None:
    edits = [Edit(place, "type", value) for place, value in WRONG.items()]
    edited(BOOK, loop() / "a-returned.xlsx", [*edits, LOCKED], folder / "faulty.xlsx")
    result = api.audit(folder / "faulty.xlsx", loop() / "a-issued.receipt.json")
    made = query_copy(result, DAY)
    (folder / "query.xlsx").write_bytes(made.data)
    (folder / "query.receipt.json").write_text(made.receipt.text, "utf-8")


@pytest.fixture
def folder(tmp_path):
    fresh_loop(tmp_path)
    for path in kept("query-copy", _make).iterdir():
        (tmp_path / path.name).write_bytes(path.read_bytes())
    return tmp_path


def asked(path: Path) -> dict[str, str]:
    """The rules that are asked about in a query copy, and the ref of the first question of each."""
    got = api.read(path)
    return {str(value): at.row for at, value in reversed(got.typed.items()) if at.entry == "questions.queries.rule"}


def test_each_question_stands_on_questions_and_is_marked_in_its_cell(folder):
    rows = asked(folder / "query.xlsx")
    assert {
        "other-unit",
        "decimal-comma",
        "price-above-target",
        "currency-without-rate",
        "locked-value-changed",
    } <= set(rows)
    got = api.read(folder / "query.xlsx")
    sheets = openpyxl.load_workbook(io.BytesIO((folder / "query.xlsx").read_bytes()))
    for place in WRONG:
        cell = got.where.at(place_of(place))
        assert cell is not None
        assert sheets[cell.sheet][cell.address].border.left.style == "thick", place
        messages = [one for one in sheets[cell.sheet].data_validations.dataValidation if cell.address in one.sqref]
        assert len(messages) == 1, "one message a cell: programs refuse two"
        assert messages[0].prompt.startswith("Asked about: see QY"), place
    calm = got.where.at(place_of("fit.points[P2].value_r1"))
    assert calm is not None
    assert sheets[calm.sheet][calm.address].border.left.style == "thin"


def test_what_was_locked_is_as_it_was_sent_again_and_the_answers_are_as_they_came(folder):
    got, clean = api.read(folder / "query.xlsx"), api.read(folder / "a-returned.xlsx")
    assert got.typed[place_of(LOCKED.place)] == clean.typed[place_of(LOCKED.place)]
    vendor = {
        at: value for at, value in clean.typed.items() if clean.ready.book.entries[at.entry].entry.who == "vendor"
    }
    assert {at: got.typed.get(at) for at in vendor if str(at) not in WRONG} == {
        at: value for at, value in vendor.items() if str(at) not in WRONG
    }
    assert got.typed[place_of("materials.bom[M3].price")] == "1,80"
    assert list(got.loaded.sheets) == list(clean.loaded.sheets)


def test_the_second_audit_says_what_became_of_each(folder):
    rows = asked(folder / "query.xlsx")
    answers = {
        place_of("fit.points[P1].value_r1"): 57.8, place_of("materials.bom[M3].price"): 1.8,
        Place("questions.queries.reply", rows["price-above-target"]): "Cotton went up; see mail",
        place_of("materials.bom[M7].price"): "0,02",
    }  # fmt: skip
    typed_in(BOOK, folder / "query.xlsx", answers, folder / "back.xlsx")
    of = became(api.audit(folder / "back.xlsx", folder / "query.receipt.json"))
    assert of is not None
    assert {rows["other-unit"], rows["decimal-comma"], rows["locked-value-changed"]} <= set(of.resolved)
    assert of.answered == (rows["price-above-target"],)
    assert rows["currency-without-rate"] in of.open
    assert of.new == 1
    assert became(api.audit(folder / "a-returned.xlsx", folder / "a-issued.receipt.json")) is None


def test_all_answers_of_both_returns_are_taken_in_the_end(folder):
    right = {place_of(place): api.read(folder / "a-returned.xlsx").typed[place_of(place)] for place in WRONG}
    typed_in(BOOK, folder / "query.xlsx", right, folder / "back.xlsx")
    first = loop()
    once = api.accept(first / "a-working.xlsx", first / "a-returned.xlsx", receipt=first / "a-issued.receipt.json")
    again = api.accept(folder / "a-working.xlsx", folder / "back.xlsx", receipt=folder / "query.receipt.json")
    without = {
        at: value for at, value in again.built.values.items() if not at.entry.startswith(("questions.", "revisions."))
    }
    assert without == {at: value for at, value in once.built.values.items() if not at.entry.startswith("revisions.")}
    assert again.acceptance.of("conflict") == []


def test_a_reply_comes_into_the_working_file_with_its_question(folder):
    row = asked(folder / "query.xlsx")["price-above-target"]
    right = {
        place_of(place): api.read(folder / "a-returned.xlsx").typed[place_of(place)]
        for place in WRONG
        if place != "quote.fob"
    }
    reply = {Place("questions.queries.reply", row): "Cotton went up; the mill has confirmed"}
    typed_in(BOOK, folder / "query.xlsx", right | reply, folder / "back.xlsx")
    done = api.accept(folder / "a-working.xlsx", folder / "back.xlsx", receipt=folder / "query.receipt.json")
    assert done.acceptance.of("conflict") == []
    assert done.built.values[place_of("questions.queries[QY1].reply")] == "Cotton went up; the mill has confirmed"
    assert "the target is 27" in str(done.built.values[place_of("questions.queries[QY1].found")])
    assert place_of("questions.queries[QY2].found") not in done.built.values


def test_by_command(folder, capsys):
    words = ["audit", str(folder / "faulty.xlsx"), "--receipt", str(folder / "a-issued.receipt.json")]
    assert main([*words, "--query", str(folder / "ask.xlsx")]) == 1
    assert (folder / "ask.receipt.json").exists()
    capsys.readouterr()
    assert main(["audit", str(folder / "ask.xlsx")]) == 1
    assert "questions in this copy: 1 resolved, 0 answered without a change" in " ".join(
        capsys.readouterr().out.split()
    )
    assert (
        main(["audit", str(folder / "faulty.xlsx"), str(folder / "a-returned.xlsx"), "--query", str(folder / "x.xlsx")])
        == 2
    )


def test_without_anything_to_ask_it_says_so(folder):
    clean = api.audit(folder / "a-returned.xlsx", folder / "a-issued.receipt.json")
    with pytest.raises(UserError, match="nothing to ask back"):
        query_copy(clean, DAY)
    own = api.audit(folder / "a-working.xlsx")
    with pytest.raises(UserError, match="send the letter"):
        query_copy(own, DAY)


def test_a_cell_that_is_asked_about_is_open_though_no_answer_belongs_there(tmp_path):
    """A size of the size set, measured while the proto was asked for, and not as a number."""
    fresh_loop(tmp_path)
    place = "fit.points[P1].set_value_z1"
    edited(BOOK, tmp_path / "a-returned.xlsx", [Edit(place, "type", "53 cm")], tmp_path / "faulty.xlsx")
    result = api.audit(tmp_path / "faulty.xlsx", tmp_path / "a-issued.receipt.json")
    assert place in {one.place for one in result.findings}
    (tmp_path / "query.xlsx").write_bytes(query_copy(result, DAY).data)
    at = api.read(tmp_path / "query.xlsx").where.at(place_of(place))
    held = openpyxl.load_workbook(tmp_path / "query.xlsx")["Fit"]
    assert not held.cell(at.row, at.column).protection.locked
    assert held.cell(at.row + 1, at.column).protection.locked
