"""Old binary workbooks (.xls, .xlsb): only what was typed is taken.

Through the old format a third of all formula results change (texts and blanks become 0), no typed cell does (measured with
LibreOffice 7.4). The library that reads it can be killed by a far cell, so that it runs as a process of its own, with
limits; run as a module, this file is that process.
"""

from __future__ import annotations

import datetime
import json
import subprocess
import sys
from importlib import import_module
from io import BytesIO
from pathlib import Path
from typing import Any

from sheetgen.texts import say
from sheetgen.workbook.read.loaded import Held, Loaded, LoadedSheet
from sheetgen.workbook.read.package import start_of, unusable
from sheetgen.workbook.read.short_records import with_long_records

_PACKAGE = b"PK"
_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
"""What the box of a protected workbook is called in it (MS-OFFCRYPTO, 2.3.4.4)."""
_MOST_SECONDS, _MOST_MEMORY = 20, 1_500_000_000
_MOST_CELLS = 400_000


def is_binary(path: Path, start: bytes) -> bool:
    """Whether a file is an old binary workbook, or in the box that those come in."""
    if start.startswith(_OLE):
        return True
    return start.startswith(_PACKAGE) and path.suffix.lower() == ".xlsb"


def load_binary(path: Path) -> Loaded:
    """What was typed in an old binary workbook. UserError (status 3) if it is none, protected or damaged."""
    start_of(path)
    if _ENCRYPTED in path.read_bytes():
        raise unusable(path, say("is protected with a password; save it without one"))
    command = [sys.executable, "-m", "sheetgen.workbook.read.binary", str(path)]
    try:
        done = subprocess.run(command, capture_output=True, timeout=_MOST_SECONDS, check=False)
        data = json.loads(done.stdout) if done.returncode == 0 else {}
    except (subprocess.TimeoutExpired, OSError, ValueError, RecursionError):
        data = {}
    if data.get("trouble") == "password":
        raise unusable(path, say("is protected with a password; save it without one"))
    if "sheets" not in data:
        raise unusable(path, say("is not a workbook, or is damaged; save it as .xlsx in the spreadsheet program"))
    sheets = {title: _sheet(title, cells) for title, cells in data["sheets"]}
    missing = say(
        "This is a file of the old binary format: only what was typed was read. Formulas, their results, pictures, looks "
        "and names could not be checked; ask for an .xlsx if they matter."
    )
    return Loaded(sheets, {}, missing=(missing,), typed_only=True)


def _sheet(title: str, cells: list[Any]) -> LoadedSheet:
    held = {(row, column): Held(_typed(value)) for row, column, value in cells}
    last_row = max((row for row, _ in held), default=0)
    return LoadedSheet(title, held, last_row, max((column for _, column in held), default=0), True, True, ())


def _typed(value: Any) -> Any:
    return datetime.datetime.fromisoformat(value["day"]) if isinstance(value, dict) else value


def _plain(value: Any) -> Any:
    if isinstance(value, datetime.datetime | datetime.date):
        return {"day": value.isoformat()}
    if isinstance(value, float) and value == int(value) and abs(value) < 1e15:
        return int(value)
    return value if isinstance(value, str | int | float | bool) else str(value)


def _limited() -> None:
    """Have the system end this process before it takes the computer's memory; where that cannot be asked, go on."""
    try:
        resource = import_module("resource")
        resource.setrlimit(resource.RLIMIT_AS, (_MOST_MEMORY, _MOST_MEMORY))
    except (ImportError, ValueError, OSError):
        return


def _read(path: str) -> dict[str, Any]:
    library: Any = import_module("python_calamine")
    try:
        data = Path(path).read_bytes()
        book = library.CalamineWorkbook.from_filelike(
            BytesIO(with_long_records(data) if data.startswith(_PACKAGE) else data)
        )
        sheets = [(name, book.get_sheet_by_name(name)) for name in book.sheet_names]
        if sum(sheet.total_height * sheet.total_width for _, sheet in sheets) > 10 * _MOST_CELLS:
            return {}
        return {"sheets": [(name, list(_cells(sheet))) for name, sheet in sheets]}
    except library.PasswordError:
        return {"trouble": "password"}
    except Exception:  # whatever a file that is none makes of the library
        return {}


def _cells(sheet: Any) -> list[tuple[int, int, Any]]:
    return [
        (row, column, _plain(value))
        for row, line in enumerate(sheet.to_python(skip_empty_area=False), 1)
        for column, value in enumerate(line, 1)
        if value not in ("", None)
    ]


if __name__ == "__main__":
    _limited()
    json.dump(_read(sys.argv[1]), sys.stdout)
