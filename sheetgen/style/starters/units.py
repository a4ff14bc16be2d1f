"""A starter in another unit: its lengths, the lengths in its words, its stitch density.

Used when a starter is asked for in inches or millimeters; the files are written in cm. Which entries are lengths is
what the book says. Eighths of an inch, sixteenths for small details: common practice.
"""

from __future__ import annotations

import math
import re
from typing import Final

from sheetgen.sheets import BOOK
from sheetgen.style.starters.layers import Data, section
from sheetgen.trade.lengths import INCH_CM, convert, fraction_text

SMALL_IN: Final = 0.25
"""Steps and tolerances below this many inches are on the grid of 1/16."""
_SMALL_LENGTH_IN: Final = 0.5
_LARGE_IN: Final = 20
_WORDS: Final = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?(?: (?:to|x) \d+(?:\.\d+)?)*) cm\b")


def rounded(value: float, grid: float) -> float:
    """`value` on a grid, halves away from zero; never 0 for a value that is not."""
    steps = math.floor(abs(value) / grid + 0.5 + 1e-9)
    if value and not steps:
        steps = 1
    return math.copysign(round(steps * grid, 6), value) if value else 0.0


def length(cm: float, unit: str, small_below_in: float) -> float:
    """A length of the files in `unit`; inches on 1/8, below the given limit on 1/16."""
    value = convert(cm, "cm", unit)
    if unit != "in":
        return round(value, 6)
    return rounded(value, 1 / 16 if abs(value) < small_below_in else 1 / 8)


def change(data: Data, unit: str) -> None:
    """Turn all of a starter but its points of measure from cm into `unit`."""
    section(data, "style")["unit"] = unit
    if unit == "cm":
        return
    for sheet, content in data.items():
        if isinstance(content, dict):
            for key, value in content.items():
                content[key] = _changed(f"{sheet}.{key}", value, unit)
    if unit == "in":
        section(data, "construction")["density_unit"] = "stitches per inch"


def words(text: str, unit: str) -> str:
    """A text with the lengths in it in `unit`: `turn up 2 cm` becomes `turn up 3/4 in`."""
    if unit == "cm":
        return text
    return _WORDS.sub(lambda found: f"{_number_words(found[1], unit)} {unit}", text)


def _changed(address: str, value: object, unit: str) -> object:
    if isinstance(value, list):
        return [{key: _changed(f"{address}.{key}", held, unit) for key, held in row.items()} for row in value]
    if isinstance(value, str):
        return words(value, unit)
    if not isinstance(value, int | float):
        return value
    if address == "construction.callouts.density" and unit == "in":
        return float(round(value * INCH_CM))
    column = BOOK.entries.get(address)
    if column is not None and column.entry.kind.name == "length":
        return length(value, unit, _SMALL_LENGTH_IN)
    return value


def _number_words(numbers: str, unit: str) -> str:
    return re.sub(r"\d+(?:\.\d+)?", lambda found: _one(float(found[0]), unit), numbers)


def _one(cm: float, unit: str) -> str:
    if unit == "mm":
        return f"{convert(cm, 'cm', 'mm'):.10g}"
    inches = convert(cm, "cm", "in")
    if inches >= _LARGE_IN:
        return fraction_text(rounded(inches, 1 / 2))
    return fraction_text(length(cm, "in", _SMALL_LENGTH_IN))
