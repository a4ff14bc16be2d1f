"""Guide: made from the other sheets: what this file is, whose turn it is, the sheets with links, how to fill and return it."""

from __future__ import annotations

from sheetgen.declare.entry import Entry, computed, designer
from sheetgen.declare.kinds import choice, date, text, whole
from sheetgen.declare.parts import Book, Form, Ledger, Line, Sheet, Words

_HOW_DESIGNER = (
    "Fill the cells marked designer. A strongly colored cell must be filled for the purpose on the Style sheet; it pales once filled.",
    "Type or paste on at a table's end, and insert rows where you like; then sheetgen build FILE once: new rows get ref and formulas.",
    "Numbers are plain numbers: units and currency stand in the headings. Lengths may be typed as fractions: 12 3/8.",
    "Checks counts what is missing or contradicts itself. At 0, issue the vendor's copy with sheetgen issue; send only that copy.",
)
_HOW_VENDOR = (
    "Fill the cells marked vendor: they are open, all others are locked. A strongly colored cell must be filled; it pales once filled.",
    "Numbers are plain numbers: no currency, no unit, no text in the cell. Lengths in inches may be typed as fractions: 12 3/8.",
    "Write what was measured, not what was asked. Ask on the sheet Questions, not over a number.",
    "Keep sheets, columns and formulas as they are. Save as .xlsx under the same name and send it back whole.",
    "Before you return this file: the column Open below must be 0 everywhere.",
)

_DONE_DESIGNER = "Nothing is open: look at Checks, then issue it with sheetgen issue."
_DONE_VENDOR = "Nothing is open: save it as .xlsx and send it back."
_OPEN = "Open: cells that must be filled for this purpose and are not."
_OPEN_AND_SHOW = (
    _OPEN + " A gray sheet is not shown: type yes under Show, and build once. What it holds stays, shown or not."
)
_SHOW = "yes or no: the next build shows the sheet or puts it away. Blank: it comes when the purpose asks for it."


def guide(book: Book) -> Sheet:
    """The Guide for this book; for a vendor it says what to do before returning the file."""
    say, vendor = book.say, book.audience == "vendor"
    nothing_open = say(_DONE_VENDOR if vendor else _DONE_DESIGNER)
    return Sheet(
        "guide",
        say("Guide"),
        purpose=say("Start here."),
        portrait=True,
        parts=(
            Form(say("This file"), (
                computed("number", say("Style"), text(), 'style.number&""'),
                computed("name", say("Name"), text(), 'style.name&""'),
                computed("company", say("From"), text(), 'style.company&""'),
                computed("vendor", say("For"), text(), 'style.vendor&""'),
                computed("revision", say("Revision"), whole(), "style.revision"),
                computed("date", say("Of"), date(), "style.date"),
                computed("purpose", say("Purpose"), text(), 'style.purpose&""'),
                computed("due", say("Answer due"), date(), "style.due"),
                computed("turn", say("Whose turn"), text(), f'"{say("vendor" if vendor else "designer")}"'),
                computed("to_fill", say("Cells still to fill"), whole(), "checks.to_fill"),
                computed("to_fill_on", say("They are on"), text(60),
                         f'IF(checks.to_fill_on="","{nothing_open}",LEFT(checks.to_fill_on,LEN(checks.to_fill_on)-2))'),
            )),
            _list_of_sheets(book),
            Words(
                say("How to fill and return it" if vendor else "How to work with it"),
                tuple(map(say, _HOW_VENDOR if vendor else _HOW_DESIGNER)),
            ),
        ),
    )  # fmt: skip


def _list_of_sheets(book: Book) -> Ledger:
    """Every sheet that people use, with what is open on it; the brand says beside it whether it wants to see it."""
    say, vendor = book.say, book.audience == "vendor"
    headings = (say("Sheet"), say("What is on it"), say("Open"), *([] if vendor else [say("Show")]))
    return Ledger(say("Sheets"), headings, (16, 78, 9, 9)[: len(headings)], tuple(
        Line((sheet.title, sheet.purpose), (_open(book, sheet), *([] if vendor else [_show(book, sheet)])), sheet.name)
        for sheet in book.sheets if sheet.seen != "never"
    ), mark_open=say("Open"), note=say(_OPEN if vendor else _OPEN_AND_SHOW))  # fmt: skip


def _open(book: Book, sheet: Sheet) -> Entry:
    counted = f"checks.sheet_open_{sheet.name}"
    heading = book.say("{sheet}: still to fill").format(sheet=sheet.title)
    return computed(f"open_{sheet.name}", heading, whole(), counted if counted in book.entries else "0")


def _show(book: Book, sheet: Sheet) -> Entry:
    say = book.say
    return designer(
        f"show_{sheet.name}", say("{sheet}: show it").format(sheet=sheet.title), choice(say("yes"), say("no"), width=8),
        help=say(_SHOW), private=True, blank=say("as the purpose asks"),
    )  # fmt: skip
