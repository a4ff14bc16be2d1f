"""A chart's space in pixels: what title, legend, axes and units take, so that no program has to guess it.

Programs lay a chart out each in its own way, and some leave half of it empty.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

_TITLE, _LINE, _EDGE = 42, 17, 24
_LETTER = 5.8
"""Mean width of a letter of nine points."""
_KEY = 32
"""What a legend's entry takes beside its name."""


@dataclass(frozen=True)
class Space:
    """The drawing's width and height, and how much of it lies around the bars or lines."""

    wide: int
    high: int
    left: float
    right: float
    below: float
    above: float = _TITLE

    @property
    def inner(self) -> tuple[float, float]:
        """Width and height of what is drawn between the axes."""
        return max(self.wide - self.left - self.right, 40.0), max(self.high - self.above - self.below, 20.0)

    @property
    def layout(self) -> dict[str, float]:
        """The same as shares of the whole, as xlsxwriter wants it."""
        inner_wide, inner_high = self.inner
        shares = {
            "x": self.left / self.wide, "y": self.above / self.high,
            "width": inner_wide / self.wide, "height": inner_high / self.high,
        }  # fmt: skip
        return {key: round(min(share, 1.0), 4) for key, share in shares.items()}


def width_of(text: str) -> float:
    """About how wide a text of nine points is."""
    return len(text) * _LETTER


def lying(wide: int, high: int, names: Sequence[str], longest: str, *, beside: bool) -> Space:
    """For lying bars, with numbers up to the `longest` below: the legend is `beside` them, or under all."""
    key = max(map(width_of, names)) + _KEY
    side = max(_EDGE, width_of(longest) / 2 + _EDGE / 3)
    axis_and_unit = 2.4 * _LINE
    if beside:
        return Space(wide, high, side, min(key + side, wide * 0.45), axis_and_unit + _EDGE / 3)
    return Space(wide, high, side, side, axis_and_unit + _legend(wide, names))


def standing(wide: int, high: int, names: Sequence[str], longest: str, categories: Sequence[str]) -> Space:
    """For standing bars and lines, with numbers up to the `longest` at the left and the categories below."""
    left = 1.5 * _LINE + width_of(longest) + _EDGE / 3
    slot = (wide - left - _EDGE) / max(len(categories), 1)
    lines = min(3, max((math.ceil(width_of(text) / slot) for text in categories), default=1))
    return Space(wide, high, left, _EDGE, (1.6 + max(lines, 1)) * _LINE + _legend(wide, names))


def _legend(wide: int, names: Sequence[str]) -> float:
    """Height of a legend below: its entries stand in columns."""
    across = max(1, int(wide * 0.9 / (max(map(width_of, names)) + _KEY)))
    return math.ceil(len(names) / across) * _LINE + _EDGE / 3
