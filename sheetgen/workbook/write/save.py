"""Together: files that belong to each other are written all or none, whatever stops the program in between.

First every file is written whole under a temporary name. Then an intent, a small file in the folder, lists which temporary
name takes which file's place; from that moment on the set counts as written. Then the names are exchanged and the intent
goes. A program that dies before the intent leaves what was there; one that dies after it leaves an intent that the next
command finishes, before it reads or writes anything. The intent is the lock, too: only one program can put it there.
"""

from __future__ import annotations

import json
import os
import platform
import tempfile
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path

from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.write.names import refuse_existing, refuse_name, why_not

INTENT = ".sheetgen-intent.json"
TEMPORARY = ".sheetgen-"
_PATIENCE = 10.0
"""Seconds to wait for another program that is writing in the same folder."""
_FORGOTTEN = 3600.0
"""Seconds after which a file of a program that cannot be asked (on another computer) counts as left behind."""


def save(data: bytes, path: Path, *, replace: bool = False) -> None:
    """Write a file whole or not at all; an existing one is replaced only if that was asked for.

    UserError in one sentence if the name is none that the file can have everywhere, or the folder does not take it.
    """
    save_together({path: data}, replace=replace)


def save_together(files: Mapping[Path, bytes], *, replace: bool = False) -> None:
    """Write all files or none, in one step as everybody after sees it; else as `save`. The first file's folder decides."""
    for path in files:
        refuse_name(path)
    folder = next(iter(files)).parent
    now = folder
    try:
        for path in files:
            now = path
            refuse_existing(path, replace)
        folder.mkdir(parents=True, exist_ok=True)
        finish(folder)
        with _temporaries(files) as written:
            for path in files:
                refuse_existing(path, replace)
            _exchange(folder, written)
    except OSError as error:
        raise UserError(f"{now}: {why_not(now, error)}.") from None


@contextmanager
def _temporaries(files: Mapping[Path, bytes]) -> Iterator[list[tuple[Path, Path]]]:
    """The files under temporary names beside their places; what was not exchanged is taken away again."""
    written: list[tuple[Path, Path]] = []
    try:
        for path, data in files.items():
            path.parent.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(dir=path.parent, prefix=f"{TEMPORARY}{os.getpid()}-", suffix=".part")
            written.append((Path(name), path))
            with os.fdopen(handle, "wb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            Path(name).chmod(0o644)
        yield written
    finally:
        for temporary, _ in written:
            temporary.unlink(missing_ok=True)


def _exchange(folder: Path, written: Sequence[tuple[Path, Path]]) -> None:
    if len(written) == 1:
        written[0][0].replace(written[0][1])  # one file takes its place in one step by itself
        _settle(folder)
        return
    pairs = [[os.path.relpath(one, folder), os.path.relpath(path, folder)] for one, path in written]
    _declared(folder, {"process": os.getpid(), "computer": platform.node(), "exchange": pairs})
    before = {path: path.read_bytes() if path.exists() else None for _, path in written}
    done: list[Path] = []
    try:
        for temporary, path in written:
            temporary.replace(path)
            done.append(path)
    except OSError:
        for path in done:
            _put_back(path, before[path])
        raise
    finally:
        (folder / INTENT).unlink(missing_ok=True)
        _settle(folder)


def _put_back(path: Path, data: bytes | None) -> None:
    """What stood in a file's place before, because another file of its set could not take its own."""
    if data is None:
        path.unlink(missing_ok=True)
        return
    with _temporaries({path: data}) as written:
        written[0][0].replace(path)


def _declared(folder: Path, intent: Mapping[str, object]) -> None:
    """Put the intent there, whole or not at all, as the only one; UserError if another program keeps writing here."""
    handle, name = tempfile.mkstemp(dir=folder, prefix=f"{TEMPORARY}{os.getpid()}-", suffix=".part")
    target, end = folder / INTENT, time.monotonic() + _PATIENCE
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(json.dumps(intent).encode())
            file.flush()
            os.fsync(file.fileno())
        while True:
            try:
                _take_name(Path(name), target)
                _settle(folder)
                return
            except FileExistsError:
                finish(folder)
                if time.monotonic() > end:
                    raise UserError(
                        say("{folder}: another sheetgen is writing there; try again when it is done.", folder=folder)
                    ) from None
                time.sleep(0.05)
    finally:
        Path(name).unlink(missing_ok=True)


def _take_name(temporary: Path, target: Path) -> None:
    """Give a file its name unless another has it already (FileExistsError)."""
    try:
        os.link(temporary, target)
    except (AttributeError, NotImplementedError, PermissionError):
        # File systems without links: a name that is there already is refused by the exclusive way of opening.
        with target.open("xb") as file:
            file.write(temporary.read_bytes())


def _settle(folder: Path) -> None:
    """Have the folder's names on the disk before going on; where that cannot be asked for, the system decides."""
    with suppress(OSError, AttributeError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


def finish(folder: Path) -> None:
    """Finish what a program that died had begun to write in a folder, and clear its temporary files.

    What a living program writes is left alone; a folder that cannot be written is left as it is.
    """
    with suppress(OSError):
        intent = folder / INTENT
        said = _said(intent)
        if said is not None and not _lives(said.get("process"), said.get("computer"), intent):
            for temporary, path in _pairs(said, folder):
                if temporary.exists():
                    temporary.replace(path)
            intent.unlink(missing_ok=True)
        for left in folder.glob(f"{TEMPORARY}*-*.part"):
            number = left.name.removeprefix(TEMPORARY).partition("-")[0]
            lives = _lives(int(number) if number.isdigit() else None, platform.node(), left)
            if not lives and not intent.exists():
                left.unlink(missing_ok=True)


def _said(intent: Path) -> dict[str, object] | None:
    try:
        said = json.loads(intent.read_bytes())
    except FileNotFoundError:
        return None
    except (ValueError, RecursionError):
        return {}
    return said if isinstance(said, dict) else {}


def _pairs(said: Mapping[str, object], folder: Path) -> Iterator[tuple[Path, Path]]:
    """Temporary names and the files whose place they take; nothing but our own temporary names is ever moved."""
    pairs = said.get("exchange")
    for pair in pairs if isinstance(pairs, list) else ():
        if isinstance(pair, list) and len(pair) == 2 and all(isinstance(one, str) for one in pair):
            temporary, path = folder / pair[0], folder / pair[1]
            if temporary.name.startswith(TEMPORARY) and temporary.parent == path.parent:
                yield temporary, path


def _lives(process: object, computer: object, file: Path) -> bool:
    """Whether the program that wrote a file may still be at work on it."""
    with suppress(OSError):
        if time.time() - file.stat().st_mtime > _FORGOTTEN:
            return False
    if not isinstance(process, int) or computer != platform.node():
        return isinstance(process, int)
    if process == os.getpid():
        return True
    if os.name == "nt":
        return True  # asking would end that program; after an hour it counts as gone
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True
