"""Lengths in cm, mm and inches: exact factors, reading what people type, writing inch fractions.

Used wherever a length enters or leaves a sheet; all arithmetic on what was typed is exact until the last
step. Source of the factors: the definitions of the international yard and pound (1959 agreement), as in NIST
SP 811.
"""

import math
import re
from fractions import Fraction
from typing import Final

INCH_CM: Final = 2.54
"""Centimeters in one inch, exact by definition."""
YARD_M: Final = 0.9144
"""Meters in one yard, exact by definition (36 inches)."""
OUNCE_G: Final = 28.349523125
"""Grams in one avoirdupois ounce, exact by definition (a sixteenth of 453.59237 g)."""
OUNCE_PER_SQUARE_YARD_GSM: Final = OUNCE_G / YARD_M**2
"""Grams per square meter in one ounce per square yard, about 33.905747; from the two definitions above."""

UNITS: Final = ("cm", "mm", "in")
"""The units a length can be shown in."""

_MILLIMETERS: Final = {"mm": Fraction(1), "cm": Fraction(10), "in": Fraction(254, 10)}

_VULGAR: Final = {
    "½": "1/2",
    "⅓": "1/3",
    "⅔": "2/3",
    "¼": "1/4",
    "¾": "3/4",
    "⅕": "1/5",
    "⅖": "2/5",
    "⅗": "3/5",
    "⅘": "4/5",
    "⅙": "1/6",
    "⅚": "5/6",
    "⅛": "1/8",
    "⅜": "3/8",
    "⅝": "5/8",
    "⅞": "7/8",
}
# Spreadsheet programs and phones turn plain marks into these while a person types.
_PLAIN: Final = str.maketrans({"\u2212": "-", "\u2010": "-", "\u2011": "-", "\u2013": "-", "\u2044": "/"})
_UNIT_MARKS: Final = {
    "": "",
    "cm": "cm",
    "mm": "mm",
    "in": "in",
    "in.": "in",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "''": "in",
    "\u2033": "in",
    "\u201d": "in",
}
_LONGEST_TEXT: Final = 40
_LENGTH: Final = re.compile(
    r"""(?P<sign>[+-]?)\s*
    (?: (?:(?P<whole>[0-9]+)(?:\s+|-))?(?P<top>[0-9]+)\s*/\s*(?P<bottom>[0-9]+)
      | (?P<decimal>[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+) )
    \s*(?P<mark>[^0-9\s/-]*)""",
    re.VERBOSE,
)
_THOUSANDS: Final = re.compile("[1-9][0-9]{0,2},[0-9]{3}")


def parse_length(text: str, unit: str) -> float | None:
    """Read a length as people type it and return it in `unit` ("cm", "mm" or "in").

    A number without a mark, fractions included, is in `unit`; a mark (cm, mm, in, ") overrides it.
    A comma is a decimal comma ("31,4"), but before three figures it may be a thousands mark ("1,234"): that
    is refused rather than guessed, except after a zero. None for anything that is not one length.
    Raises ValueError for an unknown `unit`.
    """
    target = _millimeters(unit)
    if len(text) > _LONGEST_TEXT:
        return None
    found = _LENGTH.fullmatch(_spell_out(text))
    if found is None or found["mark"].lower() not in _UNIT_MARKS:
        return None
    amount = _amount(found)
    if amount is None:
        return None
    source = _UNIT_MARKS[found["mark"].lower()] or unit
    signed = -amount if found["sign"] == "-" else amount
    return float(signed * _MILLIMETERS[source] / target)


def length_text(value: float, unit: str, parts: int = 16) -> str:
    """A length as a sheet in that unit shows it: inches as fractions of so many parts, others with two digits at most."""
    return fraction_text(value, parts) if unit == "in" else decimal_text(value, 2)


def decimal_text(value: float, digits: int) -> str:
    """A number with so many digits at most, without a needless end: 12.50 becomes '12.5', 3.00 becomes '3'."""
    text = f"{value:,.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def fraction_text(inches: float, parts: int = 16) -> str:
    """Write inches as a whole number and a reduced fraction: 12.375 becomes '12 3/8', nothing becomes '0'.

    `parts` is the number of parts of an inch to round to (16 = sixteenths). Halves between two parts go away
    from zero, so that plus and minus of one value look alike. The error is at most half a part. Raises
    ValueError for a value that is not finite or for `parts` below 1.
    """
    if parts < 1 or not math.isfinite(inches):
        raise ValueError(f"cannot write {inches!r} in parts of 1/{parts} inch")
    steps = math.floor(abs(Fraction(inches)) * parts + Fraction(1, 2))
    whole, rest = divmod(steps, parts)
    words = [str(whole)] if whole else []
    if rest:
        words.append(str(Fraction(rest, parts)))
    if not words:
        return "0"
    return ("-" if inches < 0 else "") + " ".join(words)


def convert(value: float, from_unit: str, to_unit: str) -> float:
    """Turn a length from one of "cm", "mm", "in" into another; exact but for one rounding of the float.

    Raises ValueError for an unknown unit.
    """
    factor = _millimeters(from_unit) / _millimeters(to_unit)
    return value * factor.numerator / factor.denominator


def _millimeters(unit: str) -> Fraction:
    if unit not in _MILLIMETERS:
        raise ValueError(f"unknown unit of length {unit!r}; known: {', '.join(UNITS)}")
    return _MILLIMETERS[unit]


def _spell_out(text: str) -> str:
    """Plain marks, and '12½' as '12 1/2'; not by Unicode normal form, which would make it 121/2."""
    plain = text.translate(_PLAIN).strip()
    for sign, words in _VULGAR.items():
        plain = re.sub(rf"([0-9])\s*{sign}", rf"\1 {words}", plain).replace(sign, words)
    return plain


def _amount(found: re.Match[str]) -> Fraction | None:
    """The size of the number found, without sign and unit; None for a fraction nobody would write."""
    if found["decimal"]:
        if _THOUSANDS.fullmatch(found["decimal"]):
            return None
        return Fraction(found["decimal"].replace(",", ".").rstrip("."))
    top, bottom = int(found["top"]), int(found["bottom"])
    if bottom == 0 or (found["whole"] and top >= bottom):
        return None
    return int(found["whole"] or 0) + Fraction(top, bottom)
