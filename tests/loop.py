"""One style once round the loop, made once per test run and shared by the tests of the whole program."""

from __future__ import annotations

import datetime
import shutil
from functools import partial
from pathlib import Path

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.sheets import BOOK
from sheetgen.testing.answers import answer
from tests.kept import kept

SAMPLES = Path(__file__).parent.parent / "sample_inputs"
ISSUED = datetime.date(2026, 11, 20)


WIDE = "overshirt, all sheets"
"""The overshirt with every sheet shown: what its copy holds in the grid of threads, pieces and lays, too."""


def _make(style: str, folder: Path, *, wide: bool = False) -> None:
    built = api.build(SAMPLES / style / "brief.toml")
    if wide:
        wishes = {Place(f"guide.show_{sheet.name}"): "yes" for sheet in BOOK.sheets if sheet.seen != "never"}
        built = api.from_values({**built.values, **wishes})
    (folder / "a-working.xlsx").write_bytes(built.data)
    issued = api.issue(folder / "a-working.xlsx", issued=ISSUED)
    (folder / "a-issued.xlsx").write_bytes(issued.data)
    (folder / "a-issued.receipt.json").write_text(issued.receipt.text, "utf-8")
    answers = SAMPLES / style / "answers-clean.toml"
    answer(BOOK, folder / "a-issued.xlsx", answers, built.values, folder / "a-returned.xlsx")


_MAKERS = {style: partial(_make, style) for style in ("overshirt", "sweatshirt", "jacket")}
_MAKERS[WIDE] = partial(_make, "overshirt", wide=True)


def loop(style: str = "overshirt") -> Path:
    """The folder of a style's files, to read from: a-working, a-issued with receipt, a-returned (complete and clean)."""
    return kept(f"loop-{style}", _MAKERS[style])


def fresh_loop(folder: Path, style: str = "overshirt") -> Path:
    """A copy of the loop's files in `folder`."""
    shutil.copytree(loop(style), folder, dirs_exist_ok=True)
    return folder
