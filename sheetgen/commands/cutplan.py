"""`sheetgen cutplan`."""

from __future__ import annotations

from pathlib import Path

import click
from rich.markup import escape
from rich.table import Table

from sheetgen.commands.build import tell_not_carried
from sheetgen.commands.options import FILE, console, out_option, refuse_existing, replace_option
from sheetgen.errors import UserError
from sheetgen.jobs.cut_plan import MOST_OVER, Limits, Planned, lay_names, planned
from sheetgen.texts import say
from sheetgen.workbook.write.save import save


def _share(_context: click.Context, _option: click.Parameter, written: str | None) -> float | None:
    """A share as people write it (2%, 2 %, 0.02), from 0 to the most that the sheet allows."""
    if written is None:
        return None
    text = written.strip()
    try:
        number = float(text.removesuffix("%").replace(",", "."))
    except ValueError:
        number = -1.0
    share = round(number / 100 if text.endswith("%") else number, 9)
    if not 0 <= share <= MOST_OVER:
        raise click.BadParameter(
            say(
                "{written} is no share from 0% to {most_over:.0%}; write it as 2% or 0.02.",
                written=written,
                most_over=MOST_OVER,
            )
        )
    return share


@click.command(
    "cutplan",
    epilog="Example: sheetgen cutplan overshirt-working.xlsx --plies 60 --garments 6 --over 2% --material M1 --replace",
)
@click.argument("working", type=FILE)
@click.option("--plies", type=click.IntRange(1), default=None, help="Plies in a lay, at most.")
@click.option("--garments", type=click.IntRange(1), default=None, help="Garments in a marker, at most.")
@click.option(
    "--over", callback=_share, default=None, metavar="SHARE", help="Cut too much of a size and colorway, at most: 2%."
)
@click.option("--material", default=None, metavar="REF", help="The main fabric, by its ref in the bill of materials.")
@out_option
@replace_option
def command(
    working: Path, plies: int | None, garments: int | None, over: float | None, material: str | None,
    out: Path | None, replace: bool,
) -> int:  # fmt: skip
    """Plan the lays that cut the order, and put them into the working workbook.

    Fewest lays first, then fewest pieces over the order, then fewest different markers. What is not given stands in
    the sheet Cutting; what is given is written into it. Lays that stand there are replaced. The same order gets the
    same plan.
    """
    target = out or working
    if target.resolve() == working.resolve() and not replace:
        raise UserError(
            say("{target}: is the file that is planned; give another name with --out or add --replace.", target=target)
        )
    refuse_existing(replace, target)
    screen = console()
    with screen.status("Planning") as status:
        made = planned(working, Limits(plies, garments, over, material), status.update)
    save(made.built.data, target, replace=replace)
    table = _table(made)
    if screen.measure(table).minimum <= screen.width:
        screen.print(table)
    else:
        screen.print(say("The lays are too wide for this screen; they stand on the sheet Cutting."))
    for line in _in_words(made):
        screen.print(line, soft_wrap=True, markup=False)
    tell_not_carried(made.built)
    screen.print(say("Written: {target}", target=target), soft_wrap=True, markup=False)
    return 0


def _table(made: Planned) -> Table:
    sizes = {ref: name for ref, name in made.sizes.items() if any(ref in lay.garments for lay in made.plan.lays)}
    colors = {ref: name for ref, name in made.colorways.items() if any(ref in lay.plies for lay in made.plan.lays)}
    table = Table(box=None, pad_edge=False)
    table.add_column("Lay")
    for name in (*sizes.values(), *colors.values(), "Plies", "Pieces"):
        table.add_column(escape(name), justify="right")
    for name, lay in zip(lay_names(made.plan), made.plan.lays, strict=True):
        counts = [*(lay.garments.get(size) for size in sizes), *(lay.plies.get(color) for color in colors)]
        table.add_row(
            name, *("" if count is None else str(count) for count in counts), str(lay.height), str(lay.pieces)
        )
    return table


def _in_words(made: Planned) -> list[str]:
    """The plan in sentences: lays against what is the least, pieces over."""
    found = made.plan
    lays = _counted(len(found.lays), "lay")
    verdict = say(
        "{not_}proved fewest: no plan has fewer than {least}",
        not_="" if found.proved else say("not "),
        least=found.least,
    )
    over = _counted(found.pieces_over, "piece") if found.pieces_over else "nothing"
    return [
        say(
            "{lays} of {markers} ({verdict}; in theory {in_theory} if all were full).",
            lays=lays,
            markers=_counted(found.markers, "marker"),
            verdict=verdict,
            in_theory=found.in_theory,
        ),
        say(
            "{pieces} pieces to cut, as the order has it with what it cuts over; {over} more in the lays.",
            pieces=made.pieces,
            over=over,
        ),
    ]


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
