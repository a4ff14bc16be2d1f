"""Values side by side: when two are the same to a person, and how a value reads in a finding."""

from __future__ import annotations

import datetime
import math

from sheetgen.declare.kinds import Picture, PictureMark, Value
from sheetgen.texts import say

MOST_WORDS = 120
"""So much of a long text is shown in a finding; the cell holds the rest."""


def same(left: Value | PictureMark, right: Value | PictureMark) -> bool:
    """Whether two values are the same to a person: numbers to 1e-9, pictures by their bytes, line ends alike."""
    if isinstance(left, Picture):
        left = PictureMark(left.digest)
    if isinstance(right, Picture):
        right = PictureMark(right.digest)
    if isinstance(left, int | float) and isinstance(right, int | float):
        return math.isclose(left, right, rel_tol=1e-9, abs_tol=1e-12)
    if isinstance(left, str) and isinstance(right, str):
        return left.replace("\r\n", "\n") == right.replace("\r\n", "\n")
    return left == right or (left in (None, "") and right in (None, ""))


def shown_text(value: Value | PictureMark, than: Value | PictureMark = None) -> str:
    """A value in the words of a finding; of a picture, whether it is another one `than` that which stands beside it."""
    if value is None or value == "":
        return say("nothing")
    if isinstance(value, Picture | PictureMark):
        is_other = isinstance(than, Picture | PictureMark) and not same(than, value)
        return say("another picture") if is_other else say("a picture")
    if isinstance(value, float):
        return f"{value:.10g}"
    if isinstance(value, datetime.date):
        return value.isoformat()
    text = str(value)
    return text if len(text) <= MOST_WORDS else text[: MOST_WORDS - 1].rstrip() + "…"
