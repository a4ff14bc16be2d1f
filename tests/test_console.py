"""Consoles without Unicode, and what the system refuses: one sentence each, never a traceback."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from sheetgen.cli import main
from sheetgen.console import plain
from tests.loop import fresh_loop

NAME_TOO_LONG = "a" * 300


@pytest.mark.parametrize(("text", "shown"), [
    ("Tol. −, ±0.5 … “open”", 'Tol. -, +/-0.5 ... "open"'),
    ("Trevanu Confecții, Łódź, Straße, Ærø", "Trevanu Confectii, Lodz, Strasse, AEro"),
    ("甲乙 ok", "?? ok"),
    ("plain", "plain"),
])  # fmt: skip
def test_signs_that_a_console_lacks_become_the_nearest_plain_ones(text, shown):
    assert plain(text) == shown


def on_a_plain_console(folder: Path, *words: str) -> subprocess.CompletedProcess[bytes]:
    root = str(Path(__file__).parents[1])
    return subprocess.run(
        [sys.executable, "-m", "sheetgen", *words],
        cwd=folder,
        env={**os.environ, "PYTHONIOENCODING": "ascii:strict", "PYTHONPATH": root},
        capture_output=True,
        check=False,
    )


def test_every_kind_of_output_goes_to_a_console_without_unicode(tmp_path):
    folder = fresh_loop(tmp_path)
    for words, status in (
        (("audit", "a-returned.xlsx"), 0),
        (("sheets", "measurements"), 0),
        (("rules", "composition-sum"), 0),
        (("audit", "näher.xlsx"), 3),
        (("season", "."), 0),
    ):
        done = on_a_plain_console(folder, *words)
        assert done.returncode == status, done.stderr.decode()
        assert b"Traceback" not in done.stderr and (done.stdout + done.stderr).isascii()
    assert b"n?her" not in done.stderr
    told = json.loads(on_a_plain_console(folder, "audit", "a-returned.xlsx", "--json").stdout)
    assert told["files"][0]["status"] == "audited"


@pytest.mark.parametrize("words", [
    ("audit", f"{NAME_TOO_LONG}.xlsx"), ("build", f"{NAME_TOO_LONG}.toml"), ("season", NAME_TOO_LONG), ("compare", f"{NAME_TOO_LONG}.xlsx", "b.xlsx"),
    ("accept", f"{NAME_TOO_LONG}.xlsx", "b.xlsx"), ("issue", f"{NAME_TOO_LONG}.xlsx"), ("marker", f"{NAME_TOO_LONG}.xlsx"),
    ("cutplan", f"{NAME_TOO_LONG}.xlsx"), ("start", "shirt", "--out", f"{NAME_TOO_LONG}.xlsx"), ("demo", "--out", NAME_TOO_LONG),
    ("start", "shirt", "--out", "a.xlsx", "--grade", f"{NAME_TOO_LONG}.csv"), ("start", "shirt", "--out", "a.xlsx", "--body", f"{NAME_TOO_LONG}.csv"), ("start", "shirt", "--out", "a.xlsx", "--brand", f"{NAME_TOO_LONG}.toml"),
])  # fmt: skip
def test_a_name_that_the_system_does_not_take_is_one_sentence(words, capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert main([*words]) in {2, 3}
    told = capsys.readouterr()
    if words[0] == "audit":  # one file of several: its sentence stands with what is said of the others
        assert "cannot be read" in " ".join(told.out.split()) and "Traceback" not in told.out + told.err
    else:
        assert told.err.startswith("sheetgen: ") and told.err.count("\n") == 1 and "Traceback" not in told.err
    assert list(tmp_path.iterdir()) == []


def test_a_receipt_whose_name_the_system_does_not_take_is_one_sentence(tmp_path, capsys):
    folder = fresh_loop(tmp_path)
    assert main(["audit", str(folder / "a-returned.xlsx"), "--receipt", f"{NAME_TOO_LONG}.json"]) == 3
    assert "is no receipt" in capsys.readouterr().out
