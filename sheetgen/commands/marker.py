"""`sheetgen marker`."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click
from rich.markup import escape
from rich.progress import Progress
from rich.table import Table

from sheetgen.commands.build import tell_not_carried
from sheetgen.commands.many import each_of
from sheetgen.commands.options import FILE, console, out_option, refuse_existing, replace_option
from sheetgen.errors import UserError
from sheetgen.jobs.marker_tasks import Request
from sheetgen.jobs.markers import Laid, lay_markers
from sheetgen.nesting import in_sizes
from sheetgen.texts import say
from sheetgen.trade.lengths import YARD_M, convert
from sheetgen.workbook.write.save import save_together

MOST_GARMENTS = 40


@click.command("marker", epilog="Example: sheetgen marker overshirt-working.xlsx --material M1 --garments 6 --replace")
@click.option(
    "--material", "materials", multiple=True, metavar="REF", help="A fabric, as M1; may come again. All if left out."
)
@click.option(
    "--garments",
    type=click.IntRange(1, MOST_GARMENTS),
    default=None,
    help="So many garments, in the order's proportion of sizes.",
)
@click.option("--mix", default=None, metavar="SIZES", help="Exactly these garments instead, as S=1,M=2,L=1.")
@click.option(
    "--gap", type=click.FloatRange(0), default=None, help="Room between pieces, in the style's unit; else 2 mm."
)
@click.option(
    "--effort",
    type=click.FloatRange(0, min_open=True),
    default=10.0,
    show_default=True,
    help="How long to search, in about so many seconds a fabric; many pieces take longer to lie at all.",
)
@click.option(
    "--seed",
    type=click.IntRange(0, 999_999),
    default=1,
    show_default=True,
    help="Another number lays another marker, the same one the same.",
)
@click.option(
    "--lays",
    "for_lays",
    is_flag=True,
    help="Lay one for each lay of the Cutting sheet instead, of the lay's own sizes.",
)
@click.option("--svg", "drawings", type=FILE, default=None, help="A folder for the markers as drawings of their own.")
@out_option
@replace_option
@each_of("working", "WORKINGS...")
def command(
    working: Path, materials: tuple[str, ...], garments: int | None, mix: str | None, for_lays: bool, drawings: Path | None,
    out: Path | None, replace: bool, **search: Any,
) -> int:  # fmt: skip
    """Lay the cut pieces on the fabric: its use, worked out instead of guessed.

    Each of WORKINGS is a working workbook, or a folder: the newest of each style in it. The pieces of a few garments are laid
    as short as a search finds. Length, efficiency, drawing and what each piece fills of its box go into its Markers and Yield
    sheets, with the day and what they rest on: change a measurement, and the sheet says that the marker is out of date. An
    estimate for price and fabric; the cutter's own marker decides.
    """
    if mix and garments:
        raise UserError(say("--mix says how many garments are laid: leave --garments out."))
    if for_lays and (mix or garments or materials):
        raise UserError(
            say("--lays: material and garments are those of the lays; leave --material, --garments and --mix out.")
        )
    target = out or working
    refuse_existing(replace, target)
    request = Request(materials, garments, garments_of(mix) if mix else None, **search)
    screen = console()
    with Progress(console=screen, transient=True, disable=not screen.is_terminal) as progress:
        bars: dict[str, int] = {}

        def tell(item: str, part: float) -> None:
            if item not in bars:
                bars[item] = progress.add_task(escape(item), total=1.0)
            progress.update(bars[item], completed=part)  # type: ignore[arg-type]

        built, laid = lay_markers(working, request, tell=tell, for_lays=for_lays)
    names = [f"{one.material}-lay-{number}" if for_lays else one.material for number, one in enumerate(laid, 1)]
    drawn = (
        {
            drawings / f"{working.stem}-marker-{name}.svg": one.svg.encode()
            for name, one in zip(names, laid, strict=True)
        }
        if drawings
        else {}
    )
    save_together({target: built.data, **drawn}, replace=replace)
    screen.print(_table(laid))
    for one in laid:
        for note in one.notes:
            screen.print(f"{one.material}: {note}.", markup=False)
    tell_not_carried(built)
    screen.print(say("Written: {target}", target=target), soft_wrap=True, markup=False)
    return 0


def garments_of(text: str) -> dict[str, int]:
    """`S=1,M=2` as garments by size; UserError if it is written otherwise."""
    found: dict[str, int] = {}
    for part in text.split(","):
        size, sign, number = (word.strip() for word in part.partition("="))
        if not sign or not number.isdecimal() or not size:
            raise UserError(say("--mix {mix}: write each size with its garments, as S=1,M=2,L=1.", mix=text))
        if size in found:
            raise UserError(say("--mix {mix}: size {size} stands there twice; give it once.", mix=text, size=size))
        found[size] = int(number)
    if sum(found.values()) > MOST_GARMENTS:
        raise UserError(
            say(
                "--mix {mix}: a marker of more than {most_garments} garments takes too long to lay; give fewer.",
                mix=text,
                most_garments=MOST_GARMENTS,
            )
        )
    return found


def _table(laid: list[Laid]) -> Table:
    table = Table("Fabric", "Garments", "Width", "Length", "Efficiency", "A garment", box=None, pad_edge=False)
    for one in laid:
        marker = one.marker
        far, long = ("yd", 100 * YARD_M) if one.unit == "in" else ("m", 100.0)
        words = (
            one.item,
            in_sizes(marker.garments),
            f"{convert(marker.width_cm, 'cm', one.unit):.1f} {one.unit}",
            f"{marker.length_cm / long:.3f} {far}",
            f"{marker.efficiency:.1%}",
            f"{marker.length_per_garment() / long:.3f} {far}",
        )
        table.add_row(*(escape(word) for word in words))
    return table
