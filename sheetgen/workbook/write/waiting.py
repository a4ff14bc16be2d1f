"""Why a figure is blank: each cell that is worked out says, when it is chosen, what it is and which cells it waits for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from sheetgen.declare.formula import resolve
from sheetgen.texts import say
from sheetgen.workbook.model.page import Page
from sheetgen.workbook.model.values import Ready, with_words
from sheetgen.workbook.write.targets import EntryCells, set_rule

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from xlsxwriter.worksheet import Worksheet

_ASKED = re.compile(r'(?:(?:N|SUM|COUNT)\()?([a-z][\w.]*)\)?(?:=""|=0)')
_BLANK_IF = re.compile(rf'IF\((?:(?:OR|AND)\()?({_ASKED.pattern}(?:,{_ASKED.pattern})*)\)?,"",')


def say_what_is_waited_for(sheet: Worksheet, page: Page, ready: Ready, entries: Iterable[EntryCells]) -> None:
    """Input messages of what is worked out, in the brand's own file; on sheets of workings nobody asks."""
    if ready.shape.audience == "vendor" or not page.sheet.printed or page.sheet.derived:
        return
    for address, column, target, _ in entries:
        if column.entry.who != "computed":
            continue
        help_ = with_words(column.entry.help.rstrip("."), ready.shape)
        says = ". ".join(filter(None, (help_, waits(address, ready))))
        if says:
            heading = with_words(column.entry.heading, ready.shape)
            set_rule(sheet, page.sheet.title, target, {"validate": "any"}, heading, says)


def waits(address: str, ready: Ready) -> str:
    """What must be there before it shows; where its formula does not say, what it is worked out from.

    Cells go by their headings, with the sheet where that is another; the row's own name is left out.
    """
    formula = ready.formulas[address]
    asked = _named(address, (*(one.address for one in formula.waits_for), *_asked(address, ready)), ready)
    if asked:
        return say("Blank until there is: {names}", names=asked)
    read = _named(address, formula.reads, ready)
    return say("Worked out from: {names}", names=read) if read else ""


def _named(address: str, others: Iterable[str], ready: Ready) -> str:
    own, table, _ = ready.book.entries[address]
    key = f"{own.name}.{table.name}.{table.key}" if table is not None else ""
    names: dict[str, None] = {}
    for other in dict.fromkeys(others):
        if other in ready.book.entries and other != key:
            sheet, _, entry = ready.book.entries[other]
            heading = with_words(entry.heading, ready.shape)
            names[heading if sheet is own else f"{sheet.title}: {heading}"] = None
    return "; ".join(names)


def _asked(address: str, ready: Ready) -> Iterator[str]:
    """Addresses of what the formula itself asks for before it shows anything: `IF(OR(x="",N(y)=0),"",`."""
    sheet, table, entry = ready.book.entries[address]
    for condition in _BLANK_IF.finditer(entry.formula):
        for name in _ASKED.findall(condition.group(1)):
            yield resolve(ready.book, sheet, table, name).address
