"""Names of files: what every system takes, what is there already, and why a file could not be written."""

from __future__ import annotations

import errno
from pathlib import Path

from sheetgen.errors import UserError
from sheetgen.texts import say

_RESERVED = frozenset(
    ["con", "prn", "aux", "nul", *(f"{port}{number}" for port in ("com", "lpt") for number in "123456789¹²³")]
)
"""Names of devices, whatever follows the first dot (Microsoft: Naming Files, Paths, and Namespaces)."""
_REFUSED_SIGNS = frozenset('<>:"|?*')
"""What no name on Windows holds, by the same source; control characters neither."""
_LONGEST_NAME = 255
"""Bytes of a file's name on common file systems."""
_NAME_TOO_LONG = {errno.ENAMETOOLONG}
_WINDOWS_NAME_TOO_LONG, _WINDOWS_IN_USE = 206, frozenset({32, 33})


def refuse_name(path: Path) -> None:
    """UserError if a file cannot have that name on every system: a copy goes to people who work on another one."""
    name = path.name
    if name.partition(".")[0].strip().lower() in _RESERVED:
        raise UserError(
            say(
                "{path}: Windows keeps the name {device} for a device; choose another name.",
                path=path,
                device=name.partition(".")[0],
            )
        )
    unfit = sorted({sign for sign in name if sign in _REFUSED_SIGNS or sign < " "})
    if unfit:
        raise UserError(
            say(
                "{path}: the name holds {sign!r}, which Windows does not take; choose another name.",
                path=path,
                sign=unfit[0],
            )
        )
    if name.endswith((" ", ".")):
        raise UserError(
            say("{path}: the name ends in a space or a dot, which Windows takes away; choose another name.", path=path)
        )
    if len(name.encode("utf-8", "surrogateescape")) > _LONGEST_NAME:
        raise UserError(say("{path}: the name is too long; choose a shorter one.", path=_shortened(path)))


def file_stem(number: str) -> str:
    """A file's name, without its ending, from a style number: letters, digits, hyphens; never a device's name."""
    stem = "".join(sign if sign.isalnum() or sign in "-_" else "-" for sign in number) or "style"
    stem = stem[: _LONGEST_NAME // 6]  # room for what is put behind it, in letters of up to four bytes
    return f"style-{stem}" if stem.lower() in _RESERVED else stem


def refuse_existing(path: Path, replace: bool) -> None:
    """UserError if a file is there and may not be replaced, or is open in a spreadsheet program."""
    if path.exists() and not replace:
        raise UserError(say("{path}: is there already; choose another name or add --replace.", path=path))
    for lock in (path.with_name(f".~lock.{path.name}#"), path.with_name(f"~${path.name}")):
        # Its next save would write over ours without a word.
        if path.exists() and lock.exists():
            raise UserError(
                say(
                    "{path}: is open in a spreadsheet program; close it there, or delete {name} if it is not.",
                    path=path,
                    name=lock.name,
                )
            )


def why_not(path: Path, error: OSError) -> str:
    """Why the system did not take a file, as half a sentence with the way out."""
    windows = getattr(error, "winerror", None)
    if error.errno in _NAME_TOO_LONG or windows == _WINDOWS_NAME_TOO_LONG:
        return say("the path is too long; choose a shorter name or a folder nearer to the top")
    if windows in _WINDOWS_IN_USE or (isinstance(error, PermissionError) and path.is_file()):
        return say(
            "cannot be replaced; another program holds it open, or it is read-only: close it there, "
            "or choose another name"
        )
    return say("cannot be written ({strerror}); choose another folder", strerror=error.strerror)


def _shortened(path: Path) -> str:
    return f"{path.name[:40]}…{path.suffix}"
