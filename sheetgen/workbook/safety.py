"""Is this file safe to open at all? Looked at before any reader sees it; else one sentence and exit status 3.

Limits come from measured hostile files: white space that unpacks to gigabytes, far cells that kill a reader, entity
bombs, huge merged areas.
"""

from __future__ import annotations

import re
import zipfile
import zlib
from dataclasses import dataclass
from pathlib import Path

from sheetgen.workbook.values import UserError

MOST_BYTES = 60_000_000
MOST_PARTS = 3000
MOST_EXPANDED = 400_000_000
MOST_RATIO = 300
MOST_XML = 60_000_000
MOST_CELLS = 400_000
MOST_ROW, MOST_COLUMN_LETTERS = 100_000, 2

_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_CELL = re.compile(rb'<c r="([A-Z]{1,4})(\d{1,9})"')
_AREA = re.compile(rb'<(?:mergeCell|hyperlink)\b[^>]*\bref="[A-Z]+(\d+):([A-Z]+)(\d+)"')


@dataclass(frozen=True)
class Contents:
    """What a workbook file carries besides its cells: parts that the audit must tell about."""

    macros: bool
    external_links: bool
    embedded: bool
    connections: bool


def check(path: Path) -> Contents:
    """UserError (status 3) with one sentence if the file cannot or must not be opened; else what it carries."""
    data_start = _start_of(path)
    if data_start.startswith(_OLE):
        raise _unusable(path, "is protected with a password or is an old .xls file; save it as .xlsx without a password")
    if not data_start.startswith(b"PK"):
        raise _unusable(path, "is not a workbook; save it as .xlsx in the spreadsheet program and send that")
    try:
        with zipfile.ZipFile(path) as package:
            return _check_package(path, package)
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, NotImplementedError, RuntimeError, ValueError):
        raise _unusable(path, "is damaged; ask for it to be sent again") from None


def _unusable(path: Path, what: str) -> UserError:
    return UserError(f"{path}: {what}.", status=3)


def _start_of(path: Path) -> bytes:
    if path.is_dir():
        raise _unusable(path, "is a folder; name the workbook in it")
    try:
        if path.stat().st_size > MOST_BYTES:
            raise _unusable(path, f"is larger than {MOST_BYTES // 1_000_000} MB; make its pictures smaller")
        with path.open("rb") as file:
            start = file.read(8)
    except FileNotFoundError:
        raise _unusable(path, "there is no such file; check the name") from None
    except OSError:
        raise _unusable(path, "cannot be read; check whether another program holds it open") from None
    if not start:
        raise _unusable(path, "is empty; ask for it to be sent again")
    return start


def _check_package(path: Path, package: zipfile.ZipFile) -> Contents:
    entries = package.infolist()
    names = [entry.filename for entry in entries]
    if "mimetype" in names and b"opendocument" in package.read("mimetype")[:80]:
        raise _unusable(path, "is an OpenDocument file; save it as .xlsx in the spreadsheet program and audit that")
    if "[Content_Types].xml" not in names or not any(name.startswith("xl/workbook") for name in names):
        raise _unusable(path, "is not a workbook; save it as .xlsx in the spreadsheet program and send that")
    if len(entries) > MOST_PARTS or len(set(names)) != len(names):
        raise _unusable(path, "is built in a way no spreadsheet program writes; ask for it to be saved again")
    expanded = sum(entry.file_size for entry in entries)
    if expanded > MOST_EXPANDED or any(entry.file_size > MOST_RATIO * max(entry.compress_size, 4096) for entry in entries):
        raise _unusable(path, "unpacks to far more than a workbook holds; ask for it to be saved again")
    for entry in entries:
        _check_part(path, package, entry)
    types = package.read("[Content_Types].xml")
    return Contents(
        macros=any(name.endswith(("vbaProject.bin", ".vba")) for name in names) or b"macroEnabled" in types,
        external_links=any(name.startswith("xl/externalLinks/") for name in names),
        embedded=any(name.startswith(("xl/embeddings/", "xl/activeX/")) for name in names),
        connections=any(name in {"xl/connections.xml"} or name.startswith("xl/queryTables/") for name in names),
    )


def _check_part(path: Path, package: zipfile.ZipFile, entry: zipfile.ZipInfo) -> None:
    if entry.flag_bits & 1:
        raise _unusable(path, "is protected with a password; save it without one")
    if not entry.filename.endswith((".xml", ".rels")):
        return
    if entry.file_size > MOST_XML:
        raise _unusable(path, "holds more than any specification workbook; ask for the workbook itself")
    content = package.read(entry)
    if b"<!DOCTYPE" in content or b"<!ENTITY" in content:
        raise _unusable(path, "carries definitions no spreadsheet program writes; ask for it to be saved again")
    if not entry.filename.startswith("xl/worksheets/"):
        return
    cells = 0
    for letters, row in _CELL.findall(content):
        cells += 1
        if len(letters) > MOST_COLUMN_LETTERS or int(row) > MOST_ROW:
            where = f"{letters.decode()}{row.decode()}"
            raise _unusable(path, f"has a cell far outside the sheets ({where}); delete it and save again")
    areas = ((int(last) - int(first) + 1) * _column(letters) for first, letters, last in _AREA.findall(content))
    if cells > MOST_CELLS or any(area > MOST_CELLS for area in areas):
        raise _unusable(path, "holds more cells than any specification workbook; ask for the workbook itself")


def _column(letters: bytes) -> int:
    number = 0
    for letter in letters:
        number = number * 26 + letter - 64
    return number
