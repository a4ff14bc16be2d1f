"""Look-ups of one row's figure in another table, as formulas."""

from __future__ import annotations


def row_of(column: str, by: str = "ref") -> str:
    """The cell of that column (`materials.bom.unit`) in the row whose ref `by` gives."""
    sheet, table, _ = column.split(".", 2)
    return f"INDEX({column},MATCH({by},{sheet}.{table}.ref,0))"


def material(column: str, by: str = "ref") -> str:
    """The cell of that column of Materials."""
    return row_of(f"materials.bom.{column}", by)
