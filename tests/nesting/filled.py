"""How much of its box a piece fills, as the tests ask of every outline."""

from __future__ import annotations

from sheetgen.nesting import Piece, area, outline


def fill(piece: Piece) -> float:
    """The share of its box, length x width, that the piece's outline fills: above 0, at most 1."""
    return min(area(outline(piece)) / (piece.length * piece.width), 1.0)
