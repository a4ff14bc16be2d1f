"""`sheetgen issue`."""

from __future__ import annotations

import datetime
from pathlib import Path

import click

from sheetgen import api
from sheetgen.commands.options import DAY, FILE, console, day, out_option, refuse_existing, replace_option
from sheetgen.texts import say
from sheetgen.workbook.exchange.issue import RECEIPT_ENDING, refuse_other_issue
from sheetgen.workbook.write.save import save_together


@click.command("issue", epilog="Example: sheetgen issue HV-27A-OS-014-working.xlsx --purpose quote --due 2026-12-11")
@click.argument("working", type=FILE)
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
@out_option
@replace_option
def command(
    working: Path,
    purpose: str | None,
    due: datetime.datetime | None,
    vendor: str | None,
    contact: str | None,
    email: str | None,
    out: Path | None,
    replace: bool,
) -> int:
    """Make the vendor's locked copy, without anything private, and its receipt.

    The receipt remembers all that was sent. Keep it beside the file that comes back; never send it along.
    """
    issued = api.issue(working, purpose=purpose, due=day(due), vendor=vendor, contact=contact, email=email)
    stem = working.stem.removesuffix("-working")
    target = out or working.with_name(f"{stem}-issued.xlsx")
    receipt = target.with_name(target.stem + RECEIPT_ENDING)
    refuse_existing(replace, target, receipt)
    refuse_other_issue(receipt, issued.receipt)
    save_together({target: issued.data, receipt: issued.receipt_text.encode()}, replace=replace)
    screen = console()
    screen.print(say("Written: {target}  (send this one)", target=target), soft_wrap=True, markup=False)
    screen.print(say("Written: {receipt}  (keep this one)", receipt=receipt), soft_wrap=True, markup=False)
    screen.print(
        say(
            "Issue {issue_id}, due {due}.",
            issue_id=issued.receipt.issue_id,
            due=issued.receipt.due or say("on no date"),
        ),
        soft_wrap=True,
        markup=False,
    )
    if issued.receipt.due and issued.receipt.due < issued.receipt.issued:
        screen.print(say("That day is past: issue it again with --due, or agree when it is back."))
    screen.print(say("Next, when it is back:  sheetgen audit RETURNED.xlsx"))
    return 0
