"""What goes along in the bytes of a PNG: a chunk of ours at a place of its own (ISO/IEC 15948, 5.3)."""

from __future__ import annotations

import struct
import zlib

SIGNATURE = b"\x89PNG\r\n\x1a\n"
AFTER_HEADER = len(SIGNATURE) + 25
"""The first chunk, which says the picture's size, has 13 bytes of data and 12 around them."""
_TYPE, _AROUND = 4, 12


def with_chunk(png: bytes, place: int, begins: bytes, said: bytes) -> bytes:
    """The PNG with a chunk put in there; `begins` is the chunk's type and what its data begin with."""
    chunk = begins + said
    length, check = struct.pack(">I", len(chunk) - _TYPE), struct.pack(">I", zlib.crc32(chunk))
    return png[:place] + length + chunk + check + png[place:]


def chunk_at(data: bytes, place: int, begins: bytes) -> bytes:
    """What the chunk that stands there says after its beginning; nothing in a picture that has none there."""
    start = place + 4
    if not data.startswith(SIGNATURE) or data[start : start + len(begins)] != begins:
        return b""
    (length,) = struct.unpack(">I", data[place:start])
    return data[start + len(begins) : start + _TYPE + length]


def chunk_bytes(begins: bytes, said: bytes) -> int:
    """So many bytes a chunk takes that says this."""
    return _AROUND - _TYPE + len(begins) + len(said)
