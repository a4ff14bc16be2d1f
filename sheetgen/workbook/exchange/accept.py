"""Accepting: what was sent, what came back and what stands in the working file, put together into the next revision.

Nothing is overwritten in silence: what both sides changed is a conflict and stays as it is in the working file.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Literal

from sheetgen.declare.entry import REF, Place
from sheetgen.declare.kinds import Picture, PictureMark, Value
from sheetgen.texts import say
from sheetgen.workbook.exchange.context import Context, as_typed
from sheetgen.workbook.exchange.receipts import Receipt
from sheetgen.workbook.model.compare import same, shown_text
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.found import Returned, Stray

Outcome = Literal["taken", "refused", "conflict"]


@dataclass(frozen=True)
class Change:
    """One value that came back otherwise than it was sent, and what became of it; `to` is where it went if elsewhere."""

    place: Place
    outcome: Outcome
    sent: Value | PictureMark
    returned: Value
    working: Value
    reason: str = ""
    to: Place | None = None


@dataclass
class Acceptance:
    """The values of the next revision, every change with its fate, and what cannot be carried over."""

    values: Values
    changes: list[Change] = field(default_factory=list)
    not_carried: list[str] = field(default_factory=list)

    def of(self, outcome: Outcome) -> list[Change]:
        """The changes with that fate."""
        return [change for change in self.changes if change.outcome == outcome]


@dataclass(frozen=True)
class Wish:
    """What is taken although it is locked, in conflict or added, and what is left although it is clean.

    Each by a place (`materials.bom[M3].price`), a row (`materials.bom[M3]`), a column (`materials.bom.price`), a table or a
    sheet.
    """

    take: tuple[str, ...] = ()
    leave: tuple[str, ...] = ()

    def takes(self, place: Place) -> bool:
        """Whether it is asked for, and not left by a word that says more."""
        return speaks_of(self.take, place) > speaks_of(self.leave, place)

    def leaves(self, place: Place) -> bool:
        """Whether it is to be left, and not asked for by a word that says more."""
        return speaks_of(self.leave, place) > speaks_of(self.take, place)


def speaks_of(words: Collection[str], place: Place) -> int:
    """How exactly one of the words speaks of a place: 0 not at all, 1 of its sheet, up to 5 of it alone."""
    table = place.entry.rpartition(".")[0]
    ways = (place.entry.partition(".")[0], table, place.entry, f"{table}[{place.row}]", str(place))
    return max((number for number, way in enumerate(ways, 1) if way in words), default=0)


def carried(working: Returned) -> tuple[Values, list[str]]:
    """The values that a working file gives to the next one, and in words what in it has no place there.

    A figure typed over a formula that has an entry to keep it (a graded size) goes to that entry.
    """
    entries = working.ready.book.entries
    unit = dict(working.ready.shape.words)["{unit}"]
    values: Values = {}
    lost: list[str] = []
    given = {meeting.place: meeting.sent.shown for meeting in working.accounts.meetings}
    for place, value in working.typed.items():
        entry = entries[place.entry].entry
        if entry.who in {"designer", "vendor"}:
            values[place] = as_typed(entry, value, unit)
        elif entry.keeps:
            values[Place(f"{place.entry.rpartition('.')[0]}.{entry.keeps}", place.row)] = as_typed(entry, value, unit)
        elif entry.who == "computed" and (cell := working.where.at(place)) is not None:
            lost.append(_over_a_formula(cell, value, given.get(place)))
    take_back_drawings(working, values)
    lost.extend(_outside(working.strays))
    lost.extend(say("{title}: the whole sheet is not one of ours", title=title) for title in working.added_sheets)
    return values, lost


def take_back_drawings(working: Returned, values: Values) -> None:
    """Pictures as they were before the program drew on them, and none where all of it was drawn; another one put in their
    place stays."""
    for address, column in working.ready.book.entries.items():
        original, place = column.entry.original, Place(address)
        shown, clean, of = (working.typed.get(Place(one)) for one in (address, original, f"{original}_of"))
        if isinstance(shown, Picture) and shown.digest == of:
            if isinstance(clean, Picture):
                values[place] = clean
            else:
                values.pop(place, None)


def _over_a_formula(cell: Cell, value: Value, given: Value) -> str:
    """A figure typed over a formula, beside what the formula gave when the file was written (None: nothing)."""
    if given in (None, ""):
        return say(
            "{sheet} {address}: {value} was typed over a formula that showed nothing",
            sheet=cell.sheet,
            address=cell.address,
            value=value,
        )
    return say(
        "{sheet} {address}: {value} was typed over a formula that gave {given}",
        sheet=cell.sheet, address=cell.address, value=value, given=shown_text(given),
    )  # fmt: skip


def _outside(strays: Iterable[Stray]) -> Iterator[str]:
    """What stands outside the tables, a line for each row."""
    rows: dict[tuple[str, int], list[Stray]] = defaultdict(list)
    for stray in sorted(strays, key=lambda one: (one.cell.sheet, one.cell.row, one.cell.column)):
        rows[stray.cell.sheet, stray.cell.row].append(stray)
    for (sheet, _), found in rows.items():
        first, last = found[0].cell.address, found[-1].cell.address
        yield say(
            "{sheet} {address}: {value} stands outside the tables",
            sheet=sheet,
            address=first if first == last else f"{first}:{last}",
            value=", ".join(say("“{value}”", value=stray.value) for stray in found),
        )


def merge(
    working: Returned, receipt: Receipt, returned: Returned, to_fix: Mapping[Place, str], wish: Wish = Wish(),
    says: Mapping[str, Sequence[str]] = MappingProxyType({}),
) -> Acceptance:  # fmt: skip
    """Put the three together. `to_fix` are places with a finding of level fix and its message. `says`: see `Context`."""
    values, lost = carried(working)
    result = Acceptance(values, not_carried=lost)
    context = Context(says, working, values, receipt, returned)
    for place in _places(receipt, returned):
        change = _judged(place, context, to_fix, wish)
        if change is None:
            continue
        result.changes.append(change)
        if change.outcome == "taken":
            _put(values, change)
    return result


def _places(receipt: Receipt, returned: Returned) -> Iterable[Place]:
    entries = returned.ready.book.entries
    for place in dict.fromkeys((*receipt.values, *returned.typed)):
        column = entries.get(place.entry)
        if column is not None and column.entry.who in {"designer", "vendor"} and returned.where.at(place) is not None:
            yield place


def _judged(
    place: Place, context: Context, to_fix: Mapping[Place, str], wish: Wish
) -> Change | None:  # fmt: skip
    returned, receipt = context.returned, context.receipt
    entry = returned.ready.book.entries[place.entry].entry
    if same(receipt.values.get(place), returned.typed.get(place)):
        return None
    to, sent, came, elsewhere = context.landing(place)
    now = context.values.get(to)
    asked = wish.takes(place)
    if wish.leaves(place):
        return Change(place, "refused", sent, came, now, say("left, as was asked"))
    if place in to_fix:
        return Change(place, "refused", sent, came, now, to_fix[place])
    if not asked and was_put_in(place, receipt, returned):
        return Change(place, "refused", sent, came, now, say("the row was put in by the vendor"))
    if entry.who != "vendor" and not asked:
        return Change(place, "refused", sent, came, now, say("the cell was locked"))
    if not asked and not same(now, sent) and not same(now, came):
        return Change(place, "conflict", sent, came, now, say("both sides changed it"))
    if elsewhere and not asked:
        return Change(place, "conflict", sent, came, now, elsewhere)
    return Change(place, "taken", sent, came, now, to=None if to == place else to)


def was_put_in(place: Place, receipt: Receipt, returned: Returned) -> bool:
    """Whether a place stands in a row that was not sent, of a table whose rows the brand decides."""
    if not place.row:
        return False
    address = place.entry.rpartition(".")[0]
    if Place(f"{address}.{REF}", place.row) in returned.added_rows:
        return True
    table = returned.ready.book.tables[address][1]
    key = returned.ready.book.entries[f"{address}.{table.key}"].entry
    if table.mirrors or table.rows or key.who == "vendor":
        return False
    return not any(sent.row == place.row and sent.entry.startswith(f"{address}.") for sent in receipt.values)


def _put(values: Values, change: Change) -> None:
    place = change.to or change.place
    if change.returned in (None, ""):
        values.pop(place, None)
    else:
        values[place] = change.returned
