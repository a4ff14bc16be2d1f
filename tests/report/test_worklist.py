"""The workbook of findings: every one of them, with its cell, and counts that follow what is ticked off."""

import io
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from types import SimpleNamespace

import openpyxl
import pytest

from sheetgen.declare.entry import Place
from sheetgen.report.outcome import Outcome, Unusable, in_order, turns
from sheetgen.report.worklist import WORKLIST, worklist
from sheetgen.workbook.model.calculation import shown_by
from sheetgen.workbook.model.values import Values, ready, shape_of
from tests.report.made import audited, finding


def due_on(day: str, name: str, *findings) -> Outcome:
    return replace(audited(*findings, file=Path(name)), sent=SimpleNamespace(due=day))  # type: ignore[arg-type]


OUTCOMES: list[Outcome] = [
    Unusable(Path("broken.xlsx"), "It is protected by a password."),
    due_on("2026-12-20", "later.xlsx", finding(), finding(level="note"), finding(level="query", owner="designer")),
    due_on("2026-12-01", "=cmd|'?*~.xlsx", finding(message="=1+1"), finding(level="query", cell="")),
    due_on("2026-12-05", "fine.xlsx"),
]


def rows(sheet) -> list[list[object]]:
    """The rows of a sheet's table, without the last line's words."""
    start = next(number for number, row in enumerate(sheet.iter_rows(values_only=True), 1) if row[0] == "Ref")
    found = [list(row) for row in sheet.iter_rows(min_row=start, values_only=True)]
    return [row for row in found if row[0] and row[0] != "insert rows above"]


def test_every_file_and_every_finding_stands_in_it_what_is_due_first_on_top():
    book = openpyxl.load_workbook(io.BytesIO(worklist(OUTCOMES)), data_only=True)
    heads, *files = rows(book["Files"])
    assert heads[1:] == [
        "File", "Style", "Vendor", "Purpose", "Due", "To fix", "Questions", "Notes", "Vendor", "Designer", "Cannot be used",
    ]  # fmt: skip
    assert [[row[1], row[5], *row[6:11]] for row in files] == [
        ["=cmd|'?*~.xlsx", datetime(2026, 12, 1), 1, 1, 0, 2, 0],
        ["fine.xlsx", datetime(2026, 12, 5), 0, 0, 0, 0, 0],
        ["later.xlsx", datetime(2026, 12, 20), 1, 1, 1, 1, 1],
        ["broken.xlsx", None, 0, 0, 0, 0, 0],
    ]
    assert files[3][11] == "It is protected by a password."
    _, *found = rows(book["Findings"])
    expected = [one for outcome in in_order(OUTCOMES) if not isinstance(outcome, Unusable) for one in outcome.findings]
    assert [(row[6], row[7], row[8], row[9], row[10]) for row in found] == [
        (one.sheet, one.cell or None, one.row, one.message, one.action) for one in expected
    ]
    assert {row[2] for row in found} == {"F1", "F3"}


def test_what_came_from_a_file_is_no_formula():
    for sheet in openpyxl.load_workbook(io.BytesIO(worklist(OUTCOMES))).worksheets[:2]:
        formulas = [
            cell.value for row in sheet.iter_rows() for cell in row if cell.data_type == "f"
        ]  # fmt: skip
        assert all("COUNTIFS" in str(formula) for formula in formulas)


@pytest.mark.parametrize(
    "done, open_ones", [(("W1",), (0, 1, 1, 0)), (("W2",), (1, 0, 1, 0)), (("W1", "W2"), (0, 0, 0, 0))]
)
def test_what_is_done_counts_no_more(done, open_ones):
    values: Values = {Place("files.list.file", "F1"): "a.xlsx"}
    for row, level in (("W1", "to fix"), ("W2", "question"), ("W3", "note")):
        for name, word in (("file", "a.xlsx"), ("of", "F1"), ("turn", "vendor"), ("level", level)):
            values[Place(f"findings.list.{name}", row)] = word
    values |= {Place("findings.list.done", row): "yes" for row in done}
    shown = shown_by(ready(WORKLIST, shape_of(WORKLIST, values)), values)
    assert (
        tuple(shown[Place(f"files.list.{name}", "F1")] for name in ("fix", "questions", "of_vendor", "of_designer"))
        == open_ones
    )
    assert shown[Place("files.list.notes", "F1")] == 1


def test_same_outcomes_same_bytes():
    assert worklist(OUTCOMES) == worklist(OUTCOMES)
    assert worklist([]) == worklist([])


def test_who_owes_what_is_said_without_notes():
    assert [turns(one) for one in in_order(OUTCOMES)] == [
        "vendor 2",
        "nothing to ask",
        "vendor 1, designer 1",
        "cannot be used",
    ]
