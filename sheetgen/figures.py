"""Figures: all that the formulas of a style give, without a file."""

from __future__ import annotations

from sheetgen.sheets import BOOK
from sheetgen.workbook.layout import plan
from sheetgen.workbook.values import Ready, Values, fixed_values, ready, shape_of
from sheetgen.workbook.writing.file import calculated


def figures(values: Values) -> tuple[Ready, Values]:
    """The book in the shape of these values, and every value of it: typed, fixed and calculated."""
    book = ready(BOOK, shape_of(BOOK, values))
    full = {**values, **fixed_values(book)}
    _, where = plan(book, full)
    return book, {**full, **calculated(book, full, where)[1]}
