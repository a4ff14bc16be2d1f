"""Asking back: the vendor's own file anew, what is asked marked in its cells and listed on Questions."""

from __future__ import annotations

import datetime

from sheetgen.audit.run import Audit
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Picture, PictureMark
from sheetgen.errors import UserError
from sheetgen.jobs.asked_again import PARTED, QUERIES, asked_of
from sheetgen.report.folding import Group
from sheetgen.sheets import BOOK
from sheetgen.style.diagrams import artist
from sheetgen.texts import say
from sheetgen.workbook.exchange.context import as_typed
from sheetgen.workbook.exchange.issue import Again, Issued, issue
from sheetgen.workbook.model.values import Values


def query_copy(result: Audit, day: datetime.date) -> Issued:
    """The copy with its answers as they came, and the questions. UserError where nothing is asked, or it cannot be made anew."""
    sent = result.sent
    if sent is None or sent.account is None:
        raise UserError(
            say(
                "{path}: its receipt does not say how the copy was written; send the letter (--reply) instead.",
                path=result.file,
            )
        )
    groups = asked_of(result)
    if not groups:
        raise UserError(say("{path}: there is nothing to ask back.", path=result.file), 2)
    values = _as_they_came(result)
    for number, group in enumerate(groups, 1):
        line = {
            "found": _words(group),
            "at": f"{group.first.sheet} {group.cells}",
            "rule": group.first.rule,
            "places": PARTED.join(one.place for one in group.findings),
        }
        values |= {
            Place(f"{QUERIES}.{name}", f"{BOOK.tables[QUERIES][1].ref}{number}"): text for name, text in line.items()
        }
    marks = {place_of(one.place): f"QY{number}" for number, group in enumerate(groups, 1) for one in group.findings}
    return issue(BOOK, values, {}, day, artist, Again(sent, marks))


def _as_they_came(result: Audit) -> Values:
    """What was sent, and over it what the vendor answered; a picture that is not there any more is left out."""
    sent, got = result.sent, result.got
    assert sent is not None
    unit = dict(got.ready.shape.words)["{unit}"]
    values: Values = {}
    for place, value in sent.values.items():
        if place.entry.startswith(f"{QUERIES}."):
            continue  # what was asked before is asked again where it still stands
        here = got.typed.get(place) if isinstance(value, PictureMark) else value
        if isinstance(here, Picture) or not isinstance(here, PictureMark | None):
            values[place] = here
    for place, came in got.typed.items():
        entry = got.ready.book.entries[place.entry].entry
        if entry.who == "vendor":
            values[place] = as_typed(entry, came, unit)
    return values


def _words(group: Group) -> str:
    message = group.shared(lambda one: one.told) or group.first.told
    action = group.shared(lambda one: one.action) or ""
    return f"{message} {action}".strip()
