"""The command line: parse, call one function, print, exit status. A command's module is loaded when it runs."""

from __future__ import annotations

import importlib
import sys
from collections.abc import Mapping
from typing import Any

import click

from sheetgen.console import use_plain_signs
from sheetgen.errors import UserError
from sheetgen.texts import say

COMMANDS: Mapping[str, str] = {
    "demo": "Go once round the loop with the sample styles, to see what it is.",
    "start": "Begin a style from a garment's usual points, seams and materials.",
    "build": "Make a working workbook from a brief, or anew from a working workbook.",
    "marker": "Lay the cut pieces on the fabric: its use, worked out instead of guessed.",
    "cutplan": "Plan the lays that cut the order, and put them into the working workbook.",
    "issue": "Make the vendor's locked copy, without anything private, and its receipt.",
    "audit": "Say what is wrong with a file that came back, cell by cell.",
    "accept": "Take what is good in a return into the next revision.",
    "compare": "Put several vendors' returns side by side, or list where two workbooks differ.",
    "season": "Show all styles below a folder in one table.",
    "rules": "List the audit's rules, or explain one.",
    "sheets": "List the sheets, or explain one.",
}
"""What `sheetgen --help` shows, in the order of work."""


class Commands(click.Group):
    """Commands by name; each stands in a module of its own under `commands`."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002
        """In the order of work, not of the alphabet."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Load the command's module; None if there is no such command."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(f"sheetgen.commands.{cmd_name}")
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """The list of commands, without loading any of them."""
        with formatter.section("Commands"):
            formatter.write_dl(list(COMMANDS.items()))


@click.group(
    cls=Commands,
    invoke_without_command=True,
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 100},
    epilog="Example: sheetgen demo --out outputs",
)
@click.version_option(package_name="sheetgen")
@click.pass_context
def sheetgen(context: click.Context) -> None:
    """Build a garment's specification workbook, issue it, audit what comes back, accept what is good.

    Without a command: where each style in this folder stands, and the next step.
    """
    if context.invoked_subcommand is None:
        from sheetgen.commands.standing import show_standing  # noqa: PLC0415 - only this way does --help stay quick

        show_standing()


def main(arguments: list[str] | None = None) -> int:
    """Run a command and return its exit status; a person's mistake becomes one sentence on standard error."""
    use_plain_signs()
    try:
        result: Any = sheetgen.main(args=arguments, prog_name="sheetgen", standalone_mode=False)
    except click.exceptions.Exit as stop:
        return stop.exit_code
    except click.Abort:
        print(say("sheetgen: stopped."), file=sys.stderr)
        return 2
    except click.ClickException as error:
        error.show()
        return 2
    except UserError as error:
        print(f"sheetgen: {error}", file=sys.stderr)
        return error.status
    except OSError as error:
        # What the system refuses (a name too long, a folder that may not be read, a full disk) is no bug of ours.
        what, why = error.filename or say("a file"), error.strerror or error
        print(say("sheetgen: {what}: {why}; name another file or folder.", what=what, why=why), file=sys.stderr)
        return 3
    return result if isinstance(result, int) else 0


if __name__ == "__main__":
    sys.exit(main())
