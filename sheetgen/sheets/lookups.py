"""Look-ups of one row's figure in another table, and how much a sum rests on, as formulas."""

from __future__ import annotations


def row_of(column: str, by: str = "ref") -> str:
    """The cell of that column (`materials.bom.unit`) in the row whose ref `by` gives."""
    sheet, table, _ = column.split(".", 2)
    return f"INDEX({column},MATCH({by},{sheet}.{table}.ref,0))"


def material(column: str, by: str = "ref") -> str:
    """The cell of that column of Materials."""
    return row_of(f"materials.bom.{column}", by)


def known_of(column: str, key: str) -> str:
    """How many lines a sum rests on: what is not known is in none of them, so that it is the least that it can be."""
    return at_least(f"COUNT({column})", f'SUMPRODUCT(({key}<>"")*1)')


def at_least(known: str, of_all: str) -> str:
    """`16 of 16`, or `at least: 15 of 16`."""
    return f'IF({known}<{of_all},"at least: ","")&{known}&" of "&{of_all}'
