"""Kinds: what may stand in a cell, and the half sentence that says what is wrong with it.

Build (entry checks), read, audit and the reference page all ask the kind; none of them knows the rules itself.
"""

from __future__ import annotations

import datetime
import math
import re
from dataclasses import dataclass, field
from hashlib import sha256

from sheetgen.texts import marked, say

MAX_TEXT = 32767
"""Longest text a spreadsheet cell holds (file format limit)."""

MAX_CHOICE = 255
"""Longest entry of a drop-down list (file format limit); headings carry some of them."""
MOST_NUMBER = 10**15
"""A cell keeps 15 digits of a number (file format limit)."""
EARLIEST = datetime.date(1990, 1, 1)
"""No date of a style is earlier; spreadsheet programs disagree about days before March 1900."""

DAY_ZERO = datetime.date(1899, 12, 30)
"""The day that spreadsheet files count from (ECMA-376, part 1, 18.17.4.1; right for all days after February 1900)."""

_FORBIDDEN = re.compile("[\x00-\x08\x0b-\x1f\ufffe\uffff\ud800-\udfff]")
_FILE_MARKS = re.compile("_x000D_|x005F_")
"""How the file format writes a carriage return and escapes itself: readers cannot tell typed ones from its own."""
_HEX_COLOR = re.compile(r"#[0-9A-Fa-f]{6}\Z")


def units(text: str) -> int:
    """A text's length as the file format counts it: most emoji and some rare letters count twice."""
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


@dataclass(frozen=True)
class Picture:
    """A drawing or photo as PNG or JPEG bytes; two pictures are equal when their bytes are.

    `vector` is the same as SVG, for paper. `is_ours` says that the program drew it; a file that was in between does not tell.
    """

    data: bytes = field(repr=False)
    vector: str = field(default="", repr=False, compare=False)
    is_ours: bool = field(default=False, repr=False, compare=False)

    @property
    def digest(self) -> str:
        """The sha-256 of the bytes: how a receipt remembers a picture without carrying it."""
        return sha256(self.data).hexdigest()

    @property
    def is_jpeg(self) -> bool:
        """Whether the bytes begin as a JPEG's do; else they are a PNG's."""
        return self.data.startswith(b"\xff\xd8")

    @property
    def ending(self) -> str:
        """What a file of it is called by."""
        return "jpg" if self.is_jpeg else "png"


@dataclass(frozen=True)
class PictureMark:
    """What a receipt keeps of a picture: the digest of its bytes."""

    digest: str


Value = str | int | float | datetime.date | Picture | None


@dataclass(frozen=True)
class Kind:
    """What a cell may hold. `least`/`most` are inclusive; `choices` or `source` (an entry's address) list what is allowed.

    With `must_stand` the cell points at a row of the source's table: one that is there, and is filled.
    """

    name: str
    digits: int = 2
    least: float | None = None
    most: float | None = None
    choices: tuple[str, ...] = ()
    source: str = ""
    open: bool = False
    width: float = 12
    must_stand: bool = False

    @property
    def is_number(self) -> bool:
        """Whether the cell takes part in arithmetic."""
        return self.name in {"number", "whole", "length", "other_length", "money", "percent"}

    @property
    def noun(self) -> str:
        """What is expected, as half a sentence: `a number of at least 0`."""
        word = say(_NOUNS[self.name])
        if self.choices and not self.open:
            return say("one of: ") + ", ".join(self.choices)
        bounds = [
            say(words, bound=_plain(self.shown_bound(bound)))
            for words, bound in ((_AT_LEAST, self.least), (_AT_MOST, self.most))
            if bound is not None
        ]
        return say("{noun} of {bounds}", noun=word, bounds=say(" and ").join(bounds)) if bounds else word

    def shown_bound(self, bound: float) -> str:
        """A bound as the person at the sheet sees it: 0.5 of a percent entry is 50 %."""
        return f"{_plain(bound * 100)} %" if self.name == "percent" else _plain(bound)

    def wrong(self, value: Value) -> str | None:
        """None if `value` may stand here, else what is wrong, as `must be ...`."""
        if value is None or value == "":
            return None
        if self.name == "picture":
            return None if isinstance(value, Picture) else say("must be a picture")
        if self.name == "date":
            return self._wrong_date(value)
        if self.is_number:
            return self._wrong_number(value)
        return self._wrong_text(value)

    def _wrong_date(self, value: Value) -> str | None:
        if not isinstance(value, datetime.date):
            return say("must be a date, as 2026-03-31")
        day = value.date() if isinstance(value, datetime.datetime) else value
        return None if day >= EARLIEST else say("must be a date from {earliest} on", earliest=EARLIEST)

    def _wrong_number(self, value: Value) -> str | None:
        if isinstance(value, bool) or not isinstance(value, int | float):
            return say("must be {noun}", noun=self.noun)
        if isinstance(value, float) and not math.isfinite(value):
            return say("must be a finite number")
        if abs(value) >= MOST_NUMBER:
            return say("must have at most 15 digits")
        if self.name == "whole" and value != int(value):
            return say("must be a whole number")
        if self.least is not None and value < self.least - 1e-12:
            return say("must be at least {least}", least=self.shown_bound(self.least))
        if self.most is not None and value > self.most + 1e-12:
            return say("must be at most {most}", most=self.shown_bound(self.most))
        return None

    def _wrong_text(self, value: Value) -> str | None:
        if not isinstance(value, str):
            return say("must be {noun}", noun=self.noun)
        longest = MAX_CHOICE if self.name == "choice" else MAX_TEXT
        if units(value) > longest:
            return say("must be at most {longest} characters", longest=longest)
        if _FORBIDDEN.search(value):
            return say("must not hold control characters")
        if _FILE_MARKS.search(value):
            return say("must not hold _x000D_ or x005F_, which workbook files keep for themselves")
        if self.choices and not self.open and value not in self.choices:
            return say("must be {noun}", noun=self.noun)
        if self.name == "color" and not _HEX_COLOR.match(value):
            return say("must be a color as #RRGGBB")
        return None


def _plain(number: float | str) -> str:
    return number if isinstance(number, str) else f"{number:.10g}"


_AT_LEAST, _AT_MOST = marked("at least {bound}"), marked("at most {bound}")
_NOUNS = {
    "text": marked("text"),
    "number": marked("a number"),
    "whole": marked("a whole number"),
    "length": marked("a length"),
    "other_length": marked("a length in the other unit"),
    "money": marked("an amount of money as a number"),
    "percent": marked("a percentage"),
    "date": marked("a date"),
    "choice": marked("a choice of the list"),
    "color": marked("a color as #RRGGBB"),
    "picture": marked("a picture"),
}


def text(width: float = 24) -> Kind:
    """Any text a cell can hold."""
    return Kind("text", width=width)


def number(digits: int = 2, least: float | None = None, most: float | None = None, width: float = 9) -> Kind:
    """A plain number shown with `digits` decimals."""
    return Kind("number", digits, least, most, width=width)


def whole(least: float | None = None, most: float | None = None, width: float = 8) -> Kind:
    """A count."""
    return Kind("whole", 0, least, most, width=width)


def length(least: float | None = None, width: float = 8) -> Kind:
    """A length in the style's unit (cm, mm, or inches shown as fractions)."""
    return Kind("length", 2, least, width=width)


def other_length(width: float = 8) -> Kind:
    """A length in the unit that is not the style's: inches beside centimeters, and the reverse."""
    return Kind("other_length", 2, width=width)


def money(digits: int = 2, least: float | None = 0, width: float = 10) -> Kind:
    """An amount; the currency stands in the heading or in a column of its own."""
    return Kind("money", digits, least, width=width)


def percent(digits: int = 1, least: float | None = 0, most: float | None = 1, width: float = 8) -> Kind:
    """A share, held as 0.05 and shown as 5 %."""
    return Kind("percent", digits, least, most, width=width)


def date(width: float = 11) -> Kind:
    """A calendar day."""
    return Kind("date", width=width)


def choice(*choices: str, open: bool = False, width: float = 12) -> Kind:
    """One of a list; `open` lists suggest and do not refuse."""
    return Kind("choice", choices=choices, open=open, width=width)


def pick(source: str, width: float = 12) -> Kind:
    """Points at a row of another table by its ref or its name, such as a size (`source` is that column's address)."""
    return Kind("choice", source=source, open=True, width=width, must_stand=True)


def suggest(source: str, width: float = 12) -> Kind:
    """Offers what stands in another column now, such as the fibers of the lists; anything else may be typed."""
    return Kind("choice", source=source, open=True, width=width)


def yes_no(width: float = 7) -> Kind:
    """The word yes or no: a word survives every program, a checkbox does not."""
    return Kind("choice", choices=("yes", "no"), width=width)


def color(width: float = 10) -> Kind:
    """A screen color; the cell is filled with it at build. A swatch only suggests, the color reference decides."""
    return Kind("color", width=width)


def picture(width: float = 16) -> Kind:
    """A drawing, photo or scan that stands in the cell's frame."""
    return Kind("picture", width=width)
