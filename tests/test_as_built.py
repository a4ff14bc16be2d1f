"""Another unit, currency or sample size typed into the grid is counted there at once, and no more once it is settled."""

from __future__ import annotations

from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.audit.run import case_of
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit, edited
from sheetgen.workbook.read.file import read
from tests.loop import loop

CHANGES = {
    "unit": ("style.unit", "mm", api.Settle(unit="mm")),
    "currency": ("style.currency", "USD", api.Settle(keep_figures=True)),
    "sample": ("style.sample_size", "L", api.Settle(sample_size="moves-base")),
}
COUNTS = tuple(f"checks.wrong_workings_{name}_changed" for name in CHANGES)


def counted(path: Path) -> dict[str, Value]:
    shown = case_of(read(BOOK, path), None).follows
    return {address: shown[Place(address)] for address in COUNTS}


def test_nothing_is_counted_in_a_file_as_it_was_built() -> None:
    assert counted(loop() / "a-working.xlsx") == dict.fromkeys(COUNTS, 0)


@pytest.mark.parametrize("name", CHANGES)
def test_a_change_in_the_grid_is_counted_until_it_is_settled(tmp_path: Path, name: str) -> None:
    address, value, how = CHANGES[name]
    path = tmp_path / "a-working.xlsx"
    edited(BOOK, loop() / "a-working.xlsx", [Edit(address, "type", value)], path)
    assert counted(path) == dict.fromkeys(COUNTS, 0) | {f"checks.wrong_workings_{name}_changed": 1}
    path.write_bytes(api.build(path, settle=how).data)
    assert counted(path) == dict.fromkeys(COUNTS, 0)


def test_a_copy_holds_nothing_of_it() -> None:
    assert not any(
        address.startswith("workings.built") for address in read(BOOK, loop() / "a-issued.xlsx").ready.book.entries
    )
