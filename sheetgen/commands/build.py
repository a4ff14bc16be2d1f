"""`sheetgen build`."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

import click

from sheetgen import api
from sheetgen.api import Built
from sheetgen.commands.many import each_of
from sheetgen.commands.options import (
    FILE,
    body_option,
    console,
    grade_option,
    one_brand,
    out_option,
    quoted,
    replace_option,
    second_opinion_option,
    tell_second_opinion,
    with_option,
)
from sheetgen.errors import UserError
from sheetgen.texts import say
from sheetgen.workbook.write.names import file_stem
from sheetgen.workbook.write.save import save


@click.command("build", epilog="Example: sheetgen build overshirt/brief.toml --out overshirt-working.xlsx")
@click.option(
    "--brand",
    type=FILE,
    multiple=True,
    callback=one_brand,
    help="The brand file; brand.toml beside the brief if not given.",
)
@grade_option
@body_option
@click.option("--unit", type=click.Choice(["cm", "mm", "in"]), help="Convert all lengths of a workbook to this unit.")
@click.option(
    "--keep-figures", is_flag=True, help="Another unit or currency was typed in: the figures are meant in it."
)
@click.option(
    "--sample-size",
    type=click.Choice(["moves-base", "moves-sizes"]),
    help="Another sample size was typed in: the base moves to it and the sizes stay, or the sizes move.",
)
@with_option
@second_opinion_option
@out_option
@replace_option
@each_of("source", "SOURCES...")
def command(
    source: Path,
    brand: Path | None,
    grade: Path | None,
    body: str | None,
    unit: str | None,
    keep_figures: bool,
    sample_size: Literal["moves-base", "moves-sizes"] | None,
    shows: tuple[str, ...],
    out: Path | None,
    replace: bool,
    **checked: bool,
) -> int:
    """Make a working workbook from a brief, or anew from a working workbook.

    Each of SOURCES is a brief (.toml), a working workbook (.xlsx), or a folder: the newest of each style in it. A workbook is
    built anew after a change of sizes, colorways, unit or currency, which its columns and headings follow; what a change
    means is never guessed.
    """
    asked = unit or keep_figures or sample_size
    settle = api.Settle(unit, keep_figures, sample_size) if asked else None
    built = api.build(source, brand, grade=grade, body=body, settle=settle, shows=shows)
    target = out or source.with_name(f"{file_stem(built.text('style.number'))}-working.xlsx")
    if target.resolve() == source.resolve() and not replace:
        raise UserError(
            say(
                "{target}: is the file that it is built from; give another name with --out or add --replace.",
                target=target,
            )
        )
    save(built.data, target, replace=replace)
    screen = console()
    screen.print(say("Written: {target}", target=target), soft_wrap=True, markup=False)
    for note in built.notes:
        screen.print(note, markup=False)
    tell_not_carried(built)
    tell_cautions(built)
    screen.print(
        say("Next: fill it, look at its Checks sheet, then  sheetgen issue {target}", target=quoted(target)),
        soft_wrap=True,
        markup=False,
    )
    return 0 if not checked["second_opinion"] or tell_second_opinion(target) else 1


def tell_not_carried(built: Built) -> None:
    """Say which cells could not be carried over: nothing typed is lost without a word."""
    if built.not_carried:
        screen = console()
        screen.print(say("Not carried over, because the book has no place for it:"))
        for line in built.not_carried:
            screen.print(f"  {line}", soft_wrap=True, markup=False)


def tell_cautions(built: Built) -> None:
    """The cautions that apply to this style, in full."""
    applying = api.cautions_of(built)
    if applying:
        screen = console()
        screen.print(say("{count} cautions apply (they never block; see the Checks sheet):", count=len(applying)))
        for sentence in applying:
            screen.print(f"  - {sentence}", markup=False)
