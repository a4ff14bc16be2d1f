"""The copy that goes to a vendor."""

from __future__ import annotations

import datetime
from pathlib import Path

from sheetgen.api.reading import working_copy
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.style.diagrams import artist
from sheetgen.texts import say
from sheetgen.workbook.exchange.accept import carried
from sheetgen.workbook.exchange.issue import Issued
from sheetgen.workbook.exchange.issue import issue as make_issue
from sheetgen.workbook.model.values import Values

_OF_A_VENDOR = frozenset({"style.vendor_contact", "style.vendor_email"})
"""What the brand types about one vendor."""


def issue(
    working: Path, *, purpose: str | None = None, due: datetime.date | None = None, vendor: str | None = None,
    contact: str | None = None, email: str | None = None, issued: datetime.date | None = None,
) -> Issued:  # fmt: skip
    """The vendor's copy and the receipt of a working workbook; options change its purpose, due date and vendor.

    For another vendor than the file's, whatever the first one answered is left out, and its contact and its premises
    with it: one vendor's prices are nobody else's business.
    """
    got = working_copy(working, say("is a vendor's copy already; issue from the working workbook"))
    values, _ = carried(got)
    before = values.get(Place("style.vendor"))
    if vendor is not None and before not in (None, "", vendor):
        answered = {address for address, column in got.ready.book.entries.items() if column.entry.who == "vendor"}
        own = answered | _OF_A_VENDOR | ({"style.place"} if _names(values.get(Place("style.place")), before) else set())
        values = {place: value for place, value in values.items() if place.entry not in own}
    given = {
        "purpose": purpose, "due": due, "vendor": vendor, "vendor_contact": contact, "vendor_email": email,
    }  # fmt: skip
    changes: Values = {Place(f"style.{name}"): value for name, value in given.items() if value is not None}
    return make_issue(BOOK, values, changes, issued or datetime.date.today(), artist)


def _names(text: Value, vendor: Value) -> bool:
    """Whether a text speaks of a vendor: it holds one of the longer words of its name."""
    words = {word for word in str(vendor or "").casefold().split() if len(word) > 3}
    return bool(words & set(str(text or "").casefold().replace(",", " ").split()))
