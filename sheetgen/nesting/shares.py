"""Shares: a piece's details as shares of its box, each kept within bounds, so that no number breaks an outline."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

from sheetgen.drawing.shapes import Path
from sheetgen.nesting.pieces import MOST_CM, Piece

STEPS = 6
"""Straight pieces of one curve: a neck or an armhole is cut no finer, and a search is the slower the more there are."""


@dataclass(frozen=True)
class Shares:
    """The details of one piece. `whole` is the width in cm that counts as 1: the box, or half of one that is mirrored."""

    piece: Piece
    whole: float

    def across(self, key: str, usual: float, low: float, high: float, times: float = 1) -> float:
        """A detail as a share of the width, `usual` where it is not given; never below `low` nor above `high`."""
        return self._share(key, self.whole, usual, low, high, times)

    def beside(self, key: str, widest: str, usual: float, low: float, high: float) -> float:
        """Half a width at the side seam, as a share: narrower than the box by as much as it is than the widest place.

        Where the widest place is not given, the box is taken for it.
        """
        if not self.has(key):
            return clamped(usual, low, high)
        return clamped(
            1 + (self.piece.details[key] / 2 - self.centimeters(widest, 2 * self.whole) / 2) / self.whole, low, high
        )

    def along(self, key: str, usual: float, low: float, high: float, times: float = 1) -> float:
        """A detail as a share of the length."""
        return self._share(key, self.piece.length, usual, low, high, times)

    def centimeters(self, key: str, usual: float) -> float:
        """A detail as it is, `usual` where it is not given or no length that a piece can have."""
        value = self.piece.details.get(key, math.nan)
        return value if 0 < value <= MOST_CM else usual

    def has(self, key: str) -> bool:
        """Whether a detail is given and can be a length."""
        return self.centimeters(key, 0.0) > 0

    def _share(self, key: str, of: float, usual: float, low: float, high: float, times: float) -> float:
        share = self.piece.details[key] / of * times if self.has(key) else usual
        return clamped(share, low, high)


def clamped(value: float, low: float, high: float) -> float:
    """The value, or the bound that it passes; `low` where the bounds have changed places."""
    return max(min(value, high), low)


Shape = Callable[[Shares], Path]
"""Draws an outline of any size, x across the piece and y along it, from its top at 0 down to its hem at 1."""


@dataclass(frozen=True)
class Drawn:
    """How a kind is drawn: its shape; whether both sides of a center line are; whether its length lies across."""

    shape: Shape
    centered: bool = False
    band: bool = False
