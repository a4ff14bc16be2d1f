"""Recalculating a file that came back: what its own cells give, and what the formulas give that were typed as answers."""

from __future__ import annotations

from collections.abc import Collection, Iterable

from sheetgen.declare.entry import REF, Place
from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.engine import Calculator
from sheetgen.workbook.model.formulas import alarming, same_formula
from sheetgen.workbook.model.geometry import Cell, Geometry
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.found import Returned

Formulas = Iterable[tuple[Place, Cell, str]]


def calculator_for(got: Returned) -> Calculator:
    """What calculates the sheets of a file, as often as somebody asks for what follows from other cells."""
    return Calculator(dict.fromkeys(got.where.titles.values()))


def intact_in(got: Returned, expected: Formulas) -> frozenset[Place]:
    """Where a file's formula is the one that is expected there."""
    formulas = got.formulas
    return frozenset([
        place for place, cell, text in expected
        if (found := formulas.get(place)) is not None and same_formula(found, text, cell.sheet)
    ])  # fmt: skip


def follows(got: Returned, expected: Formulas, intact: Collection[Place], calculator: Calculator) -> Values:
    """What every intact formula gives for what stands in the file now; replaced or altered ones count as what they show."""
    constants = [
        (at, got.shown.get(place))
        for place in got.formulas
        if place not in intact and (at := got.where.at(place)) is not None
    ]
    for place, value in got.typed.items():
        at = got.where.at(place)
        if at is not None:
            constants.append((at, value))
    nameless = {*got.unnamed_rows, *got.added_rows} - set(got.doubled_rows)
    constants.extend(refs_of(got.where, nameless))
    return calculator.given(constants, [one for one in expected if one[0] in intact])


def refs_of(where: Geometry, without: Collection[Place] = ()) -> Iterable[tuple[Cell, Value]]:
    for address, table in where.tables.items():
        for ref, row in table.rows.items():
            if Place(f"{address}.{REF}", ref) not in without:
                yield Cell(table.sheet, row, table.ref_column), ref


def answers_given(got: Returned, expected: Formulas, calculator: Calculator) -> Values:
    """What the formulas give that somebody typed where an answer belongs, calculated with all the rest."""
    answers = [
        (place, cell, text) for place, text in got.formulas.items()
        if got.ready.book.entries[place.entry].entry.who == "vendor" and not alarming(text)
        and (cell := got.where.at(place)) is not None
    ]  # fmt: skip
    if not answers:
        return {}
    typed = {place: value for place, value in got.typed.items() if place not in {one[0] for one in answers}}
    constants = [(at, value) for place, value in typed.items() if (at := got.where.at(place)) is not None]
    intact = [one for one in expected if one[0] in got.formulas]
    given = calculator.given([*constants, *refs_of(got.where)], [*intact, *answers])
    return {place: given.get(place) for place, _, _ in answers}
