"""Look: one quiet style for every sheet: colors by who fills, formats by kind, the words that go with each color.

Never color alone: each column and each field also says in a word who fills it.
"""

from __future__ import annotations

from dataclasses import dataclass

from sheetgen.declare.entry import Entry
from sheetgen.declare.kinds import Kind, units
from sheetgen.texts import marked, say

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
    """How a kind of cell looks: its word, the fill while it must still be filled, and the fill otherwise."""

    word: str
    to_fill: str
    filled: str
    meaning: str


ROLES = {
    "designer": Role(marked("designer"), "#BFDDEE", "#EFF6FA", marked("the brand fills it")),
    "vendor": Role(marked("vendor"), "#FFD98A", "#FFF8E7", marked("the factory fills it")),
    "computed": Role(marked("computed"), "#F1F1EE", "#F1F1EE", marked("by formula")),
    "private": Role(marked("brand only"), "#D9C6E4", "#F5EFF8", marked("not sent")),
    "fixed": Role(marked("list"), "#FFFFFF", "#FFFFFF", marked("given")),
}


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


def labelled(heading: str, entry: Entry, sheet_private: bool) -> str:
    """A field's label: its heading and, in a word, who fills it."""
    role = role_of(entry, sheet_private)
    return heading if role in {"computed", "fixed"} else f"{heading}  · {say(ROLES[role].word)}"


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
