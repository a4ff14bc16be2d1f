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

from sheetgen.errors import UserError
from sheetgen.texts import say

MOST_BYTES = 60_000_000
MOST_PARTS = 3000
MOST_EXPANDED = 400_000_000
MOST_RATIO = 300
MOST_XML = 60_000_000
MOST_CELLS = 400_000
MOST_ROW, MOST_COLUMN = 100_000, 702
MOST_GRID = 4_000_000
"""Cells from A1 to the last row and column of one sheet: a reader holds them all, the empty ones too."""

_OLE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_CELL = re.compile(rb"<(?:\w+:)?c\s[^>]*?\br\s*=\s*[\"']([A-Za-z]+)(\d+)[\"']")
_ROW_OF_NAMELESS = re.compile(
    rb"<(?:\w+:)?row\s[^>]*?\br\s*=\s*[\"'](\d+)[\"'][^>]*>\s*<(?:\w+:)?c(?![^>]*\br\s*=)[\s/>]"
)
"""A row whose cells do not say where they stand. Empty far rows are harmless: one program writes them always."""
_AREA = re.compile(rb"<(?:\w+:)?(?:mergeCell|hyperlink)\s[^>]*?\bref\s*=\s*[\"']([A-Za-z]+)(\d+):([A-Za-z]+)(\d+)[\"']")
_HIDDEN_REFERENCE = re.compile(rb"<(?:\w+:)?(?:c|row|mergeCell|hyperlink)\s[^>]*?\b(?:r|ref)\s*=\s*[\"'][^\"'>]*&")


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
        raise _unusable(
            path, say("is protected with a password or is an old .xls file; save it as .xlsx without a password")
        )
    if not data_start.startswith(b"PK"):
        raise _unusable(path, say("is not a workbook; save it as .xlsx in the spreadsheet program and send that"))
    try:
        with zipfile.ZipFile(path) as package:
            return _check_package(path, package)
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, NotImplementedError, RuntimeError, ValueError):
        raise _unusable(path, say("is damaged; ask for it to be sent again")) from None


def _unusable(path: Path, what: str) -> UserError:
    return UserError(f"{path}: {what}.", status=3)


def _start_of(path: Path) -> bytes:
    if path.is_dir():
        raise _unusable(path, say("is a folder; name the workbook in it"))
    try:
        if path.stat().st_size > MOST_BYTES:
            raise _unusable(
                path, say("is larger than {megabytes} MB; make its pictures smaller", megabytes=MOST_BYTES // 1_000_000)
            )
        with path.open("rb") as file:
            start = file.read(8)
    except FileNotFoundError:
        raise _unusable(path, say("there is no such file; check the name")) from None
    except OSError:
        raise _unusable(path, say("cannot be read; check whether another program holds it open")) from None
    if not start:
        raise _unusable(path, say("is empty; ask for it to be sent again"))
    return start


def _check_package(path: Path, package: zipfile.ZipFile) -> Contents:
    entries = package.infolist()
    names = [entry.filename for entry in entries]
    if "mimetype" in names and b"opendocument" in package.read("mimetype")[:80]:
        raise _unusable(
            path, say("is an OpenDocument file; save it as .xlsx in the spreadsheet program and audit that")
        )
    if "[Content_Types].xml" not in names or not any(name.startswith("xl/workbook") for name in names):
        raise _unusable(path, say("is not a workbook; save it as .xlsx in the spreadsheet program and send that"))
    if len(entries) > MOST_PARTS or len(set(names)) != len(names):
        raise _unusable(path, say("is built in a way no spreadsheet program writes; ask for it to be saved again"))
    expanded = sum(entry.file_size for entry in entries)
    if expanded > MOST_EXPANDED or any(
        entry.file_size > MOST_RATIO * max(entry.compress_size, 4096) for entry in entries
    ):
        raise _unusable(path, say("unpacks to far more than a workbook holds; ask for it to be saved again"))
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
        raise _unusable(path, say("is protected with a password; save it without one"))
    with package.open(entry) as part:
        start = part.read(64).lstrip(b"\xef\xbb\xbf\xff\xfe\x00 \t\r\n")
    if start and not start.startswith(b"<"):
        return
    if entry.file_size > MOST_XML:
        raise _unusable(path, say("holds more than any specification workbook; ask for the workbook itself"))
    content = package.read(entry)
    # No zero byte stands in UTF-8: another encoding would hide from all that is looked for here.
    if b"<!DOCTYPE" in content or b"<!ENTITY" in content or b"\x00" in content:
        raise _unusable(path, say("carries definitions no spreadsheet program writes; ask for it to be saved again"))
    if b"sheetData" in content:
        _check_cells(path, content)


def _check_cells(path: Path, content: bytes) -> None:
    if _HIDDEN_REFERENCE.search(content):
        raise _unusable(path, say("is built in a way no spreadsheet program writes; ask for it to be saved again"))
    cells = [(_column(letters), int(row), letters + row) for letters, row in _CELL.findall(content)]
    last_column = max((cell[0] for cell in cells), default=1)
    last_row = max([1, *(cell[1] for cell in cells), *(int(row) for row in _ROW_OF_NAMELESS.findall(content))])
    if last_column > MOST_COLUMN or last_row > MOST_ROW or last_column * last_row > MOST_GRID:
        where = (
            max(cells, key=lambda cell: cell[0] * cell[1])[2].decode()
            if cells
            else say("row {last_row}", last_row=last_row)
        )
        raise _unusable(path, say("has a cell far outside the sheets ({where}); delete it and save again", where=where))
    areas = (
        (int(last) - int(first) + 1) * (_column(right) - _column(left) + 1)
        for left, first, right, last in _AREA.findall(content)
    )
    if len(cells) > MOST_CELLS or any(area > MOST_CELLS for area in areas):
        raise _unusable(path, say("holds more cells than any specification workbook; ask for the workbook itself"))


def _column(letters: bytes) -> int:
    number = 0
    for letter in letters.upper():
        number = number * 26 + letter - 64
    return number
