"""Whole commands stopped: all that one writes, it writes in one step, so that at any kill there is the old set or the new one.

`tests/workbook/test_together.py` stops that step at each of its calls of the system; here is shown that no command
has another way to write, and whole commands are stopped within it.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

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


@pytest.mark.parametrize("step", [0, 4, 8, 9, 10, 11, 12, 30])
@pytest.mark.parametrize("command", ["issue", "accept"])
def test_a_command_killed_leaves_the_old_files_or_the_new(
    command: str, step: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    before, after = tmp_path / "before", tmp_path / "after"
    for folder in (before, after):
        folder.mkdir()
        fresh_loop(folder)
    old = held(before)
    monkeypatch.chdir(after)
    main(words(COMMANDS[command]))
    monkeypatch.chdir(before)
    writing = saving.save_together
    stopped = False

    def stop_within(files: dict[Path, bytes], *, replace: bool = False) -> None:
        nonlocal stopped
        stopped = killed_at(monkeypatch, step, lambda: writing(files, replace=replace))
        raise KeyboardInterrupt

    for module in ("sheetgen.commands.issue", "sheetgen.commands.accept", "sheetgen.workbook.write.save"):
        monkeypatch.setattr(sys.modules[module], "save_together", stop_within, raising=False)
    main(words(COMMANDS[command]))
    as_a_dead_process(before, monkeypatch)
    names = {name for name in held(before) if saving.TEMPORARY not in name}
    assert names == set(held(before)), "what a killed program left is cleared by the next"
    now = held(before)
    changed = {name for name in now if now[name] != old.get(name)}
    whole = {name for name in held(after) if held(after)[name] != old.get(name)}
    assert changed in (set(), whole)
    assert stopped or changed == whole
