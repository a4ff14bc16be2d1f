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
CHILD = 2
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


_SAID = 80
"""So many characters of what a parser complains of: it may repeat the file's own."""


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
    content = content.lstrip(b" \t\r\n")
    reading = _Parsing(content, start, end, cut)
    parser = reading.parser
    if text is not None:
        parser.CharacterDataHandler = text
    try:
        parser.Parse(content, True)
    except (expat.ExpatError, ValueError) as error:
        raise BrokenError(str(error)) from None
    except LookupError as error:
        if type(error) is not LookupError:
            raise  # a slip of ours while reading, not an encoding that nobody knows
        raise BrokenError(str(error)[:_SAID]) from None
    return reading.cuts


class _Parsing:
    """Counts what the parser comes to, and hands it on."""

    def __init__(self, content: bytes, start: Start | None, end: End | None, cut: frozenset[str]) -> None:
        self.content, self.start, self.end, self.cut = content, start, end, cut
        self.depth = self.count = 0
        self.cuts: list[tuple[int, int]] = []
        self.parser = expat.ParserCreate()
        self.parser.buffer_text = True
        self.parser.StartElementHandler, self.parser.EndElementHandler = self.opened, self.closed
        self.parser.StartDoctypeDeclHandler = self.parser.EntityDeclHandler = self.refused

    def opened(self, name: str, attributes: dict[str, str]) -> None:
        self.depth += 1
        self.count += 1
        if self.depth > MOST_NESTED or self.count > MOST_ELEMENTS:
            raise odd()
        if ":" in name:
            name = name.rpartition(":")[2]
        if self.depth == CHILD and name in self.cut:
            self.cuts.append((self.parser.CurrentByteIndex, 0))
        if self.start is not None:
            self.start(name, attributes)

    def closed(self, name: str) -> None:
        local = name.rpartition(":")[2] if ":" in name else name
        if self.depth == CHILD and local in self.cut:
            self.cuts[-1] = (self.cuts[-1][0], self._end_of(f"</{name}".encode()))
        self.depth -= 1
        if self.end is not None:
            self.end(local)

    def _end_of(self, mark: bytes) -> int:
        """Where the element ends that the parser has just closed; behind one that is empty it stands already."""
        at = self.parser.CurrentByteIndex
        return self.content.index(b">", at) + 1 if self.content.startswith(mark, at) else at

    def refused(self, *_: object) -> None:
        raise definitions()


def attribute(attributes: Mapping[str, str], name: str) -> str:
    """An attribute whatever prefix its namespace has in this part; empty without it."""
    if name in attributes:
        return attributes[name]
    return next((value for key, value in attributes.items() if key.endswith(f":{name}")), "")
