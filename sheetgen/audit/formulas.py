"""Formulas where none belongs: a value that a formula gives today it may not give tomorrow, or on another computer."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.integrity import alike
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.audit.structure import beside
from sheetgen.declare.entry import Place
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.model.engine import is_error
from sheetgen.workbook.model.formulas import alarming
from sheetgen.workbook.model.geometry import Cell


@rule(
    title="A formula stands where a value belongs",
    level="fix",
    source="Powell, Baker & Lawson (2009): a value and a formula that shows it are not the same",
    message="{place} was sent as {expected}; a formula stands there now: {found}.",
    why="It shows that value today and can show another one tomorrow, or in another program.",
    fix="Put the value back ({expected}), and write what you propose into a remark.",
    bad=(
        Example(
            "a tolerance that grows by itself after a day",
            {"measurements.points[P1].plus": Do("forged", ("IF(TODAY()>46000,9.9,1)", 1.0))},
            ("formula-in-place measurements.points[P1].plus", "formula-alarming measurements.points[P1].plus"),
        ),
    ),
    fine=(Example("values as values"),),
)
def formula_in_place(case: Case) -> Iterator[Fault]:
    for place, text in case.got.formulas.items():
        entry = case.entry(place)
        if case.is_locked(entry) and entry.who != "computed" and not case.is_new_row(place):
            yield Fault(place, shown_text(case.sent.get(place)), text)


@rule(
    title="An answer is worked out by a formula",
    level="note",
    source="common practice",
    message="{place} is answered by a formula: {found}. What it shows ({expected}) was taken.",
    why="The answer changes when the cells that it reads do.",
    fix="Nothing, if the figure is meant; it is taken over as a value.",
    bad=(
        Example(
            "a price worked out",
            {"quote.sample_price": Do("formula", "fob*4")},
            ("answer-by-formula quote.sample_price",),
        ),
    ),
    fine=(Example("a price typed", {"quote.sample_price": 55.0}),),
)
def answer_by_formula(case: Case) -> Iterator[Fault]:
    for place, text in case.got.formulas.items():
        if not case.own and case.entry(place).who == "vendor":
            yield Fault(place, shown_text(case.got.shown.get(place)), text)


@rule(
    title="An answer's formula gives another figure",
    level="fix",
    source="common practice: recalculated by a second program",
    message="{place} shows {found}; its formula gives {expected}.",
    why="The stored figure was put in by other means than its formula: nobody can tell which of the two is meant.",
    fix="Type the figure that you mean.",
    bad=(
        Example(
            "a price whose formula gives another one",
            {"quote.sample_price": Do("forged", ("1+1", 80.0))},
            ("answer-by-formula quote.sample_price", "answer-forged quote.sample_price"),
        ),
    ),
    fine=(
        Example(
            "a price worked out",
            {"quote.sample_price": Do("formula", "fob*4")},
            ("answer-by-formula quote.sample_price",),
        ),
        Example(
            "a price that reads itself: nobody can say what it gives",
            {"quote.sample_price": Do("forged", ("sample_price*1.1", 80.0))},
            ("answer-by-formula quote.sample_price",),
        ),
        Example(
            "a formula that no program here can read",
            {"quote.sample_price": Do("forged", ("SUM(1;2)", 80.0))},
            ("answer-by-formula quote.sample_price",),
        ),
    ),
)
def answer_forged(case: Case) -> Iterator[Fault]:
    for place, text in case.got.formulas.items():
        if case.own or case.entry(place).who != "vendor" or alarming(text):
            continue
        gives, shows = case.answers_by_formula.get(place), case.got.shown.get(place)
        if shows is not None and not is_error(gives) and not alike(gives, shows):
            yield Fault(place, shown_text(gives), shown_text(shows))


@rule(
    title="A formula reaches outside the file, or changes by itself",
    level="fix",
    source="ECMA-376 part 1, 18.17 (functions that depend on the time, on chance or on other files); ICAEW Twenty principles",
    message="{place} uses {expected}: {found}.",
    why="What it shows depends on the day, on chance or on another computer, and it may fetch or send things unasked.",
    asked="Type the value in its place.",
    fix="Do not open the file with updates allowed; ask for the value in its place.",
    bad=(
        Example(
            "a picture fetched from the net beside a table",
            {"materials.bom[M1]": Do("stray-formula", 'WEBSERVICE("https://example.org")')},
            ("formula-alarming materials.bom[M1].ref", "stray-text materials.bom[M1].ref"),
        ),
    ),
    fine=(Example("the book's own formulas"),),
)
def formula_alarming(case: Case) -> Iterator[Fault]:
    at = {case.got.where.at(place): place for place in case.got.formulas}
    ours = {text for _, _, text in case.expected_formulas}
    for sheet in case.got.loaded.sheets.values():
        for (row, column), held in sheet.cells.items():
            why = alarming(held.formula) if held.formula and held.formula not in ours else None
            if why and held.formula:
                cell = Cell(sheet.title, row, column)
                place: Place | None = at.get(cell) or beside(case, cell)
                yield Fault(place, why, held.formula, sheet=sheet.title, cell=cell.address)


RULES = (formula_in_place, answer_by_formula, answer_forged, formula_alarming)
