"""Hardened parsing: one pass over a part of XML that refuses what no spreadsheet program writes.

Definitions and entities (bombs, files fetched from elsewhere), elements nested without end, texts and lists longer than
any workbook's. Names come without their namespace's prefix, so that both forms of the open standard read alike.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from xml.parsers import expat

from sheetgen.texts import say

MOST_NESTED = 60
MOST_ELEMENTS = 3_000_000
_CHILD = 2
"""How deep a part's own children stand."""
Start = Callable[[str, Mapping[str, str]], None]
End = Callable[[str], None]
Text = Callable[[str], None]


class UnsafeError(Exception):
    """A part that must not be opened; says in half a sentence why."""


class BrokenError(Exception):
    """A part that is no XML."""


def definitions() -> UnsafeError:
    """What is said of a part that brings definitions of its own."""
    return UnsafeError(say("carries definitions no spreadsheet program writes; ask for it to be saved again"))


def odd() -> UnsafeError:
    """What is said of a part that is built as none is."""
    return UnsafeError(say("is built in a way no spreadsheet program writes; ask for it to be saved again"))


def parse(
    content: bytes, start: Start | None = None, end: End | None = None, text: Text | None = None,
    cut: frozenset[str] = frozenset(),
) -> list[tuple[int, int]]:  # fmt: skip
    """Parse a part; says where (first and last byte) its own children of the names to `cut` stand.

    UnsafeError if it must not be opened, BrokenError if it is no XML.
    """
    depth = count = 0
    cuts: list[tuple[int, int]] = []

    def opened(name: str, attributes: dict[str, str]) -> None:
        nonlocal depth, count
        depth += 1
        count += 1
        if depth > MOST_NESTED or count > MOST_ELEMENTS:
            raise odd()
        name = name.rpartition(":")[2]
        if depth == _CHILD and name in cut:
            cuts.append((parser.CurrentByteIndex, 0))
        if start is not None:
            start(name, attributes)

    def closed(name: str) -> None:
        nonlocal depth
        name = name.rpartition(":")[2]
        if depth == _CHILD and name in cut:
            cuts[-1] = (cuts[-1][0], content.index(b">", parser.CurrentByteIndex) + 1)
        depth -= 1
        if end is not None:
            end(name)

    def refused(*_: object) -> None:
        raise definitions()

    parser = expat.ParserCreate()
    parser.buffer_text = True
    parser.StartElementHandler, parser.EndElementHandler = opened, closed
    parser.StartDoctypeDeclHandler = parser.EntityDeclHandler = refused
    if text is not None:
        parser.CharacterDataHandler = text
    content = content.lstrip(b" \t\r\n")
    try:
        parser.Parse(content, True)
    except (expat.ExpatError, ValueError) as error:
        raise BrokenError(str(error)) from None
    return cuts


def attribute(attributes: Mapping[str, str], name: str) -> str:
    """An attribute whatever prefix its namespace has in this part; empty without it."""
    if name in attributes:
        return attributes[name]
    return next((value for key, value in attributes.items() if key.endswith(f":{name}")), "")
