"""How high a text makes its row, by the width of its column."""

from __future__ import annotations

import math
from textwrap import wrap

from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.page import Page, PlacedField

LINE_HEIGHT = 15.0
MOST_HEIGHT = 400.0
INDENT_WIDTH = 1.0
"""Characters that the indent of words takes of their column."""
_LETTER_WIDE = 0.85
"""Of a column's unit, the width of a 0: what a letter of running text takes at most in the fonts of common programs."""
_WIDE_SCRIPTS = 0x1100
"""From here on letters are mostly as wide as they are high."""


def _lines(line: str, width: float) -> int:
    """How many lines a text takes: words stay whole where they are shorter than the column."""
    if max(map(ord, line), default=0) >= _WIDE_SCRIPTS:
        return math.ceil(len(line) * 2 / width)
    return max(1, len(wrap(line, max(1, int(width / _LETTER_WIDE)))))


def text_height(text: str, width: float) -> float:
    """Height in points that wrapped text needs in a column of that many characters."""
    lines = sum(_lines(line, max(width, 1)) for line in text.split("\n"))
    return min(MOST_HEIGHT, LINE_HEIGHT * lines)


WIDE = 40
"""A text of so many characters takes a row of its own."""


def field_height(page: Page, placed: PlacedField, value: Value) -> float:
    """Height in points that a field needs for its label and for what stands in it."""
    text = value if isinstance(value, str) else ""
    width = page.width(placed.value.first, placed.value.last)
    label = text_height(placed.entry.heading, page.width(placed.label.first, placed.label.last))
    least = (
        2 * LINE_HEIGHT if placed.entry.who == "computed" and placed.entry.kind.width >= WIDE else 15.0
    )  # it grows as one types
    return max(least + 3, text_height(text, width - INDENT_WIDTH) + 3, label + 3)
