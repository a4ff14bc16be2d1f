"""A1: how spreadsheet programs write columns, sheet titles and formulas; nothing here knows names."""

from __future__ import annotations

import re
from functools import lru_cache


@lru_cache(maxsize=1 << 14)
def letters(column: int) -> str:
    """Column 1 is A, 27 is AA."""
    name = ""
    while column:
        column, rest = divmod(column - 1, 26)
        name = chr(65 + rest) + name
    return name


_PLAIN_TITLE = re.compile(r"(?![A-Za-z]{1,3}\d+\Z|[RrCc]\d*\Z)[A-Za-z_]\w*\Z", re.ASCII)
"""A title that no formula can take for a cell (`AB12`, `R1`)."""


@lru_cache(maxsize=256)
def quoted(title: str) -> str:
    """A sheet's title as formulas write it; quoted only where it must be, as other programs do on saving."""
    if _PLAIN_TITLE.match(title):
        return title
    return "'" + title.replace("'", "''") + "'"


_QUOTED = re.compile(r'("(?:[^"]|"")*")')
_NEEDLESS = re.compile(r"'([A-Za-z_][A-Za-z0-9_]*)'!")


def plain(formula: str) -> str:
    """Formula text with all that other programs change on saving taken out; words in quotes are left as they are."""
    pieces = _QUOTED.split(formula)
    for index in range(0, len(pieces), 2):
        piece = _NEEDLESS.sub(r"\1!", pieces[index])
        piece = "".join(piece.split()) if "'" not in piece else piece.strip()
        pieces[index] = piece.replace("$", "").replace("TRUE()", "1").replace("FALSE()", "0").upper()
    return "".join(pieces)
