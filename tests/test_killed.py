"""Whole commands stopped: all that one writes, it writes in one step, so that at any kill there is the old set or the new one.

`tests/workbook/test_together.py` stops that step at each of its calls of the system; here is shown that no command
has another way to write, and whole commands are stopped within it.
"""

from __future__ import annotations

import importlib
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from sheetgen.cli import main
from sheetgen.workbook.write import save as saving
from tests.loop import SAMPLES, fresh_loop
from tests.workbook.test_together import as_a_dead_process, held, killed_at

COMMANDS = {
    "start": "start shirt --out started.xlsx",
    "build a brief": "build {brief} --out a-working.xlsx --replace",
    "build a workbook": "build a-working.xlsx --out a-working.xlsx --replace",
    "issue": "issue a-working.xlsx --purpose sample --out a-sample.xlsx",
    "issue anyway": "issue a-working.xlsx --purpose bulk --anyway tried --out a-bulk.xlsx",
    "audit": "audit a-returned.xlsx --html audit.html --reply reply.txt",
    "accept": "accept a-working.xlsx a-returned.xlsx --out a-working.xlsx --replace",
    "compare": "compare a-working.xlsx a-returned.xlsx --out offers.xlsx",
    "cutplan": "cutplan a-working.xlsx --plies 60 --garments 6 --replace",
    "marker": "marker a-working.xlsx --material M1 --garments 1 --effort 0.1 --svg drawings --replace",
}

_watching: list[list[str]] = []


def _watch(event: str, args: tuple[object, ...]) -> None:
    """Every file that Python is asked to open for writing (audit events, PEP 578)."""
    if not _watching or event != "open" or not isinstance(args[0], str) or not isinstance(args[2], int):
        return
    if args[2] & (os.O_WRONLY | os.O_RDWR | os.O_CREAT):
        _watching[0].append(args[0])


sys.addaudithook(_watch)


@contextmanager
def written_to() -> Iterator[list[str]]:
    """The files that are opened for writing meanwhile."""
    _watching[:] = [[]]
    try:
        yield _watching[0]
    finally:
        _watching.clear()


def words(command: str) -> list[str]:
    return command.format(brief=SAMPLES / "overshirt" / "brief.toml").split(" ")


@pytest.mark.parametrize("command", COMMANDS.values(), ids=COMMANDS)
def test_a_command_writes_all_its_files_in_one_step(
    command: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    fresh_loop(tmp_path)
    monkeypatch.chdir(tmp_path)
    steps: list[int] = []
    exchange = saving._exchange

    def counted(folder: Path, written: list[tuple[Path, Path]]) -> None:
        steps.append(len(written))
        exchange(folder, written)

    monkeypatch.setattr(saving, "_exchange", counted)
    with written_to() as opened:
        assert main(words(command)) in (0, 1), capsys.readouterr()
    assert len(steps) == 1
    ours = [path for path in opened if Path(path).resolve().is_relative_to(tmp_path)]
    assert ours
    assert {path for path in ours if not Path(path).name.startswith(saving.TEMPORARY)} == set()


@cache
def written_by(command: str) -> dict[str, bytes]:
    """What a command would write into a folder of the loop, by name; it is stopped before it writes anything."""
    caught: dict[str, bytes] = {}

    def caught_within(files: dict[Path, bytes], **_options: bool) -> None:
        caught.update({path.name: data for path, data in files.items()})
        raise KeyboardInterrupt

    with TemporaryDirectory() as name, pytest.MonkeyPatch.context() as patched:
        old = held(fresh_loop(Path(name)))
        patched.chdir(name)
        for module in ("sheetgen.commands.issue", "sheetgen.commands.accept", "sheetgen.workbook.write.save"):
            patched.setattr(importlib.import_module(module), "save_together", caught_within, raising=False)
        main(words(COMMANDS[command]))
        assert held(Path(name)) == old
    return caught


@pytest.mark.parametrize("step", range(32))
@pytest.mark.parametrize("command", ["issue", "accept"])
def test_a_command_killed_leaves_the_old_files_or_the_new(
    command: str, step: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old, new = held(fresh_loop(tmp_path)), written_by(command)
    assert new
    stopped = killed_at(
        monkeypatch,
        step,
        lambda: saving.save_together({tmp_path / name: data for name, data in new.items()}, replace=True),
    )
    as_a_dead_process(tmp_path, monkeypatch)
    now = held(tmp_path)
    assert not [name for name in now if saving.TEMPORARY in name], "what a killed program left is cleared by the next"
    assert now in (old, {**old, **new})
    assert stopped or now != old
