"""`sheetgen accept`."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click
from rich.console import Console

from sheetgen import api
from sheetgen.api import Accepted
from sheetgen.commands.build import tell_not_carried
from sheetgen.commands.many import each_answer
from sheetgen.commands.options import FILE, console, out_option, quoted, receipt_option, replace_option, stem_of
from sheetgen.texts import say
from sheetgen.workbook.exchange.accept import Change
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.write.save import save_together

_MOST_LINES = 12


@click.command(
    "accept",
    epilog="Example: sheetgen accept HV-27A-OS-014-working.xlsx HV-27A-OS-014-returned.xlsx --by Ines",
)
@receipt_option
@click.option(
    "--take",
    multiple=True,
    metavar="PLACE",
    help="Also take a locked, conflicting or added value, as materials.bom[M3].price; or a row, a column, a sheet.",
)
@click.option(
    "--leave",
    multiple=True,
    metavar="PLACE",
    help="Leave this answer, as materials.bom[M3].price; or a row, a column, a sheet.",
)
@click.option("--plan", is_flag=True, help="Say what would be taken and left, cell by cell, and write nothing.")
@click.option(
    "--photos",
    "folder",
    type=FILE,
    default=None,
    help="A folder for the pictures that came, named by style, sheet and row.",
)
@click.option("--by", default="", help="Who accepts; stands in the Revisions sheet.")
@out_option
@replace_option
@each_answer
def command(
    working: Path,
    returned: Path,
    receipt: Path | None,
    folder: Path | None,
    out: Path | None,
    *,
    plan: bool,
    replace: bool,
    **asked: Any,
) -> int:
    """Take what is good in a return into the next revision.

    WORKING stays as it is; the next revision is a new file. What has a finding of level fix is not taken, and what
    both sides changed is listed and left as it is in WORKING; so is an answer whose row, unit or currency is another one
    now. Remarks and photos outside the cells come onto Questions. Exit status 1 if anything was left. A folder instead of
    the two takes each style's last answer in it into its newest working workbook.
    """
    accepted = api.accept(working, returned, receipt=receipt, **asked)
    revision = accepted.built.text("style.revision")
    target = out or working.with_name(f"{stem_of(working)}-rev{revision}.xlsx")
    screen = console()
    if plan:
        tell(screen, accepted, all_of_it=True)
        screen.print(
            say("Nothing was written: without --plan it would be {target}.", target=target),
            soft_wrap=True,
            markup=False,
        )
        return _status(accepted)
    pictures = {folder / name: data for name, data in accepted.photos.items()} if folder else {}
    save_together({target: accepted.built.data, **pictures}, replace=replace)
    tell(screen, accepted)
    tell_not_carried(accepted.built)
    written = say("Written: {target}, revision {revision}", target=target, revision=revision)
    saved = say("Written: {count} pictures in {folder}", count=len(pictures), folder=folder)
    for line in (written, *([saved] if pictures else []), say("Next:  sheetgen issue {target}", target=quoted(target))):
        screen.print(line, soft_wrap=True, markup=False)
    return _status(accepted)


def _status(accepted: Accepted) -> int:
    left = [*accepted.acceptance.of("refused"), *accepted.acceptance.of("conflict"), *accepted.unplaced]
    return 1 if left or accepted.audit.got.added_sheets else 0


def _tell_added(screen: Console, accepted: Accepted) -> None:
    """What the vendor put where nothing has a place, a line each."""
    for words, found in (
        (say("Remarks and photos outside the cells, now on Questions"), accepted.noted),
        (say("Outside the cells, and too much to be remarks; look into the return"), accepted.unplaced),
    ):
        if found:
            screen.print(f"{words}: {len(found)}", markup=False)
            for one in found[:_MOST_LINES]:
                screen.print(f"  {one.sheet} {one.cell}: {one.words}", markup=False)
    for title in accepted.audit.got.added_sheets:
        screen.print(
            say("The sheet {title} was added; it is not taken over: look into the return.", title=title), markup=False
        )


def tell(screen: Console, accepted: Accepted, *, all_of_it: bool = False) -> None:
    """What was taken, what was not and why; `all_of_it` every cell, those that are taken too."""
    acceptance = accepted.acceptance
    for warning in accepted.audit.warnings:
        screen.print(say("Note: {warning}", warning=warning), markup=False)
    screen.print(
        say("{count} values taken from {name}.", count=len(acceptance.of("taken")), name=accepted.audit.file.name),
        markup=False,
    )
    _tell_added(screen, accepted)
    for outcome, words in (
        *([("taken", say("Taken"))] if all_of_it else []),
        ("conflict", say("Both sides changed; left as in the working file")),
        ("refused", say("Not taken")),
    ):
        changes = acceptance.of(outcome)  # type: ignore[arg-type]
        if changes:
            screen.print(f"{words}: {len(changes)}", markup=False)
            shown = changes if all_of_it else changes[:_MOST_LINES]
            for change in shown:
                screen.print(f"  {_line(accepted, change)}", markup=False)
            if len(changes) > len(shown):
                screen.print(say("  and {count} more: --plan lists them all.", count=len(changes) - len(shown)))


def _line(accepted: Accepted, change: Change) -> str:
    cell = accepted.audit.got.where.at(change.place)
    where = f"{cell.sheet} {cell.address}" if cell else str(change.place)
    words = say(
        "{where} ({place}): sent {sent}, came back {returned}",
        where=where,
        place=change.place,
        sent=shown_text(change.sent),
        returned=shown_text(change.returned, than=change.sent),
    )
    if change.outcome == "conflict":
        words += say(", is now {working}", working=shown_text(change.working, than=change.sent))
    return f"{words}. {change.reason[0].upper() + change.reason[1:] if change.reason else ''}".rstrip()
