"""A change after a copy left: the next revision, and what changed since, cell by cell, in the sheet Revisions."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from sheetgen.audit.changes import Change, changes, in_words, last_issue
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.errors import UserError
from sheetgen.texts import marked, say
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.model.values import Values, free_row, refs
from sheetgen.workbook.read.found import Returned

_LOG = "revisions.log"
_NOTHING = marked("{path}: {nothing}, so that there is nothing to revise: issue it without --revise.")
_MOST_LINES = 40
"""So many changes stand one by one; more are counted by sheet."""


class Revised(NamedTuple):
    """The values with the next revision and its lines; how many changes they hold; the issue that they are counted from."""

    values: Values
    changed: int
    since: str


def revised(values: Values, got: Returned, day: datetime.date, why: str | None) -> Revised:
    """The values with what changed since the last copy to this vendor, if any left from this folder.

    With a reason the revision is raised where it is still that of the copy; without one only lines of a revision that was
    raised by hand are written. UserError if a reason is given and nothing changed, or nothing was sent.
    """
    sent = last_issue(got, of_revision=False)
    if sent is None:
        if why is not None:
            nothing = say("no receipt of a copy to this vendor lies beside it")
            raise UserError(say(_NOTHING, path=got.path, nothing=nothing))
        return Revised(values, 0, "")
    found = list(changes(got, sent))
    before, now = _number(sent.revision), _number(values.get(Place("style.revision")))
    if why is not None and not found:
        nothing = say("nothing changed since issue {issue_id}", issue_id=sent.issue_id)
        raise UserError(say(_NOTHING, path=got.path, nothing=nothing))
    if why is None and now <= before:
        return Revised(values, 0, "")
    number = max(now, before + 1)
    lines = [line for line in _lines(got, found) if line["what"] not in _written(values, number)]
    made = {**values, Place("style.revision"): number}
    if number != now:
        made[Place("style.date")] = day
    for line in lines:
        made |= new_line(made, {**line, "date": day, "why": why})
    return Revised(made, len(found) if lines else 0, sent.issue_id)


def new_line(values: Values, line: Mapping[str, Value]) -> Values:
    """One more line of the history: of the style's revision, and by its contact, unless it says otherwise."""
    row = free_row("W", refs(_LOG, values))
    by = str(values.get(Place("style.contact")) or "designer")
    full = {"revision": values.get(Place("style.revision")), **line, "by": line.get("by") or by}
    return {Place(f"{_LOG}.{name}", row): value for name, value in full.items() if value not in (None, "")}


def _number(value: Value) -> int:
    if isinstance(value, int | float):
        return int(value)
    return int(value) if isinstance(value, str) and value.isdigit() else 0


def _written(values: Values, number: int) -> set[Value]:
    """What the lines of that revision say already."""
    rows = [row for row in refs(_LOG, values) if values.get(Place(f"{_LOG}.revision", row)) == number]
    return {values.get(Place(f"{_LOG}.what", row)) for row in rows}


def _lines(got: Returned, found: Sequence[Change]) -> Iterator[dict[str, Value]]:
    """A line for each change, in the order of the sheets; the rest of a long list counted by sheet."""
    for place, before, now in found[:_MOST_LINES]:
        yield {"what": in_words(got, place), "before": shown_text(before), "after": shown_text(now, than=before)}
    entries = got.ready.book.entries
    for title, count in Counter(entries[change.place.entry].sheet.title for change in found[_MOST_LINES:]).items():
        yield {
            "what": say("{sheet}: {count} more cells", sheet=title, count=count),
            "after": say("as they stand there"),
        }
