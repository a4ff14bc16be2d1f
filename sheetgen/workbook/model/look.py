"""Look: one quiet style for every sheet: colors by who fills, formats by kind, the words that go with each color.

Never color alone: the word for who fills stands once over each run of columns, and a frame tells what is typed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import NamedTuple

from sheetgen.declare.entry import Entry
from sheetgen.declare.kinds import Kind, units
from sheetgen.texts import marked
from sheetgen.trade.contrast import contrast

FONT = "Arial"
INK = "#22303A"
FAINT = "#6B7780"
RULE = "#C9D1D6"
BAND = "#2F4B57"
BAND_TEXT = "#FFFFFF"
HEADING = "#E4EAED"
SECTION = "#CFDADF"
GOOD, BAD = "#D8EBDD", "#F6CFC6"
DARK = (BAND, "#A65A33", "#5A7A56", "#75578B")
LIGHT = ("#A9C4CF", "#E6CB98", "#C3D6BC", "#D5C6DF")
"""A chart's colors. Dark and light stand beside each other in turn, so that they stay apart on a gray print too."""


@dataclass(frozen=True)
class Role:
    """How a kind of cell looks: its word, the fill while it must still be filled, the fill otherwise, and its frame."""

    word: str
    to_fill: str
    filled: str
    frame: str
    meaning: str


ASKED = "#A3261E"
"""The heavy frame of a cell about which something is asked."""
ROLES = {
    "designer": Role(marked("designer"), "#BFDDEE", "#FFFFFF", "#7FA6BC", marked("the brand fills it")),
    "vendor": Role(marked("vendor"), "#FFD98A", "#FFF6DD", "#C99A3B", marked("the factory fills it")),
    "computed": Role(marked("computed"), "#E7E9E8", "#E7E9E8", "#F6F7F7", marked("by formula")),
    "private": Role(marked("brand only"), "#D9C6E4", "#F8F2FB", "#A987BD", marked("not sent")),
    "fixed": Role(marked("list"), "#F1F3F3", "#F1F3F3", "#FFFFFF", marked("given")),
}
"""What is typed stands in a frame, on white or a tint; what is worked out without one, on gray: apart in gray print, too."""


class Accent(NamedTuple):
    """A brand's color: of the band over each sheet, of the words in it, and of titles on white."""

    band: str
    words: str
    titles: str


def accent_of(color: object) -> Accent:
    """The look that a brand's color gives; words in it have a contrast of 4.5 at least (W3C, WCAG 2.1), whatever it is.

    Without one, or with what is no color, it is the house's own.
    """
    band = color.upper() if isinstance(color, str) and _COLOR.fullmatch(color) else BAND
    titles = band
    while contrast(titles[1:], "FFFFFF") < _READABLE:
        titles = "#" + "".join(f"{int(int(titles[at : at + 2], 16) * 0.92):02X}" for at in (1, 3, 5))
    words = max((BAND_TEXT, "#000000"), key=lambda ink: contrast(ink[1:], band[1:]))
    return Accent(band, words, titles)


_COLOR = re.compile("#[0-9A-Fa-f]{6}")
_READABLE = 4.5


def ink_on(color: str) -> str:
    """Black or white, whichever reads better on a color."""
    red, green, blue = (int(color[start : start + 2], 16) for start in (1, 3, 5))
    return "#000000" if red * 0.299 + green * 0.587 + blue * 0.114 > 140 else "#FFFFFF"


def shortened(text: str, most: int) -> str:
    """The text, or its start and three dots, in at most so many of the file format's units."""
    if units(text) <= most:
        return text
    return text.encode("utf-16-le")[: 2 * (most - 1)].decode("utf-16-le", "ignore") + "…"


def role_of(entry: Entry, sheet_private: bool) -> str:
    """Which role an entry has on its sheet: the brand's own comes before who fills."""
    if entry.who in {"computed", "fixed"}:
        return entry.who
    if entry.who == "drawn":
        return "computed"
    return "private" if entry.private or sheet_private else entry.who


def number_format(kind: Kind, unit: str, parts: str = "16") -> str:
    """The number format of a kind; lengths in inches are fractions (sixteenths or eighths)."""
    if kind.name in {"length", "other_length"}:
        in_inches = (unit == "in") == (kind.name == "length")
        if in_inches:
            return f"# {'??' if parts == '16' else '?'}/{parts}"
        return "0" if unit == "mm" else "0.0#"
    if kind.name in {"number", "money"}:
        return "#,##0" + ("." + "0" * kind.digits if kind.digits else "")
    if kind.name == "percent":
        return "0" + ("." + "0" * kind.digits if kind.digits else "") + "%"
    return {"whole": "#,##0", "date": "yyyy-mm-dd"}.get(kind.name, "General")
