"""All texts that a person reads, gathered from the code, the sheets, the rules and the command line, as one template.

`python -m tests.texts.catalog messages.pot` writes it in gettext's form, for whoever brings another language.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import click
from babel.messages.catalog import Catalog
from babel.messages.pofile import write_po

from sheetgen.audit import RULES
from sheetgen.cli_help import COMMANDS
from sheetgen.commands.group import sheetgen
from sheetgen.declare.wording import texts_of
from sheetgen.offers.sheets import OFFERS_BOOK
from sheetgen.report.worklist import WORKLIST
from sheetgen.sheets import BOOK
from tests.texts.gathered import GATES, PACKAGE

Where = str
Gathered = tuple[str | tuple[str, str], Where]
"""A text, or its two forms for one and for many, and where it stands."""


def from_code() -> Iterator[Gathered]:
    """What modules say or mark."""
    for path in sorted(PACKAGE.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func) in GATES and node.args:
                where = path.relative_to(PACKAGE).as_posix()
                words = [one.value for one in node.args if isinstance(one, ast.Constant) and isinstance(one.value, str)]
                if ast.unparse(node.func) == "say_many" and len(words) == 2:
                    yield (words[0], words[1]), where
                elif words:
                    yield words[0], where


def from_rules() -> Iterator[Gathered]:
    """The words of the audit's rules, and their names as words."""
    for rule in RULES:
        for words in (rule.title, rule.message, rule.why, rule.fix, rule.asked, rule.name.replace("-", " ")):
            yield words, f"rule {rule.name}"


def from_sheets() -> Iterator[Gathered]:
    """The texts of all books."""
    for book in (BOOK, OFFERS_BOOK, WORKLIST):
        for text in texts_of(book):
            yield from ((text.words, place) for place in text.places)


def from_commands() -> Iterator[Gathered]:
    """Help of all commands and their options."""
    for name in COMMANDS:
        command = sheetgen.get_command(click.Context(sheetgen), name)
        assert command is not None
        options = [one.help for one in command.params if isinstance(one, click.Option)]
        for words in (command.help, command.epilog, *options):
            if words:
                yield words, f"command {name}"


def catalog() -> Catalog:
    """The template of all of them."""
    made = Catalog(project="sheetgen", charset="utf-8", fuzzy=False)
    for texts in (from_code(), from_rules(), from_sheets(), from_commands()):
        for words, where in texts:
            if words and any(
                isinstance(one, str) and one.strip() for one in ([words] if isinstance(words, str) else words)
            ):
                made.add(words, locations=[(where, None)])
    return made


if __name__ == "__main__":
    target = Path(sys.argv[1] if len(sys.argv) > 1 else "messages.pot")
    with target.open("wb") as file:
        write_po(file, catalog(), sort_output=True, width=120)
    print(f"Written: {target}, {len(catalog())} texts")
