"""The README's tables are the declarations': a stale one fails."""

import re
from pathlib import Path

import pytest

from sheetgen.cli import COMMANDS, main
from sheetgen.jobs.rule_reference import limits_table, rules_table
from sheetgen.jobs.sheet_reference import sheets_table

README = (Path(__file__).parents[2] / "README.md").read_text("utf-8")


@pytest.mark.parametrize(
    ("name", "table"), [("sheets", sheets_table), ("rules", rules_table), ("limits", limits_table)]
)
def test_readme_table_is_current(name, table):
    held = re.search(rf"<!-- {name} -->\n(.*?)\n<!-- /{name} -->", README, re.DOTALL)
    assert held is not None
    assert held.group(1) == table(), (
        f"put the output of `sheetgen {name} --markdown` (limits: `sheetgen rules --limits --markdown`) into the README"
    )


def test_every_command_explains_itself_with_an_example(capsys):
    for name, words in COMMANDS.items():
        assert main([name, "--help"]) == 0
        said = capsys.readouterr().out
        assert "Example: sheetgen" in said, name
        # The list of commands and the command itself begin with the same sentence.
        assert words.split(",")[0].rstrip(".") in " ".join(said.split()), name


def test_unknown_names_get_a_suggestion(capsys):
    assert main(["rules", "formula-replace"]) == 2
    assert "is it 'formula-replaced'?" in capsys.readouterr().err
    assert main(["sheets", "material"]) == 2
    assert "is it 'materials'?" in capsys.readouterr().err


def test_a_rule_is_explained_without_holes(capsys):
    assert main(["rules", "locked-value-changed"]) == 0
    said = capsys.readouterr().out
    assert "{" not in said
    assert "(column) of (row) was sent as (expected) and came back as (found)." in " ".join(said.split())
