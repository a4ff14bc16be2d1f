"""`sheetgen pack`."""

from __future__ import annotations

from pathlib import Path

import click

from sheetgen import api
from sheetgen.commands.many import each_of
from sheetgen.commands.options import FILE, console, out_option, refuse_existing, replace_option
from sheetgen.declare.entry import STAGES
from sheetgen.errors import UserError
from sheetgen.jobs.packs import left_out, pack_of
from sheetgen.pack.content import pages_for
from sheetgen.pack.pages import FORMS, PAGES, PORTFOLIO
from sheetgen.texts import say
from sheetgen.workbook.write.save import save


@click.command("pack", epilog="Example: sheetgen pack overshirt-working.xlsx --for quote")
@click.option(
    "--for",
    "purpose",
    type=click.Choice([*STAGES, PORTFOLIO]),
    help="For which purpose; that of the file if not given. A portfolio is to show: no vendor, prices, contacts, dates.",
)
@click.option("--only", multiple=True, metavar="PAGE", help="Only this page, by its title; can be given again.")
@click.option(
    "--forms", is_flag=True, help="The forms for the floor instead, to be written in by hand; --only names one."
)
@click.option("--left-out", "say_left_out", is_flag=True, help="Say what is filled in and stands on no page, and why.")
@click.option("--fonts", type=FILE, help="A folder of fonts, for scripts that ours cannot write.")
@out_option
@replace_option
@each_of("workbook", "WORKBOOKS...")
def command(
    workbook: Path, purpose: str | None, only: tuple[str, ...], fonts: Path | None, out: Path | None, *, forms: bool,
    replace: bool, say_left_out: bool,
) -> int:  # fmt: skip
    """Typeset the pages that lie on the factory's table, as one PDF.

    Each of WORKBOOKS is a working workbook, a vendor's copy, a return, or a folder: each style's newest in it. Drawings,
    construction, artwork at true size, labels, measurements, materials; for a sample the fit form, for bulk the order.
    Nothing that is the brand's own is in it. The forms: measuring a garment, pieces of one size, size set, swatches and
    trims, quote, cut ticket, cartons, changes.
    """
    titles = _titles(only) or (tuple(page.title for page in FORMS) if forms else ())
    target = out or workbook.with_name(f"{workbook.stem}-{_ending(purpose, forms=forms)}.pdf")
    refuse_existing(replace, target)
    got = api.read(workbook)
    pack = pack_of(got, purpose, titles, fonts)
    if not pack.titles:
        raise UserError(say("{workbook}: has nothing for these pages yet; fill it first.", workbook=workbook))
    save(pack.data, target, replace=replace)
    screen = console()
    screen.print(say("Written: {target}", target=target), soft_wrap=True, markup=False)
    screen.print(say("Pages: {pages}.", pages=", ".join(pack.titles)), markup=False)
    empty = [title for title in (titles or pages_for(pack.purpose)) if title not in pack.titles]
    if empty:
        screen.print(say("Nothing stands yet on: {pages}.", pages=", ".join(empty)), markup=False)
    for what, why in left_out(got, pack.content).items() if say_left_out else ():
        screen.print(say("On no page: {what} ({why}).", what=what, why=say(why)), markup=False)
    for sign, place in pack.missing.items():
        words = say(
            "{sign} at {place} is in no font at hand: name a folder with one that has it, --fonts.",
            sign=sign,
            place=place,
        )
        screen.print(words, markup=False)
    return 0


def _ending(purpose: str | None, *, forms: bool) -> str:
    return "forms" if forms else PORTFOLIO if purpose == PORTFOLIO else "pack"


def _titles(only: tuple[str, ...]) -> tuple[str, ...]:
    """The pages meant, whatever their letters' case; UserError for one that there is not."""
    by_word = {page.title.casefold(): page.title for page in (*PAGES, *FORMS)}
    for word in only:
        if word.casefold() not in by_word:
            listed = ", ".join(by_word.values())
            raise UserError(say("--only {word}: there is no such page; these are: {listed}.", word=word, listed=listed))
    return tuple(by_word[word.casefold()] for word in only)
