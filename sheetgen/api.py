"""The library: build, read, issue, audit, accept and compare, on the real book and rules. Files in, files' bytes out."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Sequence
from dataclasses import dataclass, field
from pathlib import Path

from sheetgen.audit import RULES
from sheetgen.audit.rule import Finding
from sheetgen.audit.run import Audit
from sheetgen.audit.run import audit as run_audit
from sheetgen.declare.entry import REF, Place, place_of
from sheetgen.declare.kinds import Value
from sheetgen.errors import UserError
from sheetgen.offers import Compared, compare_offers
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style, starter_style
from sheetgen.style.diagrams import artist
from sheetgen.style.grades import apply_body, apply_grade, from_csv, from_workbook
from sheetgen.style.starters import starter
from sheetgen.workbook.exchange.accept import Acceptance, carried, merge
from sheetgen.workbook.exchange.issue import FORM, Issued, Receipt
from sheetgen.workbook.exchange.issue import issue as make_issue
from sheetgen.workbook.model.compare import same
from sheetgen.workbook.model.values import Values, free_row, ready, refs, shape_of
from sheetgen.workbook.read.file import read as read_file
from sheetgen.workbook.read.found import Returned
from sheetgen.workbook.read.record import record_of
from sheetgen.workbook.write.file import finished

__all__ = [
    "Accepted", "Built", "Compared", "Difference", "accept", "audit", "build", "cautions_of", "compare", "compare_offers",
    "find_brand", "from_values", "is_copy", "issue", "read", "start",
]  # fmt: skip

_BRAND_PLACES = ("brand.toml", "../brand.toml", "../brand/brand.toml", "brand/brand.toml")
_OF_A_VENDOR = frozenset({"style.vendor_contact", "style.vendor_email"})
"""What the brand types about one vendor."""
_REFUSING = frozenset({"another-issue", "older-issue", "wrong-style", "wrong-vendor"})


@dataclass(frozen=True)
class Built:
    """A working workbook: its values, its bytes, what of an earlier file could not be carried over, and what it shows."""

    values: Values
    data: bytes
    not_carried: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    shown: Values = field(default_factory=dict, repr=False)

    def text(self, address: str) -> str:
        """A field as text, empty if blank."""
        value = self.values.get(Place(address))
        return "" if value is None else str(value)


@dataclass(frozen=True)
class Accepted:
    """The next revision's workbook and what became of every change."""

    built: Built
    acceptance: Acceptance
    audit: Audit


@dataclass(frozen=True)
class Difference:
    """One place that two workbooks hold differently; `cell` is its address in the second (or the first)."""

    place: Place
    sheet: str
    cell: str
    heading: str
    before: Value
    after: Value


def cautions_of(built: Built) -> list[str]:
    """The sentences of all cautions that apply to a style."""
    found = []
    for sheet in BOOK.sheets:
        for caution in sheet.cautions:
            count = built.shown.get(Place(f"checks.caution_{caution.name.replace('-', '_')}"))
            if isinstance(count, int | float) and count > 0:
                found.append(caution.sentence)
    return found


def find_brand(brief: Path) -> Path | None:
    """The brand file beside a brief or one folder up; None if there is none."""
    candidates = (brief.parent / place for place in _BRAND_PLACES)
    return next((path.resolve() for path in candidates if path.is_file()), None)


def build(source: Path, brand: Path | None = None, *, grade: Path | None = None, body: str | None = None) -> Built:
    """A working workbook from a brief (.toml), or anew from a working workbook (.xlsx) with all that was typed in it.

    `grade` is a CSV file or another style's workbook whose grade is taken, `body` a body table (women, men, a CSV file).
    """
    if source.suffix.lower() == ".toml":
        path = brand or find_brand(source)
        values = load_style(BOOK, source, load_brand(path) if path else None)
        lost: list[str] = []
    else:
        values, lost = carried(
            working_copy(source, "is a vendor's copy; build from the working workbook, or accept this one into it")
        )
    notes = _with_tables(values, grade, body)
    return from_values(values, tuple(lost), tuple(notes))


def start(
    garment: str, *, hood: bool = False, child: bool = False, unit: str | None = None, brand: Path | None = None,
    grade: Path | None = None, body: str | None = None,
) -> Built:  # fmt: skip
    """A working workbook from a garment's usual points, seams and materials, all of them suggestions."""
    shared = load_brand(brand) if brand else None
    chosen = unit or str((shared.defaults.get("style.unit") if shared else None) or "cm")
    try:
        data = starter(garment, hood=hood, child=child, unit=chosen)
    except ValueError as error:
        raise UserError(f"{garment}: {error}.") from None
    values = starter_style(BOOK, data, Path(f"{garment} starter"), shared)
    notes = _with_tables(values, grade, body)
    return from_values(values, (), tuple(notes))


def _with_tables(values: Values, grade: Path | None, body: str | None) -> list[str]:
    """Put in a grade and a body table from elsewhere; says in words what was taken."""
    unit = str(values.get(Place("style.unit")) or "cm")
    sample = str(values.get(Place("style.sample_size")) or "")
    notes: list[str] = []
    if grade is not None:
        points = from_csv(grade, unit, sample) if grade.suffix.lower() == ".csv" else from_workbook(read(grade))
        notes += [f"{grade.name}: {words}" for words in apply_grade(values, points)]
    if body is not None:
        notes += apply_body(values, body, unit)
    return notes


def from_values(values: Values, not_carried: tuple[str, ...] = (), notes: tuple[str, ...] = ()) -> Built:
    """The working workbook of these values."""
    record = {
        "kind": "working",
        "form": FORM,
        "style": str(values.get(Place("style.number")) or ""),
        "name": str(values.get(Place("style.name")) or ""),
        "revision": values.get(Place("style.revision")) or 0,
    }
    book = ready(BOOK, shape_of(BOOK, values))
    data, shown = finished(book, values, record, artist(book, values))
    return Built(values, data, not_carried, notes, shown)


def read(path: Path) -> Returned:
    """All that stands in a workbook of ours; UserError (status 3) if it is none."""
    return read_file(BOOK, path)


def working_copy(path: Path, otherwise: str) -> Returned:
    """A working workbook; UserError with these words if it is a vendor's copy."""
    got = read(path)
    if got.ready.shape.audience == "vendor":
        raise UserError(f"{path}: {otherwise}.")
    return got


def issue(
    working: Path, *, purpose: str | None = None, due: datetime.date | None = None, vendor: str | None = None,
    contact: str | None = None, email: str | None = None, issued: datetime.date | None = None,
) -> Issued:  # fmt: skip
    """The vendor's copy and the receipt of a working workbook; options change its purpose, due date and vendor.

    For another vendor than the file's, whatever the first one answered is left out, and its contact and its premises
    with it: one vendor's prices are nobody else's business.
    """
    got = working_copy(working, "is a vendor's copy already; issue from the working workbook")
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


def audit(path: Path, receipt: Path | None = None) -> Audit:
    """Audit a returned file against its receipt, or a working file by itself."""
    return run_audit(BOOK, RULES, path, receipt)


def accept(
    working: Path, returned: Path, *, receipt: Path | None = None, take: Collection[str] = (), by: str = "",
    date: datetime.date | None = None,
) -> Accepted:  # fmt: skip
    """Put a return into the working workbook as its next revision. UserError if it answers another style or issue."""
    result = audit(returned, receipt)
    refused = [finding for finding in result.findings if finding.rule in _REFUSING]
    if refused:
        raise UserError(f"{returned}: cannot be accepted: {refused[0].message} {refused[0].action}")
    got = working_copy(working, "is a vendor's copy; accept into the working workbook")
    sent = result.sent
    if sent is None:
        raise UserError(f"{returned}: its receipt is not beside it; name it with --receipt.")
    own = got.typed.get(Place("style.number"))
    if str(own) != sent.style:
        raise UserError(
            f"{returned}: answers style {sent.style}, {working} is style {own}; name the working workbook of that style."
        )
    _check_take(take, result)
    to_fix = {
        place_of(finding.place): finding.message
        for finding in result.findings
        if finding.level == "fix" and finding.place and not _is_wanted(finding, take)
    }
    acceptance = merge(got, sent, result.got, to_fix, take)
    _write_revision(acceptance, sent, by, date or datetime.date.today())
    return Accepted(from_values(acceptance.values, tuple(acceptance.not_carried)), acceptance, result)


def _check_take(take: Collection[str], result: Audit) -> None:
    book = result.got.ready.book
    rows = {f"{table}.{REF}" for table in book.tables}
    for text in take:
        if place_of(text).entry not in {*book.entries, *rows}:
            raise UserError(f"--take {text}: there is no such place; write it as materials.bom[M3].price.")


def _is_wanted(finding: Finding, take: Collection[str]) -> bool:
    """Whether all that is wrong with a value is that it was locked, and it was asked for by its place or its row."""
    place = place_of(finding.place)
    row = f"{place.entry.rpartition('.')[0]}[{place.row}]"
    return finding.rule == "locked-value-changed" and (finding.place in take or row in take)


def _write_revision(acceptance: Acceptance, sent: Receipt, by: str, date: datetime.date) -> None:
    values = acceptance.values
    revision = values.get(Place("style.revision"))
    number = int(revision) + 1 if isinstance(revision, int | float) else 1
    taken, left = len(acceptance.of("taken")), len(acceptance.of("refused")) + len(acceptance.of("conflict"))
    values[Place("style.revision")] = number
    values[Place("style.date")] = date
    row = free_row("W", refs("revisions.log", values))
    values[Place("revisions.log.what", row)] = f"{taken} answers of the vendor taken over, {left} left open"
    values[Place("revisions.log.revision", row)] = number
    values[Place("revisions.log.date", row)] = date
    values[Place("revisions.log.why", row)] = f"Return of issue {sent.issue_id}"
    values[Place("revisions.log.by", row)] = by or str(values.get(Place("style.contact")) or "designer")


def is_copy(path: Path) -> bool:
    """Whether a file is a vendor's copy or return by its own record; a file that cannot be read is none."""
    return bool(record_of(path).get("issue_id"))


def compare(before: Path, after: Path) -> Sequence[Difference]:
    """Every place that two workbooks hold differently, in the order of the sheets."""
    first, second = read(before), read(after)
    found = []
    for address, column in {**first.ready.book.entries, **second.ready.book.entries}.items():
        if column.entry.who not in {"designer", "vendor"}:
            continue
        places = dict.fromkeys(place for got in (first, second) for place, _ in got.where.places(address))
        for place in places:
            old, new = first.typed.get(place), second.typed.get(place)
            if not same(old, new):
                cell = second.where.at(place) or first.where.at(place)
                assert cell is not None
                found.append(Difference(place, cell.sheet, cell.address, column.entry.heading, old, new))
    return found
