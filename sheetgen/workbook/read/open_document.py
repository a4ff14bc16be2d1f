"""OpenDocument spreadsheets (ISO/IEC 26300) as plain records, by one hardened pass over their content.

Formulas and looks come in the words of the other open standard (`open_formula`, `open_styles`), so that all that finds and
judges need not know where a file comes from.
"""

from __future__ import annotations

import zipfile
import zlib
from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path

from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.model.pictures import width_and_height
from sheetgen.workbook.read.hardened import BrokenError, UnsafeError, odd, parse
from sheetgen.workbook.read.loaded import Contents, Loaded, LoadedSheet
from sheetgen.workbook.read.open_content import Content
from sheetgen.workbook.read.open_extras import OpenSheet
from sheetgen.workbook.read.open_styles import OpenStyles
from sheetgen.workbook.read.package import MOST_EXPANDED, MOST_PARTS, MOST_RATIO, MOST_XML, unusable


def is_open_document(path: Path) -> bool:
    """Whether a file is an OpenDocument spreadsheet by its own word."""
    try:
        with zipfile.ZipFile(path) as package, package.open("mimetype") as part:
            return b"opendocument.spreadsheet" in part.read(80)
    except (zipfile.BadZipFile, zlib.error, KeyError, OSError, EOFError, RuntimeError, NotImplementedError, ValueError):
        return False


def load_open_document(path: Path) -> Loaded:
    """Load an OpenDocument spreadsheet. UserError (status 3) if it is damaged or must not be opened."""
    try:
        with zipfile.ZipFile(path) as package:
            parts = _parts(package)
        styles = OpenStyles()
        styles.read(parts.get("styles.xml", b""))
        styles.read(parts["content.xml"])
        reading = Content(styles, parts)
        parse(parts["content.xml"], reading.start, reading.end, reading.text)
        return _loaded(reading)
    except UnsafeError as error:
        raise unusable(path, str(error)) from None
    except (BrokenError, zipfile.BadZipFile, zlib.error, KeyError, EOFError, OSError, RuntimeError, ValueError):
        raise unusable(path, say("is damaged; ask for it to be sent again")) from None


def _parts(package: zipfile.ZipFile) -> dict[str, bytes]:
    entries = package.infolist()
    if len(entries) > MOST_PARTS or len({entry.filename for entry in entries}) != len(entries):
        raise odd()
    if sum(entry.file_size for entry in entries) > MOST_EXPANDED or any(
        entry.file_size > MOST_RATIO * max(entry.compress_size, 4096) or
        (entry.filename.endswith(".xml") and entry.file_size > MOST_XML) for entry in entries
    ):  # fmt: skip
        raise UnsafeError(say("unpacks to far more than a workbook holds; ask for it to be saved again"))
    parts = {entry.filename: package.read(entry) for entry in entries}
    if b"encryption-data" in parts.get("META-INF/manifest.xml", b""):
        raise UnsafeError(say("is protected with a password; save it without one"))
    return parts


def _loaded(reading: Content) -> Loaded:
    sheets = {sheet.title: _loaded_sheet(reading, sheet) for sheet in reading.sheets}
    names = {name: area for name, area in reading.names.items() if area.title in sheets}
    scripts = any(name.startswith(("Basic/", "Scripts/")) for name in reading.parts)
    objects = any(drawing.kind == "object" for sheet in reading.sheets for drawing in sheet.drawings)
    return Loaded(sheets, names, tuple(reading.styles.numbered), Contents(macros=scripts, embedded=objects))


def _loaded_sheet(reading: Content, sheet: OpenSheet) -> LoadedSheet:
    messages = (
        reading.validations[name]._replace(areas=" ".join(cells))
        for name, cells in sheet.messages.items()
        if name in reading.validations
    )
    return LoadedSheet(
        sheet.title, sheet.cells, sheet.last_row, sheet.last_column, sheet.is_visible, sheet.is_protected,
        tuple(_pictures(reading, sheet)), tuple(sheet.drawings), frozenset(sheet.hidden_rows),
        frozenset(sheet.hidden_columns), sheet.header, sheet.footer, tuple(messages), tuple(sheet.marks),
        tuple(sheet.links),
    )  # fmt: skip


def _pictures(reading: Content, sheet: OpenSheet) -> Iterator[tuple[tuple[int, int], Picture]]:
    by_digest = {sha256(data).hexdigest(): data for name, data in reading.parts.items() if name.startswith("Pictures/")}
    for drawing in sheet.drawings:
        data = by_digest.get(drawing.digest) if drawing.kind == "picture" else None
        if data is None:
            continue
        try:
            width_and_height(sheet.title, data)
        except UserError:
            continue
        row, column = drawing.first
        inside = (one for one in sheet.merged if one[0] <= row <= one[2] and one[1] <= column <= one[3])
        frame = next(inside, None)
        yield (frame[0], frame[1]) if frame else drawing.first, Picture(data)
