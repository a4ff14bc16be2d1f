"""Cells that a binary workbook (.xlsb) writes in its short records: without a column, which is one right of the cell before.

Some writers use them ([MS-XLSB] 2.4.691 and following, BrtShortBlank to BrtShortIsst); the library that reads the file
passes over them, and half of a sheet is lost. They are written out here as the long records that they stand for.
"""

from __future__ import annotations

import io
import struct
import zipfile
from collections.abc import Iterator
from typing import NamedTuple

_ROW = 0
_LONG = range(1, 12)
"""Cells with their column in front: BrtCellBlank to BrtFmlaError, and the formulas' results."""
_SHORT = range(12, 19)
"""The same without it, eleven numbers further on."""
_SHIFT = 11
_SHEETS = "xl/worksheets/"


class _Record(NamedTuple):
    sort: int
    body: bytes


def _records(data: bytes) -> Iterator[_Record]:
    """The records of a part; what is cut off at its end is left out."""
    at = 0
    while at < len(data):
        sort, at = _number(data, at, 2)
        length, at = _number(data, at, 4)
        if at + length > len(data):
            return
        yield _Record(sort, data[at : at + length])
        at += length


def _number(data: bytes, at: int, most: int) -> tuple[int, int]:
    """A number of up to `most` bytes, seven bits in each, and where it ends; the sort of a record keeps its high bits."""
    number = 0
    for step in range(most):
        if at >= len(data):
            break
        byte = data[at]
        number |= (byte & 0x7F) << 7 * step
        at += 1
        if byte < 0x80:
            break
    return number, at


def _written(number: int) -> bytes:
    """A number as `_number` reads it."""
    out = bytearray()
    while number > 0x7F:
        out.append(number & 0x7F | 0x80)
        number >>= 7
    out.append(number)
    return bytes(out)


def lengthened(sheet: bytes) -> bytes:
    """A sheet's part with every short record written as the long one; the same bytes if it has none."""
    out, column, changed = bytearray(), -1, False
    for record in _records(sheet):
        kept = record
        if record.sort == _ROW:
            column = -1
        elif record.sort in _SHORT:
            column, changed = column + 1, True
            kept = _Record(record.sort - _SHIFT, struct.pack("<I", column) + record.body)
        elif record.sort in _LONG and len(record.body) >= struct.calcsize("<I"):
            (column,) = struct.unpack_from("<I", record.body)
        out += _written(kept.sort) + _written(len(kept.body)) + kept.body
    return bytes(out) if changed else sheet


def with_long_records(data: bytes) -> bytes:
    """A binary workbook whose sheets hold long records only. zipfile.BadZipFile if it is no package."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(data)) as package, zipfile.ZipFile(out, "w") as made:
        for part in package.infolist():
            held = package.read(part)
            of_a_sheet = part.filename.startswith(_SHEETS) and part.filename.endswith(".bin")
            made.writestr(part.filename, lengthened(held) if of_a_sheet else held)
    return out.getvalue()
