"""What the brand changed since a copy left: cell by cell, of what the copy shared."""

from __future__ import annotations

from collections.abc import Iterator
from operator import itemgetter
from typing import NamedTuple

from sheetgen.audit.called import called, row_in_words
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, PictureMark, Value
from sheetgen.workbook.exchange.receipts import Head, Receipt, heads_in, load_receipt
from sheetgen.workbook.model.compare import same
from sheetgen.workbook.model.lines import without_lines
from sheetgen.workbook.model.traces import without_traces
from sheetgen.workbook.read.found import Returned

OF_A_VENDOR = frozenset({"style.vendor_contact", "style.vendor_email"})
"""What an issue may say otherwise than the file that it is made of, besides its purpose, due date and vendor."""
_ANSWERED = frozenset({
    "style.revision", "style.date", "colorways.dips.decision", "colorways.dips.comment", "artwork.pieces.decision",
    "artwork.pieces.comment", "quality.tests.accepted",
})  # fmt: skip
_NO_GARMENT, _CHANGES_A_BASE = ("approvals.", "fit.", "revisions."), "fit.points.revise"
"""What a brand answers on samples and proofs is no change of the garment, but for a base that a fit round changes."""


class Change(NamedTuple):
    """A cell that says something else than the copy that left."""

    place: Place
    before: Value | PictureMark
    now: Value


def last_issue(got: Returned, *, of_revision: bool) -> Receipt | None:
    """The newest receipt beside a working workbook of its style and vendor, and of its revision or of any."""
    about = got.ready.book.about
    fields = (about.number, about.vendor, about.revision)[: 3 if of_revision else 2]
    own = tuple(str(got.typed.get(Place(field)) or "") for field in fields)
    of_it = [
        (age(head), path) for head, path in heads_in(got.path.parent)
        if (head.style, head.vendor, head.revision)[: len(fields)] == own
    ]  # fmt: skip
    return load_receipt(max(of_it, key=itemgetter(0))[1]) if of_it else None


def age(receipt: Head) -> tuple[int, str]:
    """Receipts in the order in which their copies left."""
    return (int(receipt.revision) if receipt.revision.isdigit() else 0, receipt.issued)


def changes(got: Returned, sent: Receipt) -> Iterator[Change]:
    """What the brand's own cells say of the garment otherwise than they were sent: not who a copy is for, its history, what
    the brand answers on samples and proofs, or what the copy left out."""
    entries, about = got.ready.book.entries, got.ready.book.about
    shared = sent.account.ready.book.entries if sent.account else entries
    of_an_issue = {about.purpose, about.due, about.vendor} | OF_A_VENDOR
    for place in dict.fromkeys((*sent.values, *got.typed)):
        column = entries.get(place.entry)
        if (
            column is None
            or place.entry not in shared
            or column.entry.who != "designer"
            or column.entry.private
            or column.sheet.private
        ):
            continue
        if place.entry in of_an_issue or not _of_the_garment(place):
            continue
        before, now = sent.values.get(place), got.typed.get(place)
        if not same(before, now) and not (isinstance(now, Picture) and _was_sent(before, now, place)):
            yield Change(place, before, now)


def _was_sent(before: Value | PictureMark, now: Picture, place: Place) -> bool:
    """Whether a picture is the one that was sent without its traces; copies of earlier versions had no lines in them."""
    bare = without_traces(now, str(place))
    return same(before, bare) or same(before, Picture(without_lines(bare.data)))


def _of_the_garment(place: Place) -> bool:
    if place.entry.startswith(_NO_GARMENT):
        return place.entry.startswith(_CHANGES_A_BASE)
    return place.entry not in _ANSWERED


def in_words(got: Returned, place: Place) -> str:
    """A place as a person calls it: `The plus tolerance of P1 Chest width`."""
    line = row_in_words(got.ready.book, place, lambda at: got.typed.get(at) or got.shown.get(at)) if place.row else ""
    return called(got.ready, place, line)
