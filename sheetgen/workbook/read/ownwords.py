"""Our own words: every text that the builder writes besides values, so that what others wrote beside them is found."""

from __future__ import annotations

from sheetgen.declare.parts import Form, Ledger, Part, Pictures, Section, Table, Words
from sheetgen.texts import say
from sheetgen.workbook.model import look
from sheetgen.workbook.model.values import Ready, with_words
from sheetgen.workbook.write.cells import END_OF_TABLE


def own_words(ready: Ready) -> frozenset[str]:
    """All titles, headings, notes, legends and fixed sentences of this book, as they stand in its cells."""
    found = {say("Ref"), say(END_OF_TABLE)}
    for role in look.ROLES.values():
        found |= {say(role.word), f"{say(role.word)}: {say(role.meaning)}"}
    for sheet in ready.book.sheets:
        found |= {sheet.title, sheet.purpose}
        for part in sheet.parts:
            found.update(_of_part(part))
    marks = tuple(f"  · {say(role.word)}" for role in look.ROLES.values())
    headings = {with_words(column.entry.heading, ready.shape) for column in ready.book.entries.values()}
    found |= headings | {heading + mark for heading in headings for mark in marks}
    return frozenset(with_words(words, ready.shape).strip() for words in found)


def _of_part(part: Part) -> set[str]:
    found = {part.title}
    if isinstance(part, Form | Pictures | Table | Ledger):
        found.add(part.note)
    if isinstance(part, Words):
        found.update(part.lines)
    elif isinstance(part, Ledger):
        found.update(part.headings)
        found.update(word for line in part.lines for word in line.words)
    elif isinstance(part, Table):
        found.update(column.title for column in part.columns if isinstance(column, Section))
    return found
