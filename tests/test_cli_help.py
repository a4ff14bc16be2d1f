"""The prepared page is what click prints of the same declaration, at every width; it is there without click."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import click
import pytest

from sheetgen.cli import main
from sheetgen.cli_help import COMMANDS, MOST_COLUMNS, help_page
from sheetgen.commands.group import sheetgen

ROOT = Path(__file__).parents[1]


def by_click(columns: int) -> str:
    context = click.Context(
        sheetgen,
        info_name="sheetgen",
        terminal_width=None,
        max_content_width=MOST_COLUMNS,
        help_option_names=["-h", "--help"],
    )
    # As click reckons the width from a terminal: at most so many columns, two less, at least 50.
    context.terminal_width = max(min(columns, MOST_COLUMNS) - 2, 50)
    return sheetgen.get_help(context) + "\n"


@pytest.mark.parametrize("columns", [*range(20, 131), 400])
def test_the_page_is_what_click_prints(columns: int) -> None:
    assert help_page(columns) == by_click(columns)


@pytest.mark.parametrize("option", ["--help", "-h"])
@pytest.mark.parametrize("columns", ["64", "200"])
def test_help_is_printed_at_the_width_of_the_terminal(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], option: str, columns: str
) -> None:
    monkeypatch.setenv("COLUMNS", columns)
    assert main([option]) == 0
    page = capsys.readouterr().out
    assert page == by_click(int(columns))
    # Click itself, asked in a way that the prepared page does not answer.
    assert main([option, "demo"]) == 0
    assert capsys.readouterr().out == page


def test_each_command_has_a_module_and_each_module_a_line() -> None:
    for name in COMMANDS:
        command = sheetgen.get_command(click.Context(sheetgen), name)
        assert command is not None
        assert command.name == name


def test_help_loads_no_library() -> None:
    code = (
        "import sys; before = set(sys.modules); from sheetgen.cli import main; main(['--help']);"
        "print('LOADED', *sorted({name.partition('.')[0] for name in set(sys.modules) - before}))"
    )
    ran = subprocess.run([sys.executable, "-I", "-S", "-c", f"import sys; sys.path.insert(0, {str(ROOT)!r}); {code}"],
                         check=True, capture_output=True, text=True)  # fmt: skip
    loaded = set(ran.stdout.splitlines()[-1].split()[1:])
    # Our own, and of Python what it loads itself at every start (here it was told not to).
    assert loaded <= {
        "sheetgen", "__future__", "importlib", "warnings", "_warnings", "contextvars", "_contextvars",
        "os", "stat", "_stat", "posixpath", "ntpath", "genericpath", "_collections_abc", "abc", "_abc",
    }  # fmt: skip


def test_completion_still_knows_the_commands() -> None:
    ran = subprocess.run(
        [sys.executable, "-c", "from sheetgen.cli import main; main()"], check=False, capture_output=True, text=True, cwd=ROOT,
        env={"_SHEETGEN_COMPLETE": "bash_complete", "COMP_WORDS": "sheetgen cut", "COMP_CWORD": "1", "PYTHONPATH": str(ROOT)},
    )  # fmt: skip
    assert ran.stdout.split() == ["plain,cutplan"]
