"""Changes in the grid that mean more than one cell: another unit or currency, another sample size, a size renamed.

What a working workbook was built with stands in its record. What differs now is settled as the designer says, never guessed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sheetgen.api.members import built_with, follow_members, named_when_built
from sheetgen.api.showing import follow_tabs
from sheetgen.declare.entry import REF, Place
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.style.figures import figures
from sheetgen.style.graded import take_grades
from sheetgen.style.identified import take_identified
from sheetgen.texts import say
from sheetgen.workbook.exchange.accept import carried
from sheetgen.workbook.exchange.other_unit import lengths_in
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.found import Returned

SampleMove = Literal["moves-base", "moves-sizes"]
_KEPT_MARKS = (
    ("markers.list", "stamp", "stamp_now", "state", "as laid"),
    ("cutting.lays", "laid_stamp", "laid_now", "state", "as laid"),
    ("approvals.items", "given", "now", "since", "the same"),
)
"""Table, mark that is kept, mark as it is now, and what says that they are the same: in another unit they still are."""
_UNIT, _CURRENCY, _SAMPLE = Place("style.unit"), Place("style.currency"), Place("style.sample_size")
_UNITS = ("cm", "mm", "in")


@dataclass(frozen=True)
class Settle:
    """How changes of the grid are meant: lengths converted to `unit`, or all figures kept as they are typed; and which of
    base and sizes follows another sample size.
    """

    unit: str | None = None
    keep_figures: bool = False
    sample_size: SampleMove | None = None


def settled(got: Returned, how: Settle | None = None) -> tuple[Values, list[str], list[str]]:
    """The values of a working workbook, what of it cannot be carried over, and in words what followed a change.

    UserError that names the cell where a change can be meant in two ways and `how` does not say which.
    """
    how = how or Settle()
    values, lost = carried(got)
    notes = follow_renames(got, values)
    notes += _other_unit(got, values, how)
    _refuse_other_currency(got, values, how)
    notes += follow_members(got, values)
    notes += _other_sample(got, values, how)
    notes += take_identified(values)
    notes += take_grades(values)
    notes += follow_tabs(got, values)
    return values, lost, notes


def _where(got: Returned, place: Place) -> str:
    cell = got.where.at(place)
    return f"{got.path}: {cell.sheet} {cell.address}" if cell else str(got.path)


def follow_renames(got: Returned, values: Values) -> list[str]:
    """Cells that name a size, length or colorway that is called otherwise now go along with it: they mean its row."""
    notes: list[str] = []
    if got.written is None:
        return notes
    for source in dict.fromkeys(
        column.entry.kind.source for column in BOOK.entries.values()
        if column.entry.kind.must_stand and not column.entry.kind.source.endswith(f".{REF}")
    ):  # fmt: skip
        new_names = _new_names(got, values, source)
        for place, value in list(values.items()):
            column = BOOK.entries.get(place.entry)
            if column is not None and column.entry.kind.source == source and str(value) in new_names:
                values[place] = new_names[str(value)]
        notes += [
            say("{old} is called {new} now: what names it follows.", old=old, new=new) for old, new in new_names.items()
        ]
    return notes


def _new_names(got: Returned, values: Values, source: str) -> dict[str, str]:
    """Old name -> new one, of rows whose name was typed over; a name that another row still has stays."""
    now = {place.row: str(value) for place, value in values.items() if place.entry == source}
    return {
        str(name): now[ref] for ref, name in named_when_built(got, source.rpartition(".")[0]).items()
        if ref in now and now[ref] != str(name) and str(name) not in now.values()
    }  # fmt: skip


def _other_unit(got: Returned, values: Values, how: Settle) -> list[str]:
    """All lengths in another unit, where that was asked for; where only the cell was changed, it must be said what it means."""
    then, now = dict(got.ready.shape.words)["{unit}"], str(values.get(_UNIT) or "")
    if how.unit is None:
        if now in _UNITS and now != then and not how.keep_figures:
            raise UserError(
                say(
                    "{where}: the unit is {now} and was {then} when the file was built; build it with --unit {now} to convert "
                    "all lengths, or with --keep-figures to leave the figures as they are.",
                    where=_where(got, _UNIT), now=now, then=then,
                )
            )  # fmt: skip
        return []
    standing = {
        Place(f"{table}.{kept}", place.row): Place(f"{table}.{mark}", place.row)
        for table, kept, mark, state, word in _KEPT_MARKS
        for place, value in got.shown.items() if place.entry == f"{table}.{state}" and value == word
    }  # fmt: skip
    converted = lengths_in(got.ready.book, values, then, how.unit)
    values.update({**converted, _UNIT: how.unit})
    if standing and converted:
        marks = figures(values)[1]
        values.update({kept: marks[mark] for kept, mark in standing.items()})
    if not converted:
        return []
    return [say("{count} lengths converted from {then} to {now}.", count=len(converted), then=then, now=how.unit)]


def _refuse_other_currency(got: Returned, values: Values, how: Settle) -> None:
    then, now = dict(got.ready.shape.words)["{currency}"], str(values.get(_CURRENCY) or "")
    if now and now != then and not how.keep_figures:
        raise UserError(
            say(
                "{where}: the currency is {now} and was {then} when the file was built; amounts are not converted: correct them, "
                "then build it with --keep-figures, or type {then} back.",
                where=_where(got, _CURRENCY), now=now, then=then,
            )
        )  # fmt: skip


def _other_sample(got: Returned, values: Values, how: Settle) -> list[str]:
    """Another sample size: either the base moves to it and all sizes stay, or the base stays and all sizes move."""
    cell = got.written.where.at(_SAMPLE) if got.written else None
    old, now = built_with(got, cell), values.get(_SAMPLE)
    sizes = {str(value): place.row for place, value in values.items() if place.entry == "style.sizes.name"}
    if old in (None, "") or str(now) not in sizes or str(old) not in sizes or str(old) == str(now):
        return []
    if how.sample_size is None:
        raise UserError(
            say(
                "{where}: the sample size is {now}, {then} when the file was built; build it with --sample-size moves-base "
                "(all sizes stay, the base is that of {now}) or --sample-size moves-sizes (the base stays, all sizes move).",
                where=_where(got, _SAMPLE), now=now, then=old,
            )
        )  # fmt: skip
    if how.sample_size == "moves-sizes":
        return [say("The base stands for size {now} now: all sizes moved.", now=now)]
    graded = figures({**values, _SAMPLE: str(old)})[1]
    number = list(sizes).index(str(now)) + 1
    moved = 0
    for place in [place for place in values if place.entry == "measurements.points.base"]:
        figure = graded.get(Place(f"measurements.points.spec_z{number}", place.row))
        if isinstance(figure, int | float):
            values[place] = figure
            moved += 1
    return [say("{count} bases moved to size {now}: all sizes stayed.", count=moved, now=now)]
