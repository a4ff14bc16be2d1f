"""`sheetgen start`."""

from __future__ import annotations

from pathlib import Path
from typing import TypedDict, Unpack

import click

from sheetgen import api
from sheetgen.api import Built
from sheetgen.commands.build import tell_not_carried
from sheetgen.commands.options import (
    FILE,
    body_option,
    console,
    grade_option,
    one_brand,
    quoted,
    replace_option,
    with_option,
)
from sheetgen.errors import UserError
from sheetgen.style.starters import FOR_CHILDREN, HOODED, STARTERS
from sheetgen.texts import say
from sheetgen.workbook.write.save import save


def _sizes_named(_context: click.Context, _option: click.Parameter, text: str) -> tuple[str, ...]:
    """The names between the commas."""
    return tuple(name for part in text.split(",") if (name := part.strip()))


class _Asked(TypedDict):
    """What a garment may be asked for with."""

    hood: bool
    child: bool
    unit: str | None
    brand: Path | None
    sizes: tuple[str, ...]
    grade: Path | None
    body: str | None
    shows: tuple[str, ...]


def _begun(garment: str | None, source: Path | None, number: str | None, asked: _Asked) -> Built:
    """From a garment, or from another style: never from both."""
    if source is not None:
        if garment or not number or any(asked.values()):
            raise UserError(
                say(
                    "--from {source}: goes with --number and --out alone; drop the garment and the rest.", source=source
                )
            )
        return api.start_from(source, number)
    if garment is None or number:
        names = ", ".join(STARTERS)
        raise UserError(say("Name a garment ({names}), or another style with --from and --number.", names=names))
    return api.start(garment, **asked)


@click.command("start", epilog="Example: sheetgen start sweatshirt --hood --child --out hoodie-working.xlsx")
@click.argument("garment", type=click.Choice(STARTERS), required=False)
@click.option("--out", type=FILE, required=True, help="Where to write the working workbook.")
@click.option("--hood", is_flag=True, help=f"With a hood ({', '.join(HOODED)}).")
@click.option("--child", is_flag=True, help=f"For children: sizes by body height ({', '.join(FOR_CHILDREN)}).")
@click.option(
    "--unit", type=click.Choice(["cm", "in"]), default=None, help="Unit of length; the brand's if not given, else cm."
)
@click.option(
    "--sizes",
    default="",
    callback=_sizes_named,
    metavar="2,4,6",
    help="Your own sizes, from the smallest to the largest, with commas; the middle one is the sample size.",
)
@click.option(
    "--brand",
    type=FILE,
    multiple=True,
    callback=one_brand,
    help="The brand file that this garment shares with others.",
)
@click.option("--from", "source", type=FILE, help="Begin with the design of another style's working workbook instead.")
@click.option("--number", help="The new style's number; with --from.")
@grade_option
@body_option
@with_option
@replace_option
def command(
    garment: str | None, source: Path | None, number: str | None, out: Path, replace: bool, **asked: Unpack[_Asked]
) -> int:  # fmt: skip
    """Begin a style from a garment's usual points, seams and materials: open it, overtype, done.

    All figures are suggestions by common practice, and are marked as such until they are overtyped. With --from the design
    of another style is taken: its prices, answers, measured rounds, decisions and dates stay behind.
    """
    if out.suffix.lower() != ".xlsx":
        raise UserError(say("{out}: must end in .xlsx.", out=out))
    built = _begun(garment, source, number, asked)
    save(built.data, out, replace=replace)
    screen = console()
    screen.print(say("Written: {out}", out=out), soft_wrap=True, markup=False)
    for note in built.notes:
        screen.print(note, markup=False)
    tell_not_carried(built)
    if source is None:
        screen.print(say("Its figures are suggestions by common practice: overtype them with your own."))
    screen.print(
        say("Next: fill it, look at its Checks sheet, then  sheetgen issue {out}", out=quoted(out)),
        soft_wrap=True,
        markup=False,
    )
    return 0
