"""A proof that was made is remembered: a book that is declared alike, with as many sizes and colorways, is not proven again.

What is remembered is that nothing was wrong, never the book: formulas are read anew each time. A book of which anything differs,
or another version of this package, is proven.
"""

from __future__ import annotations

import io
import pickle
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from functools import cache, lru_cache
from hashlib import sha256
from types import MappingProxyType
from typing import Any

from sheetgen.store import kept

from .formula import Formula
from .parts import Book
from .proof import formulas_of, proven, refuse_unsound

_SOUND = b"sound"


def proven_once(book: Book, known_by: bytes) -> dict[str, Formula]:
    """All formulas of an expanded book, read; proven too, unless one known by the same was. DeclarationError as `proven`."""
    if not known_by:
        return proven(book)
    formulas = formulas_of(book)
    once("proof", known_by, lambda: refuse_unsound(book, formulas))
    return formulas


def once(what: str, known_by: bytes, refuse: Callable[[], None]) -> None:
    """Ask it of what is known by this, unless it was asked before and nothing was wrong; what nothing is known by, always."""
    if not known_by:
        refuse()
        return

    def sound() -> bytes:
        refuse()
        return _SOUND

    kept(what, known_by, sound)


@lru_cache(maxsize=8)
def declared_as(book: Book) -> bytes:
    """What a book is known by: a digest of all that is declared in it. Nothing where that cannot be said (a function inside)."""
    said = io.BytesIO()
    try:
        _Declared(said, protocol=5).dump(book)
    except (pickle.PicklingError, AttributeError, TypeError):
        return b""
    return sha256(said.getvalue()).digest()


class _Declared(pickle.Pickler):
    """Writes fields only: what was worked out of them before is not declared. Nothing ever reads it."""

    def reducer_override(self, one: object) -> Any:
        if isinstance(one, Mapping) and isinstance(one, MappingProxyType):
            return dict, (dict(one),)
        if isinstance(one, frozenset):
            return sorted, (sorted(one),)
        if is_dataclass(one) and not isinstance(one, type):
            return type(one), tuple(getattr(one, name) for name in _names(type(one)))
        return NotImplemented


@cache
def _names(kind: type) -> tuple[str, ...]:
    return tuple(field.name for field in fields(kind))
