"""Edits in files that the tests have changed before: each file is read once, however often it is changed."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from hashlib import sha256
from pathlib import Path

from sheetgen.declare.parts import Book
from sheetgen.testing.edit import Edit, edited_bytes
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned


class _Source:
    """A file by its content: two copies of it are one."""

    def __init__(self, book: Book, path: Path) -> None:
        self.book, self.path, self.data = book, path, path.read_bytes()
        self._key = (id(book), sha256(self.data).hexdigest())

    def __hash__(self) -> int:
        return hash(self._key)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Source) and self._key == other._key


@lru_cache(maxsize=16)
def _found(source: _Source) -> Returned:
    return read(source.book, source.path)


def edited(book: Book, path: Path, edits: Sequence[Edit], target: Path) -> None:
    """As `sheetgen.testing.edit.edited`: copy a file with the edits made and all values calculated again."""
    source = _Source(book, path)
    target.write_bytes(edited_bytes(_found(source), source.data, edits))
