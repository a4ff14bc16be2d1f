"""`sheetgen sheets`."""

from __future__ import annotations

import click
from rich.table import Table

from sheetgen.commands.options import console
from sheetgen.jobs.sheet_reference import all_sheets, explain_sheet, sheets_table
from sheetgen.texts import say


@click.command("sheets", epilog="Example: sheetgen sheets materials")
@click.argument("name", required=False)
@click.option("--markdown", is_flag=True, help="The table as Markdown, as in the README.")
def command(name: str | None, markdown: bool) -> int:
    """List the sheets, or explain one with all its entries and formulas."""
    screen = console()
    if name is not None:
        for line in explain_sheet(name):
            screen.print(line, markup=False)
    elif markdown:
        click.echo(sheets_table())
    else:
        table = Table("Sheet", say("What is on it"), box=None, pad_edge=False)
        for sheet in all_sheets():
            table.add_row(sheet.title, sheet.purpose.replace("{currency}", say("the style's currency")))
        screen.print(table)
    return 0
