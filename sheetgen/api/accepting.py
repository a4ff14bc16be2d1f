"""A return put into the working workbook."""

from __future__ import annotations

import datetime
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from sheetgen.api.auditing import audit
from sheetgen.api.making import Built, from_values
from sheetgen.api.members import follow_members
from sheetgen.api.noting import Noted, noted, photos, put_on_questions
from sheetgen.api.reading import working_copy
from sheetgen.api.revising import new_line
from sheetgen.api.settling import follow_renames, settled
from sheetgen.audit.rule import Finding
from sheetgen.audit.run import Audit
from sheetgen.declare.entry import REF, Place, place_of
from sheetgen.declare.kinds import PictureMark, Value
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.texts import say
from sheetgen.workbook.exchange.accept import Acceptance, Change, Wish, merge
from sheetgen.workbook.exchange.receipts import Receipt
from sheetgen.workbook.model.values import Values, free_row, refs

SAYS = {address: table.says for address, (_, table) in BOOK.tables.items()}
_QUERIES = "questions.queries"
_REFUSING = frozenset({"another-issue", "older-issue", "wrong-style", "wrong-vendor"})


@dataclass(frozen=True)
class Accepted:
    """The next revision's workbook and what became of every change.

    `noted` is what the vendor added and stands on Questions now, `unplaced` what does not; `photos` are all pictures that
    came, by name.
    """

    built: Built
    acceptance: Acceptance
    audit: Audit
    noted: tuple[Noted, ...] = ()
    unplaced: tuple[Noted, ...] = ()
    photos: Mapping[str, bytes] = field(default_factory=dict, repr=False)


def accept(
    working: Path, returned: Path, *, receipt: Path | None = None, take: Collection[str] = (), leave: Collection[str] = (),
    by: str = "", date: datetime.date | None = None,
) -> Accepted:  # fmt: skip
    """Put a return into the working workbook as its next revision. UserError if it answers another style or issue.

    `take` and `leave`: see `Wish`. What the vendor added where nothing has a place comes onto Questions.
    """
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
    wish = Wish(tuple(take), tuple(leave))
    for option, words in (("--take", take), ("--leave", leave)):
        _check_words(option, words, result)
    to_fix = {
        place_of(finding.place): finding.message
        for finding in result.findings
        if finding.level == "fix" and finding.place and not _is_wanted(finding, wish)
    }
    settled(got)
    acceptance = merge(got, sent, result.got, to_fix, wish, SAYS)
    acceptance.changes[:] = [_reply_kept(change, acceptance.values, sent) for change in acceptance.changes]
    added = noted(result)
    put, unplaced = put_on_questions(acceptance.values, added)
    follow_renames(got, acceptance.values)
    follow_members(got, acceptance.values)
    _write_revision(acceptance, sent, by, date or datetime.date.today())
    built = from_values(acceptance.values, tuple(acceptance.not_carried))
    return Accepted(built, acceptance, result, tuple(put), tuple(unplaced), photos(result, sent.values, added))


def _reply_kept(change: Change, values: Values, sent: Receipt) -> Change:
    """A reply to what a query copy asked comes into the working file with its question, which stands in that copy alone."""
    table, _, name = change.place.entry.rpartition(".")
    if table != _QUERIES or name != "reply" or change.outcome == "refused":
        return change
    row = free_row(BOOK.tables[_QUERIES][1].ref, refs(_QUERIES, values))
    for place, value in sent.values.items():
        if place.row == change.place.row and place.entry.startswith(f"{table}.") and not isinstance(value, PictureMark):
            values[Place(place.entry, row)] = value
    reply = Place(change.place.entry, row)
    values[reply] = change.returned
    return replace(change, outcome="taken", reason="", to=reply)


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


def _check_words(option: str, words: Collection[str], result: Audit) -> None:
    book = result.got.ready.book
    known = {
        *book.entries,
        *(f"{table}.{REF}" for table in book.tables),
        *book.tables,
        *(one.name for one in book.sheets),
    }
    for text in words:
        if place_of(text).entry not in known:
            raise UserError(
                say(
                    "{option} {place}: there is no such place; write it as materials.bom[M3].price, or name a row "
                    "(materials.bom[M3]), a column (materials.bom.price) or a sheet (materials).",
                    option=option, place=text,
                )
            )  # fmt: skip


def _is_wanted(finding: Finding, wish: Wish) -> bool:
    """Whether all that is wrong with a value is that it was locked, and it was asked for."""
    return finding.rule == "locked-value-changed" and wish.takes(place_of(finding.place))


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
