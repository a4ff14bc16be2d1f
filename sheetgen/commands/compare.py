"""`sheetgen compare`."""

from __future__ import annotations

from pathlib import Path

import click
from rich.markup import escape
from rich.table import Table

from sheetgen import library
from sheetgen.commands.options import FILE, console
from sheetgen.workbook.compare import shown_text


@click.command("compare", epilog="Example: sheetgen compare HV-27A-OS-014-working.xlsx HV-27A-OS-014-next.xlsx")
@click.argument("before", type=FILE)
@click.argument("after", type=FILE)
def command(before: Path, after: Path) -> int:
    """List every cell in which two workbooks differ: typed values only, found by name wherever they stand."""
    differences = library.compare(before, after)
    screen = console()
    if not differences:
        screen.print("No typed value differs.")
        return 0
    table = Table("Sheet", "Cell", "Row", "Column", "Before", "After", box=None, pad_edge=False)
    for one in differences:
        words = (
            one.sheet,
            one.cell,
            one.place.row,
            one.heading,
            shown_text(one.before),
            shown_text(one.after),
        )
        table.add_row(*(escape(word) for word in words))
    screen.print(table)
    screen.print(f"{len(differences)} values differ.")
    return 0
