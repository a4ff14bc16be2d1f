"""Integrity: what was locked is as it was sent, formulas are theirs, and what is shown follows from what stands there."""

from __future__ import annotations

import datetime
import math
from collections.abc import Iterator

from sheetgen.audit.rule import Case, Example, Fault, rule
from sheetgen.audit.structure import lost_rows
from sheetgen.declare.formula import plain
from sheetgen.declare.kinds import Picture, Value
from sheetgen.declare.parts import Place
from sheetgen.workbook.issue import PictureMark
from sheetgen.workbook.read import is_error

RELATIVE = 1e-6
"""Shown and expected figures may differ so much: programs store 15 digits and add in another order."""


def same(left: Value | PictureMark, right: Value | PictureMark) -> bool:
    """Whether two values are the same to a person: numbers to 1e-9, pictures by their bytes, line ends alike."""
    if isinstance(left, Picture):
        left = PictureMark(left.digest)
    if isinstance(right, Picture):
        right = PictureMark(right.digest)
    if isinstance(left, int | float) and isinstance(right, int | float):
        return math.isclose(left, right, rel_tol=1e-9, abs_tol=1e-12)
    if isinstance(left, str) and isinstance(right, str):
        return left.replace("\r\n", "\n") == right.replace("\r\n", "\n")
    return left == right or (left in (None, "") and right in (None, ""))


def shown_text(value: Value | PictureMark) -> str:
    """A value in the words of a finding."""
    if value is None or value == "":
        return "nothing"
    if isinstance(value, Picture | PictureMark):
        return "a picture"
    if isinstance(value, float):
        return f"{value:.10g}"
    return value.isoformat() if isinstance(value, datetime.date) else str(value)


@rule(
    title="A locked value was changed",
    level="fix",
    source="common practice",
    message="{heading} of {line} was sent as {expected} and came back as {found}.",
    why="The brand's figure decides; changed without a word, the factory would cut to another one.",
    fix="Put {expected} back and write the proposal into a remark.",
    bad=(
        Example("a tolerance widened", {"measurements.points[P1].plus": 3.0}, ("locked-value-changed measurements.points[P1].plus",)),
        Example("an instruction cleared", {"construction.callouts[N1].instruction": None}, ("locked-value-changed construction.callouts[N1].instruction",)),
    ),
    fine=(Example("the vendor's own cells may change", {"quote.remark": "A new remark"}),),
)
def locked_value_changed(case: Case) -> Iterator[Fault]:
    if case.own:
        return
    gone = {(place.entry.rpartition(".")[0], place.row) for place in lost_rows(case)}
    doubled = {place.row for place in case.got.doubled_rows}
    entries = case.book_entries
    for place in dict.fromkeys((*case.sent, *case.got.typed)):
        column = entries.get(place.entry)
        if column is None or column.entry.who not in {"designer", "fixed"} or place.entry == "style.number":
            continue
        if (place.entry.rpartition(".")[0], place.row) in gone or case.got.where.at(place) is None:
            continue
        added = Place(f"{place.entry.rpartition('.')[0]}.ref", place.row) in case.got.added_rows
        if added or (column.table is not None and place.row in doubled and place not in case.sent):
            continue
        sent, found = case.sent.get(place), case.got.typed.get(place)
        if not same(sent, found):
            yield Fault(place, shown_text(sent), shown_text(found))


@rule(
    title="A formula was replaced",
    level="fix",
    source="Powell, Baker & Lawson (2009): hard-coded numbers are the most frequent spreadsheet error",
    message="{heading} of {line} was worked out by a formula and now is {found}.",
    why="A typed number no longer follows from what it was worked out of, and the next change makes it silently wrong.",
    fix="Put the formula back; by it the cell would show {expected}.",
    bad=(
        Example("a cost typed over", {"materials.bom[M1].cost": 3.1}, ("formula-replaced materials.bom[M1].cost",)),
        Example("a formula deleted", {"quote.make_cost": None}, ("formula-replaced quote.make_cost",)),
    ),
    fine=(Example("a new price, formulas left alone", {"materials.bom[M2].price": 3.05}),),
)
def formula_replaced(case: Case) -> Iterator[Fault]:
    gone = {(place.entry.rpartition(".")[0], place.row) for place in lost_rows(case)}
    for place, _, _ in case.expected_formulas:
        table = place.entry.rpartition(".")[0]
        if place in case.got.formulas or (table, place.row) in gone or Place(f"{table}.ref", place.row) in case.got.added_rows:
            continue
        if any(doubled.row == place.row for doubled in case.got.doubled_rows):
            continue
        yield Fault(place, shown_text(case.sent_follows.get(place)), shown_text(case.got.typed.get(place)))


@rule(
    title="A formula was altered",
    level="fix",
    source="Powell, Baker & Lawson (2009): logic and reference errors",
    message="{heading} of {line} has another formula: {found}.",
    why="It works something else out than everybody believes.",
    fix="Put the formula back: {expected}",
    bad=(
        Example(
            "the waste left out",
            {"!materials.bom[M1].gross": ("formula", "net")},
            ("formula-altered materials.bom[M1].gross",),
        ),
    ),
    fine=(Example("formulas as they were"),),
)
def formula_altered(case: Case) -> Iterator[Fault]:
    for place, _, text in case.expected_formulas:
        found = case.got.formulas.get(place)
        if found is not None and found != text and plain(found) != plain(text):
            yield Fault(place, text, found)


@rule(
    title="A figure does not follow from its inputs",
    level="fix",
    source="common practice: recalculated by a second program",
    message="{heading} of {line} shows {found}; from what stands in the sheet follows {expected}.",
    why="The file was saved without calculating, or the figure was put in by other means.",
    fix="Let the spreadsheet program calculate everything again and save.",
    bad=(Example("an old total left standing", {"!materials.cost_trim": ("shows", 9.99)}, ("total-stale materials.cost_trim",)),),
    fine=(Example("saved by a program that stores no values", {"!": "no-values"}),),
)
def total_stale(case: Case) -> Iterator[Fault]:
    for place, shown, follows in _intact(case):
        if is_error(shown) or is_error(follows) or case.is_tainted(place):
            continue
        if isinstance(shown, int | float) and isinstance(follows, int | float):
            alike = math.isclose(shown, follows, rel_tol=RELATIVE, abs_tol=1e-7)
        else:
            alike = str(shown if shown is not None else "") == str(follows if follows is not None else "")
        if not alike:
            yield Fault(place, shown_text(follows), shown_text(shown))


@rule(
    title="A formula shows an error",
    level="fix",
    source="common practice",
    message="{heading} of {line} shows {found}.",
    why="Everything that reads this cell is wrong too.",
    fix="Look at the cells that it reads; one of them holds something that cannot be worked with.",
    bad=(
        Example(
            "a formula that divides by nothing",
            {"!quote.make_cost": ("formula", "sew_cost/0")},
            ("error-value quote.make_cost", "formula-altered quote.make_cost"),
        ),
    ),
    fine=(Example("all formulas show something"),),
)
def error_value(case: Case) -> Iterator[Fault]:
    for place in case.got.formulas:
        value = case.got.shown.get(place, case.follows.get(place))
        if is_error(value) and not case.is_tainted(place) and not _reads_error(case, place):
            yield Fault(place, "", shown_text(value))


def _reads_error(case: Case, place: Place) -> bool:
    """Whether another cell that the formula reads shows an error already: that one is the cause."""
    formula = case.got.ready.formulas.get(place.entry)
    if formula is None:
        return False
    for reference in formula.references:
        if reference is None or reference.sort == "ref":
            continue
        if reference.sort == "column":
            read = [place_ for place_, _ in case.got.where.places(reference.address)]
        else:
            read = [Place(reference.address, place.row if reference.sort == "row" else "")]
        if any(is_error(case.got.shown.get(one, case.follows.get(one))) for one in read):
            return True
    return False


def _intact(case: Case) -> Iterator[tuple[Place, Value, Value]]:
    """Places whose formula is the declared one and that show something: what they show, and what follows."""
    for place, _, text in case.expected_formulas:
        found = case.got.formulas.get(place)
        if found is None or place not in case.got.shown or (found != text and plain(found) != plain(text)):
            continue
        yield place, case.got.shown[place], case.follows.get(place)


RULES = (locked_value_changed, formula_replaced, formula_altered, total_stale, error_value)
