"""How high a text makes its row, by the width of its column."""

from __future__ import annotations

from sheetgen.declare.kinds import Value
from sheetgen.declare.letters import lines_in
from sheetgen.workbook.model.page import Page, PlacedField

LINE_HEIGHT = 13.0
CELL_EDGES = 2.0
"""Points above and below what stands in a cell."""
MOST_HEIGHT = 400.0
INDENT_WIDTH = 1.7
"""Characters that the indent of words takes of their column: three blanks."""
_PIXELS = 7
"""Of one character of a column's width (ECMA-376, part 1, 18.3.1.13, for ten points)."""


def text_height(text: str, width: float, *, bold: bool = False) -> float:
    """Height in points that wrapped text needs in a column of that many characters."""
    return min(MOST_HEIGHT, LINE_HEIGHT * lines_in(text, width * _PIXELS, bold=bold))


WIDE = 40
"""A text of so many characters takes a row of its own."""


def field_height(page: Page, placed: PlacedField, value: Value) -> float:
    """Height in points that a field needs for its label and for what stands in it."""
    text = value if isinstance(value, str) else ""
    width = page.width(placed.value.first, placed.value.last)
    label = text_height(placed.entry.heading, page.width(placed.label.first, placed.label.last))
    least = (
        2 * LINE_HEIGHT if placed.entry.who == "computed" and placed.entry.kind.width >= WIDE else LINE_HEIGHT
    )  # it grows as one types
    return max(least + CELL_EDGES, text_height(text, width - INDENT_WIDTH) + CELL_EDGES, label + CELL_EDGES)
