"""Placeholders: words that fill a cell and leave its question open."""

from __future__ import annotations

import re

from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.engine import is_error

PLACEHOLDERS = frozenset({
    "x", "xx", "xxx", "n/a", "na", "n.a", "nil", "tbc", "tbd", "tba", "t.b.c", "t.b.d", "t.b.a", "pending", "later",
    "unknown", "asap", "ditto", "to be confirmed", "to be decided", "to be advised", "to follow", "as sample",
    "as per sample", "as discussed", "see mail", "see e-mail", "see email", "see above", "same as above", "same as before",
    "as before", "same as last time", "as last time", "unchanged", "no change", "idem", "same", "as agreed",
})  # fmt: skip
"""Words that fill a cell and say nothing (common practice; a garment maker's list of vague words)."""


UNSEEN = re.compile("[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2064\ufeff]")
"""Signs that take no room: what holds them alone shows nothing."""


def is_placeholder(value: Value) -> bool:
    """Whether a text fills the cell and says nothing: one of the words, only dashes, dots and question marks, or blanks."""
    if not isinstance(value, str) or value == "" or is_error(value):
        return False
    core = UNSEEN.sub("", value).strip().lower().strip("?.!-–—_*/ ()[]").strip()
    return core in PLACEHOLDERS or not core
