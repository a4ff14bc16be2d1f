"""Appearance: what a person sees in a cell is what stands in it: number formats, colors, rows of no height, marks put in."""

from __future__ import annotations

import re
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.audit.structure import beside
from sheetgen.declare.entry import Place
from sheetgen.texts import say
from sheetgen.trade.contrast import contrast
from sheetgen.workbook.model.areas import cells_of
from sheetgen.workbook.model.engine import cell_value
from sheetgen.workbook.model.geometry import Cell, column_number
from sheetgen.workbook.model.rendered import rendered
from sheetgen.workbook.model.written import Mark, Style
from sheetgen.workbook.read.found import Meeting

LEAST_CONTRAST = 1.8
"""Below this a text is not read at a glance; the faintest of ours has 4.0 (WCAG 2.1 asks for 4.5 of all text)."""
LEAST_POINTS = 6.0
_PAPER = "FFFFFF"
_INK = "000000"
_OF_AN_ANSWER = 0.005
"""An answer may be shown rounded by so much of itself, as people set their cells."""


def _fault(meeting: Meeting, expected: str, found: str) -> Fault:
    return Fault(meeting.place, expected, found, sheet=meeting.cell.sheet, cell=meeting.cell.address)


@rule(
    title="A cell shows something else than it holds",
    level="fix",
    source="ECMA-376 part 1, 18.8.30: number formats",
    message="{place} holds what it should, but is written out as “{found}”; it was sent to be read as “{expected}”.",
    why="People work by what they see, on the screen and on paper.",
    fix="Put the cell's number format back.",
    bad=(
        Example(
            "a tolerance that reads 9.9",
            {"measurements.points[P1].plus": Do("look", {"number_format": '"9.9"'})},
            ("shown-otherwise measurements.points[P1].plus",),
        ),
        Example(
            "a price that nobody sees",
            {"materials.bom[M1].price": Do("look", {"number_format": ";;;"})},
            ("shown-otherwise materials.bom[M1].price",),
        ),
        Example(
            "a price in hours and minutes",
            {"materials.bom[M1].price": Do("look", {"number_format": "[h]:mm"})},
            ("number-as-text materials.bom[M1].price", "shown-otherwise materials.bom[M1].price"),
        ),
    ),
    fine=(Example("an answer with more digits", {"materials.bom[M1].price": Do("look", {"number_format": "0.0000"})}),),
)
def shown_otherwise(case: Case) -> Iterator[Fault]:
    for meeting, sent, now in _dressed(case):
        if sent.number_format == now.number_format:
            continue
        value = meeting.held.value if meeting.held.formula is None else meeting.held.shown
        if value is None or value == "" or isinstance(value, bool):
            continue
        shown = cell_value(value)
        before, after = rendered(shown, sent.number_format), rendered(shown, now.number_format)
        if before != after and not (not sent.locked and _reads_alike(shown, after)):
            yield _fault(meeting, before, after)


def _dressed(case: Case) -> Iterator[tuple[Meeting, Style, Style]]:
    """Every cell that was sent and is there, with its look as it was sent and as it is now; nothing for a file of one's own."""
    if case.own or case.got.loaded.typed_only:
        return
    for meeting in case.got.accounts.meetings:
        yield meeting, case.got.written_style(meeting.sent), case.got.loaded.style(meeting.held)


def _reads_alike(value: object, text: str) -> bool:
    """Whether an answer written out in a format of the vendor's own still reads as that answer: a number or a day."""
    if not isinstance(value, int | float):
        return text.strip() == str(value).strip()
    if re.search(r"\d{4}|[A-Za-z]{3}|\d+[/.-]\d+[/.-]\d+", text):
        return True  # a day, in whatever order
    digits = re.sub(r"[^0-9.,/ -]", "", text).strip().replace(",", "")
    try:
        read = float(digits) * (0.01 if "%" in text else 1)
    except ValueError:
        return "/" in digits
    return abs(read - value) <= max(abs(value) * _OF_AN_ANSWER, 0.005)


@rule(
    title="Something is hard to see",
    level="fix",
    source="W3C, Web Content Accessibility Guidelines 2.1: contrast; ICAEW Twenty principles: hidden content",
    message="{place} can hardly be seen: {found}.",
    why="What nobody sees is not read, and not sewn.",
    fix="Put the cell's look back as it was sent.",
    bad=(
        Example(
            "an instruction in white on white",
            {"construction.callouts[N1].instruction": Do("look", {"ink": "FFFFFF", "fill": "FFFFFF"})},
            ("hard-to-see construction.callouts[N1].instruction",),
        ),
        Example(
            "a row of no height",
            {"measurements.points[P1]": Do("hide-row")},
            ("hard-to-see measurements.points[P1].ref",),
        ),
        Example(
            "a column hidden",
            {"measurements.points[P1].how": Do("column", "hide")},
            ("hard-to-see measurements.points.how",),
        ),
    ),
    fine=(
        Example("an answer in bold red", {"quote.remark": Do("look", {"ink": "C00000"})}),
        Example("steps that were sent hidden, unhidden", {"colorways.components[K1].another_c1": Do("column", "show")}),
    ),
)
def hard_to_see(case: Case) -> Iterator[Fault]:
    lines: dict[tuple[str, str, int], Meeting] = {}
    for meeting, sent, now in _dressed(case):
        value = meeting.held.value if meeting.held.formula is None else meeting.held.shown
        if value is None or value == "":
            continue
        sheet = case.got.loaded.sheets[meeting.cell.sheet]
        columns = frozenset() if meeting.at[1] in meeting.sheet.hidden_columns else sheet.hidden_columns
        line = _hidden_line(meeting, sheet.hidden_rows, columns)
        if line:
            # Of a whole line an entry says more than the legend above it.
            first = lines.setdefault((meeting.cell.sheet, *line), meeting)
            if first.place is None and meeting.place is not None:
                lines[(meeting.cell.sheet, *line)] = meeting
            continue
        why = _unseen(sent, now)
        if why:
            yield _fault(meeting, "", why)
    for (_, sort, number), meeting in lines.items():
        yield _line_fault(case, meeting, (sort, number))


def _hidden_line(meeting: Meeting, rows: frozenset[int], columns: frozenset[int]) -> tuple[str, int] | None:
    if meeting.cell.row in rows:
        return "row", meeting.cell.row
    return ("column", meeting.cell.column) if meeting.cell.column in columns else None


def _line_fault(case: Case, meeting: Meeting, line: tuple[str, int]) -> Fault:
    place = meeting.place or beside(case, meeting.cell)
    if place is not None and place.row:
        table, _, name = place.entry.rpartition(".")
        place = Place(f"{table}.ref", place.row) if line[0] == "row" else Place(f"{table}.{name}")
    words = say("its row is hidden") if line[0] == "row" else say("its column is hidden")
    return Fault(place, "", words, sheet=meeting.cell.sheet, cell=meeting.cell.address)


def _unseen(sent: Style, now: Style) -> str:
    if now.struck and not sent.struck:
        return say("it is struck through")
    if now.points < LEAST_POINTS <= sent.points:
        return say("its letters are {points} points high", points=f"{now.points:g}")
    before = contrast(sent.ink or _INK, sent.fill or _PAPER)
    after = contrast(now.ink or _INK, now.fill or _PAPER)
    if after < LEAST_CONTRAST and after < before - 0.05:
        return say("its color is nearly that of its ground")
    return ""


@rule(
    title="A conditional format was put in",
    level="fix",
    source="ECMA-376 part 1, 18.3.1.18: conditional formatting",
    message="In {sheet} a format depends on a condition that was not sent ({found}).",
    why="It can write another figure over the one that stands in the cell, or make it vanish.",
    fix="Take the conditional format out.",
    bad=(
        Example(
            "a condition that writes 9.9 over a tolerance",
            {"measurements.points[P1].plus": Do("mark", {"formula": "TRUE", "number_format": '"9.9"'})},
            ("format-put-in measurements.points[P1].plus",),
        ),
    ),
    fine=(Example("the formats that were sent"),),
)
def format_put_in(case: Case) -> Iterator[Fault]:
    if case.own or case.got.written is None:
        return
    for sheet in case.got.written.sheets:
        alignment = case.got.alignments.get(sheet.title)
        if alignment is None:
            continue
        known = {signature(mark) for mark in sheet.marks}
        looks = {_look(mark) for mark in sheet.marks}
        for mark in case.got.loaded.sheets[alignment.title].marks:
            if signature(mark) not in known and not (mark.sort != "expression" and _look(mark) in looks):
                cell = re.split(r"[: ]", mark.areas)[0]
                said = f"{' '.join(mark.formulas) or mark.sort}, {mark.areas}"
                yield Fault(_at(case, alignment.title, mark), "", said, sheet=alignment.title, cell=cell)


def signature(mark: Mark) -> tuple[str, ...]:
    """A condition without the rows that it speaks of, which move with rows that are put in, and with its columns counted
    from the first that it dresses: some programs give each column a condition of its own.
    """
    first = column_number(re.match(r"[A-Z]*", mark.areas).group())  # type: ignore[union-attr]

    def column(found: re.Match[str]) -> str:
        return found[1] + found[2] if found[1] else f"[{column_number(found[2].upper()) - first}]"

    bare = (_CELL.sub(column, formula) for formula in mark.formulas)
    return tuple(re.sub(r"[\s$']|\d+(?!\])", "", formula).upper() for formula in bare)


_CELL = re.compile(r"(\$?)\b([A-Z]{1,3})(?=\$?\d+\b)", re.IGNORECASE)


def _look(mark: Mark) -> tuple[str, str, str]:
    return mark.style.number_format, mark.style.ink, mark.style.fill


def _at(case: Case, title: str, mark: Mark) -> Place | None:
    """The first entry that a conditional format dresses."""
    cells = (Cell(title, *at) for at in cells_of(mark.areas))
    return next((place for cell in cells if (place := case.place_of_cell(cell)) is not None), None)


@rule(
    title="A cell was unlocked",
    level="note",
    source="common practice",
    message="{place} was locked when it was sent and is open now.",
    why="Whoever gets the file next can change it unseen.",
    fix="Nothing, if its value is as it was sent.",
    bad=(
        Example(
            "a tolerance's lock taken off",
            {"measurements.points[P1].plus": Do("look", {"locked": False})},
            ("cell-unlocked measurements.points[P1].plus",),
        ),
    ),
    fine=(Example("locks as they were"),),
)
def cell_unlocked(case: Case) -> Iterator[Fault]:
    for meeting, sent, now in _dressed(case):
        if sent.locked and not now.locked:
            yield _fault(meeting, "", "")


RULES = (shown_otherwise, hard_to_see, format_put_in, cell_unlocked)
