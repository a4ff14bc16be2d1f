"""What takes long to make and is always made alike is kept between runs, in the folder that the system has for such things.

Nothing rests on it: what is not there, is damaged, was made by another version or belongs to somebody else is made again.
What is kept is sealed with a secret of this folder's own: what another user kept, or was put there, is not taken.
`SHEETGEN_STORE=off` does without it; any other word there is the folder.
"""

from __future__ import annotations

import contextlib
import hmac
import json
import os
import sys
import tempfile
from collections.abc import Callable, Iterator
from functools import cache
from hashlib import sha256
from importlib import import_module
from importlib.util import find_spec
from itertools import count
from pathlib import Path
from typing import Any

SETTING = "SHEETGEN_STORE"
MOST_BYTES_OF_A_FILE = 60_000_000
MOST_FILES, MOST_BYTES = 5_000, 200_000_000
"""Beyond either, the files that were not asked for longest go, down to half of it."""
TIDIED_EVERY = 50
"""Looking through the folder takes as long as keeping a thing: a run does it for the first one, and then for each of so many."""
_writes = count()
_RESTS_ON = ("resvg_py", "font_source_sans_pro", "PIL", "openpyxl", "python_calamine")
"""Libraries that decide what a kept thing is like."""
_SECRET, _SECRET_BYTES = "secret", 32
_SEAL = 32
"""Bytes of a seal (HMAC with SHA-256, RFC 2104)."""


def kept(kind: str, said: bytes, make: Callable[[], bytes]) -> bytes:
    """What `make` makes of `said`: as it was kept by an earlier run of this very version, or made now and kept."""
    before = found(kind, said)
    if before is not None:
        return before
    made = make()
    keep(kind, said, lambda: made)
    return made


def found(kind: str, said: bytes) -> bytes | None:
    """What this very version kept of `said`; None if that is nothing, or cannot be trusted."""
    folder = _folder()
    if folder is None:
        return None
    key = _key(kind, said)
    return _read(folder / key.hex(), key)


def keep(kind: str, said: bytes, made: Callable[[], bytes]) -> None:
    """Keep what was made of `said`, where there can be a store; it is put into bytes only there."""
    folder = _folder()
    if folder is not None:
        key = _key(kind, said)
        _write(folder / key.hex(), key, made())


def told(kind: str, path: Path, tell: Callable[[Path], Any]) -> Any:
    """What `tell` says of a file, as JSON has it: said now, or by an earlier run of a file of the same bytes.

    Of a file of which there is nothing to say, and of one too large to be looked at, nothing is kept.
    """
    said = digest_of(path)
    before = found(kind, said) if said else None
    if before is not None:
        return json.loads(before)
    words = tell(path)
    if words and said:
        keep(kind, said, lambda: json.dumps(words).encode())
    return words


def digest_of(path: Path) -> bytes:
    """What a file is known by: its bytes. Nothing for one that cannot be read, or is too large to be."""
    try:
        return sha256(path.read_bytes()).digest() if path.stat().st_size <= MOST_BYTES_OF_A_FILE else b""
    except (OSError, ValueError):  # whoever opens it knows what to say
        return b""


def _key(kind: str, said: bytes) -> bytes:
    return sha256(b"\0".join((_version(), kind.encode(), said))).digest()


def _folder() -> Path | None:
    """Where things are kept: a folder of this user's own; None where there shall or can be none."""
    setting = os.environ.get(SETTING, "")
    if setting.lower() == "off":
        return None
    with contextlib.suppress(OSError, RuntimeError):  # RuntimeError: a user who has no home
        folder = Path(setting) if setting else _usual_folder()
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        if not hasattr(os, "getuid") or folder.stat().st_uid == os.getuid():
            return folder
    return None


@cache
def _usual_folder() -> Path:
    usual: Path = import_module("platformdirs").user_cache_path("sheetgen", appauthor=False)
    return usual


@cache
def _version() -> bytes:
    """Changes with every file of this package and of the libraries that what is kept rests on."""
    seen = sha256(sys.version.encode())
    for path, said in _files(Path(__file__).parent):
        seen.update(f"{path} {said.st_size} {said.st_mtime_ns}\n".encode())
    for name in _RESTS_ON:
        spec = find_spec(name)
        for folder in (spec.submodule_search_locations or ()) if spec else ():
            said = Path(folder).stat()
            seen.update(f"{folder} {said.st_mtime_ns}\n".encode())
    return seen.digest()


def _files(folder: Path) -> Iterator[tuple[str, os.stat_result]]:
    """The modules below a folder, in an order that does not change."""
    with os.scandir(folder) as entries:
        for entry in sorted(entries, key=lambda one: one.name):
            if entry.is_dir():
                yield from _files(Path(entry.path))
            elif entry.name.endswith(".py"):
                yield entry.path, entry.stat()


def _read(path: Path, key: bytes) -> bytes | None:
    """What is kept there, if it is whole and was kept under this key, here; it counts as asked for now."""
    try:
        data = path.read_bytes()
    except OSError:
        return None
    seal, made = data[:_SEAL], data[_SEAL:]
    if not hmac.compare_digest(seal, _sealed(path.parent, key, made)):
        return None
    with contextlib.suppress(OSError):
        os.utime(path)
    return made


def _write(path: Path, key: bytes, made: bytes) -> None:
    """Keep it, whole or not at all; where that cannot be, it is made again the next time."""
    with contextlib.suppress(OSError):
        _put(path, _sealed(path.parent, key, made) + made)
        if next(_writes) % TIDIED_EVERY == 0:
            _tidy(path.parent)


def _put(path: Path, data: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".new-")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(name).replace(path)
    except OSError:
        Path(name).unlink(missing_ok=True)
        raise


def _sealed(folder: Path, key: bytes, made: bytes) -> bytes:
    return hmac.digest(_secret(folder), key + made, "sha256")


@cache
def _secret(folder: Path) -> bytes:
    """The folder's secret; a new one where there is none, with which nothing that was kept before agrees."""
    path = folder / _SECRET
    with contextlib.suppress(OSError):
        there = path.read_bytes()
        if len(there) == _SECRET_BYTES:
            return there
    made = os.urandom(_SECRET_BYTES)
    with contextlib.suppress(OSError):
        _put(path, made)
    return made


def _tidy(folder: Path) -> None:
    """Throw away what was not asked for longest, once there is too much."""
    with os.scandir(folder) as entries:
        there = [
            (entry.stat().st_mtime, entry.stat().st_size, entry.path)
            for entry in entries
            if entry.is_file() and entry.name != _SECRET
        ]
    if len(there) <= MOST_FILES and sum(size for _, size, _ in there) <= MOST_BYTES:
        return
    left, room = MOST_FILES // 2, MOST_BYTES // 2
    for _, size, path in sorted(there, reverse=True):
        left, room = left - 1, room - size
        if left < 0 or room < 0:
            Path(path).unlink(missing_ok=True)
