"""`sheetgen issue`."""

from __future__ import annotations

import datetime
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace as replaced
from hashlib import sha256
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

import click

from sheetgen import api
from sheetgen.api import Audit, HeldBackError, Leaving
from sheetgen.commands.many import each_of
from sheetgen.commands.options import DAY, console, day, out_option, quoted, refuse_existing, replace_option
from sheetgen.report.machine import as_json
from sheetgen.report.terminal import print_audit
from sheetgen.texts import say
from sheetgen.workbook.exchange.issue import Issued
from sheetgen.workbook.exchange.receipts import RECEIPT_ENDING, refuse_other_issue
from sheetgen.workbook.write.save import save_together

if TYPE_CHECKING:
    from sheetgen.jobs.packs import Pack


@click.command("issue", epilog="Example: sheetgen issue HV-27A-OS-014-working.xlsx --purpose quote --due 2026-12-11")
@click.option(
    "--purpose",
    type=click.Choice(["quote", "sample", "bulk"]),
    help="What it is sent for; as in the file if not given.",
)
@click.option("--due", type=DAY, help="The day by which it should be back, as 2026-12-11.")
@click.option(
    "--vendor", help="The vendor's name; as in the file if not given. Another one gets none of the first one's answers."
)
@click.option("--contact", help="The vendor's contact person.")
@click.option("--email", help="The vendor's e-mail.")
@click.option(
    "--anyway",
    default="",
    metavar="REASON",
    help="Issue it although something is to put right; the reason goes into the working workbook, where only the brand reads it.",
)
@click.option(
    "--revise",
    default=None,
    metavar="REASON",
    help="Make what changed since the last copy to this vendor a new revision; what changed is written into Revisions.",
)
@click.option("--no-pack", is_flag=True, help="Without the pages on paper beside the copy.")
@click.option("--json", "as_object", is_flag=True, help="Print what was found as one JSON object and nothing else.")
@out_option
@replace_option
@each_of("working", "WORKINGS...")
def command(
    working: Path,
    purpose: str | None,
    due: datetime.datetime | None,
    anyway: str,
    revise: str | None,
    as_object: bool,
    out: Path | None,
    *,
    no_pack: bool,
    replace: bool,
    **whom: str | None,
) -> int:
    """Make the vendor's locked copy, without anything private, and its receipt.

    Each of WORKINGS is a working workbook, or a folder: the newest of each style in it. It is judged first, for the purpose
    that it is issued for: what is to put right stops it, with exit status 1, and nothing is written. The receipt remembers
    all that was sent. Keep it beside the file that comes back; never send it along.
    """
    stem = working.stem.removesuffix("-working")
    target = out or working.with_name(f"{stem}-issued.xlsx")
    receipt = target.with_name(target.stem + RECEIPT_ENDING)
    refuse_existing(replace, target, receipt)
    try:
        left = api.leaving(working, purpose=purpose, due=day(due), issued=None, anyway=anyway, revise=revise, **whom)
    except api.HeldBackError as held:
        _tell_held(held, as_object=as_object)
        return 1
    issued = left.issued
    refuse_other_issue(receipt, issued.receipt)
    pages = target.with_name(f"{target.stem}-pack.pdf")
    issued, drawn, unset = (issued, {}, "") if no_pack else _with_pack(issued, pages)
    written = {target: issued.data, receipt: issued.receipt.text.encode(), **drawn}
    save_together(written | ({working: left.working} if left.working else {}), replace=replace or bool(left.working))
    if as_object:
        click.echo(as_json([left.judged]))
        return 0
    _tell(left, (target, receipt, *drawn), working)
    if unset:
        line = say(
            "No font at hand has {signs}: they are missing on paper. sheetgen pack {target} --fonts DIR sets them.",
            signs=unset, target=quoted(target),
        )  # fmt: skip
        console().print(line, soft_wrap=True, markup=False)
    return 0


def _with_pack(issued: Issued, target: Path) -> tuple[Issued, dict[Path, bytes], str]:
    """The copy's pages, made of what stands in it, its receipt with their digest, and the characters that no font has; no
    pages where nothing stands on any."""
    pack: Pack = import_module("sheetgen.jobs.packs").pack_of(issued.laid)
    if not pack.data:
        return issued, {}, ""
    receipt = replaced(issued.receipt, pack=sha256(pack.data).hexdigest())
    return replaced(issued, receipt=receipt), {target: pack.data}, " ".join(pack.missing)


def _tell_held(held: HeldBackError, *, as_object: bool) -> None:
    """Why nothing was written."""
    if as_object:
        click.echo(as_json([held.judged]))
        return
    screen = console()
    print_audit(screen, held.judged)
    for line in held.lost:
        screen.print(say("  Would be lost: {line}", line=line), soft_wrap=True, markup=False)
    if held.can_be_revised:
        line = say(
            "What changed since the last copy can be a new revision, with its changes listed: --revise 'the reason'."
        )
        screen.print(line, soft_wrap=True, markup=False)
    screen.print(
        say(
            "Not issued, nothing was written: {count} to put right first. If it must go out all the same: --anyway 'the reason'.",
            count=len(held.stopping) + len(held.lost),
        ),
        soft_wrap=True,
        markup=False,
    )


def _tell(left: Leaving, written: Sequence[Path], working: Path) -> None:
    screen, sent = console(), left.issued.receipt
    target, receipt, *pages = written
    lines = [
        say("Written: {target}  (send this one)", target=target),
        say("Written: {receipt}  (keep this one)", receipt=receipt),
        *(say("Written: {pages}  (the same on paper, to send along)", pages=page) for page in pages),
    ]
    if left.changed:
        lines.append(
            say(
                "Written: {working}  (its Revisions say what changed since issue {since}: {count})",
                working=working, count=left.changed, since=left.since,
            )
        )  # fmt: skip
    elif left.working:
        lines.append(say("Written: {working}  (its Revisions say why it went out all the same)", working=working))
    lines.append(say("Issue {issue_id}, due {due}.", issue_id=sent.issue_id, due=sent.due or say("on no date")))
    if sent.due and sent.due < sent.issued:
        lines.append(say("That day is past: issue it again with --due, or agree when it is back."))
    if left.issued.at_home:
        listed = ", ".join(left.issued.at_home)
        lines.append(
            say(
                "Not in this copy, as its purpose needs none of it: {listed}. Yes under Show on the Guide sends a sheet along.",
                listed=listed,
            )
        )
    lines += [*_seen(left.judged, working), *_kept(left)]
    lines.append(say("Next, when it is back:  sheetgen audit RETURNED.xlsx"))
    for line in lines:
        screen.print(line, soft_wrap=True, markup=False)


def _seen(judged: Audit, working: Path) -> list[str]:
    """Questions and notes on the brand's own file, counted by sheet."""
    by_sheet = Counter(one.sheet for one in judged.findings if one.level != "fix")
    if not by_sheet:
        return []
    counted = ", ".join(f"{sheet} {count}" for sheet, count in by_sheet.items())
    return [
        say(
            "Questions and notes on it: {counted}. sheetgen audit {working} lists them.",
            counted=counted,
            working=quoted(working),
        )
    ]


def _kept(left: Leaving) -> list[str]:
    """What the working workbook goes on saying, where this issue says otherwise."""
    if not left.kept:
        return []
    other = ", ".join(f"{entry.partition('.')[2]} {value}".rstrip() for entry, value in left.kept)
    return [say("The working workbook still says: {other}; type it there if it is to stay.", other=other)]
