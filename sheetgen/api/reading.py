"""What stands in a workbook of ours."""

from __future__ import annotations

from pathlib import Path

from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.workbook.read.file import read as read_file
from sheetgen.workbook.read.found import Returned
from sheetgen.workbook.read.record import record_of


def read(path: Path) -> Returned:
    """All that stands in a workbook of ours; UserError (status 3) if it is none."""
    return read_file(BOOK, path)


def working_copy(path: Path, otherwise: str) -> Returned:
    """A working workbook; UserError with these words if it is a vendor's copy."""
    got = read(path)
    if got.ready.shape.audience == "vendor":
        raise UserError(f"{path}: {otherwise}.")
    return got


def is_copy(path: Path) -> bool:
    """Whether a file is a vendor's copy or return by its own record; a file that cannot be read is none."""
    return bool(record_of(path).get("issue_id"))
