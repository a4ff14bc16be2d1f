"""How wide words are in the sheets' font, and how many lines they take."""

from __future__ import annotations

from functools import lru_cache

FONT_POINTS = 10
PIXELS_PER_INCH = 96
_EM = FONT_POINTS / 72 * PIXELS_PER_INCH / 1000
_ASCII = (
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
    1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
    333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
    556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
)  # fmt: skip
"""Advance widths of Helvetica from the blank to the tilde, in thousandths of its size: the font metrics that Adobe publishes for
the 14 fonts of PDF. Arial and Liberation Sans have the same."""
_BOLD = (
    278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
    556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
    975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
    667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
    333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
    611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584,
)  # fmt: skip
"""The same of Helvetica-Bold."""
_OTHER, _WIDE = 722, 1000
"""Letters with marks are as wide as without, at most as a capital; from this code point on most are as wide as high."""
_WIDE_SCRIPTS = 0x1100


class _Widths(dict[str, int]):
    """The width of each letter, in thousandths of its size; of one that is not in the published list when it is first met."""

    def __missing__(self, letter: str) -> int:
        self[letter] = _WIDE if ord(letter) >= _WIDE_SCRIPTS else _OTHER
        return self[letter]


_REGULAR_WIDTHS, _BOLD_WIDTHS = (
    _Widths({chr(code): wide for code, wide in enumerate(widths, 32)}) for widths in (_ASCII, _BOLD)
)


def pixels_wide(text: str, *, bold: bool = False) -> float:
    """Pixels of a line of text at a hundred percent."""
    return sum(map((_BOLD_WIDTHS if bold else _REGULAR_WIDTHS).__getitem__, text)) * _EM


@lru_cache(maxsize=1 << 13)  # headings and choices stand in many rows, and in the next book again
def lines_in(text: str, pixels: float, *, bold: bool = False) -> int:
    """How many lines a text takes where so many pixels are wide: words stay whole where they are shorter than a line."""
    return sum(_lines(line, max(pixels, 1.0), bold=bold) for line in text.split("\n"))


def _at_most(line: str, *, bold: bool) -> float:
    """No line of these words is wider: where one may break behind a hyphen, a blank is counted."""
    return pixels_wide(line, bold=bold) + line.count("-") * pixels_wide(" ", bold=bold)


def _lines(line: str, room: float, *, bold: bool) -> int:
    if _at_most(line, bold=bold) <= room:
        return 1
    lines, used = 1, 0.0
    no_blanks = any(ord(letter) >= _WIDE_SCRIPTS for letter in line)
    blank = 0.0 if no_blanks else pixels_wide(" ", bold=bold)
    for word in list(line) if no_blanks else line.replace("-", "- ").split():
        wide = pixels_wide(word, bold=bold)
        if used and used + blank + wide > room:
            lines, used = lines + 1, 0.0
        used += (blank if used else 0.0) + wide
        while used > room and len(word) > 1:  # a word that is longer than a line goes on in the next
            lines, used = lines + 1, used - room
    return lines
