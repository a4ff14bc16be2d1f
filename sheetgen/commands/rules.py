"""`sheetgen rules`."""

from __future__ import annotations

import click
from rich.table import Table

from sheetgen.audit import RULES
from sheetgen.commands.options import console
from sheetgen.jobs.rule_reference import explain_rule, limit_rows, limits_table, rules_table
from sheetgen.texts import say


@click.command("rules", epilog="Example: sheetgen rules formula-replaced")
@click.argument("name", required=False)
@click.option(
    "--limits", is_flag=True, help="The limits by which they judge: a brand file sets them in its table [judgment]."
)
@click.option("--markdown", is_flag=True, help="The table as Markdown, as in the README.")
def command(name: str | None, limits: bool, markdown: bool) -> int:
    """List the audit's rules, or explain one."""
    screen = console()
    if name is not None:
        for line in explain_rule(name):
            screen.print(line, markup=False)
    elif markdown:
        click.echo(limits_table() if limits else rules_table())
    elif limits:
        table = Table(say("Limit"), say("Usual"), say("From, to"), say("What it means"), box=None, pad_edge=False)
        for limit, usual, bounds, _, means, _ in limit_rows():
            table.add_row(limit, usual, bounds, means)
        screen.print(table)
    else:
        table = Table("Rule", "Level", "Turn", say("What it finds"), box=None, pad_edge=False)
        for rule in RULES:
            table.add_row(rule.name, rule.level, rule.owner, rule.title)
        screen.print(table)
    return 0
