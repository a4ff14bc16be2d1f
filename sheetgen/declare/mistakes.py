"""What is said of a declaration that is wrong, and where in the book it is."""

from __future__ import annotations

from collections.abc import Collection
from difflib import get_close_matches


class DeclarationError(Exception):
    """The book itself is wrong: raised while it is made, meant for the person who wrote the declaration."""


class concerning:  # noqa: N801 - it is said like a function, thousands of times in a build
    """A DeclarationError raised inside begins with the address that it concerns."""

    __slots__ = ("where",)

    def __init__(self, where: str) -> None:
        self.where = where

    def __enter__(self) -> None:
        """Nothing to prepare."""

    def __exit__(self, _kind: object, error: BaseException | None, _trace: object) -> None:
        if isinstance(error, DeclarationError):
            raise DeclarationError(f"{self.where}: {error}") from None


def meant(word: str, known: Collection[str]) -> str:
    """`; is it 'net'?` for the known word that is nearest to an unknown one; empty if none is near."""
    near = get_close_matches(word, sorted(known), 1)
    return f"; is it {near[0]!r}?" if near else ""
