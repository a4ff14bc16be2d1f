"""LibreOffice without a window and with a profile of its own, in which every opened file is calculated anew."""

from __future__ import annotations

import atexit
import json
import shutil
import subprocess
from collections.abc import Sequence
from contextlib import suppress
from functools import cache
from pathlib import Path
from tempfile import mkdtemp
from threading import Timer
from typing import Any

import pytest

SOFFICE = shutil.which("soffice") or shutil.which("libreoffice")
BRIDGE = Path("/usr/bin/python3")
"""The system's Python, which has LibreOffice's bridge (uno)."""
_PATIENCE = 120
_TRIES = 20
_PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load">
<prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop>
</item>
</oor:items>
"""


def needs_office() -> None:
    """Skip where there is no LibreOffice."""
    if SOFFICE is None:
        pytest.skip("LibreOffice is not on this machine (no soffice on the path)")


@cache
def _has_bridge() -> bool:
    command = [BRIDGE, "-c", "import uno"]
    return BRIDGE.exists() and subprocess.run(command, capture_output=True, check=False).returncode == 0


def needs_bridge() -> None:
    """Skip where LibreOffice cannot be driven."""
    needs_office()
    if not _has_bridge():
        pytest.skip(f"LibreOffice's Python bridge is not on this machine ({BRIDGE} has no uno)")


def profile(folder: Path) -> str:
    """A fresh profile that recalculates always, as soffice takes it."""
    (folder / "user").mkdir(parents=True)
    (folder / "user" / "registrymodifications.xcu").write_text(_PROFILE, "utf-8")
    return f"-env:UserInstallation={folder.as_uri()}"


def recalculated(files: Sequence[Path], folder: Path) -> list[Path]:
    """The files as LibreOffice opens, calculates and saves them."""
    out = folder / "saved"
    words = [
        str(SOFFICE),
        profile(folder / "profile"),
        "--headless",
        "--norestore",
        "--convert-to",
        "xlsx",
        "--outdir",
        str(out),
    ]
    subprocess.run([*words, *map(str, files)], check=True, capture_output=True, timeout=_PATIENCE)
    return [out / file.name for file in files]


def driven(source: Path, steps: Sequence[dict[str, Any]], target: Path) -> dict[str, Any]:
    """Open a file, do the steps as a person would, save it as another; what the steps named `show` showed.

    LibreOffice 7.4 crashes now and then while it inserts a row, with the next try at the same row going well (measured: about
    one in ten, whatever conditions, names or pictures the file has). Then the whole job is given to a new one.
    """
    for _ in range(_TRIES):
        with suppress(OfficeCrashedError):
            return _office().does({"source": source.as_uri(), "target": target.as_uri(), "steps": list(steps)})
        source.with_name(f".~lock.{source.name}#").unlink(missing_ok=True)  # what crashed still holds it
    pytest.fail(f"LibreOffice crashed {_TRIES} times at the same job: {source.name}")


@cache
def _office() -> Office:
    """One for all the tests of a worker: starting it takes longer than most of them."""
    return Office()


class OfficeCrashedError(Exception):
    """The program itself is gone, in the middle of a job."""


class Office:
    """A LibreOffice that stays open, and the person at it, to whom jobs are given one after another."""

    def __init__(self) -> None:
        self._folder = Path(mkdtemp(prefix="sheetgen-office-"))
        self._said = self._folder / "said.txt"
        script = Path(__file__).with_name("typist.py")
        with self._said.open("w") as said:
            self._typist = subprocess.Popen(
                [BRIDGE, script, str(SOFFICE), profile(self._folder / "profile")],
                stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=said, text=True,
            )  # fmt: skip
        atexit.register(self.close)

    def does(self, job: dict[str, Any]) -> dict[str, Any]:
        """Give a job and wait for what it showed; fails with what the typist said if it does not come back."""
        assert self._typist.stdin is not None
        assert self._typist.stdout is not None
        patience = Timer(_PATIENCE, self._typist.kill)
        patience.start()
        try:
            self._typist.stdin.write(json.dumps(job) + "\n")
            self._typist.stdin.flush()
            line = self._typist.stdout.readline()
        finally:
            patience.cancel()
        if not line:
            _office.cache_clear()
            said = self._said.read_text("utf-8")
            if "DisposedException" in said:
                raise OfficeCrashedError
            pytest.fail(f"the typist at LibreOffice gave up: {said}")
        shown = json.loads(line)
        assert isinstance(shown, dict)
        return shown

    def close(self) -> None:
        """The typist ends when no more jobs can come, and closes the program."""
        if self._typist.poll() is None:
            self._typist.communicate(timeout=_PATIENCE)
        shutil.rmtree(self._folder, ignore_errors=True)
