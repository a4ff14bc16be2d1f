"""Plain text: whatever stood in a file, made safe to show. Called wherever a text leaves for a reader."""

from __future__ import annotations

import re
import unicodedata

from sheetgen.texts import say

_UNSEEN = {"Cc", "Cf", "Cs", "Zl", "Zp"}
_BREAKS = re.compile(r"[\t\n\r\x0b\x0c\x85\u2028\u2029]+")
# Joiners belong to the spelling of several scripts; elsewhere they only hide a difference.
_JOINERS = re.compile(r"(?<=[^\x00-\x7f])[\u200c\u200d](?=[^\x00-\x7f])")


def visible(text: str) -> str:
    """The text on one line; every sign that steers a screen instead of being read shows as <U+001B>."""
    joiners = {match.start() for match in _JOINERS.finditer(text)}
    shown = "".join(
        f"<U+{ord(sign):04X}>"
        if unicodedata.category(sign) in _UNSEEN and at not in joiners and not _BREAKS.match(sign)
        else sign
        for at, sign in enumerate(text)
    )
    return _BREAKS.sub(" ", shown)


def shortened(text: str, most: int) -> str:
    """The visible text; if it is longer than `most` signs, its beginning and how many signs are left out."""
    shown = visible(text)
    if len(shown) <= most:
        return shown
    return say("{start}... ({rest:,} characters more)", start=shown[:most], rest=len(shown) - most)
