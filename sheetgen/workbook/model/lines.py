"""The lines of a brand's own drawing, kept in the bytes of the picture that is drawn of it, behind the marks on it: so paper has
it as sharp as it was drawn, also from a file that was saved in between.

They stand in a compressed text chunk of PNG (ISO/IEC 15948, 11.3.4.4). What comes back in a file may say anything: lines are
believed only where they draw the very picture.
"""

from __future__ import annotations

import re
import zlib

from sheetgen.workbook.model.chunks import chunk_at, chunk_bytes, with_chunk
from sheetgen.workbook.model.marks import after_marks

_BEGINS = b"zTXtLines\0\0"
_MOST_BYTES = 1_000_000
"""Of lines when they are unpacked; a drawing of more stays pixels."""
_TAG = re.compile(r"<\s*/?\s*([^\s/>]+)")
_KNOWN = frozenset((
    "svg", "g", "path", "rect", "circle", "ellipse", "line", "polyline", "polygon", "clipPath", "linearGradient",
    "radialGradient", "stop", "text",
))  # fmt: skip
"""What lines of ours are made of. Others may take without end to draw."""


def with_lines_kept(png: bytes, svg: str) -> bytes:
    """The PNG with these lines in it; as it is without any."""
    said = svg.encode()
    if not said or len(said) > _MOST_BYTES:
        return png
    return with_chunk(png, after_marks(png), _BEGINS, zlib.compress(said, 9))


def lines_kept(data: bytes) -> str:
    """The lines that are kept in a picture; empty where there are none, or such as we do not write."""
    packed = _packed(data)
    try:
        found = zlib.decompressobj().decompress(packed, _MOST_BYTES).decode() if packed else ""
    except (zlib.error, UnicodeDecodeError):
        return ""
    return found if set(_TAG.findall(found)) <= _KNOWN else ""


def without_lines(data: bytes) -> bytes:
    """The picture without its lines; as it is if it has none."""
    packed, place = _packed(data), after_marks(data)
    return data[:place] + data[place + chunk_bytes(_BEGINS, packed) :] if packed else data


def _packed(data: bytes) -> bytes:
    """What stands where lines are kept."""
    return chunk_at(data, after_marks(data), _BEGINS)
