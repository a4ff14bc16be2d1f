"""`sheetgen compare`."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click
from rich.console import Console
from rich.markup import escape
from rich.table import Table

from sheetgen import api
from sheetgen.api.brands import limits_for
from sheetgen.commands.options import FILE, console, out_option, replace_option, stem_of
from sheetgen.texts import marked, say
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.write.save import save

if TYPE_CHECKING:
    from sheetgen.api import Compared  # with it the rules would be loaded, which two workbooks of one sort don't need

_SIDE_BY_SIDE = (
    ("offers.rank", "Rank", "{:.0f}"),
    ("offers.price", "Price", "{:,.4f}"),
    ("offers.landed_each", "Landed", "{:,.4f}"),
    ("offers.total", marked("With charges"), "{:,.4f}"),
    ("offers.more_share", "More", "{:.1%}"),
    ("offers.open", "Missing", "{:.0f}"),
    ("offers.changes", "Changed", "{:.0f}"),
)
"""Columns of the summary: a family of the comparison, its heading, its format."""


@click.command(
    "compare",
    epilog="Example: sheetgen compare working.xlsx first.xlsx second.xlsx third.xlsx --out offers.xlsx",
)
@click.argument("first", type=FILE)
@click.argument("others", type=FILE, nargs=-1, required=True, metavar="OTHER...")
@out_option
@replace_option
def command(first: Path, others: tuple[Path, ...], out: Path | None, replace: bool) -> int:
    """Put several vendors' returns side by side in one workbook, or list where two workbooks differ.

    FIRST is the style's working workbook and each OTHER a vendor's return: the offers are compared in a workbook for the
    brand only, with the landed cost of each. FIRST and one OTHER of the same sort (two working workbooks, two copies):
    every cell in which they differ is listed, typed values only, found by name wherever they stand.
    """
    sorts = [api.is_copy(path) for path in (first, *others)]
    if len(others) == 1 and sorts[0] == sorts[1]:
        return _differences(first, others[0])
    compared = api.compare_offers(first, others, limits=limits_for(first))
    target = out or first.with_name(f"{stem_of(first)}-offers.xlsx")
    save(compared.data, target, replace=replace)
    tell(console(), compared)
    console().print(
        say("Written: {target} (brand only: it holds landed cost)", target=target), soft_wrap=True, markup=False
    )
    return 0


def tell(screen: Console, compared: Compared) -> None:
    """A line for each vendor, and who is cheapest."""
    table = Table("Vendor", *(say(heading) for _, heading, _ in _SIDE_BY_SIDE), box=None, pad_edge=False)
    for vendor in compared.vendors:
        words = [vendor]
        for family, _, form in _SIDE_BY_SIDE:
            value = compared.of(family, vendor)
            words.append(form.format(value) if isinstance(value, int | float) else "")
        table.add_row(*map(escape, words))
    screen.print(table)
    cheapest, lead = compared.text("offers.cheapest"), compared.number("offers.lead")
    if cheapest:
        more = say(", the next one {lead:,.4f} more", lead=lead) if lead else ""
        screen.print(
            say(
                "Cheapest: {cheapest}{more}. In {currency} per garment. Ranked by: {ranked_by}.",
                cheapest=cheapest,
                more=more,
                currency=compared.text("offers.currency"),
                ranked_by=compared.text("offers.ranked_by"),
            ),
            markup=False,
        )
    else:
        screen.print(say("No vendor gave a price that can be compared."))


def _differences(before: Path, after: Path) -> int:
    """The cells in which two files of one sort differ."""
    differences = api.compare(before, after)
    screen = console()
    if not differences:
        screen.print(say("No typed value differs."))
        return 0
    table = Table("Sheet", "Cell", "Row", "Column", "Before", "After", box=None, pad_edge=False)
    for one in differences:
        words = (
            one.sheet,
            one.cell,
            one.place.row,
            one.heading,
            shown_text(one.before),
            shown_text(one.after, than=one.before),
        )
        table.add_row(*(escape(word) for word in words))
    screen.print(table)
    screen.print(say("{count} values differ.", count=len(differences)))
    return 0
