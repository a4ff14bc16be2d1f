"""The reference of sheets, written from their declarations, for the commands and for the README."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from sheetgen.declare.entry import Entry
from sheetgen.declare.parts import Chart, Form, Pictures, Section, Sheet, Table
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.texts import marked, say
from sheetgen.workbook.model.values import ready, shape_of

_WHO = {
    "designer": marked("designer fills"),
    "vendor": marked("vendor fills"),
    "computed": marked("computed"),
    "fixed": marked("given"),
    "drawn": marked("drawn"),
}


def all_sheets() -> tuple[Sheet, ...]:
    """The sheets in their order, Guide and Checks among them, families not yet expanded where a person declares them."""
    declared = {sheet.name: sheet for sheet in BOOK.sheets}
    derived = {sheet.name: sheet for sheet in ready(BOOK, shape_of(BOOK, {})).book.sheets}
    return tuple(declared.get(name) or derived[name] for name in BOOK.order)


def sheets_table() -> str:
    """The README's table of sheets, as Markdown."""
    lines = [say("| sheet | what is on it | designer fills | vendor fills | computed |"), "|---|---|---|---|---|"]
    for sheet in all_sheets():
        counts = {who: sum(entry.who == who for entry in _entries(sheet)) for who in _WHO}
        title = say("{title} (brand only)", title=sheet.title) if sheet.private else sheet.title
        title += say(" (only with several {only_with}s)", only_with=sheet.only_with) if sheet.only_with else ""
        purpose = _one_line(sheet.purpose)
        shown = [str(counts[who]) if counts[who] else "–" for who in ("designer", "vendor", "computed")]
        if sheet.derived:
            shown = ["–", "–", "all"]
        lines.append(f"| {title} | {purpose} | {' | '.join(shown)} |")
    return "\n".join(lines)


def explain_sheet(name: str) -> Iterator[str]:
    """A sheet's entries in words; UserError with the nearest name if there is none."""
    sheets = all_sheets()
    sheet = next((sheet for sheet in sheets if name.lower() in {sheet.name, sheet.title.lower()}), None)
    if sheet is None:
        near = get_close_matches(name.lower(), [sheet.name for sheet in sheets], 1)
        hint = say("is it {near!r}?", near=near[0]) if near else say("sheetgen sheets lists them.")
        raise UserError(say("no sheet is called {name!r}; {hint}", name=name, hint=hint))
    return _sheet_lines(sheet)


def _sheet_lines(sheet: Sheet) -> Iterator[str]:
    yield f"{sheet.title}: {_one_line(sheet.purpose)}"
    for part in sheet.parts:
        if isinstance(part, Form | Pictures):
            yield ""
            yield part.title
            yield from (_entry_line(f"{sheet.name}.{entry.name}", entry) for entry in part.entries)
        elif isinstance(part, Chart):
            yield ""
            yield say(
                "{title} (a chart: {sort}, {unit}, of {listed})",
                title=part.title,
                sort=part.sort,
                unit=_one_line(part.unit),
                listed=", ".join(part.series),
            )
        elif isinstance(part, Table):
            yield ""
            yield say("{title} (rows {ref}1, {ref}2, ...)", title=part.title, ref=part.ref)
            for column in part.columns:
                if isinstance(column, Section):
                    yield f"  [{_one_line(column.title)}]"
                    yield from (
                        _entry_line(f"{sheet.name}.{part.name}.{entry.name}", entry) for entry in column.columns
                    )
                else:
                    yield _entry_line(f"{sheet.name}.{part.name}.{column.name}", column)


def _entry_line(address: str, entry: Entry) -> str:
    words = [say(_WHO[entry.who]) if not entry.private else say("brand only"), entry.kind.noun]
    if entry.need:
        words.append(say("needed for {need}", need=entry.need))
    if entry.axis:
        words.append(say("one for each {axis}", axis=entry.axis))
    if entry.formula:
        words.append(f"= {entry.formula}")
    elif entry.help:
        words.append(entry.help.rstrip("."))
    if entry.blank:
        words.append(say("blank: {meaning}", meaning=entry.blank))
    return f"  {address}: {_one_line(entry.heading)} ({'; '.join(words)})"


def _one_line(text: str) -> str:
    for hole, word in (("{unit}", "unit"), ("{other}", say("the other unit")), ("{currency}", "currency")):
        text = text.replace(hole, word)
    return " ".join(text.split())


def _entries(sheet: Sheet) -> Iterator[Entry]:
    for part in sheet.parts:
        if isinstance(part, Form | Pictures | Table):
            yield from part.entries
