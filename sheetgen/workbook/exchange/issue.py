"""Issuing: the vendor's copy without anything private, and the receipt that remembers all that was sent."""

from __future__ import annotations

import datetime
import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from hashlib import sha256
from typing import NamedTuple

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, PictureMark, Value
from sheetgen.declare.parts import Book
from sheetgen.workbook.exchange.receipts import Receipt, value_to_json
from sheetgen.workbook.model.calculation import calculated
from sheetgen.workbook.model.geometry import Geometry
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.leaving_out import given_values, left_out
from sheetgen.workbook.model.traces import without_traces
from sheetgen.workbook.model.values import Ready, Values, fixed_values, ready, shape_of
from sheetgen.workbook.model.visible import hidden_sheets
from sheetgen.workbook.write.file import Artist, finished


class Laid(NamedTuple):
    """What stands in a copy and where, as a reader of it would find."""

    ready: Ready
    typed: Values
    shown: Values
    where: Geometry


@dataclass(frozen=True)
class Issued:
    """A vendor's copy and its receipt; `at_home` are the titles of the sheets that its purpose does not need, `laid` is what
    stands in it."""

    data: bytes
    receipt: Receipt
    at_home: tuple[str, ...] = ()
    laid: Laid | None = field(default=None, repr=False, compare=False)


def issue(
    book: Book, values: Values, changes: Values, issued: datetime.date,
    artist: Callable[[Ready, Values], Artist | None] | None = None, again: Again | None = None,
) -> Issued:  # fmt: skip
    """Make the vendor's copy of these values; `changes` are what this issue sets (purpose, due date, vendor).

    `artist` says who draws the pictures that the program draws itself; `again` that it is a copy that came back.
    """
    vendor_ready, sent, unseen, at_home = going(book, {**values, **changes}, again.sent if again else None)
    shared = {
        place: without_traces(value, str(place)) if isinstance(value, Picture) else value
        for place, value in sent.items()
    }
    receipt = _receipt(vendor_ready, shared, issued)
    if again is not None:
        receipt = replace(receipt, values=_without_answers(vendor_ready, receipt.values, again.sent))
    record = {"issue_id": receipt.issue_id, "receipt": receipt.to_json()}
    drawer = artist(vendor_ready, shared) if artist else None
    made = finished(vendor_ready, shared, record, drawer, unseen, again.asked if again else {})
    laid = Laid(vendor_ready, made.values, made.shown, made.where)
    return Issued(made.data, replace(receipt, written=made.written), at_home, laid)


class Again(NamedTuple):
    """A copy that goes out once more: what was sent the first time, and in which cells something is asked (a word for it)."""

    sent: Receipt
    asked: Mapping[Place, str]


def _without_answers(
    vendor_ready: Ready, values: Mapping[Place, Value | PictureMark], first: Receipt
) -> dict[Place, Value | PictureMark]:  # fmt: skip
    """What was sent of the brand's, and of the vendor's only what stood in the first copy: its answers are still to accept."""
    own = {
        place: value for place, value in values.items() if vendor_ready.book.entries[place.entry].entry.who != "vendor"
    }
    before = {
        place: value for place, value in first.values.items()
        if place.entry in vendor_ready.book.entries and vendor_ready.book.entries[place.entry].entry.who == "vendor"
    }  # fmt: skip
    return own | before


class Going(NamedTuple):
    """The vendor's book with only what its purpose needs, all that is typed or given in it, its sheets that are not seen, and
    the titles of those that stay at home."""

    ready: Ready
    values: Values
    unseen: frozenset[str]
    at_home: tuple[str, ...]


def going(book: Book, values: Values, like: Receipt | None = None) -> Going:
    """What goes to the vendor of these values; the sheets and given figures of an earlier copy that it is `like`."""
    whole = ready(book, shape_of(book, values, "vendor"))
    shared = {**shared_values(whole, values), **fixed_values(whole)}
    where = plan(whole, shared)[1]
    shown = calculated(whole, shared, where)[1]
    unseen = _unseen_in(like, whole) if like else hidden_sheets(whole, {**values, **shared, **shown}, where)
    kept, given = left_out(whole, unseen)
    names = {sheet.name for sheet in kept.book.sheets}
    at_home = tuple(one.title for one in whole.book.sheets if one.name not in names and one.seen != "never")
    going_along = shared_values(kept, values)  # first: rows stand in the order of what is typed in them
    for place, value in given_values(given, kept, shown).items():
        going_along.setdefault(place, value)
    return Going(kept, going_along, unseen, at_home)


def _unseen_in(sent: Receipt, whole: Ready) -> frozenset[str]:
    account = sent.account
    hidden = {sheet.title for sheet in account.sheets if sheet.hidden} if account else set()
    seen = {sheet.name for sheet in account.ready.book.sheets if sheet.title not in hidden} if account else set()
    return frozenset(sheet.name for sheet in whole.book.sheets if sheet.name not in seen)


def shared_values(vendor_ready: Ready, values: Values) -> Values:
    """Only what the vendor's book has entries for."""
    entries = vendor_ready.book.entries
    return {place: value for place, value in values.items() if place.entry in entries}


def _receipt(vendor_ready: Ready, shared: Values, issued: datetime.date) -> Receipt:
    def words(address: str) -> str:
        value = shared.get(Place(address))
        return "" if value is None else str(value)

    sent: dict[Place, Value | PictureMark] = {
        place: PictureMark(value.digest) if isinstance(value, Picture) else value for place, value in shared.items()
    }
    about = vendor_ready.book.about
    number, revision, purpose = words(about.number), words(about.revision), words(about.purpose)
    listed = json.dumps([[*place, value_to_json(value)] for place, value in sent.items()], ensure_ascii=True)
    mark = sha256(f"{listed}|{issued}".encode()).hexdigest()[:6]
    return Receipt(
        f"{number} rev {revision} {purpose} {mark}",
        number, revision, purpose, words(about.vendor), words(about.due), issued.isoformat(),
        vendor_ready.shape, sent,
    )  # fmt: skip
