"""Files that many tests start from, made once per test run and shared by all its workers.

A worker that needs them first makes them; the others wait for it. pytest takes the folder away with its own.
"""

from __future__ import annotations

import shutil
import time
from collections.abc import Callable
from functools import cache
from pathlib import Path

_LONGEST = 600.0
"""Seconds after which whoever was making the files is believed dead."""


_folder: list[Path] = []


def keep_in(folder: Path) -> None:
    """Say where; the folder is the same for all workers of a run."""
    _folder[:] = [folder]


@cache
def kept(name: str, make: Callable[[Path], None]) -> Path:
    """The folder of that name, filled by `make` where nobody has done so yet; read from it, never write into it."""
    done, making = _folder[0] / name, _folder[0] / f"{name}.making"
    started = time.monotonic()
    while not done.exists():
        try:
            making.mkdir()
        except FileExistsError:
            if time.monotonic() - started > _LONGEST:
                raise TimeoutError(f"{making} was begun and never finished") from None
            time.sleep(0.05)
            continue
        try:
            if not done.exists():
                _make(done, make)
        finally:
            making.rmdir()
    return done


def _make(done: Path, make: Callable[[Path], None]) -> None:
    """Under another name until all of it is there."""
    begun = done.with_name(f"{done.name}.begun")
    shutil.rmtree(begun, ignore_errors=True)
    begun.mkdir()
    make(begun)
    begun.rename(done)
