"""A return put into the working workbook."""

from __future__ import annotations

import datetime
from collections.abc import Collection
from dataclasses import dataclass
from pathlib import Path

from sheetgen.api.auditing import audit
from sheetgen.api.making import Built, from_values
from sheetgen.api.members import follow_members
from sheetgen.api.reading import working_copy
from sheetgen.api.revising import new_line
from sheetgen.api.settling import follow_renames, settled
from sheetgen.audit.rule import Finding
from sheetgen.audit.run import Audit
from sheetgen.declare.entry import REF, Place, place_of
from sheetgen.declare.kinds import Value
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.texts import say
from sheetgen.workbook.exchange.accept import Acceptance, merge
from sheetgen.workbook.exchange.issue import Receipt

SAYS = {address: table.says for address, (_, table) in BOOK.tables.items()}
_REFUSING = frozenset({"another-issue", "older-issue", "wrong-style", "wrong-vendor"})


@dataclass(frozen=True)
class Accepted:
    """The next revision's workbook and what became of every change."""

    built: Built
    acceptance: Acceptance
    audit: Audit


def accept(
    working: Path, returned: Path, *, receipt: Path | None = None, take: Collection[str] = (), by: str = "",
    date: datetime.date | None = None,
) -> Accepted:  # fmt: skip
    """Put a return into the working workbook as its next revision. UserError if it answers another style or issue."""
    result = audit(returned, receipt)
    _refuse_another(result, returned)
    got = working_copy(working, say("is a vendor's copy; accept into the working workbook"))
    sent = result.sent
    if sent is None:
        raise UserError(say("{returned}: its receipt is not beside it; name it with --receipt.", returned=returned))
    own = got.typed.get(Place("style.number"))
    if str(own) != sent.style:
        raise UserError(
            say(
                "{returned}: answers style {style}, {working} is style {own}; name the working workbook of that style.",
                returned=returned,
                style=sent.style,
                working=working,
                own=own,
            )
        )
    _check_take(take, result)
    to_fix = {
        place_of(finding.place): finding.message
        for finding in result.findings
        if finding.level == "fix" and finding.place and not _is_wanted(finding, take)
    }
    settled(got)
    acceptance = merge(got, sent, result.got, to_fix, take, SAYS)
    follow_renames(got, acceptance.values)
    follow_members(got, acceptance.values)
    _write_revision(acceptance, sent, by, date or datetime.date.today())
    return Accepted(from_values(acceptance.values, tuple(acceptance.not_carried)), acceptance, result)


def _refuse_another(result: Audit, returned: Path) -> None:
    refused = [finding for finding in result.findings if finding.rule in _REFUSING]
    if refused:
        raise UserError(
            say(
                "{returned}: cannot be accepted: {message} {action}",
                returned=returned,
                message=refused[0].message,
                action=refused[0].action,
            )
        )


def _check_take(take: Collection[str], result: Audit) -> None:
    book = result.got.ready.book
    known = {*book.entries, *(f"{table}.{REF}" for table in book.tables)}
    for text in take:
        if place_of(text).entry not in known:
            raise UserError(
                say("--take {place}: there is no such place; write it as materials.bom[M3].price.", place=text)
            )


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
    line: dict[str, Value] = {
        "what": say("{taken} answers of the vendor taken over, {left} left open", taken=taken, left=left),
        "date": date,
        "why": say("Return of issue {issue_id}", issue_id=sent.issue_id),
        "by": by,
    }
    values.update(new_line(values, line))
