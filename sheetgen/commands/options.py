"""Options that several commands share, and the console they print to."""

from __future__ import annotations

import datetime
import re
from importlib import import_module
from pathlib import Path

import click
from rich.console import Console

from sheetgen.errors import UserError
from sheetgen.texts import say

FILE = click.Path(path_type=Path)
_MOST_DIFFERENCES = 20
DAY = click.DateTime(formats=["%Y-%m-%d"])

replace_option = click.option("--replace", is_flag=True, help="Write over an existing file.")
out_option = click.option("--out", type=FILE, default=None, help="Where to write it.")
receipt_option = click.option(
    "--receipt", type=FILE, default=None, help="The receipt of the issue; found beside the file if not given."
)


def one_brand(_: click.Context, __: click.Parameter, given: tuple[Path, ...]) -> Path | None:
    """The one brand file that was named; UserError for a second one."""
    if len(given) > 1:
        raise UserError(say("--brand is given twice: a style has one brand file; name one of them."))
    return given[0] if given else None


grade_option = click.option(
    "--grade", type=FILE, default=None, help="Take the grade from a CSV file or another style's workbook."
)
body_option = click.option(
    "--body",
    default=None,
    metavar="women|men|FILE",
    help="Put a body table beside the garment: letter sizes, or a CSV file.",
)
with_option = click.option(
    "--with",
    "shows",
    multiple=True,
    metavar="SHEET",
    help="Also show this sheet, as order, cutting or thread; can be given again. All stand on the Guide.",
)


second_opinion_option = click.option(
    "--second-opinion",
    is_flag=True,
    help="Let another engine work out every formula, and say where it does not agree; takes a minute a file.",
)


def tell_second_opinion(path: Path) -> bool:
    """Say what another engine makes of a file's formulas; whether it agrees. What works it out is loaded when it is asked for."""
    opinion = import_module("sheetgen.jobs.second_opinion").second_opinion(path)
    said = say(
        "{path}: {engine} worked out {count:,} formulas anew", path=path, engine=opinion.engine, count=opinion.formulas
    )
    differences = opinion.differences
    if not differences:
        console().print(say("{said} and agrees on all of them.", said=said), soft_wrap=True, markup=False)
        return True
    console().print(
        say("{said} and gives something else in {count:,}:", said=said, count=len(differences)),
        soft_wrap=True,
        markup=False,
    )
    for one in differences[:_MOST_DIFFERENCES]:
        line = say(
            "  {sheet} {cell}: {theirs}, not {ours}",
            sheet=one.cell.sheet,
            cell=one.cell.address,
            theirs=one.theirs,
            ours=one.ours,
        )
        console().print(line, soft_wrap=True, markup=False)
    return False


def console() -> Console:
    """The console for what a person reads; it follows the terminal's width, 80 columns when piped."""
    plain = Console(highlight=False)
    return plain if plain.is_terminal else Console(highlight=False, width=80)


def day(value: datetime.datetime | None) -> datetime.date | None:
    """A date option's value as a date."""
    return value.date() if value else None


def refuse_existing(replace: bool, *targets: Path) -> None:
    """UserError if a file is there already and may not be replaced: said before the work begins, not after it."""
    for target in targets:
        if target.exists() and not replace:
            raise UserError(
                say("{target}: is there already; give another name with --out or add --replace.", target=target)
            )


def stem_of(working: Path) -> str:
    """The name that all revisions of a working workbook share."""
    return re.sub(r"-working$|-rev\d+$", "", working.stem)


def quoted(path: Path) -> str:
    """A path as it can be copied into a command."""
    text = str(path)
    return f'"{text}"' if " " in text else text
