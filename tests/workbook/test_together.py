"""Files that belong together: at any stop there is the old set or the new one, once the next command has looked."""

from __future__ import annotations

import errno
import json
import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from sheetgen.errors import UserError
from sheetgen.workbook.write import save as saving
from sheetgen.workbook.write.save import INTENT, finish, save, save_together

OLD = {"a.xlsx": b"old workbook", "a.receipt.json": b"old receipt", "sub/m.svg": b"old drawing"}
NEW = {name: text.replace(b"old", b"new") * 1000 for name, text in OLD.items()}
STEPS = ("mkstemp", "fsync", "link", "replace", "unlink", "open")


class Killed(BaseException):
    """Stands for the end of the process: nothing after it runs."""


def put(folder: Path, files: dict[str, bytes]) -> None:
    for name, data in files.items():
        (folder / name).parent.mkdir(exist_ok=True)
        (folder / name).write_bytes(data)


def held(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def killed_at(monkeypatch: pytest.MonkeyPatch, step: int, act: Callable[[], None]) -> bool:
    """Run until so many steps of the system were taken, and stop there as a killed process does; whether it was stopped."""
    taken = 0

    def counted(work: Callable[..., object]) -> Callable[..., object]:
        def one(*args: object, **options: object) -> object:
            nonlocal taken
            taken += 1
            if taken > step:
                raise Killed
            return work(*args, **options)

        return one

    with monkeypatch.context() as patched:
        for name in ("fsync", "link", "replace", "unlink", "open", "rename"):
            patched.setattr(os, name, counted(getattr(os, name)))
        patched.setattr(saving.tempfile, "mkstemp", counted(saving.tempfile.mkstemp))
        try:
            act()
        except Killed:
            return True
    return False


def as_a_dead_process(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What this process left counts as left by one that is gone."""
    monkeypatch.setattr(saving, "_lives", lambda *_: False)
    finish(folder)


@pytest.mark.parametrize("step", range(40))
def test_a_kill_at_any_step_leaves_the_old_set_or_the_new_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: int
) -> None:
    put(tmp_path, OLD)
    files = {tmp_path / name: data for name, data in NEW.items()}
    stopped = killed_at(monkeypatch, step, lambda: save_together(files, replace=True))
    as_a_dead_process(tmp_path, monkeypatch)
    as_a_dead_process(tmp_path / "sub", monkeypatch)
    assert held(tmp_path) in (OLD, NEW)
    assert stopped or held(tmp_path) == NEW


@pytest.mark.parametrize("step", range(40))
def test_a_kill_while_finishing_is_finished_by_the_next(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, step: int
) -> None:
    put(tmp_path, OLD)
    files = {tmp_path / name: data for name, data in NEW.items()}
    killed_at(monkeypatch, 17, lambda: save_together(files, replace=True))
    monkeypatch.setattr(saving, "_lives", lambda *_: False)
    killed_at(monkeypatch, step, lambda: finish(tmp_path))
    finish(tmp_path)
    finish(tmp_path / "sub")
    assert held(tmp_path) in (OLD, NEW)


@pytest.mark.parametrize("failing", [1, 2, 3])
def test_a_full_disk_or_a_file_held_open_leaves_the_old_set(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, failing: int
) -> None:
    put(tmp_path, OLD)
    count = 0

    def replace(source: object, target: object, _real: Callable[..., None] = os.replace) -> None:
        nonlocal count
        count += 1
        if count == failing:
            raise OSError(errno.ENOSPC, "No space left on device")
        _real(source, target)

    monkeypatch.setattr(os, "replace", replace)
    with pytest.raises(UserError, match="cannot be written"):
        save_together({tmp_path / name: data for name, data in NEW.items()}, replace=True)
    assert held(tmp_path) == OLD


def test_a_disk_that_is_full_while_writing_leaves_the_old_set(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    put(tmp_path, OLD)

    def full(_: int) -> None:
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(UserError, match="No space left on device"):
        save_together({tmp_path / name: data for name, data in NEW.items()}, replace=True)
    assert held(tmp_path) == OLD


def test_another_program_that_is_writing_is_waited_for_and_then_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put(tmp_path, OLD)
    other = {"process": os.getppid(), "computer": socket.gethostname(), "exchange": []}
    (tmp_path / INTENT).write_text(json.dumps(other))
    monkeypatch.setattr(saving, "_PATIENCE", 0.2)
    with pytest.raises(UserError, match="another sheetgen is writing there; try again when it is done"):
        save_together({tmp_path / name: data for name, data in NEW.items()}, replace=True)
    (tmp_path / INTENT).unlink()
    assert held(tmp_path) == OLD


@pytest.mark.parametrize("said", [b"", b"{", b"[1]", b'{"exchange": [["../../a", "b"]]}', b"[" * 60000])
def test_an_intent_that_says_nonsense_moves_nothing(tmp_path: Path, said: bytes) -> None:
    put(tmp_path, OLD)
    (tmp_path / INTENT).write_bytes(said)
    finish(tmp_path)
    assert held(tmp_path) == OLD


def test_temporary_files_of_dead_programs_are_cleared_and_those_of_living_ones_are_not(tmp_path: Path) -> None:
    dead = subprocess.run([sys.executable, "-c", "import os; print(os.getpid())"], capture_output=True, check=True)
    left = tmp_path / f".sheetgen-{dead.stdout.decode().strip()}-abc.part"
    living, old = tmp_path / f".sheetgen-{os.getppid()}-abc.part", tmp_path / f".sheetgen-{os.getppid()}-old.part"
    for path in (left, living, old):
        path.write_bytes(b"half")
    os.utime(old, (time.time() - 7200, time.time() - 7200))
    save(b"new", tmp_path / "a.xlsx")
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted([living.name, "a.xlsx"])


_WRITER = """
import sys
from pathlib import Path
from sheetgen.workbook.write.save import save_together
folder, word = Path(sys.argv[1]), sys.argv[2].encode()
print("ready", flush=True)
for number in range(int(sys.argv[3])):
    text = word + str(number).encode() + b" " * 200_000
    save_together({folder / "a.xlsx": text, folder / "a.receipt.json": text}, replace=True)
"""


def writer(folder: Path, word: str, times: int) -> subprocess.Popen[bytes]:
    return subprocess.Popen([sys.executable, "-c", _WRITER, str(folder), word, str(times)], stdout=subprocess.PIPE)


@pytest.mark.parametrize("wait", [0.0, 0.01, 0.03, 0.06, 0.1])
def test_a_process_that_is_really_killed_leaves_a_pair(tmp_path: Path, wait: float) -> None:
    process = writer(tmp_path, "w", 100_000)
    assert process.stdout is not None and process.stdout.readline()
    time.sleep(wait)
    process.send_signal(signal.SIGKILL)
    process.wait()
    process.stdout.close()
    finish(tmp_path)
    files = held(tmp_path)
    assert set(files) in (set(), {"a.xlsx", "a.receipt.json"})
    assert len(set(files.values())) <= 1


def test_two_at_once_never_mix(tmp_path: Path) -> None:
    processes = [writer(tmp_path, word, 20) for word in ("one", "two")]
    for process in processes:
        process.communicate(timeout=60)
    assert [process.returncode for process in processes] == [0, 0]
    assert len(set(held(tmp_path).values())) == 1
