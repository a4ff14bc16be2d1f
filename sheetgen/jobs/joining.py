"""Two working workbooks that went on from one, joined into the next."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from sheetgen import api
from sheetgen.api.settling import settled
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.texts import say
from sheetgen.workbook.exchange.join import Joined, joined
from sheetgen.workbook.model.values import Values, ready, refs, shape_of


class Together(NamedTuple):
    """The joined workbook, and what became of both."""

    built: api.Built
    joined: Joined


def _refuse_other_columns(first: Path, second: Path, before: Values, one: Values, other: Values) -> None:
    """Sizes, colorways and rounds may have come at the end of one file; else their columns are not those of the other."""
    for axis, table in BOOK.axes.items():
        old, here, there = (refs(table, values) for values in (before, one, other))
        grown = [rows for rows in (here, there) if rows != old]
        if len(grown) > 1 or any(rows[: len(old)] != old for rows in grown):
            path = second if there != old else first
            raise UserError(
                say(
                    "{path}: a {axis} was put in or taken out there since; join first, and make that change in the joined file.",
                    path=path, axis=axis,
                )
            )  # fmt: skip


def join(before: Path, first: Path, second: Path) -> Together:
    """The workbook of both. UserError for a vendor's copy, or where a change in one can be meant in two ways."""
    words = say("is a vendor's copy; working workbooks are joined, a return is accepted")
    lost: list[str] = []
    values: list[Values] = []
    for path in (before, first, second):
        found, not_carried, _ = settled(api.working_copy(path, words))
        values.append(found)
        lost += [] if path == before else not_carried
    _refuse_other_columns(first, second, *values)
    book = ready(BOOK, shape_of(BOOK, {**values[1], **values[2]})).book
    done = joined(book, *values)
    return Together(api.from_values(done.values, tuple(lost)), done)
