"""Which files an audit of several is about: those that were named, those of a pattern, the returns in a folder."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from pathlib import Path

from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.exchange.receipts import RECEIPT_ENDING
from sheetgen.workbook.read.record import record_of

_WORKBOOKS = {".xlsx", ".xlsm", ".xlsb", ".xls", ".ods"}
_OF_A_PROGRAM = ("~$", ".~")
"""What a spreadsheet program puts beside a file that is open."""


def files_of(named: Iterable[Path]) -> list[Path]:
    """All of them, each once; a folder without returns by its own name, as what cannot be used. UserError for a pattern that
    names nothing."""
    found: dict[Path, None] = {}
    for path in named:
        if _is_folder(path):
            some = list(_returns_in(path)) or [path]
        elif "*" in path.name:
            some = sorted(one for one in path.parent.glob(path.name) if one.is_file())
        else:
            some = [path]
        if not some:
            raise UserError(say("{path}: no file is called so.", path=path), 2)
        found.update(dict.fromkeys(some))
    return list(found)


def _is_folder(path: Path) -> bool:
    try:
        return path.is_dir()
    except OSError:  # a name that the system does not take is no folder; what else it is, reading it says
        return False


def _returns_in(folder: Path) -> Iterator[Path]:
    """Vendors' files that came back: no working workbook, and not the copy that lies there as it was sent."""
    for path in sorted(folder.rglob("*")):
        if path.suffix.lower() not in _WORKBOOKS or path.name.startswith(_OF_A_PROGRAM) or not path.is_file():
            continue
        if path.with_name(path.stem + RECEIPT_ENDING).exists():
            continue
        record = record_of(path) if path.suffix.lower() in {".xlsx", ".xlsm"} else {}
        if record.get("kind") != "working" and (record or path.suffix.lower() not in {".xlsx", ".xlsm"}):
            yield path
