"""Workbooks spoiled part by part."""

import io
import zipfile
from collections.abc import Callable, Mapping

Parts = dict[str, bytes]


def parts_of(data: bytes) -> Parts:
    with zipfile.ZipFile(io.BytesIO(data)) as package:
        return {name: package.read(name) for name in package.namelist()}


def packed(parts: Mapping[str, bytes], doubled: str = "") -> bytes:
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED) as package:
        for name, content in parts.items():
            package.writestr(name, content)
        if doubled:
            package.writestr(doubled, parts[doubled])
    return buffer.getvalue()


def spoiled(data: bytes, name: str, change: Callable[[bytes], bytes]) -> bytes:
    """The workbook with one part changed; the change must change something."""
    parts = parts_of(data)
    new = change(parts[name])
    assert new != parts[name]
    return packed({**parts, name: new})


def with_cell(data: bytes, cell: bytes, row: bytes = b'<row r="200">') -> bytes:
    """One more cell at the end of the second sheet."""
    return spoiled(
        data, "xl/worksheets/sheet2.xml", lambda text: text.replace(b"</sheetData>", row + cell + b"</row></sheetData>")
    )


def after_start(data: bytes, name: str, text: bytes) -> bytes:
    """Something put behind a part's first line."""
    return spoiled(data, name, lambda part: part.replace(b"?>\n", b"?>\n" + text, 1))
