"""What the formulas of a book give for values, without a file."""

from __future__ import annotations

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.engine import recalculate
from sheetgen.workbook.model.geometry import Cell, Geometry, formula_texts
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.values import Ready, Values, fixed_values


def calculated(
    ready: Ready, values: Values, where: Geometry
) -> tuple[list[tuple[Place, Cell, str]], dict[Place, Value]]:
    """The formulas of a planned book and what each of them gives."""
    formulas = list(formula_texts(ready, where))
    constants: list[tuple[Cell, Value]] = [
        (cell, value) for place, value in values.items() if (cell := where.at(place))
    ]
    for table in where.tables.values():
        constants.extend((Cell(table.sheet, row, table.ref_column), ref) for ref, row in table.rows.items())
    return formulas, recalculate(where.titles.values(), constants, formulas)


def shown_by(ready: Ready, values: Values) -> Values:
    """What every formula of a book gives for these values, without a file."""
    values = {**values, **fixed_values(ready)}
    return calculated(ready, values, plan(ready, values)[1])[1]
