"""What the sheets offer: the rows of the Lists sheet, which drop-downs and formulas read."""

from sheetgen.declare.kinds import Value
from sheetgen.declare.parts import Table
from sheetgen.sheets.lists import LISTS


def listed(table: str) -> tuple[dict[str, Value], ...]:
    """The rows of one table of the Lists sheet."""
    return next(tuple(map(dict, part.rows)) for part in LISTS.parts if isinstance(part, Table) and part.name == table)


def offered(table: str) -> list[str]:
    """The words that a drop-down offers from a table, which stand in the column of its key."""
    part = next(part for part in LISTS.parts if isinstance(part, Table) and part.name == table)
    return [str(row[part.key]) for row in part.rows]


def stitch(code: str) -> str:
    """The stitch of a code as a drop-down offers it."""
    return next(choice for choice in offered("stitches") if choice.startswith(f"{code} "))
