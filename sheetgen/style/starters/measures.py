"""Measures of a starter: a garment's points as rows of a brief, children's figures, sizes.

Used by the starters; the figures of adults stand in `sheetgen.garments` only. All of it is common practice.
"""

from __future__ import annotations

import re
from typing import Final

from sheetgen.garments import Garment, Point
from sheetgen.style.starters import units
from sheetgen.style.starters.layers import Data, Rows
from sheetgen.trade.sizes import LETTER_BANDS, PRIMARY_DIMENSION

MINIMUM_PLUS_CM: Final = 5.0
"""Upper tolerance of a least value, where more is no fault: wide enough that no good sample is called out."""

CHILD_HEIGHTS: Final = (98, 104, 110, 116, 122, 128)
"""Body heights in cm, 6 apart as EN 13402 has them: a customary range for small children."""
CHILD_SAMPLE: Final = "116"
_CHILD_CM: Final = 116
_ADULT_CM: Final = 180
_HEIGHT_STEP_CM: Final = 6

# The first whose word is in the point's name; heads, necks and wrists of a child are large for its height.
_CHILD_FACTORS: Final = (
    ("minimum neck stretch", 0.9),
    ("neck width", 0.8),
    ("collar length", 0.8),
    ("hood", 0.8),
    ("cuff opening", 0.78),
    ("cuff length", 0.78),
    ("height", 0.7),
    ("drop", 0.7),
    ("slope", 0.7),
    ("placket", 0.7),
    ("pocket", 0.7),
    ("collar point", 0.7),
)
_CHILD_GIRTH: Final = 0.66
_CHILD_TOLERANCE_CM: Final = 0.75


def for_child(point: Point) -> Point:
    """A top's point for a child 116 cm tall, from the adult's (180 cm). Common practice, from memory.

    Base: lengths by body height (116 / 180), girths and widths x 0.66, wrists x 0.78, neck, collar length and hood x
    0.8, the neck stretched over the head x 0.9, details (heights of ribs and collars, drops, pockets) x 0.7; on 0.5 cm,
    below 10 cm on 0.1. Step to the next 6 cm of height: lengths grow with height (base x 6 / 116, on 0.25), all else by
    half of the adult's step (on 0.05); what holds, holds. Tolerance: the adult's, at most 0.75.
    """
    factor = next((number for word, number in _CHILD_FACTORS if word in point.point), None)
    lengthwise = factor is None and point.runs == "length"
    if factor is None:
        factor = _CHILD_CM / _ADULT_CM if lengthwise else _CHILD_GIRTH
    base = point.base_cm * factor
    base = units.rounded(base, 0.5 if base >= 10 else 0.1)
    step = (
        units.rounded(base * _HEIGHT_STEP_CM / _CHILD_CM, 0.25)
        if lengthwise
        else units.rounded(point.step_cm / 2, 0.05)
    )
    return point._replace(
        how=re.sub(
            r"about (\d+) cm", lambda found: f"about {round(int(found[1]) * _CHILD_CM / _ADULT_CM)} cm", point.how
        ),
        base_cm=base,
        step_cm=step if point.step_cm else 0.0,
        tolerance_cm=min(point.tolerance_cm, _CHILD_TOLERANCE_CM),
    )


def shorten_extras(callouts: Rows) -> None:
    """A child's seams that no point gives, by the factor of girths, on 0.5 cm."""
    for callout in callouts:
        extra = callout.get("extra")
        if isinstance(extra, int | float):
            callout["extra"] = units.rounded(extra * _CHILD_GIRTH, 0.5)


def row(point: Point, unit: str) -> Data:
    """The point as a row of the measurement table: figures to overtype, and beside them as the suggestions they are."""
    base = units.length(point.base_cm, unit, 0)
    step, minus, plus = (
        units.length(cm, unit, units.SMALL_IN)
        for cm in (point.step_cm, point.tolerance_cm, MINIMUM_PLUS_CM if point.is_minimum else point.tolerance_cm)
    )
    how = units.words(point.how, unit) + ("; a least value, more is no fault" if point.is_minimum else "")
    return {
        "point": point.point[0].upper() + point.point[1:],
        "how": how,
        "extent": point.half_or_full,
        "minus": minus,
        "plus": plus,
        "base": base,
        "step": step,
        "drawn": point.point,
        "direction": point.runs,
        "suggested_base": base,
        "suggested_step": step,
        "suggested_minus": minus,
        "suggested_plus": plus,
    }


def adult_sizes(garment: Garment, sizes: Rows) -> Rows:
    """The sizes with the body girth that their letter stands for (EN 13402-3), where the garment goes by it."""
    body = garment.body
    girths = {
        band.letter: f"{PRIMARY_DIMENSION[band.body]} {band.from_cm:g} to {band.to_cm:g} cm"
        for band in LETTER_BANDS
        if band.body == body
    }
    return [size if "body" in size or not body else {**size, "body": girths[str(size["name"])]} for size in sizes]


def child_sizes() -> Rows:
    """Children's sizes, each named by the body height."""
    return [{"name": str(height), "body": f"body height {height} cm"} for height in CHILD_HEIGHTS]
