"""The command line: parse, call one function, print, exit status. Help is there before anything is loaded."""

from __future__ import annotations

import os
import sys

from sheetgen.cli_help import COMMANDS, HELP_OPTIONS, help_page
from sheetgen.errors import UserError
from sheetgen.texts import say

__all__ = ["COMMANDS", "main"]

_RARELY = (2_000_000, 10, 10)
"""Workbooks are a million small things that stay to the end: looking for garbage took a sixth of a build, and once a twentieth of
an issue."""


def main(arguments: list[str] | None = None) -> int:
    """Run a command and return its exit status; a person's mistake becomes one sentence on standard error."""
    given = sys.argv[1:] if arguments is None else arguments
    if len(given) == 1 and given[0] in HELP_OPTIONS:
        print(help_page(_columns()), end="")
        return 0
    import atexit  # noqa: PLC0415 - only this way is --help there at once
    import gc  # noqa: PLC0415

    import click  # noqa: PLC0415

    from sheetgen.commands.group import sheetgen  # noqa: PLC0415
    from sheetgen.console import tell_trouble, use_plain_signs  # noqa: PLC0415

    use_plain_signs()
    gc.set_threshold(*_RARELY)
    atexit.register(gc.freeze)  # at its end the interpreter would look through all of it for garbage, several times
    try:
        result: object = sheetgen.main(args=arguments, prog_name="sheetgen", standalone_mode=False)
    except click.exceptions.Exit as stop:
        return stop.exit_code
    except click.Abort:
        print(say("sheetgen: stopped."), file=sys.stderr)
        return 2
    except click.ClickException as error:
        error.show()
        return 2
    except (UserError, OSError) as error:
        return tell_trouble(error)
    return result if isinstance(result, int) else 0


def _columns() -> int:
    """The terminal's width: what the environment says, or the terminal itself; 80 where there is none."""
    said = os.environ.get("COLUMNS", "")
    if said.isdecimal() and int(said) > 0:
        return int(said)
    try:
        return os.get_terminal_size(sys.__stdout__.fileno()).columns or 80 if sys.__stdout__ else 80
    except (ValueError, OSError):
        return 80


if __name__ == "__main__":
    sys.exit(main())
