"""Which sheets the brand wants to see: by the list on the Guide, by name, or by showing and hiding tabs in the grid itself."""

from __future__ import annotations

from collections.abc import Iterable
from difflib import get_close_matches
from typing import TYPE_CHECKING

from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.texts import say
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.model.visible import NOT_WANTED, WANTED, wish_of

if TYPE_CHECKING:
    from sheetgen.workbook.read.found import Returned

_LISTED = {sheet.name: sheet.title for sheet in BOOK.sheets if sheet.seen != "never"}


def show(values: Values, names: Iterable[str]) -> None:
    """Put the wish for these sheets into the values; UserError for a name that is none."""
    titles = {title.casefold(): name for name, title in _LISTED.items()}
    for word in names:
        name = titles.get(word.casefold(), word.casefold())
        if name not in _LISTED:
            near = get_close_matches(name, _LISTED, 1)
            raise UserError(
                say(
                    "--with {word}: no sheet of that name can be put away or shown{hint}; these can: {listed}.",
                    word=word, listed=", ".join(_LISTED), hint=say("; is it {near}?", near=near[0]) if near else "",
                )
            )  # fmt: skip
        values[wish_of(BOOK, name)] = WANTED


def follow_tabs(got: Returned, values: Values) -> list[str]:
    """Tabs that were shown or hidden in the grid since the file was built are wanted or not from now on; in words, which."""
    if got.written is None:
        return []
    before = {sheet.title: sheet.hidden for sheet in got.written.sheets}
    notes: list[str] = []
    for name, title in _LISTED.items():
        now = got.where.titles.get(name)
        then = before.get(got.written.where.titles.get(name, title))
        if now is None or then is None or (now in got.hidden) == then:
            continue
        hidden = now in got.hidden
        values[wish_of(BOOK, name)] = NOT_WANTED if hidden else WANTED
        notes.append(
            say("{title} stays hidden.", title=title) if hidden else say("{title} stays in sight.", title=title)
        )
    return notes
