"""`sheetgen accept`."""

from __future__ import annotations

from pathlib import Path

import click
from rich.console import Console

from sheetgen import api
from sheetgen.api import Accepted
from sheetgen.commands.build import tell_not_carried
from sheetgen.commands.options import FILE, console, out_option, quoted, receipt_option, replace_option, stem_of
from sheetgen.texts import say
from sheetgen.workbook.exchange.accept import Change
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.write.save import save

_MOST_LINES = 12


@click.command(
    "accept",
    epilog="Example: sheetgen accept HV-27A-OS-014-working.xlsx HV-27A-OS-014-returned.xlsx --by Ines",
)
@click.argument("working", type=FILE)
@click.argument("returned", type=FILE)
@receipt_option
@click.option(
    "--take",
    multiple=True,
    metavar="PLACE",
    help="Also take a locked, conflicting or added value, as materials.bom[M3].price.",
)
@click.option("--by", default="", help="Who accepts; stands in the Revisions sheet.")
@out_option
@replace_option
def command(
    working: Path,
    returned: Path,
    receipt: Path | None,
    take: tuple[str, ...],
    by: str,
    out: Path | None,
    replace: bool,
) -> int:
    """Take what is good in a return into the next revision.

    WORKING stays as it is; the next revision is a new file. What has a finding of level fix is not taken, and what
    both sides changed is listed and left as it is in WORKING. Exit status 1 if anything was left.
    """
    accepted = api.accept(working, returned, receipt=receipt, take=take, by=by)
    revision = accepted.built.text("style.revision")
    target = out or working.with_name(f"{stem_of(working)}-rev{revision}.xlsx")
    save(accepted.built.data, target, replace=replace)
    screen = console()
    tell(screen, accepted)
    tell_not_carried(accepted.built)
    screen.print(
        say("Written: {target}, revision {revision}", target=target, revision=revision),
        soft_wrap=True,
        markup=False,
    )
    screen.print(say("Next:  sheetgen issue {target}", target=quoted(target)), soft_wrap=True, markup=False)
    left = accepted.acceptance.of("refused") + accepted.acceptance.of("conflict")
    return 1 if left else 0


def tell(screen: Console, accepted: Accepted) -> None:
    """What was taken, what was not and why."""
    acceptance = accepted.acceptance
    for warning in accepted.audit.warnings:
        screen.print(say("Note: {warning}", warning=warning), markup=False)
    screen.print(
        say("{count} values taken from {name}.", count=len(acceptance.of("taken")), name=accepted.audit.file.name),
        markup=False,
    )
    for outcome, words in (
        ("conflict", say("Both sides changed; left as in the working file")),
        ("refused", say("Not taken")),
    ):
        changes = acceptance.of(outcome)  # type: ignore[arg-type]
        if changes:
            screen.print(f"{words}: {len(changes)}", markup=False)
            for change in changes[:_MOST_LINES]:
                screen.print(f"  {_line(accepted, change)}", markup=False)
            if len(changes) > _MOST_LINES:
                screen.print(say("  and {count} more: see the audit.", count=len(changes) - _MOST_LINES))


def _line(accepted: Accepted, change: Change) -> str:
    cell = accepted.audit.got.where.at(change.place)
    where = f"{cell.sheet} {cell.address}" if cell else str(change.place)
    words = say(
        "{where} ({place}): sent {sent}, came back {returned}",
        where=where,
        place=change.place,
        sent=shown_text(change.sent),
        returned=shown_text(change.returned),
    )
    if change.outcome == "conflict":
        words += say(", is now {working}", working=shown_text(change.working))
    return f"{words}. {change.reason[0].upper() + change.reason[1:] if change.reason else ''}".rstrip()
