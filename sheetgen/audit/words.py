"""Words: what was written stands where it was written, and names still point at what they are called by."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.audit.structure import lost_rows
from sheetgen.declare.entry import REF, Place
from sheetgen.texts import say
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.read.found import Meeting, WordsGone


@rule(
    title="Words of the sheet were changed",
    level="fix",
    source="common practice",
    message="{cell} was sent as “{expected}” and now says {found}.",
    why="People read a figure by the words beside it: under another heading it means something else.",
    fix="Put the words back: “{expected}”.",
    bad=(
        Example(
            "two tolerances' headings exchanged",
            {
                "measurements.points.plus": Do("heading", "Tolerance −"),
                "measurements.points.minus": Do("heading", "Tolerance +"),
            },
            ("words-changed measurements.points.plus", "words-changed measurements.points.minus"),
        ),
        Example("a field's label cleared", {"quote.tier": Do("label", None)}, ("words-changed quote.tier",)),
    ),
    fine=(Example("all words as they were sent"),),
)
def words_changed(case: Case) -> Iterator[Fault]:
    if case.own:
        return
    known = _explained(case)
    for meeting in case.got.accounts.changed:
        if _lines(meeting) in known or _is_told_of_the_row(case, meeting):
            continue
        now = meeting.held.formula or shown_text(meeting.held.value)
        words = shown_text(meeting.sent.shown)
        yield Fault(_beside(case, meeting), words, now, sheet=meeting.cell.sheet, cell=meeting.cell.address)
    for gone in case.got.accounts.gone:
        if not _is_ref(case, gone.sheet.title, gone.at) and not _in_something_gone(case, gone):
            title = case.got.alignments[gone.sheet.title].title
            yield Fault(None, gone.words, say("nothing: its row or column is gone"), sheet=title, cell=title)


def _lines(meeting: Meeting) -> tuple[str, int]:
    return meeting.sheet.title, meeting.at[1]


def _explained(case: Case) -> set[tuple[str, int]]:
    """Columns whose loss is told by a rule of its own, as sheet and column as sent."""
    written = case.got.written
    found: set[tuple[str, int]] = set()
    for lost in case.got.lost if written else ():
        table, _, name = lost.address.rpartition(".")
        place = written.where.tables.get(table) if written else None
        if lost.what == "column" and place is not None and name in place.columns:
            found.add((place.sheet, place.columns[name]))
    return found


def _is_ref(case: Case, title: str, at: tuple[int, int]) -> bool:
    return at in case.got.sent_refs[title]


def _is_told_of_the_row(case: Case, meeting: Meeting) -> bool:
    """Whether a cell holds a row's ref, and what became of the row is told by the rules about rows."""
    if not _is_ref(case, meeting.sheet.title, meeting.at) or case.got.written is None:
        return False
    for address, table in case.got.written.where.tables.items():
        ref = next((ref for ref, row in table.rows.items() if row == meeting.at[0]), None)
        if table.sheet != meeting.sheet.title or ref is None or table.ref_column != meeting.at[1]:
            continue
        now = case.got.where.tables.get(address)
        place = Place(f"{address}.{REF}", ref)
        at_hand = (
            [Place(f"{address}.{REF}", one) for one, row in now.rows.items() if row == meeting.cell.row] if now else []
        )
        told = {*lost_rows(case), *case.got.doubled_rows}
        filled = any(one.row == ref and one.entry.startswith(f"{address}.") for one in case.got.typed)
        return now is None or filled or place in told or any(one in told for one in at_hand)
    return False


def _in_something_gone(case: Case, gone: WordsGone) -> bool:
    """Whether words went with a column, table or field whose loss is told on its own."""
    written = case.got.written
    if written is None or (gone.sheet.title, gone.at[1]) in _explained(case):
        return True
    for lost in case.got.lost:
        table = written.where.tables.get(lost.address)
        field = written.where.fields.get(lost.address)
        if table and table.sheet == gone.sheet.title and table.first - 4 <= gone.at[0] <= table.last:
            return True
        if field and (field.sheet, field.row) == (gone.sheet.title, gone.at[0]):
            return True
    return False


def _beside(case: Case, meeting: Meeting) -> Place | None:
    """The entry that a heading or label belongs to: the column under it, or the field to its right."""
    written = case.got.written
    if written is None:
        return None
    for address, table in written.where.tables.items():
        if table.sheet == meeting.sheet.title and meeting.at[0] == table.first - 1:
            return next((Place(f"{address}.{name}") for name, at in table.columns.items() if at == meeting.at[1]), None)
    right = [
        (at.column, address) for address, at in written.where.fields.items()
        if (at.sheet, at.row) == (meeting.sheet.title, meeting.at[0]) and at.column > meeting.at[1]
    ]  # fmt: skip
    return Place(min(right)[1]) if right else None


@rule(
    title="A name points elsewhere",
    level="fix",
    source="common practice",
    message="The workbook name of {place} points at another cell than the words beside it; its cell by the words is {cell}.",
    why="Whoever reads the file by its names reads another cell than a person does.",
    fix="Put the name back, or put the answers into a fresh copy of the file.",
    bad=(
        Example(
            "a price's name moved to the cell below",
            {"quote.valid_until": Do("move-name", 1)},
            ("name-moved quote.valid_until",),
        ),
    ),
    fine=(Example("names where they were"),),
)
def name_moved(case: Case) -> Iterator[Fault]:
    if case.own:
        return
    for address in case.got.moved_names:
        yield Fault(Place(address), sheet=_title(case, address))


def _title(case: Case, address: str) -> str:
    cell = case.got.where.fields.get(address)
    table = case.got.where.tables.get(address.rpartition(".")[0])
    return cell.sheet if cell else table.sheet if table else ""


RULES = (words_changed, name_moved)
