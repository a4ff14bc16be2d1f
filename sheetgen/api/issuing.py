"""The copy that goes to a vendor."""

from __future__ import annotations

import datetime
from dataclasses import dataclass
from pathlib import Path

from sheetgen.api.brands import limits_for
from sheetgen.api.making import from_values
from sheetgen.api.reading import working_copy
from sheetgen.api.revising import new_line, revised
from sheetgen.api.settling import settled
from sheetgen.audit import RULES
from sheetgen.audit.changes import OF_A_VENDOR
from sheetgen.audit.leaving import changed_since_issue
from sheetgen.audit.rule import Finding
from sheetgen.audit.run import Audit, judged_own
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Value
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.style.diagrams import artist, flats_of
from sheetgen.style.marks import with_marks
from sheetgen.texts import say
from sheetgen.workbook.exchange.issue import Issued
from sheetgen.workbook.exchange.issue import issue as make_issue
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.found import Returned


class HeldBackError(UserError):
    """What stops an issue: the judgment of the working workbook, and what of it would be lost. Nothing was written."""

    def __init__(self, judged: Audit, stopping: tuple[Finding, ...], lost: tuple[str, ...]) -> None:
        first = stopping[0].message if stopping else lost[0]
        super().__init__(
            say(
                "{path}: {count} to put right before it is issued, first: {first} Or say with --anyway why it goes all the same.",
                path=judged.file, count=len(stopping) + len(lost), first=first,
            ), 1,
        )  # fmt: skip
        self.judged, self.stopping, self.lost = judged, stopping, lost

    @property
    def can_be_revised(self) -> bool:
        """Whether some of it is only that the file changed since the last copy of the same revision."""
        return any(one.rule == changed_since_issue.name for one in self.stopping)


@dataclass(frozen=True)
class Leaving:
    """A vendor's copy with its receipt, what was seen on its way out, and the working workbook that remembers why it left.

    `working` is None unless it says something new: why it left all the same, or what changed since the last copy
    (`changed` cells since the issue `since`). `kept` is what the working workbook says
    otherwise than the copy: the name of a field of Style, and what stands there.
    """

    issued: Issued
    judged: Audit
    working: bytes | None = None
    kept: tuple[tuple[str, str], ...] = ()
    changed: int = 0
    since: str = ""


def issue(
    working: Path, *, purpose: str | None = None, due: datetime.date | None = None, vendor: str | None = None,
    contact: str | None = None, email: str | None = None, issued: datetime.date | None = None, anyway: str = "",
    revise: str | None = None,
) -> Issued:  # fmt: skip
    """The vendor's copy and the receipt of a working workbook; options change its purpose, due date and vendor.

    HeldBackError (a UserError) if something in it must be put right first, unless `anyway` says why it goes out all the same.
    For another vendor than the file's, whatever the first one answered is left out, and its contact and its premises
    with it: one vendor's prices are nobody else's business.
    """
    return leaving(
        working, purpose=purpose, due=due, vendor=vendor, contact=contact, email=email, issued=issued, anyway=anyway,
        revise=revise,
    ).issued  # fmt: skip


def leaving(
    working: Path, *, purpose: str | None = None, due: datetime.date | None = None, vendor: str | None = None,
    contact: str | None = None, email: str | None = None, issued: datetime.date | None = None, anyway: str = "",
    revise: str | None = None,
) -> Leaving:  # fmt: skip
    """The same as `issue`, with what was seen on the way out.

    With `revise`, a reason, what changed since the last copy to this vendor is a new revision (UserError if nothing did).
    """
    got = working_copy(working, say("is a vendor's copy already; issue from the working workbook"))
    values, lost, _ = settled(got)
    judged = judged_own(got, RULES, purpose, limits_for(working))
    stopping = tuple(
        one
        for one in judged.findings
        if _stops(one, judged) and (revise is None or one.rule != changed_since_issue.name)
    )
    day = issued or datetime.date.today()
    if (stopping or lost) and not anyway:
        raise HeldBackError(judged, stopping, tuple(lost))
    values, changed, since = revised(values, got, day, revise)
    remembered = _remembered(values, anyway, purpose, day) if stopping or lost else values if changed else None
    shared = _for_vendor(values, got, vendor)
    given = {
        "purpose": purpose, "due": due, "vendor": vendor, "vendor_contact": contact, "vendor_email": email,
    }  # fmt: skip
    changes: Values = {Place(f"style.{name}"): value for name, value in given.items() if value is not None}
    drawn = flats_of(got.ready, shared, got.shown)
    made = make_issue(BOOK, {**shared, **with_marks(shared), **drawn}, changes, day, artist)
    kept = tuple(
        (place.entry, str(values.get(place) or "")) for place, value in changes.items() if values.get(place) != value
    )
    return Leaving(made, judged, from_values(remembered).data if remembered else None, kept, changed, since)


def _stops(finding: Finding, judged: Audit) -> bool:
    """Whether a finding holds an issue back: to be put right, and the brand's own. What the vendor answered is its own."""
    column = judged.got.ready.book.entries.get(place_of(finding.place).entry)
    return finding.level == "fix" and (column is None or column.entry.who != "vendor")


def _remembered(values: Values, anyway: str, purpose: str | None, day: datetime.date) -> Values:
    """The working workbook's values with a line in its revisions; the reason stands where only the brand reads it."""
    line: dict[str, Value] = {
        "what": say("Issued for {purpose}", purpose=purpose or values.get(Place("style.purpose"))),
        "date": day,
        "anyway": anyway,
    }
    return {**values, **new_line(values, line)}


def _for_vendor(values: Values, got: Returned, vendor: str | None) -> Values:
    """What this vendor may see: all of it, but for another vendor's answers, contact and premises."""
    before = values.get(Place("style.vendor"))
    if vendor is None or before in (None, "", vendor):
        return values
    answered = {address for address, column in got.ready.book.entries.items() if column.entry.who == "vendor"}
    own = answered | OF_A_VENDOR | ({"style.place"} if _names(values.get(Place("style.place")), before) else set())
    return {place: value for place, value in values.items() if place.entry not in own}


def _names(text: Value, vendor: Value) -> bool:
    """Whether a text speaks of a vendor: it holds one of the longer words of its name."""
    words = {word for word in str(vendor or "").casefold().split() if len(word) > 3}
    return bool(words & set(str(text or "").casefold().replace(",", " ").split()))
