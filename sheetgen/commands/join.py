"""`sheetgen join`."""

from __future__ import annotations

from pathlib import Path

import click

from sheetgen.commands.build import tell_not_carried
from sheetgen.commands.options import FILE, console, out_option, refuse_existing, replace_option, stem_of
from sheetgen.jobs.joining import Together
from sheetgen.jobs.joining import join as joined
from sheetgen.texts import say
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.write.save import save


@click.command("join", epilog="Example: sheetgen join monday.xlsx ada.xlsx ines.xlsx --out overshirt-working.xlsx")
@click.argument("before", type=FILE)
@click.argument("first", type=FILE)
@click.argument("second", type=FILE)
@out_option
@replace_option
def command(before: Path, first: Path, second: Path, out: Path | None, replace: bool) -> int:
    """Put together what two people changed in two copies of one working workbook.

    BEFORE is the file from which both went on, FIRST and SECOND are theirs. What only one changed is taken; what both
    changed is listed, and stands as FIRST has it. Exit status 1 if there is any.
    """
    target = out or first.with_name(f"{stem_of(first)}-joined.xlsx")
    refuse_existing(replace, target)
    made = joined(before, first, second)
    save(made.built.data, target, replace=replace)
    screen = console()
    for line in _lines(made, first, second):
        screen.print(line, soft_wrap=True, markup=False)
    tell_not_carried(made.built)
    screen.print(say("Written: {target}", target=target), soft_wrap=True, markup=False)
    return 1 if made.joined.conflicts else 0


def _lines(made: Together, first: Path, second: Path) -> list[str]:
    done = made.joined
    lines = [say("{count} cells taken from {name}.", count=done.taken, name=second.name)]
    lines += [
        say(
            "The row {row} of {name} is {new} now: {first} has another row of that ref.",
            row=row, name=second.name, new=new, first=first.name,
        )
        for row, new in done.moved.items()
    ]  # fmt: skip
    if done.conflicts:
        lines.append(say("Both changed; as in {name}: {count}", name=first.name, count=len(done.conflicts)))
    lines += [
        say(
            "  {place}: was {before}, {first} has {one}, {second} has {other}",
            place=both.place, before=shown_text(both.before), first=first.name, one=shown_text(both.first, than=both.before),
            second=second.name, other=shown_text(both.second, than=both.before),
        )
        for both in done.conflicts
    ]  # fmt: skip
    return lines
