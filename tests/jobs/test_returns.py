"""Several files at once: folders, patterns, one that cannot be used, and the table at the end."""

from __future__ import annotations

import json

import pytest

from sheetgen.cli import main
from sheetgen.errors import UserError
from sheetgen.jobs.returns import files_of
from tests.loop import fresh_loop, loop


@pytest.fixture
def folder(tmp_path):
    """A season's folder: working files, copies as they were sent with their receipts, returns, and what lies about."""
    for style in ("overshirt", "jacket"):
        (tmp_path / style).mkdir()
        fresh_loop(tmp_path / style, style)
    (tmp_path / "jacket" / "old.xls").write_bytes(b"no workbook at all")
    (tmp_path / "jacket" / "~$a-returned.xlsx").write_bytes(b"open somewhere")
    (tmp_path / "notes.txt").write_text("call the mill")
    return tmp_path


def test_a_folder_means_the_returns_in_it_and_below(folder):
    assert [str(path.relative_to(folder)) for path in files_of([folder])] == [
        "jacket/a-returned.xlsx", "jacket/old.xls", "overshirt/a-returned.xlsx",
    ]  # fmt: skip


def test_a_pattern_and_names_go_together_and_each_file_comes_once(folder):
    named = [folder / "overshirt" / "a-*ed.xlsx", folder / "overshirt" / "a-returned.xlsx", folder / "jacket"]
    assert [path.name for path in files_of(named)] == ["a-issued.xlsx", "a-returned.xlsx", "a-returned.xlsx", "old.xls"]


def test_nothing_to_audit_is_one_sentence(folder, capsys):
    (folder / "empty").mkdir()
    assert main(["audit", str(folder / "empty")]) == 3
    assert "is a folder" in capsys.readouterr().out
    with pytest.raises(UserError, match="no file is called so"):
        files_of([folder / "overshirt" / "b*.xlsx"])


def test_one_that_cannot_be_used_stops_none_and_the_table_says_whose_turn_it_is(folder, capsys):
    assert main(["audit", str(folder)]) == 3
    said = capsys.readouterr().out
    table = said[said.rindex("Whose turn") :].splitlines()
    assert any("old.xls" in line and "cannot be used" in line for line in table)
    assert sum("nothing to ask" in line for line in table) == 2


def test_one_object_a_line_for_machines(folder, capsys):
    assert main(["audit", str(folder), "--json-lines"]) == 3
    lines = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert [one["status"] for one in lines] == ["audited", "unusable", "audited"]
    assert main(["audit", str(loop() / "a-returned.xlsx"), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["files"][0]["findings"] == lines[2]["findings"]
