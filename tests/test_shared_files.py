"""Files that are made once per run, files that are read once, and the groups in which tests are dealt out."""

from __future__ import annotations

import threading
import time
from functools import partial
from pathlib import Path

import pytest

from sheetgen.testing import edit
from sheetgen.testing.edit import Edit
from tests import kept
from tests.edits import edited
from tests.scheduling import FIRST, SINGLE, rank, scope
from tests.workbook.small import FILLED, SMALL, built

ROOT = Path(__file__).parents[1]


@pytest.fixture
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(kept, "_folder", [tmp_path])
    return tmp_path


def test_what_two_ask_for_at_the_same_time_is_made_once(own_folder: Path) -> None:
    made: list[str] = []

    def make(who: str, folder: Path) -> None:
        made.append(who)
        time.sleep(0.2)
        (folder / "a.txt").write_text(who)

    found: list[Path] = []
    workers = [
        threading.Thread(target=lambda who=who: found.append(kept.kept("slow", partial(make, who)))) for who in "ab"
    ]
    for worker in workers:
        worker.start()
    for worker in workers:
        worker.join()
    assert len(made) == 1
    assert [path / "a.txt" for path in found] == [own_folder / "slow" / "a.txt"] * 2
    assert (found[0] / "a.txt").read_text() == made[0]


def test_what_failed_is_made_again_from_the_beginning(own_folder: Path) -> None:
    def fail(folder: Path) -> None:
        (folder / "half.txt").write_text("half")
        raise OSError("full")

    def make(folder: Path) -> None:
        (folder / "whole.txt").write_text("whole")

    with pytest.raises(OSError, match="full"):
        kept.kept("once", fail)
    assert [path.name for path in kept.kept("once", make).iterdir()] == ["whole.txt"]


def test_a_file_edited_here_is_the_one_that_the_vendors_player_writes(tmp_path: Path) -> None:
    source = built(FILLED, tmp_path / "a.xlsx")
    for price in (9, 10):
        edits = [Edit("goods.lines[M1].price", "type", price), Edit("goods.remark", "type", "Later")]
        ours, theirs = tmp_path / f"ours {price}.xlsx", tmp_path / f"theirs {price}.xlsx"
        edited(SMALL, source, edits, ours)
        edit.edited(SMALL, source, edits, theirs)
        assert ours.read_bytes() == theirs.read_bytes()
        source = ours


def test_groups_of_tests_are_there_and_the_longest_come_first() -> None:
    assert all((ROOT / path).exists() for path in (*FIRST, *SINGLE))
    names = ["tests/a.py::x", "tests/offers/b.py::x", "tests/jobs/test_demo.py::x", "tests/audit/test_rules.py::x[1]"]
    assert sorted(names, key=rank) == [names[2], names[1], names[3], names[0]]
    assert scope("tests/offers/b.py::x") == scope("tests/offers/c.py::y[1]") == "tests/offers"
    assert scope("tests/a.py::x") != scope("tests/b.py::x")
    assert len({scope(f"tests/style/test_grades.py::x[{number}]") for number in range(100)}) == 4
