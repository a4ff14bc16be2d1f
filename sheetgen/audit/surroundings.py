"""Surroundings: headers and footers, messages and choices beside the cells, links, the copy's hidden record."""

from __future__ import annotations

import re
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.audit.structure import beside
from sheetgen.texts import say
from sheetgen.workbook.model.areas import cells_of
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.written import Message, WrittenSheet
from sheetgen.workbook.read.loaded import LoadedSheet

_LAYOUT = re.compile(r'&(?:"[^"]*"|K[0-9A-Fa-f]{6}|K\d\d[+-]\d{3}|\d+|[LCRBIUSXYEGADTFZOH])')
"""What of a header is look and not words (ECMA-376 part 1, 18.3.1.46)."""


def _sheets(case: Case) -> Iterator[tuple[WrittenSheet, LoadedSheet]]:
    """Each sheet as it was sent, with what it is now; nothing for a file of one's own."""
    if case.own or case.got.written is None or case.got.loaded.typed_only:
        return
    for sheet in case.got.written.sheets:
        alignment = case.got.alignments.get(sheet.title)
        if alignment is not None:
            yield sheet, case.got.loaded.sheets[alignment.title]


@rule(
    title="Header or footer was changed",
    level="fix",
    source="common practice",
    message="The {expected} of {sheet} now says “{found}”.",
    why="On paper it says whose style this is, and which revision.",
    fix="Put header and footer back as they were sent.",
    bad=(
        Example(
            "another revision in the footer",
            {"measurements": Do("paper-words", {"revision 1": "revision 7"})},
            ("header-changed Measurements",),
        ),
    ),
    fine=(Example("header and footer as they were sent"),),
)
def header_changed(case: Case) -> Iterator[Fault]:
    for sent, now in _sheets(case):
        for what, before, after in (
            (say("header"), sent.header, now.header),
            (say("footer"), sent.footer, now.footer),
        ):
            if _words(before) != _words(after):
                yield Fault(None, what, _words(after), sheet=now.title)


def _words(text: str) -> str:
    text = text.replace("&&", "\x01").replace("&P", "\x02").replace("&N", "\x03")
    return " ".join(_LAYOUT.sub(" ", text).replace("\x01", "&").replace("\x02", "1").replace("\x03", "1").split())


@rule(
    title="A cell's message or choices were changed",
    level="fix",
    source="common practice",
    message="{place} was sent with the message “{expected}” and now has “{found}”.",
    why="Whoever fills the cell goes by it.",
    fix="Put the answers into a fresh copy of the file.",
    bad=(
        Example(
            "another message at a cell to fill",
            {"quote.valid_until": Do("message", "Leave this blank")},
            ("message-changed quote.valid_until",),
        ),
    ),
    fine=(Example("messages as they were sent"),),
)
def message_changed(case: Case) -> Iterator[Fault]:
    for sent, now in _sheets(case):
        before = {at: message for message in sent.messages for at in cells_of(message.areas)}
        after = {at: message for message in now.messages for at in cells_of(message.areas)}
        alignment = case.got.alignments[sent.title]
        places = case.got.sent_places.get(sent.title, {})
        told: set[tuple[Message, Message | None]] = set()
        known = {*map(_says, sent.messages), ("", "", "")}
        for at, message in before.items():
            place = places.get(at)
            cell = case.got.where.at(place) if place else alignment.cell(at)
            other = after.get((cell.row, cell.column)) if cell else None
            if other is None or cell is None or _is_said(message, other) or (message, other) in told:
                continue
            told.add((message, other))
            yield Fault(place, _said(message), _said(other), sheet=now.title, cell=cell.address)
        sent_to = {(case.got.where.at(places[at]) if at in places else None) or alignment.cell(at) for at in before}
        for at, message in after.items():
            cell = Cell(now.title, *at)
            # A row that is put in takes over the messages of the one above it.
            if cell not in sent_to and _says(message) not in known and (message, None) not in told:
                told.add((message, None))
                yield Fault(case.place_of_cell(cell), "", _said(message), sheet=now.title, cell=cell.address)


def _is_said(sent: Message, now: Message) -> bool:
    """Whether a cell still says what was sent. A program that does not keep a list of names leaves none: no other choices."""
    before, after = _says(sent), _says(now)
    return before == after or (not now.formula and before[:2] == after[:2])


def _says(message: Message) -> tuple[str, str, str]:
    listed = re.sub(r"[\s$\"']", "", message.formula).casefold() if message.sort == "list" else ""
    return " ".join(message.title.split()), " ".join(message.prompt.split()), listed


def _said(message: Message) -> str:
    return ": ".join(words for words in (message.title, message.prompt, message.formula) if words)


@rule(
    title="A link was put in or changed",
    level="fix",
    source="ICAEW Twenty principles; FAST standard: no hidden ways out of the file",
    message="{cell} leads to {found}.",
    why="A click on it opens something that was not sent.",
    asked="Take the link out.",
    fix="Do not follow it; take the link out.",
    bad=(
        Example(
            "a link to a page of the net on an instruction",
            {"construction.callouts[N1].instruction": Do("link", "https://example.org/login")},
            ("link-put-in construction.callouts[N1].instruction",),
        ),
    ),
    fine=(Example("links as they were sent"),),
)
def link_put_in(case: Case) -> Iterator[Fault]:
    for sent, now in _sheets(case):
        alignment = case.got.alignments[sent.title]
        targets = {alignment.cell(at): _target(target) for at, target in sent.links}
        for at, target in now.links:
            cell = Cell(now.title, *at)
            if targets.get(cell) != _target(target):
                place = case.place_of_cell(cell) or beside(case, cell)
                yield Fault(place, "", target, sheet=now.title, cell=cell.address)


def _target(text: str) -> str:
    return re.sub(r"[^0-9a-z]", "", text.casefold())


RULES = (header_changed, message_changed, link_put_in)
