"""What an answer answered: its row's article or point, its unit, its currency, its size, colorway or round.

The copy was out for weeks, and the working workbook went on. An answer goes where what it answered stands now; where that is
something else now, or nothing, it is a conflict, and a person decides.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from sheetgen.declare.entry import REF, Entry, Place
from sheetgen.declare.families import MEMBER
from sheetgen.declare.kinds import PictureMark, Value
from sheetgen.declare.parts import Table
from sheetgen.texts import say
from sheetgen.trade.lengths import convert
from sheetgen.workbook.exchange.receipts import Receipt
from sheetgen.workbook.model.compare import same, shown_text
from sheetgen.workbook.model.values import Values, refs, with_words
from sheetgen.workbook.read.found import Returned
from sheetgen.workbook.read.taking import as_length

_AXIS = {letter: axis for axis, letter in MEMBER.items()}
_MEMBER = re.compile(r"_([a-z])(\d+)(?=_|\Z)")


def as_typed(entry: Entry, value: Value, unit: str) -> Value:
    """A length that was typed as text (12 3/8) becomes the number that it means, a number that is a name (size 34) a text."""
    if entry.kind.name == "choice" and isinstance(value, int | float) and not isinstance(value, bool):
        return f"{value:.15g}"
    if entry.kind.name == "length" and isinstance(value, str):
        read = as_length(value, unit)
        return value if read is None else read
    return value


class Landing(NamedTuple):
    """Where an answer goes in the working workbook, as what, and why it may not; `sent` is what was sent, in today's unit."""

    place: Place
    sent: Value | PictureMark
    came: Value
    reason: str = ""


@dataclass
class Context:
    """Finds for each answer what it answered. `says` tells for a table which of its columns say what a row is."""

    says: Mapping[str, Sequence[str]]
    working: Returned
    values: Values
    receipt: Receipt
    returned: Returned
    _rows: dict[tuple[str, str], str] = field(default_factory=dict)

    def landing(self, place: Place) -> Landing:
        """Where the answer in a place of the return goes."""
        entry = self.returned.ready.book.entries[place.entry].entry
        unit = dict(self.returned.ready.shape.words)["{unit}"]
        sent, typed = self.receipt.values.get(place), self.returned.typed.get(place)
        came = as_typed(entry, typed, unit)
        moved, reason = self._member(place)
        if moved.entry not in self.working.ready.book.entries:
            return Landing(place, sent, came, reason or say("the working workbook has no such cell any more"))
        now = self._in_unit(entry, came)
        assert not isinstance(now, PictureMark)  # a return holds pictures, no marks of them
        return Landing(moved, self._in_unit(entry, sent), now, reason or self._row(moved) or self._money(place, entry))

    def _member(self, place: Place) -> tuple[Place, str]:
        """The same entry of the size, colorway or round that was answered, which may stand elsewhere now."""
        name, reason = place.entry, ""
        for letter, number in _MEMBER.findall(place.entry):
            table = self.returned.ready.book.axes.get(_AXIS.get(letter, ""))
            if table is None:
                continue
            now, why = self._position(table, int(number))
            reason = reason or why
            if now != int(number):
                name = re.sub(rf"_{letter}{number}(?=_|\Z)", f"_{letter}{now}", name)
        return Place(name, place.row), reason

    def _position(self, table: str, number: int) -> tuple[int, str]:
        """Where the member stands now that was this one when the copy left, and why it is not the same any more."""
        then = refs(table, self.receipt.values)
        if number > len(then):
            return number, ""
        row, now = then[number - 1], refs(table, self.values)
        if row not in now:
            return number, say("{what} is not in the style any more", what=self._name(table, row))
        return now.index(row) + 1, self._row(Place(f"{table}.", row))

    def _name(self, table: str, row: str) -> str:
        key = self.returned.ready.book.tables[table][1].key
        return f"{row} {shown_text(self.receipt.values.get(Place(f'{table}.{key}', row)))}".strip()

    def _row(self, place: Place) -> str:
        """Why a place's row is not the one any more that was answered; empty where it is."""
        table = place.entry.rpartition(".")[0]
        if not place.row or table not in self.returned.ready.book.tables:
            return ""
        if (table, place.row) not in self._rows:
            self._rows[table, place.row] = ""  # a row that points at itself, over others, is none the less what it is
            self._rows[table, place.row] = self._changed(table, self.returned.ready.book.tables[table][1], place.row)
        return self._rows[table, place.row]

    def _changed(self, table: str, declared: Table, row: str) -> str:
        if declared.mirrors:
            return self._row(Place(f"{declared.mirrors}.", row))
        entries = self.returned.ready.book.entries
        if declared.rows or entries[f"{table}.{declared.key}"].entry.who == "vendor":
            return ""
        key = Place(f"{table}.{declared.key}", row)
        if self.receipt.values.get(key) in (None, ""):
            return self._filled_meanwhile(table, row)
        if self.values.get(key) in (None, ""):
            return say("{what} is not there any more", what=self._name(table, row))
        for name in (declared.key, *self.says.get(table, ())):
            place = Place(f"{table}.{name}", row)
            column = entries.get(place.entry)
            if column is None or column.entry.who == "vendor":
                continue
            then, now = self._in_unit(column.entry, self.receipt.values.get(place)), self.values.get(place)
            other, _, last = column.entry.kind.source.rpartition(".")
            if last == REF and same(then, now) and (why := self._row(Place(f"{other}.", str(now)))):
                return why
            if not same(then, now):
                return say(
                    "{what} was sent as {heading} {then}, and is {now} now",
                    what=row, heading=with_words(column.entry.heading, self.working.ready.shape),
                    then=shown_text(then), now=shown_text(now, than=then),
                )  # fmt: skip
        return ""

    def _filled_meanwhile(self, table: str, row: str) -> str:
        """Whether a row that said nothing when it was sent says something now."""
        for place, now in self.values.items():
            column = self.returned.ready.book.entries.get(place.entry)
            own = column is not None and column.entry.who == "designer"
            if (
                place.row == row
                and own
                and place.entry.rpartition(".")[0] == table
                and place not in self.receipt.values
            ):
                return say("{row} was empty when it was sent, and says {now} now", row=row, now=shown_text(now))
        return ""

    def _in_unit(self, entry: Entry, value: Value | PictureMark) -> Value | PictureMark:
        """A length in the unit that the working workbook has now."""
        then, now = (dict(one.ready.shape.words)["{unit}"] for one in (self.returned, self.working))
        if then == now or entry.kind.name != "length" or not isinstance(value, int | float):
            return value
        return convert(float(value), then, now)

    def _money(self, place: Place, entry: Entry) -> str:
        """Whether an amount was answered in the style's currency, which is another one now; one that says its own is not."""
        then, now = (dict(one.ready.shape.words)["{currency}"] for one in (self.returned, self.working))
        if then == now or (entry.kind.name != "money" and "{currency}" not in entry.heading):
            return ""
        home = place.entry.rpartition(".")[0]
        said = self.returned.typed.get(Place(f"{home}.currency", place.row)) or self.returned.typed.get(
            Place(f"{home.partition('.')[0]}.currency")
        )
        if said and "{currency}" not in entry.heading:
            return ""
        return say("it was asked in {then}, and the style is in {now} now", then=then, now=now)
