"""The template of all texts holds what people read, and a language made from it is what they then read."""

from __future__ import annotations

import gettext
import io
from contextvars import copy_context
from pathlib import Path

import pytest
from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo

from sheetgen.audit import RULES
from sheetgen.cli import main
from sheetgen.texts import say, say_many, speak
from tests.texts.catalog import catalog


@pytest.fixture(scope="module")
def gathered() -> Catalog:
    return catalog()


def test_texts_of_every_kind_are_gathered(gathered: Catalog) -> None:
    for text in (
        "{path}: is damaged or cut off; save the picture again.",  # a refusal
        "the shrinkage is left out",  # a cause, declared in one place and said in another
        "The vendor's turn",  # a report
        "Bill of materials",  # a heading of a sheet
        "Say what is wrong with a file that came back, cell by cell.",  # a command
        "Type it with its sign, 5 %, or as 0.05.",  # a rule
    ):
        assert text in gathered, text
    assert gathered.get("{count:,} cell").pluralizable
    assert all(rule.message in gathered for rule in RULES)
    assert len(gathered) > 2000


def spoken(gathered: Catalog, change: dict[str, str]) -> gettext.GNUTranslations:
    """A language in which these texts are others, through the compiled form that programs load."""
    made = Catalog(locale="de", charset="utf-8")
    for message in gathered:
        if message.id:
            plural = isinstance(message.id, tuple)
            other = [change.get(one, one) for one in (message.id if plural else [message.id])]
            made.add(message.id, tuple(other) if plural else other[0])
    compiled = io.BytesIO()
    write_mo(compiled, made)
    compiled.seek(0)
    return gettext.GNUTranslations(compiled)


def test_another_language_is_one_catalog_more(
    gathered: Catalog, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # German by the editors, only for this test.
    german = spoken(gathered, {
        "{path}: there is no such file; check the name.": "{path}: diese Datei gibt es nicht; prüfen Sie den Namen.",
        "{count:,} cell": "{count:,} Zelle", "{count:,} cells": "{count:,} Zellen",
        "The brand file; brand.toml beside the brief if not given.": "Die Datei der Marke.",
    })  # fmt: skip

    def in_german() -> tuple[int, str, str]:
        speak(german)
        status = main(["build", str(tmp_path / "x.toml")])
        main(["build", "--help"])
        return (
            status,
            say_many("{count:,} cell", "{count:,} cells", 1),
            say_many("{count:,} cell", "{count:,} cells", 3),
        )

    assert copy_context().run(in_german) == (2, "1 Zelle", "3 Zellen")
    told = capsys.readouterr()
    assert told.err.endswith("x.toml: diese Datei gibt es nicht; prüfen Sie den Namen.\n")
    assert "Die Datei der Marke." in told.out and "Example: sheetgen build" in told.out
    assert (
        say("{path}: there is no such file; check the name.", path="a") == "a: there is no such file; check the name."
    )
