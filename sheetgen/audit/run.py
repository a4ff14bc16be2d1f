"""Run the audit: read, recalculate what follows, ask every rule, sort what it says."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from sheetgen.audit.called import called, heading_of, row_in_words
from sheetgen.audit.case import Case
from sheetgen.audit.changes import age, last_issue
from sheetgen.audit.recalculating import calculator_for, follows, intact_in, refs_of
from sheetgen.audit.rule import LEVELS, Fault, Finding, Rule
from sheetgen.declare.entry import REF, STAGES, Place
from sheetgen.declare.judgment import USUAL, Limits
from sheetgen.declare.kinds import PictureMark
from sheetgen.declare.parts import Book
from sheetgen.errors import UserError
from sheetgen.texts import marked, say
from sheetgen.workbook.exchange.receipts import (
    Receipt,
    find_receipt,
    fixed_and_sent,
    heads_in,
    load_receipt,
    receipt_from_json,
)
from sheetgen.workbook.model.calculation import shown_by
from sheetgen.workbook.model.engine import PICTURE_WORD, Calculator
from sheetgen.workbook.model.geometry import Geometry, formula_texts
from sheetgen.workbook.model.moving import moved_place, moves_since
from sheetgen.workbook.model.packing import NewerFormError
from sheetgen.workbook.model.values import Ready, Values, fixed_values, with_words
from sheetgen.workbook.model.written import shown_when_written
from sheetgen.workbook.read.file import Opened, found_in, opened
from sheetgen.workbook.read.found import Accounts, Returned
from sheetgen.workbook.read.loaded import Loaded

LOWER_TRUST = marked(
    "No receipt was found beside the file: it is compared with what the copy itself says was sent, which whoever "
    "returns it could have changed."
)


@dataclass(frozen=True)
class Audit:
    """The result for one file; `sent` is the receipt of the copy that came back, wherever one was found."""

    file: Path
    issue_id: str
    style: str
    revision: str
    purpose: str
    vendor: str
    findings: tuple[Finding, ...]
    warnings: tuple[str, ...]
    got: Returned
    sent: Receipt | None = None

    @property
    def must_fix(self) -> bool:
        """Whether anything is of level fix."""
        return any(finding.level == "fix" for finding in self.findings)

    def without_cells(self) -> Audit:
        """The same without all that stands in the file, for one of many: a report says of it what stays."""
        got = self.got
        machinery = {sheet.name for sheet in got.ready.book.sheets if sheet.seen == "never"}
        titles = {name: title for name, title in got.where.titles.items() if name not in machinery}
        kept = Returned(
            got.path, Ready(Book((), {}), {}, got.ready.shape), Geometry(titles), {}, Loaded({}, {}),
            hidden=got.hidden, accounts=Accounts(got.accounts.counts),
        )  # fmt: skip
        return replace(self, got=kept, sent=self.sent and replace(self.sent, values={}, written=""))


def audit(
    book: Book,
    rules: Sequence[Rule],
    path: Path,
    receipt: Path | None = None,
    purpose: str | None = None,
    limits: Limits = USUAL,
) -> Audit:
    """Audit one file against its receipt: named, found beside the file, or (with a warning) carried by the copy.

    A working workbook is judged for `purpose`, as in the file if not given, and by a brand's `limits`. UserError (status 3) if the
    file cannot be used.
    """
    file = opened(book, path)
    if purpose is not None and not _is_working(file):
        raise UserError(say("{path}: is a vendor's copy; only a working workbook is judged for a purpose.", path=path))
    named = load_receipt(receipt) if receipt is not None else None
    sent, warnings = _receipt(file, named)
    got = found_in(book, file, sent.account if sent else None)
    altered = sent is not None and bool(file.record) and not warnings and _other_record(file, sent)
    sent, named = _of_today(book, sent), _of_today(book, named)
    case = case_of(got, sent, named or sent, _later_issue(path, sent))
    if altered:
        case = replace(case, record_altered=True)
    if purpose is not None:
        case = _for_purpose(case, purpose)
    case = replace(case, limits=limits)
    return judged(case, rules, sent, (*warnings, *file.loaded.missing))


def judged(case: Case, rules: Sequence[Rule], sent: Receipt | None, warnings: tuple[str, ...] = ()) -> Audit:
    """What rules find in a file that was read, in the order of level, sheet and cell."""
    got = case.got
    findings = [_finding(rule, fault, case) for rule in rules for fault in rule.check(case)]
    order = {level: number for number, level in enumerate(LEVELS)}
    place = {title: number for number, title in enumerate(_titles(got))}
    findings.sort(key=lambda one: (order[one.level], place.get(one.sheet, -1), _cell_order(one.cell), one.rule))

    def words(address: str) -> str:
        value = got.typed.get(Place(address))
        return "" if value is None else str(value)

    return Audit(
        got.path, sent.issue_id if sent else "", words("style.number"), words("style.revision"), words("style.purpose"),
        words("style.vendor"), tuple(findings), warnings, got, sent,
    )  # fmt: skip


def judged_own(got: Returned, rules: Sequence[Rule], purpose: str | None = None, limits: Limits = USUAL) -> Audit:
    """The judgment of a working workbook that was read already, for a purpose (that of the file if not given)."""
    case = case_of(got, None)
    case = replace(case if purpose is None else _for_purpose(case, purpose), limits=limits)
    return judged(case, rules, None, got.loaded.missing)


def _for_purpose(case: Case, purpose: str) -> Case:
    """The same file with another purpose typed in it: what follows from that is shown, all else as it stands."""
    place = Place(case.got.ready.book.about.purpose)
    if case.got.typed.get(place) == purpose:
        return case
    other = case_of(replace(case.got, typed={**case.got.typed, place: purpose}), None, calculator=case.calculator)
    moved = {at: value for at, value in other.follows.items() if value != case.follows.get(at)}
    return replace(other, got=replace(other.got, shown={**case.got.shown, **moved}))


def _titles(got: Returned) -> Iterable[str]:
    return (got.where.titles.get(sheet.name, sheet.title) for sheet in got.ready.book.sheets)


def _cell_order(cell: str) -> tuple[int, int, str]:
    letters = cell.rstrip("0123456789")
    digits = cell[len(letters) :]
    return int(digits or 0), len(letters), letters


def _of_today(book: Book, receipt: Receipt | None) -> Receipt | None:
    """A receipt of an older form with its values under today's addresses."""
    moves = moves_since(book, receipt.form) if receipt is not None else {}
    if receipt is None or not moves:
        return receipt
    return replace(receipt, values={moved_place(place, moves): value for place, value in receipt.values.items()})


def _receipt(file: Opened, named: Receipt | None) -> tuple[Receipt | None, tuple[str, ...]]:
    """The receipt of the very copy that came back: that is what its cells were sent with.

    The named one if it is of this issue, or if the file no longer says which issue it is; else the one beside the file;
    else what the copy itself says, with less trust.
    """
    if named is not None and file.issue_id in {"", named.issue_id} and not _is_working(file):
        return named, ()
    if not file.issue_id and file.record:
        return None, ()
    found = find_receipt(file.path, file.issue_id)
    if found is not None:
        return load_receipt(found), ()
    try:
        carried = dict(file.record.get("receipt") or {})
        return receipt_from_json({**carried, "written": file.record.get("written")}), (say(LOWER_TRUST),)
    except (ValueError, NewerFormError):
        return None, (say("Neither a receipt nor the copy's own record was found: only the file itself is looked at."),)


def _other_record(file: Opened, sent: Receipt) -> bool:
    """Whether the hidden record says something else than the receipt that lies here."""
    said = {key: value for key, value in sent.to_json().items() if key not in {"written", "pack"}}
    return file.record.get("receipt") != said or file.record.get("written") != sent.written


def _is_working(file: Opened) -> bool:
    return file.record.get("kind") == "working"


def _later_issue(path: Path, sent: Receipt | None) -> str:
    """The id of a later issue, among the receipts beside the file, of the same style to the same vendor; or nothing."""
    if sent is None:
        return ""
    later = [
        other
        for other, _ in heads_in(path.parent)
        if (other.style, other.vendor) == (sent.style, sent.vendor) and age(other) > age(sent)
    ]
    return max(later, key=age).issue_id if later else ""


def case_of(
    got: Returned,
    receipt: Receipt | None,
    wanted: Receipt | None = None,
    later: str = "",
    calculator: Calculator | None = None,
) -> Case:
    """All that rules may see of a returned file: compared with its own receipt, held against the one that is wanted.
    `calculator` has calculated almost the same before."""
    calculator = calculator or calculator_for(got)
    sent = dict(fixed_values(got.ready)) if receipt is None else fixed_and_sent(got.ready, receipt)
    purpose = receipt.purpose if receipt else str(got.typed.get(Place("style.purpose")) or "quote")
    expected = tuple(formula_texts(got.ready, got.where))
    own = got.ready.book.audience == "designer"
    intact = intact_in(got, expected)
    now = follows(got, expected, intact, calculator)
    case = Case(
        sent, got, now, now, STAGES.get(purpose, 1), own, partial(_sent_follows, got, receipt), expected, intact,
        calculator, wanted or receipt, later, partial(last_issue, got, of_revision=True),
    )  # fmt: skip
    return replace(case, meant=_meant(case)) if _is_changed(case) else case


def _is_changed(case: Case) -> bool:
    """Whether a locked value or a formula came back otherwise than it was sent."""
    if case.own or case.wanted is None:
        return False
    if case.got.unnamed_rows or any(place not in case.intact for place, _, _ in case.expected_formulas):
        return True
    return any(case.is_locked_change(place) for place in dict.fromkeys((*case.sent, *case.got.typed)))


def _meant(case: Case) -> Values:
    """What the answers give once the brand's values and formulas stand as they were sent."""
    got = case.got
    values: Values = {
        place: value
        for place, value in got.typed.items()
        if case.entry(place).who != "computed" and (not case.is_locked(case.entry(place)) or case.is_new_row(place))
    }
    for place, sent in case.sent.items():
        if place.entry in case.book_entries and case.is_locked(case.entry(place)) and not isinstance(sent, PictureMark):
            values[place] = sent
    constants = [(at, value) for place, value in values.items() if (at := got.where.at(place)) is not None]
    pictures = [
        (at, PICTURE_WORD)
        for place, one in case.sent.items()
        if isinstance(one, PictureMark) and (at := got.where.at(place))
    ]
    return case.calculator.given([*constants, *pictures, *refs_of(got.where)], case.expected_formulas)


def _sent_follows(got: Returned, receipt: Receipt | None) -> Values:
    """What the sheets showed when they were sent; nothing for a file that nobody sent."""
    if receipt is None:
        return {}
    if got.written is not None:
        return shown_when_written(got.written)
    values: Values = {place: value for place, value in receipt.values.items() if not isinstance(value, PictureMark)}
    return shown_by(got.ready, values)


def _finding(rule: Rule, fault: Fault, case: Case) -> Finding:
    sheet, cell, row, heading, line = fault.sheet, fault.cell, "", "", ""
    if fault.place is not None:
        column = case.book_entries.get(fault.place.entry)
        at = case.cell(fault.place)
        row = fault.place.row
        table = fault.place.entry.rpartition(".")[0] if row else ""
        if column is not None:
            heading = with_words(column.entry.heading, case.got.ready.shape)
            sheet = case.got.where.titles.get(column.sheet.name, column.sheet.title)
        if at is not None:
            sheet, cell = at.sheet, fault.cell or at.address
        if fault.place.entry == f"{table}.{REF}":
            heading = say("Ref")
        if table in case.got.ready.book.tables:
            line = row_in_words(case.got.ready.book, fault.place, lambda at: case.value(at.entry, at.row))
    holes = {
        "place": called(case.got.ready, fault.place, line), "sheet": sheet, "cell": cell or say('the sheet {sheet}', sheet=sheet), "row": row,
        "heading": heading_of(case.got.ready, fault.place),
        "expected": fault.expected, "found": fault.found, "line": line or row or sheet,
        "cause": f" {fault.cause}" if fault.cause else "",
    }  # fmt: skip
    said = "; ".join(case.limits.said(name) for name in (rule.limits if fault.limits is None else fault.limits))
    limit = say(" Limit: {limits}.", limits=said) if said else ""
    return Finding(
        rule.name, rule.level, "designer" if case.own else fault.owner or rule.owner, sheet, cell, row, heading, fault.expected, fault.found,
        say(rule.message, **holes) + limit, say(rule.why), say(rule.fix, **holes), str(fault.place) if fault.place else "",
        say(rule.asked or rule.fix, **holes), limit,
    )  # fmt: skip
