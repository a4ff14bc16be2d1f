"""Lightening: a file as openpyxl needs it for its cells and comments, without all that the pass has read already."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Callable, Sequence
from contextlib import suppress

from sheetgen.workbook.model.written import Style
from sheetgen.workbook.read.hardened import BrokenError, parse
from sheetgen.workbook.read.package import is_xml
from sheetgen.workbook.read.safety import NAMES, Pass
from sheetgen.workbook.read.scanning import READ_HERE

_NOT_NEEDED = ("xl/media/", "xl/drawings/drawing", "xl/drawings/_rels/", "xl/charts/", "docProps/app")
_STYLES = "xl/styles.xml"
_STRICT = (
    (b"http://purl.oclc.org/ooxml/spreadsheetml/main", b"http://schemas.openxmlformats.org/spreadsheetml/2006/main"),
    (b"http://purl.oclc.org/ooxml/officeDocument/", b"http://schemas.openxmlformats.org/officeDocument/2006/"),
    (b"http://purl.oclc.org/ooxml/drawingml/", b"http://schemas.openxmlformats.org/drawingml/2006/"),
)
"""The strict form's names and the usual ones (ECMA-376 parts 1 and 4): openpyxl knows the usual ones alone."""
_BLANKS = b" \t\r\n"
"""What `parse` passes over before it counts where things stand."""
_WIDE = (b"\xff\xfe", b"\xfe\xff")
_PLAIN, _DAY, _DURATION = 0, 14, 46
"""Number formats that every file may name by their number (ECMA-376 part 1, 18.8.30): General, mm-dd-yy, [h]:mm:ss."""


def lightened(first: Pass, is_day: Callable[[str], bool], is_duration: Callable[[str], bool]) -> io.BytesIO:
    """The file without pictures, conditional formats, messages, merged frames, workbook names, and looks: what is left of
    these says which cells hold days and durations, by the codes of number formats. UnsafeError for what turns up in a part
    that was cut."""
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_STORED) as target:
        target.writestr(_STYLES, _days_alone(first.styles.cells, is_day, is_duration))
        for name, content in first.package.parts.items():
            if name.startswith(_NOT_NEEDED) or name == _STYLES or not is_xml(content):
                continue
            light = content
            if name in first.sheets:
                light = _without(content, first.sheets[name].cuts, READ_HERE)
            elif name == first.package.workbook:
                light = _without(content, first.cuts, NAMES)
            elif name.endswith(".rels"):
                light = _without_drawings(content)
            target.writestr(name, _usual(light))
    buffer.seek(0)
    return buffer


def _days_alone(styles: Sequence[Style], is_day: Callable[[str], bool], is_duration: Callable[[str], bool]) -> bytes:
    codes = {style.number_format for style in styles}
    number = {code: (_DURATION if is_duration(code) else _DAY) if is_day(code) else _PLAIN for code in codes}
    forms = "".join(f'<xf numFmtId="{number[style.number_format]}"/>' for style in styles)
    return f'<styleSheet xmlns="{_STRICT[0][1].decode()}"><cellXfs>{forms}</cellXfs></styleSheet>'.encode()


def _without(content: bytes, cuts: Sequence[tuple[int, int]], names: frozenset[str]) -> bytes:
    if not cuts:
        return content
    body = content.lstrip(_BLANKS)
    if _is_wide(content):
        body = _usual(content).lstrip(_BLANKS)
        cuts = parse(body, cut=names)
    pieces, at = [], 0
    for start, end in cuts:
        pieces.append(body[at:start])
        at = end
    return b"".join([*pieces, body[at:]])


def _without_drawings(content: bytes) -> bytes:
    """Relations without those to drawings: no picture that is broken can stop the load."""
    pieces = content.split(b"<Relationship ")
    kept = [piece for piece in pieces[1:] if b'/drawing"' not in piece.partition(b">")[0]]
    if len(kept) == len(pieces) - 1:
        return content
    rest = b"" if kept[-1:] == pieces[-1:] else pieces[-1].partition(b">")[2]
    # What stood inside a comment may stand outside now.
    return _looked_at(b"<Relationship ".join([pieces[0], *kept]) + rest)


def _looked_at(changed: bytes) -> bytes:
    """A part that has become another one, looked at like all others: UnsafeError if it must not be opened."""
    with suppress(BrokenError):  # some are read by nobody; whoever reads it says so
        parse(changed)
    return changed


def _usual(content: bytes) -> bytes:
    """A part in the usual form's names and in UTF-8."""
    if _is_wide(content):
        try:
            narrow = content.decode("utf-16" if content[:2] in _WIDE else "utf-16-le" if content[0] else "utf-16-be")
        except UnicodeDecodeError:
            return content  # whoever reads it says so
        content = narrow.encode()
        head, mark, rest = content.partition(b"?>")
        # Without its head it may be read where it could not be before.
        content = _looked_at(rest if mark and head.lstrip().startswith(b"<?xml") else content)
    if b"purl.oclc.org" in content[:4000] or b"purl.oclc.org" in content:
        for strict, usual in _STRICT:
            content = content.replace(strict, usual)
    return content


def _is_wide(content: bytes) -> bool:
    """Whether it is UTF-16, with its mark or without."""
    return content[:2] in _WIDE or b"\0" in content[:2]
