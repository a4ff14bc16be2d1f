"""Figures: all that the formulas of a style give, without a file."""

from __future__ import annotations

from sheetgen.sheets import BOOK
from sheetgen.workbook.model.calculation import shown_by
from sheetgen.workbook.model.values import Ready, Values, fixed_values, ready, shape_of


def figures(values: Values) -> tuple[Ready, Values]:
    """The book in the shape of these values, and every value of it: typed, fixed and calculated."""
    book = ready(BOOK, shape_of(BOOK, values))
    return book, {**values, **fixed_values(book), **shown_by(book, values)}
