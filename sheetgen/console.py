"""A console that cannot show every letter: what it lacks is written as the nearest plain sign, never as an error."""

from __future__ import annotations

import codecs
import io
import sys
import unicodedata

from sheetgen.errors import UserError
from sheetgen.texts import say

_PLAIN = {
    "–": "-", "—": "-", "−": "-", "…": "...", "“": '"', "”": '"', "„": '"', "‘": "'", "’": "'", "×": "x", "·": "-",
    "•": "-", "±": "+/-", "≤": "<=", "≥": ">=", "→": "->", "ß": "ss", "ø": "o", "Ø": "O", "ł": "l", "Ł": "L", "đ": "d",
    "Đ": "D", "æ": "ae", "Æ": "AE", "œ": "oe", "Œ": "OE", "€": "EUR", "£": "GBP", "¥": "CNY", "\N{NO-BREAK SPACE}": " ",
}  # fmt: skip


def plain(text: str) -> str:
    """Text in ASCII: typographic signs and letters with accents as their nearest plain ones, all else as `?`."""
    found = []
    for sign in text:
        bare = _PLAIN.get(sign) or "".join(
            one for one in unicodedata.normalize("NFKD", sign) if not unicodedata.combining(one)
        )
        found.append(bare if bare and bare.isascii() else "?")
    return "".join(found)


def _handler(error: UnicodeError) -> tuple[str | bytes, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return plain(error.object[error.start : error.end]), error.end


def use_plain_signs() -> None:
    """Let standard output and standard error write what their encoding lacks in plain signs."""
    codecs.register_error("sheetgen-plain", _handler)
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper) and stream.errors != "sheetgen-plain":
            stream.reconfigure(errors="sheetgen-plain")


def tell_trouble(error: UserError | OSError) -> int:
    """Say on standard error what went wrong, as one sentence, and give the exit status.

    What the system refuses (a name too long, a folder that may not be read, a full disk) is no bug of ours.
    """
    if isinstance(error, UserError):
        print(f"sheetgen: {error}", file=sys.stderr)
        return error.status
    what, why = error.filename or say("a file"), error.strerror or error
    print(say("sheetgen: {what}: {why}; name another file or folder.", what=what, why=why), file=sys.stderr)
    return 3
