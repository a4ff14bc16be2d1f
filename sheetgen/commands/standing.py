"""What `sheetgen` says without a command: where each style in this folder stands."""

from __future__ import annotations

from pathlib import Path

from sheetgen.commands.options import console
from sheetgen.jobs.standing import standings
from sheetgen.texts import say


def show_standing(folder: Path | None = None) -> None:
    """Print each style's standing with the command for its next step."""
    screen = console()
    found = standings(folder or Path.cwd())
    if not found:
        screen.print(say("No workbook of sheetgen in this folder."))
        screen.print(say("To see what it does:      sheetgen demo"))
        screen.print(say("To begin with a brief:    sheetgen build BRIEF.toml"))
        screen.print(say("For all commands:         sheetgen --help"))
        return
    for standing in found:
        words, command = standing.situation()
        screen.print(f"{standing.style} {standing.name}".rstrip(), style="bold", markup=False)
        screen.print(f"  {words}", soft_wrap=True, markup=False)
        screen.print(say("  next: {command}", command=command), soft_wrap=True, markup=False)
