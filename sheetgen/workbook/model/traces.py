"""Traces: what a picture's file tells besides the picture (place, owner, camera, remarks), and how it leaves without.

A picture that goes out is written anew from its pixels; the way up and the color profile are kept, because they change what
is seen. One that carries nothing else goes as it is, as our own drawings, which say where on them the refs of rows stand.
"""

from __future__ import annotations

import io
import struct
from dataclasses import replace
from functools import lru_cache
from importlib import import_module
from typing import Any

from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.model.chunks import SIGNATURE
from sheetgen.workbook.model.lines import lines_kept, with_lines_kept, without_lines
from sheetgen.workbook.model.marks import without_marks
from sheetgen.workbook.model.pictures import with_shapes

_JPEG = b"\xff\xd8"
_NEEDED_CHUNKS = frozenset(
    (b"IHDR", b"PLTE", b"IDAT", b"IEND", b"tRNS", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"sBIT", b"pHYs", b"bKGD")
)
"""What of a PNG is needed to draw it (ISO/IEC 15948)."""
_NEEDED_SEGMENTS = frozenset((0xE0, 0xEE))
"""Of a JPEG's application data: the start of the file format, and how colors are meant (ISO/IEC 10918-1 and -6)."""
_PROFILE = b"ICC_PROFILE\0"
_TURNED = 1
_ORIENTATION = 0x0112


def without_traces(picture: Picture, place: str) -> Picture:
    """The picture with its pixels, and its lines where they draw the same; UserError that names its place if it cannot be written
    anew."""
    bare = replace(picture, data=_bare(without_lines(picture.data), place))
    kept = lines_kept(picture.data)
    if not kept or kept == picture.vector:  # of a picture that was drawn just now
        return replace(bare, data=with_lines_kept(bare.data, kept))
    lines = with_shapes(picture).vector
    return replace(bare, data=with_lines_kept(bare.data, lines), vector=lines)


@lru_cache(maxsize=256)
def _bare(data: bytes, place: str) -> bytes:
    if _is_bare(without_marks(data)):
        return data
    library: Any = import_module("PIL.Image")
    try:
        with library.open(io.BytesIO(data), formats=("PNG", "JPEG")) as image:
            return _as_png(image) if image.format == "PNG" else _as_jpeg(image)
    except (OSError, ValueError, SyntaxError, TypeError, library.DecompressionBombError):
        raise UserError(
            say("{place}: the picture cannot be written without what its file tells of its maker; save it anew as PNG.",
                place=place)
        ) from None  # fmt: skip


def _is_bare(data: bytes) -> bool:
    """Whether a file holds nothing but what is needed to draw it."""
    try:
        return _is_bare_png(data) if data.startswith(SIGNATURE) else data.startswith(_JPEG) and _is_bare_jpeg(data)
    except (struct.error, IndexError):
        return False


def _is_bare_png(data: bytes) -> bool:
    at = len(SIGNATURE)
    while at < len(data):
        length, name = struct.unpack(">I4s", data[at : at + 8])
        if name not in _NEEDED_CHUNKS:
            return False
        at += 12 + int(length)
        if name == b"IEND":
            return at == len(data)
    return False


def _is_bare_jpeg(data: bytes) -> bool:
    at = 2
    while data[at] == 0xFF:
        marker = data[at + 1]
        if marker == 0xDA:
            return data.endswith(b"\xff\xd9") and data.find(b"\xff\xd9", at) == len(data) - 2
        size = struct.unpack(">H", data[at + 2 : at + 4])[0]
        is_data = 0xE0 <= marker <= 0xEF and marker not in _NEEDED_SEGMENTS
        if marker == 0xFE or (is_data and not (marker == 0xE2 and data[at + 4 : at + 16] == _PROFILE)):
            return False
        if marker == 0xE0 and size > 16:
            return False  # a small picture of the picture
        at += 2 + size
    return False


def _upright(image: Any) -> Any:
    return import_module("PIL.ImageOps").exif_transpose(image)


def _as_png(image: Any) -> bytes:
    profile, shown = image.info.get("icc_profile"), _upright(image)
    kept = {name: shown.info[name] for name in ("transparency", "gamma") if name in shown.info}
    shown.info = {}
    target = io.BytesIO()
    shown.save(
        target, "PNG", **({"transparency": kept["transparency"]} if "transparency" in kept else {}), icc_profile=profile
    )
    return target.getvalue()


def _as_jpeg(image: Any) -> bytes:
    profile = image.info.get("icc_profile")
    is_upright = image.getexif().get(_ORIENTATION, _TURNED) == _TURNED
    tables = image.quantization
    sampling = import_module("PIL.JpegImagePlugin").get_sampling(image)
    shown = image if is_upright else _upright(image)
    shown.info = {}
    target = io.BytesIO()
    # The tables of the picture itself: it is not made coarser than it is.
    shown.save(target, "JPEG", qtables=tables, subsampling=max(sampling, 0), icc_profile=profile, exif=b"")
    return target.getvalue()
