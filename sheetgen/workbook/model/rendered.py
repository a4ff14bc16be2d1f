"""Rendered: what a person sees of a cell's value through its number format.

Format codes as ECMA-376 part 1, 18.8.30 and 18.8.31 have them: sections and conditions, digits, thousands, percent,
exponents, fractions, days and times, literals. Names of days and months are English; fills and spaces as wide as a letter
are one space. Two cells are alike to a reader when their renderings are, however each program writes the code.
"""

from __future__ import annotations

import itertools
import math
import re
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache

from sheetgen.workbook.model.times import as_time

_PIECE = re.compile(
    r'(?P<text>"[^"]*"?)|\\(?P<escaped>.?)|_(?P<space>.?)|\*(?P<fill>.?)|\[(?P<bracket>[^\]]*)\]?'
    r"|(?P<general>General)|(?P<half>A/P|AM/PM)|(?P<exponent>E[+-])|(?P<sign>.)",
    re.IGNORECASE | re.DOTALL,
)
_CONDITION = re.compile(r"(<=|>=|<>|<|>|=)\s*(-?\d+(?:\.\d+)?)\Z")
_DATE_LETTERS = frozenset("ymdhsYMDHSbBgGeE")
_DIGITS = frozenset("0#?")
_MOST_GENERAL = 11
"""Characters of a number in the format General."""
_TESTS = {
    "<": float.__lt__, ">": float.__gt__, "=": float.__eq__, "<=": float.__le__, ">=": float.__ge__, "<>": float.__ne__,
}  # fmt: skip


@dataclass
class _Section:
    """One section of a code: its pieces (sort and text), and the condition it is for."""

    pieces: list[tuple[str, str]] = field(default_factory=list)
    condition: tuple[str, float] | None = None

    def has(self, *sorts: str) -> bool:
        return any(sort in sorts for sort, _ in self.pieces)


@lru_cache(maxsize=20_000)
def rendered(value: str | int | float | None, code: str) -> str:
    """What a cell with this value and number format shows, at any width; never raises, whatever the code is."""
    sections = _sections(code or "General")
    if value is None:
        return ""
    if isinstance(value, str):
        section = sections[3] if len(sections) > 3 else next((one for one in sections if one.has("@")), None)
        return (
            value
            if section is None
            else "".join(value if sort == "@" else _literal(sort, text) for sort, text in section.pieces)
        )
    if not math.isfinite(value):
        return str(value)
    section, shown = _chosen(sections, float(value))
    if section is None:
        return "#" * 8
    if section.has("date"):
        return as_time(section.pieces, shown)
    return _as_number(section, shown)


@lru_cache(maxsize=2000)
def _sections(code: str) -> tuple[_Section, ...]:
    sections = [_Section()]
    for match in _PIECE.finditer(code):
        sort = str(match.lastgroup)
        text = match.group(sort) if match.lastgroup else match.group()
        section = sections[-1]
        if sort == "text":
            section.pieces.append(("text", text.strip('"')))
        elif sort == "escaped":
            section.pieces.append(("text", text))
        elif sort in {"space", "fill"}:
            section.pieces.append(("text", " "))
        elif sort == "bracket":
            _bracket(section, text)
        elif sort == "sign" and text == ";":
            sections.append(_Section())
        elif sort == "sign":
            section.pieces.append((_sort_of(text), text))
        else:
            section.pieces.append(("date" if sort == "half" else sort, text))
    return tuple(sections)


def _sort_of(sign: str) -> str:
    if sign in _DIGITS:
        return "digit"
    if sign in ".,%/@":
        return sign
    return "date" if sign in _DATE_LETTERS else "text"


def _bracket(section: _Section, text: str) -> None:
    condition = _CONDITION.match(text.strip())
    if condition:
        section.condition = condition.group(1), float(condition.group(2))
    elif re.fullmatch(r"h+|m+|s+", text, re.IGNORECASE):
        section.pieces.append(("date", f"[{text.lower()}]"))
    elif text.startswith("$"):
        section.pieces.append(("text", text[1:].partition("-")[0]))


def _literal(sort: str, text: str) -> str:
    return text if sort in {"text", "general", "/", ".", ",", "%"} else ""


def _chosen(sections: tuple[_Section, ...], value: float) -> tuple[_Section | None, float]:
    """The section for a number, and the number that it writes: a section for negative ones writes them without sign."""
    numbers = [one for one in sections[:3] if not (one.has("@") and len(sections) > 1 and one is sections[-1])] or [
        sections[0]
    ]
    if any(one.condition for one in numbers):
        for section in numbers:
            if section.condition is None or _TESTS[section.condition[0]](value, section.condition[1]):
                return section, abs(value) if section is not numbers[0] and value < 0 else value
        return None, value
    if value < 0 and len(numbers) > 1:
        return numbers[1], -value
    if value == 0 and len(numbers) > 2:
        return numbers[2], value
    return numbers[0], value


def _as_number(section: _Section, value: float) -> str:
    if section.has("general"):
        return "".join(_general(value) if sort == "general" else _literal(sort, text) for sort, text in section.pieces)
    if not section.has("digit"):
        words = "".join(_literal(sort, text) for sort, text in section.pieces)
        return f"-{words}" if value < 0 and words else words
    value *= 100 ** sum(1 for sort, _ in section.pieces if sort == "%")
    if not math.isfinite(value):
        return "#" * 8
    if section.has("/") and not section.has("."):
        return _as_fraction(section, value)
    if section.has("exponent"):
        return _as_power(section, value)
    return _as_decimal(section, value)


def _general(value: float) -> str:
    if value == int(value) and abs(value) < 10**_MOST_GENERAL:
        return str(int(value))
    size = abs(value)
    if size >= 10**_MOST_GENERAL or size < 1e-9:
        return f"{value:.5E}"
    whole = len(str(int(size)))
    return f"{value:.{max(0, _MOST_GENERAL - 1 - whole)}f}".rstrip("0").rstrip(".")


def _rounded(value: float, digits: int) -> str:
    """Half away from zero, of the decimal number that is shown for the float."""
    shown = Fraction(repr(abs(value))) * 10**digits
    whole = int(shown + Fraction(1, 2))
    text = str(whole).rjust(digits + 1, "0")
    return f"{text[: len(text) - digits]}.{text[len(text) - digits :]}" if digits else text


def _as_decimal(section: _Section, value: float) -> str:
    pieces = section.pieces
    last = max(index for index, (sort, _) in enumerate(pieces) if sort == "digit")
    point = next((index for index, (sort, _) in enumerate(pieces) if sort == "."), len(pieces))
    first = next(index for index, (sort, _) in enumerate(pieces) if sort == "digit")
    scaled = 0
    for sort, _ in pieces[last + 1 :]:
        if sort != ",":
            break
        scaled += 1
    thousands = any(sort == "," for sort, _ in pieces[first : min(last, point)])
    places = [text for sort, text in pieces[point + 1 :] if sort == "digit"]
    whole, _, decimals = _rounded(value / 1000**scaled, len(places)).partition(".")
    signs = [text for sort, text in pieces[:point] if sort == "digit"]
    least = sum(1 for sign in signs if sign == "0")
    whole = whole.lstrip("0").rjust(least, "0")
    if thousands:
        whole = f"{int(whole or 0):,}".rjust(least) if whole else ""
    kept = len(decimals)
    while kept and decimals[kept - 1] == "0" and places[kept - 1] in "#?":
        kept -= 1
    made = _put(pieces, point, whole, decimals[:kept])
    negative = value < 0 and any(sign in "123456789" for sign in whole + decimals)
    return f"-{made}" if negative else made


def _put(pieces: list[tuple[str, str]], point: int, whole: str, decimals: str) -> str:
    """The digits where the code has them: all of the whole part at its first digit, unless literals stand between."""
    before = [index for index, (sort, _) in enumerate(pieces[:point]) if sort == "digit"]
    parts: dict[int, str] = {}
    rest = whole
    for index in reversed(before[1:]):
        parts[index], rest = rest[-1:], rest[:-1]
        while rest[-1:] == ",":
            parts[index], rest = "," + parts[index], rest[:-1]
    if before:
        parts[before[0]] = rest
    after = iter(decimals)
    out: list[str] = []
    for index, (sort, text) in enumerate(pieces):
        if sort == "digit":
            out.append(parts.get(index, "") if index < point else next(after, ""))
        elif sort == ".":
            out.append(".")
        elif sort != ",":
            out.append(_literal(sort, text))
    return "".join(out)


def _as_power(section: _Section, value: float) -> str:
    at = next(index for index, (sort, _) in enumerate(section.pieces) if sort == "exponent")
    places = 0
    if any(sort == "." for sort, _ in section.pieces[:at]):
        point = next(index for index, (sort, _) in enumerate(section.pieces) if sort == ".")
        places = sum(1 for sort, _ in section.pieces[point:at] if sort == "digit")
    wanted = sum(1 for sort, _ in section.pieces[at:] if sort == "digit")
    number, _, power = f"{value:.{places}E}".partition("E")
    return f"{number}E{'-' if power.startswith('-') else '+'}{str(abs(int(power))).rjust(wanted, '0')}"


def _as_fraction(section: _Section, value: float) -> str:
    slash = next(index for index, (sort, _) in enumerate(section.pieces) if sort == "/")
    after = "".join(text for sort, text in section.pieces[slash + 1 :] if sort in {"digit", "text"}).strip()
    before = [index for index, (sort, _) in enumerate(section.pieces[:slash]) if sort == "digit"]
    with_whole = any(b - a > 1 for a, b in itertools.pairwise(before))
    fixed = after.isdigit() and after.strip("0") != ""
    most = int(after) if fixed else 10 ** max(1, sum(1 for one in after if one in "#?0")) - 1
    exact = Fraction(repr(abs(value)))
    part = Fraction(round(exact * most), most) if fixed else exact.limit_denominator(most)
    whole = int(part) if with_whole else 0
    left = part - whole
    above, below = (round(left * most), most) if fixed else (left.numerator, left.denominator)
    words = (
        "".join(_literal(sort, text) for sort, text in section.pieces[: before[0]] if sort == "text") if before else ""
    )
    sign = "-" if value < 0 and part else ""
    if with_whole and not above:
        return f"{words}{sign}{whole}"
    return f"{words}{sign}{whole} {above}/{below}" if whole else f"{words}{sign}{above}/{below}"
