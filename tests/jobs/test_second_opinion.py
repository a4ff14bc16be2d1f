"""A second opinion: another engine over a whole file, and what is said where the two do not agree."""

from __future__ import annotations

import sys
from pathlib import Path

import pytest

from sheetgen import cli
from sheetgen.errors import UserError
from sheetgen.jobs import second_opinion as job
from sheetgen.workbook.model.geometry import Cell
from tests.loop import loop

FORMULAS = {Cell("A", 1, 3): "=$A1*2", Cell("A", 2, 3): "=$A2*2", Cell("A", 3, 3): "=SUM($C$1:$C$2)&B!$A$1"}
HELD = {Cell("A", 1, 1): 2.0, Cell("A", 2, 1): 3.0, Cell("B", 1, 1): " kg", Cell("A", 1, 3): 4.0, Cell("A", 2, 3): 6.0}


def test_each_cell_is_worked_out_from_what_stands_in_those_that_it_reads():
    engine = job.SecondEngine(FORMULAS, HELD)
    assert [engine.works_out(cell) for cell in FORMULAS] == [4.0, 6.0, "10 kg"]
    assert job.SecondEngine(FORMULAS, {**HELD, Cell("A", 2, 1): 5.0}).works_out(Cell("A", 2, 3)) == 10.0


@pytest.mark.parametrize(
    ("one", "other", "alike"),
    [(1.0, 1.0 + 1e-12, True), (1.0, 1.0001, False), ("x", "x", True), ("", 0.0, False), ("1", 1.0, False)],
)
def test_what_counts_as_the_same(one, other, alike):
    assert job.same(one, other) is alike


def test_without_the_other_engine_it_says_how_to_get_it(monkeypatch):
    monkeypatch.setitem(sys.modules, "formulas", None)
    with pytest.raises(UserError, match="pip install 'sheetgen"):
        job.second_opinion(Path("a.xlsx"))


def test_the_audit_says_where_they_do_not_agree(monkeypatch, capsys):
    differences = tuple(job.Difference(Cell("Order", row, 2), 1.0, 2.0) for row in range(1, 31))
    monkeypatch.setattr(job, "second_opinion", lambda _: job.Opinion(4000, "another 1.0", differences))
    status = cli.main(["audit", str(loop() / "a-returned.xlsx"), "--second-opinion"])
    said = capsys.readouterr().out
    assert status == 1
    assert "another 1.0 worked out 4,000 formulas anew and gives something else in 30:" in said
    assert said.count("Order B") == 20
    monkeypatch.setattr(job, "second_opinion", lambda _: job.Opinion(4000, "another 1.0", ()))
    assert cli.main(["audit", str(loop() / "a-returned.xlsx"), "--second-opinion"]) == 0
    assert "agrees on all of them" in capsys.readouterr().out


@pytest.mark.long
def test_a_copy_that_came_back(capsys):
    assert cli.main(["audit", str(loop() / "a-returned.xlsx"), "--second-opinion"]) == 0
    assert "agrees on all of them" in capsys.readouterr().out
