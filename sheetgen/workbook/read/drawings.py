"""Drawings: all that lies over the cells of a sheet: pictures with any anchor, text boxes, shapes, charts, old shapes."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Literal

from sheetgen.workbook.read.hardened import BrokenError, attribute, odd, parse
from sheetgen.workbook.read.loaded import Drawing
from sheetgen.workbook.read.package import Package

_MOST_DRAWINGS = 5_000
_ANCHORS = frozenset({"oneCellAnchor", "twoCellAnchor", "absoluteAnchor"})
_PIXELS_PER_ROW, _PIXELS_PER_COLUMN = 24, 64
_EMU_PER_PIXEL = 9525
"""ECMA-376 part 1, 20.1.2.1; rows and columns of an anchor without cells are taken for usual ones."""
Kind = Literal["picture", "text", "shape", "chart", "object"]


@dataclass
class _Anchor:
    first: list[int] = field(default_factory=lambda: [1, 1])
    last: list[int] = field(default_factory=lambda: [0, 0])
    position: tuple[int, int] | None = None
    size: tuple[int, int] = (0, 0)
    kinds: set[str] = field(default_factory=set)
    pictures: list[str] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    cropped: bool = False
    turned: bool = False


class _Pass:
    def __init__(self) -> None:
        self.anchors: list[_Anchor] = []
        self.now: _Anchor | None = None
        self.corner = self.keeping = ""

    def start(self, name: str, attributes: Mapping[str, str]) -> None:
        if name in _ANCHORS:
            self.now = _Anchor()
            self.anchors.append(self.now)
            if len(self.anchors) > _MOST_DRAWINGS:
                raise odd()
        now = self.now
        if now is None:
            return
        if name in {"from", "to"}:
            self.corner = name
        elif name in {"row", "col", "t"}:
            self.keeping = name
        elif name in {"pic", "sp", "cxnSp", "graphicFrame", "contentPart", "chart", "oleObj", "txBody"}:
            now.kinds.add(name)
        elif name == "blip":
            now.pictures.append(attribute(attributes, "embed") or attribute(attributes, "link"))
        elif name == "srcRect":
            now.cropped |= any(attributes.get(side, "0").strip("-0%.") for side in "ltrb")
        elif name == "xfrm":
            mirrored = {attributes.get(side, "0") for side in ("flipH", "flipV")} & {"1", "true"}
            now.turned |= bool(mirrored) or attributes.get("rot", "0").strip("-0") != ""
        elif name == "pos":
            now.position = _number(attributes.get("x", "")), _number(attributes.get("y", ""))
        elif name == "ext" and "cx" in attributes and now.size == (0, 0):
            now.size = _number(attributes["cx"]), _number(attributes.get("cy", ""))

    def text(self, words: str) -> None:
        if self.now is None or not self.keeping:
            return
        if self.keeping == "t":
            self.now.words.append(words)
        elif self.corner:
            corner = self.now.first if self.corner == "from" else self.now.last
            corner[0 if self.keeping == "row" else 1] = _number(words.strip()) + 1

    def end(self, name: str) -> None:
        if name == self.keeping:
            self.keeping = ""
        elif name == self.corner:
            self.corner = ""
        elif name == "p" and self.now is not None and self.now.words:
            self.now.words.append("\n")
        elif name in _ANCHORS:
            self.now = None


def drawings_in(package: Package, part: str, digest: Callable[[str], str]) -> Iterator[Drawing]:
    """What a part of drawings lays over its sheet; `digest` gives the sha-256 of a part's bytes."""
    reading = _Pass()
    try:
        parse(package.parts[part], reading.start, reading.end, reading.text)
    except BrokenError:
        return
    relations = package.relations(part)
    for anchor in reading.anchors:
        first, last = _corners(anchor)
        words = "".join(anchor.words).strip()
        pictures = [digest(one.target) for name in anchor.pictures if (one := relations.get(name)) is not None]
        for picture in pictures:
            yield Drawing("picture", first, last, picture, "", anchor.cropped, anchor.turned)
        if not pictures or words:
            yield Drawing(_kind(anchor.kinds, words), first, last, "", words)


def _corners(anchor: _Anchor) -> tuple[tuple[int, int], tuple[int, int]]:
    first = anchor.first[0], anchor.first[1]
    if anchor.position is not None:
        across, down = (one // _EMU_PER_PIXEL for one in anchor.position)
        first = down // _PIXELS_PER_ROW + 1, across // _PIXELS_PER_COLUMN + 1
    if anchor.last != [0, 0]:
        return first, (anchor.last[0], anchor.last[1])
    across, down = (one // _EMU_PER_PIXEL for one in anchor.size)
    return first, (first[0] + down // _PIXELS_PER_ROW, first[1] + across // _PIXELS_PER_COLUMN)


def _kind(kinds: set[str], words: str) -> Kind:
    if "chart" in kinds:
        return "chart"
    if words:
        return "text"
    if "pic" in kinds:
        return "picture"
    return "object" if kinds & {"graphicFrame", "contentPart", "oleObj"} else "shape"


_NOTE = re.compile(rb"ObjectType\s*=\s*[\"']Note[\"']", re.IGNORECASE)
_SHAPE = b"<v:shape "


def old_shapes_in(content: bytes) -> Sequence[Drawing]:
    """Shapes of the old sort that are no comments' boxes. The part is not always XML, so it is cut at its shapes."""
    found = []
    for piece in content.split(_SHAPE)[1 : _MOST_DRAWINGS + 1]:
        if b"ClientData" in piece and not _NOTE.search(piece[:20_000]):
            words = re.sub(rb"<[^<>]{0,2000}>", b" ", piece[:20_000]).decode("utf-8", "replace")
            found.append(Drawing("shape", (1, 1), (1, 1), "", " ".join(words.split())[:200]))
    return found


def digester(package: Package) -> Callable[[str], str]:
    """Gives the sha-256 of a part's bytes, each counted once."""
    known: dict[str, str] = {}

    def digest(part: str) -> str:
        if part not in known:
            known[part] = sha256(package.parts[part]).hexdigest() if part in package.parts else ""
        return known[part]

    return digest


def _number(text: str) -> int:
    try:
        return max(0, min(int(text), 10**12))
    except ValueError:
        return 0
