"""Integrity: what was locked is as it was sent, formulas are theirs, and what is shown follows from what stands there."""

from __future__ import annotations

import math
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.audit.structure import lost_rows
from sheetgen.declare.blocks import read_by
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.model.engine import is_error

RELATIVE = 1e-6
"""Shown and expected figures may differ so much: programs store 15 digits and add in another order."""


@rule(
    title="A locked value was changed",
    level="fix",
    source="common practice",
    message="{place} was sent as {expected} and came back as {found}.",
    why="The brand's figure decides; changed without a word, the factory would cut to another one.",
    fix="Undo the change ({expected} was sent), and write what you propose into a remark.",
    bad=(
        Example(
            "a tolerance widened",
            {"measurements.points[P1].plus": 3.0},
            ("locked-value-changed measurements.points[P1].plus",),
        ),
        Example(
            "the use of the shell fabric changed: the price no longer fits, but that comes after it",
            {"materials.bom[M1].net": 3.6},
            ("locked-value-changed materials.bom[M1].net",),
        ),
        Example(
            "an instruction cleared",
            {"construction.callouts[N1].instruction": None},
            ("locked-value-changed construction.callouts[N1].instruction",),
        ),
        Example("a picture deleted", {"style.front": Do("drop-picture")}, ("locked-value-changed style.front",)),
    ),
    fine=(Example("the vendor's own cells may change", {"quote.remark": "A new remark"}),),
)
def locked_value_changed(case: Case) -> Iterator[Fault]:
    gone = set(lost_rows(case))
    for place in dict.fromkeys((*case.sent, *case.got.typed)):
        if place.entry == "style.number" or _row(place) in gone:
            continue
        if case.is_locked_change(place):
            sent = case.sent.get(place)
            yield Fault(place, shown_text(sent), shown_text(case.got.typed.get(place), than=sent))
    for place in case.got.unnamed_rows:
        if not case.own and case.wanted is not None and not case.is_new_row(place):
            yield Fault(place, place.row, "nothing")


def _row(place: Place) -> Place:
    """The row that a place stands in, by its ref's place."""
    return Place(f"{place.entry.rpartition('.')[0]}.ref", place.row)


@rule(
    title="A formula was replaced",
    level="fix",
    source="Powell, Baker & Lawson (2009): hard-coded numbers are the most frequent spreadsheet error",
    message="{place} was worked out by a formula and now is {found}.",
    why="A typed number no longer follows from what it was worked out of, and the next change makes it silently wrong.",
    fix="Put the formula back; by it the cell would show {expected}.",
    bad=(
        Example("a cost typed over", {"materials.bom[M1].cost": 3.1}, ("formula-replaced materials.bom[M1].cost",)),
        Example(
            "a composition typed over",
            {"labels.composition[F1].sum": 1.0},
            ("formula-replaced labels.composition[F1].sum",),
        ),
        Example("a formula deleted", {"quote.make_cost": None}, ("formula-replaced quote.make_cost",)),
    ),
    fine=(Example("a new price, formulas left alone", {"materials.bom[M2].price": 3.05}),),
)
def formula_replaced(case: Case) -> Iterator[Fault]:
    gone = set(lost_rows(case))
    for place, _, _ in case.expected_formulas:
        if place in case.got.formulas or _row(place) in gone or _row(place) in case.got.added_rows:
            continue
        if case.own and case.entry(place).keeps:
            continue  # a size corrected by hand in the working file is kept, and told by a rule of its own
        yield Fault(place, shown_text(case.meant.get(place)), shown_text(case.got.typed.get(place)))


@rule(
    title="A formula was altered",
    level="fix",
    source="Powell, Baker & Lawson (2009): logic and reference errors",
    message="{place} has another formula: {found}.",
    why="It works something else out than everybody believes.",
    fix="Put the formula back: {expected}",
    bad=(
        Example(
            "the waste left out",
            {"materials.bom[M1].gross": Do("formula", "net")},
            ("formula-altered materials.bom[M1].gross",),
        ),
    ),
    fine=(Example("formulas as they were"),),
)
def formula_altered(case: Case) -> Iterator[Fault]:
    for place, _, text in case.expected_formulas:
        found = case.got.formulas.get(place)
        if found is not None and place not in case.intact:
            yield Fault(place, text, found)


@rule(
    title="A figure does not follow from its inputs",
    level="fix",
    source="common practice: recalculated by a second program",
    message="{place} shows {found}; from what stands in the sheet follows {expected}.",
    why="The file was saved without calculating, or the figure was put in by other means.",
    fix="Let the spreadsheet program calculate everything again and save.",
    bad=(
        Example(
            "an old total left standing",
            {"materials.cost_trim": Do("shows", 9.99)},
            ("total-stale materials.cost_trim",),
        ),
        Example(
            "a whole chain of old figures: the first of them is the fault",
            {
                "materials.bom[M1].gross": Do("shows", 9.99),
                "materials.bom[M1].cost": Do("shows", 46.45),
                "materials.bom[M1].counted": Do("shows", 46.45),
                "materials.cost": Do("shows", 48.43),
            },
            ("total-stale materials.bom[M1].gross",),
        ),
    ),
    fine=(Example("saved by a program that stores no values", {"the file": Do("no-values")}),),
)
def total_stale(case: Case) -> Iterator[Fault]:
    stale = {
        place: (follows, shown)
        for place, shown, follows in _intact(case)
        if not (is_error(shown) or is_error(follows) or case.is_tainted(place) or alike(shown, follows))
    }
    for place, (follows, shown) in stale.items():
        # What reads a stale figure is stale too: the first one is enough to say.
        if not any(one in stale for one in _read_by(case, place)):
            yield Fault(place, shown_text(follows), shown_text(shown))


def alike(shown: Value, follows: Value) -> bool:
    """Whether two programs mean the same figure or words."""
    if isinstance(shown, int | float) and isinstance(follows, int | float):
        return math.isclose(shown, follows, rel_tol=RELATIVE, abs_tol=1e-7)
    return _in_any_program(shown) == _in_any_program(follows)


def _in_any_program(value: Value) -> str:
    """A text without what programs do otherwise: blanks at its end go on saving, LOWER stops at Z in one of them (measured)."""
    text = str(value if value is not None else "").strip()
    if text.isascii():
        return text
    return "".join(sign if sign.isascii() else sign.casefold() for sign in text)


@rule(
    title="A formula shows an error",
    level="fix",
    source="common practice",
    message="{place} shows {found}.",
    why="Everything that reads this cell is wrong too.",
    fix="Look at the cells that it reads; one of them holds something that cannot be worked with.",
    bad=(
        Example(
            "a price worked out with a formula that divides by nothing",
            {"quote.sample_price": Do("formula", "fob/0")},
            ("answer-by-formula quote.sample_price", "error-value quote.sample_price"),
        ),
    ),
    fine=(
        Example(
            "a price worked out with a formula",
            {"quote.sample_price": Do("formula", "fob*4")},
            ("answer-by-formula quote.sample_price",),
        ),
        Example(
            "a formula altered so that it divides by nothing: the alteration is the fault",
            {"quote.make_cost": Do("formula", "sew_cost/0")},
            ("formula-altered quote.make_cost",),
        ),
    ),
)
def error_value(case: Case) -> Iterator[Fault]:
    for place in dict.fromkeys((*case.got.formulas, *(place for place, _, _ in case.typed_by_filler()))):
        if place.entry not in case.got.ready.formulas:
            value = case.got.typed.get(place)
            if is_error(value) and case.fills(case.entry(place)):
                yield Fault(place, "", shown_text(value))
            continue
        shown = case.got.shown.get(place, case.follows.get(place))
        if is_error(shown) and place in case.intact and not _is_explained(case, place):
            yield Fault(place, "", shown_text(shown))


def _is_explained(case: Case, place: Place) -> bool:
    """Whether an error comes from another fault: a wrong entry, something lost, or a changed cell that it reads."""
    comes_of_a_change = is_error(case.follows.get(place)) and not is_error(case.meant.get(place))
    return comes_of_a_change or case.is_tainted(place) or case.is_doubtful(place) or _reads_error(case, place)


def _reads_error(case: Case, place: Place) -> bool:
    """Whether another cell that the formula reads shows an error already: that one is the cause."""
    return any(is_error(case.got.shown.get(one, case.follows.get(one))) for one in _read_by(case, place))


def _read_by(case: Case, place: Place) -> Iterator[Place]:
    """The places that a place's formula reads."""
    formula = case.got.ready.formulas.get(place.entry)
    if formula is None:
        return
    for reference in read_by(case.got.ready.book, formula):
        if reference.sort == "row":
            yield Place(reference.address, place.row)
        elif reference.sort != "ref":
            yield from (one for one, _ in case.got.where.places(reference.address))


def _intact(case: Case) -> Iterator[tuple[Place, Value, Value]]:
    """Places whose formula is the declared one and that show something: what they show, and what follows."""
    for place, _, _ in case.expected_formulas:
        if place in case.got.shown and place in case.intact:
            yield place, case.got.shown[place], case.follows.get(place)


RULES = (locked_value_changed, formula_replaced, formula_altered, total_stale, error_value)
