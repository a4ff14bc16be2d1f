"""`sheetgen demo`."""

from __future__ import annotations

import shutil
import sys
from pathlib import Path

import click
from rich.table import Table

from sheetgen.commands.options import FILE, console, quoted
from sheetgen.jobs import demo
from sheetgen.texts import marked, say

_WHERE_TO_LOOK = {
    "working.xlsx": marked("what the designer works in: begin with its Guide"),
    "issued.xlsx": marked("what the vendor gets: locked, without the Pricing sheet"),
    "pack.pdf": marked("the pages that lie on the factory's table"),
    "audit-faulty.html": marked("what an audit says of a careless return"),
    "audit-faulty.reply.txt": marked("the letter to the vendor"),
    "next.xlsx": marked("the next revision with the answers in it, a marker of its fabric and its cut plan"),
    "offers.xlsx": marked("three vendors' offers side by side, for the brand only"),
}
"""The files of a style that show most, in the order of the loop."""


@click.command("demo", epilog="Example: sheetgen demo --out outputs")
@click.option("--out", type=FILE, default=Path("outputs"), show_default=True, help="Folder to write into.")
def command(out: Path) -> int:
    """Go once round the loop with the sample styles, to see what it is.

    Writes into the folder, over files of an earlier demonstration.
    """
    screen = console()
    table = Table("Style", say("Clean return"), say("Faulty return"), "Accepted", box=None, pad_edge=False)
    with screen.status("Starting") as status:
        for done in demo.run(out, status.update):
            fixes = sum(finding.level == "fix" for finding in done.faulty.findings)
            table.add_row(
                done.style,
                say("nothing to fix") if not done.clean.findings else f"{len(done.clean.findings)} findings",
                say(
                    "{planted} faults planted, {count} findings, {fixes} to fix",
                    planted=done.planted,
                    count=len(done.faulty.findings),
                    fixes=fixes,
                ),
                f"{done.taken} values",
            )
            screen.print(f"{done.style}: {len(done.files)} files", markup=False)
    screen.print()
    screen.print(table)
    screen.print()
    screen.print(say("Where to look:"))
    first = demo.STYLES[0]
    for name, words in _WHERE_TO_LOOK.items():
        screen.print(f"  {out / f'{first}-{name}'}", soft_wrap=True, markup=False)
        screen.print(f"      {say(words)}", markup=False)
    program = "sheetgen" if shutil.which("sheetgen") else str(Path(sys.argv[0]).resolve())
    screen.print(
        say("Where each style stands:  cd {out} && {program}", out=quoted(out), program=program),
        soft_wrap=True,
        markup=False,
    )
    return 0
