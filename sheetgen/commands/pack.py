"""`sheetgen pack`."""

from __future__ import annotations

from pathlib import Path

import click

from sheetgen import api
from sheetgen.commands.options import FILE, console, out_option, refuse_existing, replace_option
from sheetgen.declare.entry import STAGES, Place
from sheetgen.errors import UserError
from sheetgen.pack.content import content_of, pages_for
from sheetgen.pack.pages import PAGES
from sheetgen.pack.typeset import typeset, without_glyph
from sheetgen.style.diagrams import artist
from sheetgen.texts import say
from sheetgen.workbook.write.save import save


@click.command("pack", epilog="Example: sheetgen pack overshirt-working.xlsx --for quote")
@click.argument("workbook", type=FILE)
@click.option(
    "--for", "purpose", type=click.Choice(list(STAGES)), help="For which purpose; that of the file if not given."
)
@click.option("--only", multiple=True, metavar="PAGE", help="Only this page, by its title; can be given again.")
@click.option("--fonts", type=FILE, help="A folder of fonts, for scripts that ours cannot write.")
@out_option
@replace_option
def command(
    workbook: Path, purpose: str | None, only: tuple[str, ...], fonts: Path | None, out: Path | None, replace: bool
) -> int:  # fmt: skip
    """Typeset the pages that lie on the factory's table, as one PDF.

    WORKBOOK is a working workbook, a vendor's copy or a return. Drawings, construction, artwork at true size, labels,
    measurements, materials; for a sample the fit form, for bulk the order. Nothing that is the brand's own is in it.
    """
    titles = _titles(only)
    target = out or workbook.with_name(f"{workbook.stem}-pack.pdf")
    refuse_existing(replace, target)
    got = api.read(workbook)
    asked = purpose or str(got.typed.get(Place(got.ready.book.about.purpose)) or "quote")
    drawer = artist(got.ready, got.typed)
    content = content_of(got, asked, titles, drawer.draw(got.shown) if drawer else None)
    if not content.document["pages"]:
        raise UserError(say("{workbook}: has nothing for these pages yet; fill it first.", workbook=workbook))
    save(typeset(content, fonts), target, replace=replace)
    screen = console()
    screen.print(say("Written: {target}", target=target), soft_wrap=True, markup=False)
    shown = [page["title"] for page in content.document["pages"]]
    screen.print(say("Pages: {pages}.", pages=", ".join(shown)), markup=False)
    left_out = [title for title in (titles or pages_for(asked)) if title not in shown]
    if left_out:
        screen.print(say("Nothing stands yet on: {pages}.", pages=", ".join(left_out)), markup=False)
    for sign, place in without_glyph(content, fonts).items():
        words = say(
            "{sign} at {place} is in no font at hand: name a folder with one that has it, --fonts.",
            sign=sign,
            place=place,
        )
        screen.print(words, markup=False)
    return 0


def _titles(only: tuple[str, ...]) -> tuple[str, ...]:
    """The pages meant, whatever their letters' case; UserError for one that there is not."""
    by_word = {page.title.casefold(): page.title for page in PAGES}
    for word in only:
        if word.casefold() not in by_word:
            listed = ", ".join(by_word.values())
            raise UserError(say("--only {word}: there is no such page; these are: {listed}.", word=word, listed=listed))
    return tuple(by_word[word.casefold()] for word in only)
