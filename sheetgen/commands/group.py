"""The command line as click knows it: the group of all commands. A command's module is loaded when it runs."""

from __future__ import annotations

import importlib
from copy import copy

import click

from sheetgen.cli_help import ABOUT, ARGUMENTS, COMMANDS, EPILOG, HELP_OPTIONS, MOST_COLUMNS
from sheetgen.texts import say


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
        return _said(module.command)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """The list of commands, without loading any of them."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, say(meaning)) for name, meaning in COMMANDS.items()])


def _said(command: click.Command) -> click.Command:
    """A command whose help speaks the language that is spoken now; the declared one stays as it is."""
    spoken = copy(command)
    spoken.help, spoken.epilog = say(command.help or ""), say(command.epilog or "")
    spoken.params = [copy(one) for one in command.params]
    for one in spoken.params:
        if isinstance(one, click.Option) and one.help:
            one.help = say(one.help)
    return spoken


@click.group(
    cls=Commands,
    help="\n\n".join(ABOUT),
    invoke_without_command=True,
    subcommand_metavar=ARGUMENTS,
    context_settings={"help_option_names": list(HELP_OPTIONS), "max_content_width": MOST_COLUMNS},
    epilog=EPILOG,
)
@click.version_option(package_name="sheetgen")
@click.pass_context
def sheetgen(context: click.Context) -> None:
    """All commands; without one, where each style in this folder stands."""
    if context.invoked_subcommand is None:
        from sheetgen.commands.standing import show_standing  # noqa: PLC0415 - else every command would load it

        show_standing()
