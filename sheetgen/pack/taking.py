"""What stands in a file's places, as the typesetter takes it: words as people write them, pictures beside."""

from __future__ import annotations

import datetime
from typing import Any, Protocol

from sheetgen.declare.entry import Entry, Place
from sheetgen.declare.kinds import DAY_ZERO, Kind, Picture, Value
from sheetgen.declare.parts import Column
from sheetgen.trade.lengths import decimal_text, length_text
from sheetgen.workbook.model.geometry import Geometry
from sheetgen.workbook.model.marks import marks_kept
from sheetgen.workbook.model.values import Ready, Values, with_words


class Source(Protocol):
    """What pages are made of: a file that was read, or a copy as it is written."""

    @property
    def ready(self) -> Ready:
        """Its book."""

    @property
    def typed(self) -> Values:
        """What is typed or drawn in it."""

    @property
    def shown(self) -> Values:
        """What its formulas give."""

    @property
    def where(self) -> Geometry:
        """Where its places stand."""


class Taking:
    """Takes block after block; what is the brand's own is never taken, whoever the file is for."""

    def __init__(self, got: Source, drawn: Values) -> None:
        self.got = got
        self.pictures: dict[str, bytes] = {}
        self.texts: list[tuple[str, Place]] = []
        self.taken: set[Place] = set()
        self.anchored: set[str] = set()
        self.marked: dict[str, dict[str, Any]] = {}
        words = dict(got.ready.shape.words)
        self.unit, self.parts = words["{unit}"], int(words["{parts}"])
        self.known: dict[Place, Value] = {**got.shown, **got.typed, **drawn}

    def column(self, address: str) -> Column | None:
        """An entry that may be shown."""
        column = self.got.ready.book.entries.get(address)
        return None if column is None or column.entry.private or column.sheet.private else column

    def value(self, place: Place) -> Value:
        """What stands there, typed or worked out."""
        value = self.known.get(place)
        return None if value == "" else value

    def heading(self, entry: Entry) -> str:
        """An entry's heading, its holes filled."""
        return with_words(entry.heading, self.got.ready.shape)

    def column_heading(self, entry: Entry, beside: list[Entry]) -> str:
        """A column's heading; with its size or colorway where others beside it are called the same."""
        heading = self.heading(entry)
        alike = [one for one in beside if one.family == entry.family and self.heading(one) == heading]
        return f"{heading}, {entry.member_title}" if entry.family and len(alike) > 1 else heading

    def cell(self, place: Place, entry: Entry) -> Any:
        """What stands in a place, as the typesetter takes it; None for nothing."""
        value = self.value(place)
        if value is None:
            return None
        self.taken.add(place)
        if isinstance(value, Picture):
            return {"image": self.picture(value), "words": f"{self.heading(entry)} {place.row}".strip()}
        if entry.kind.name == "color" and isinstance(value, str) and entry.kind.wrong(value) is None:
            return {"swatch": value}
        text = self.words(entry.kind, value)
        self.texts.append((text, place))
        return text

    def picture_at(self, place: Place) -> Picture | None:
        """The picture that stands there, taken."""
        value = self.value(place)
        if not isinstance(value, Picture):
            return None
        self.taken.add(place)
        return value

    def picture(self, picture: Picture) -> str:
        """A picture's name beside the document."""
        name = f"{picture.digest[:16]}.{'svg' if picture.vector else picture.ending}"
        self.pictures[name] = picture.vector.encode() if picture.vector else picture.data
        return name

    def drawing(self, picture: Picture, words: str) -> dict[str, Any]:
        """A drawing with the marks on it, each a row's ref; a row leads back to the last drawing that has its mark."""
        marks = [{**mark._asdict(), "first": False} for mark in marks_kept(picture.data)]
        self.marked |= {str(mark["ref"]): mark for mark in reversed(marks)}
        return {"image": self.picture(picture), "words": words, "marks": marks}

    def settled(self) -> None:
        """Which marks rows lead to, once all pages are made."""
        for ref, mark in self.marked.items():
            mark["first"] = ref in self.anchored

    def anchor(self, ref: str) -> str | dict[str, str]:
        """A row's ref; where it stands for the first time, links to it lead there."""
        if ref in self.anchored:
            return ref
        self.anchored.add(ref)
        return {"anchor": ref}

    def words(self, kind: Kind, value: Value) -> str:
        """A value as people write it: lengths in inches as fractions, shares in percent, days as in ISO 8601."""
        if isinstance(value, datetime.date):
            return value.isoformat()
        if not isinstance(value, int | float):
            return str(value)
        if kind.name == "length":
            return length_text(float(value), self.unit, self.parts)
        if kind.name == "percent":
            return f"{round(value * 100, kind.digits):g} %"
        if kind.name == "date":
            return (DAY_ZERO + datetime.timedelta(days=int(value))).isoformat()
        return f"{value:,.{kind.digits}f}" if kind.name == "money" else decimal_text(value, kind.digits)
