"""Three vendors' returns of the overshirt, made once per test run: clean, in dollars, and with faults."""

from __future__ import annotations

import shutil
from dataclasses import replace
from functools import cache
from pathlib import Path

from sheetgen import api
from sheetgen.api import Compared
from sheetgen.audit.run import Audit
from sheetgen.declare.entry import place_of
from sheetgen.declare.kinds import Value
from sheetgen.offers import OFFERS_BOOK
from sheetgen.sheets import BOOK
from sheetgen.testing.answers import answer
from sheetgen.testing.edit import Edit
from sheetgen.workbook.read.file import read
from tests.edits import edited
from tests.kept import kept
from tests.loop import ISSUED, SAMPLES, fresh_loop

FIRST, SECOND, THIRD = "Valmora Confecções", "Ambelora Garments", "Trevanu Confecții"
RETURNS = ("a-returned.xlsx", "b-returned.xlsx", "c-returned.xlsx")


def _make(folder: Path) -> None:
    fresh_loop(folder)
    known = api.read(folder / "a-working.xlsx").typed
    for letter, vendor, answers in (("b", SECOND, "second"), ("c", THIRD, "third")):
        issued = api.issue(folder / "a-working.xlsx", purpose="quote", vendor=vendor, issued=ISSUED)
        (folder / f"{letter}-issued.xlsx").write_bytes(issued.data)
        (folder / f"{letter}-issued.receipt.json").write_text(issued.receipt.text, "utf-8")
        path = SAMPLES / "overshirt" / f"answers-{answers}.toml"
        answer(BOOK, folder / f"{letter}-issued.xlsx", path, known, folder / f"{letter}-returned.xlsx")


def _three() -> Path:
    return kept("three-returns", _make)


def three_returns(folder: Path) -> Path:
    """A copy of the files: a-working, and a-, b- and c-issued with receipts and a-, b- and c-returned."""
    shutil.copytree(_three(), folder, dirs_exist_ok=True)
    return folder


@cache
def _audits() -> dict[str, Audit]:
    return {name: api.audit(_three() / name) for name in RETURNS}


def compared(working: Path, *returned: Path) -> Compared:
    """The comparison of these files; the three returns, unchanged, are audited once for all tests."""
    known = [replace(result, file=path) for path in returned if (result := _audits().get(path.name))]
    return api.compare_offers(working, returned, known)


@cache
def _compared() -> Compared:
    return compared(_three() / "a-working.xlsx", *(_three() / name for name in RETURNS))


def three_compared() -> Compared:
    """The comparison of the three returns."""
    return _compared()


class Reopened:
    """A comparison as a file that was opened, changed in some cells, calculated anew and saved."""

    def __init__(self, folder: Path, **changes: Value) -> None:
        source, target = folder / "offers.xlsx", folder / "changed.xlsx"
        source.write_bytes(three_compared().data)
        edits = [Edit(place, "type", value) for place, value in changes.items()]
        edited(OFFERS_BOOK, source, edits, target)
        self.got = read(OFFERS_BOOK, target)

    def __getitem__(self, place: str) -> Value:
        return self.got.shown.get(place_of(place))
