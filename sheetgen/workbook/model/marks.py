"""Marks on a picture: which rows it names, and where their circles and labels stand on it.

They are found in the drawing and kept in the picture's own bytes (a text chunk of PNG, ISO/IEC 15948, 11.3.4.3), so that they are
there when the picture comes back from a file. They say nothing that the picture does not show.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import NamedTuple

from sheetgen.workbook.model.chunks import AFTER_HEADER, chunk_at, chunk_bytes, with_chunk

_BEGINS = b"tEXtRows\0"
_MARK = re.compile(r"<(?:circle|rect) [^>]*data-row=[^>]*>")
_NUMBERS = re.compile(r' ([a-z-]+)="([^"]*)"')
_WRITTEN = re.compile(r"([A-Z]{1,2}\d+) (\d\.\d{5}) (\d\.\d{5}) (\d\.\d{5}) (\d\.\d{5})")


class Mark(NamedTuple):
    """A row's ref, and the box around what names it, in parts of the picture's width and height from the top left."""

    ref: str
    left: float
    top: float
    wide: float
    high: float


def marks_drawn(svg: str) -> tuple[Mark, ...]:
    """The marks of a drawing of ours: circles and labels that say whose row they are, in the plane of its view box."""
    view = re.search(r'viewBox="([^"]+)"', svg)
    if view is None:
        return ()
    left, top, wide, high = map(float, view[1].split())
    found = []
    for element in _MARK.findall(svg):
        said = dict(_NUMBERS.findall(element))
        if "r" in said:
            x, y, r = (float(said[name]) for name in ("cx", "cy", "r"))
            box = (x - r, y - r, 2 * r, 2 * r)
        else:
            box = (float(said["x"]), float(said["y"]), float(said["width"]), float(said["height"]))
        found.append(
            Mark(said["data-row"], (box[0] - left) / wide, (box[1] - top) / high, box[2] / wide, box[3] / high)
        )
    return tuple(found)


def with_marks_kept(png: bytes, marks: Iterable[Mark]) -> bytes:
    """The PNG with these marks in it; as it is without any. Those beyond its edge, which there are none of, are left out."""
    said = ";".join(
        f"{one.ref} {one.left:.5f} {one.top:.5f} {one.wide:.5f} {one.high:.5f}"
        for one in marks if min(one[1:]) >= 0 and max(one[1:]) <= 1
    )  # fmt: skip
    if not said:
        return png
    return with_chunk(png, AFTER_HEADER, _BEGINS, said.encode("ascii", "replace"))


def marks_kept(data: bytes) -> tuple[Mark, ...]:
    """The marks that are kept in a picture; none in one where anything else stands in their place."""
    found = [_WRITTEN.fullmatch(one) for one in _kept(data).decode("ascii", "replace").split(";")]
    marks = [Mark(one[1], *(float(one[at]) for at in range(2, 6))) for one in found if one]
    return tuple(marks) if len(marks) == len(found) else ()


def without_marks(data: bytes) -> bytes:
    """The picture without its marks; as it is if it has none."""
    return data[:AFTER_HEADER] + data[after_marks(data) :]


def after_marks(data: bytes) -> int:
    """Where in a picture's bytes its marks end, or would stand."""
    return AFTER_HEADER + (chunk_bytes(_BEGINS, _kept(data)) if marks_kept(data) else 0)


def _kept(data: bytes) -> bytes:
    """What stands where marks are kept."""
    return chunk_at(data, AFTER_HEADER, _BEGINS)
