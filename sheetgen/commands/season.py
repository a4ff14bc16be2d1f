"""`sheetgen season`."""

from __future__ import annotations

from pathlib import Path

import click
from rich.markup import escape
from rich.progress import Progress
from rich.table import Table

from sheetgen import api
from sheetgen.commands.options import FILE, console
from sheetgen.errors import UserError
from sheetgen.jobs.standing import Standing, standings
from sheetgen.style.brand import load_brand
from sheetgen.texts import say
from sheetgen.workbook.read.record import figures_of

_FIGURES = (("order.pieces", "{:.0f}"), ("quote.fob", "{:.2f}"), ("pricing.landed", "{:.2f}"))


@click.command("season", epilog="Example: sheetgen season styles/")
@click.argument("folder", type=FILE, default=".")
@click.option(
    "--next",
    "codes",
    default=None,
    metavar="CODES",
    help="Propose the next free style number for these codes, as HV-27A-OS.",
)
@click.option(
    "--brand",
    type=FILE,
    default=None,
    help="The brand file with the scheme of numbers; brand.toml in the folder if not given.",
)
def command(folder: Path, codes: str | None, brand: Path | None) -> int:
    """Show all styles below a folder in one table: revision, pieces, price, and where each stands."""
    if not folder.is_dir():
        raise UserError(say("{folder}: is no folder; name the folder in which the styles lie.", folder=folder))
    folders = [folder, *sorted(path for path in folder.rglob("*") if path.is_dir())]
    found = [(place, standing) for place in folders for standing in standings(place)]
    screen = console()
    if codes is not None:
        screen.print(_next_number(folder, codes, brand, [standing.style for _, standing in found]), markup=False)
        return 0
    table = Table("Style", "Name", "Rev", "Pieces", "Price", "Landed", "Stands", box=None, pad_edge=False)
    with Progress(console=screen, transient=True, disable=not screen.is_terminal) as progress:
        for _, standing in progress.track(found, description="Reading"):
            table.add_row(*(escape(word) for word in _row(standing)))
    if not found:
        screen.print(say("No workbook of sheetgen below {folder}.", folder=folder), markup=False)
        return 0
    screen.print(table)
    return 0


def _next_number(folder: Path, codes: str, brand: Path | None, taken: list[str]) -> str:
    path = brand or api.find_brand(folder / "any")
    scheme = load_brand(path).numbering if path else None
    if scheme is None:
        raise UserError(
            say(
                "{path}: has no scheme of style numbers; name a brand file that has one with --brand.",
                path=path or folder,
            )
        )
    try:
        number = scheme.next_free(scheme.codes_of(codes), taken)
        meaning = ", ".join(f"{part} {words}" for part, words in scheme.decode(number).items())
    except ValueError as error:
        raise UserError(say("--next {codes}: {error}.", codes=codes, error=error)) from None
    return f"{number}  ({meaning})"


def _row(standing: Standing) -> tuple[str, ...]:
    words, _ = standing.situation()
    newest = standing.newest
    if newest is None:
        return standing.style, standing.name, "", "", "", "", words
    known = figures_of(newest[1], (address for address, _ in _FIGURES))
    figures = (form.format(known[address]) if address in known else "" for address, form in _FIGURES)
    return standing.style, standing.name, str(newest[0]), *figures, words
