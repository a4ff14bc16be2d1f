"""Numbers that no cell holds: read as every spreadsheet program reads them, never a traceback."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from sheetgen.declare.entry import Place
from sheetgen.workbook.read.file import read
from tests.hostile.spoil import parts_of, spoiled
from tests.hostile.test_files import GOOD, SHEET
from tests.workbook.small import SMALL, typed_by_people


@pytest.mark.parametrize(("digits", "held"), [(20, 1e20), (400, "9" * 400)], ids=["a long number", "a longer one"])
def test_a_number_longer_than_a_cell_holds(tmp_path: Path, digits: int, held: object) -> None:
    path = tmp_path / "returned.xlsx"
    sheet, number = SHEET, re.compile(rb"<v>142.5</v>")
    assert len(number.findall(parts_of(GOOD)[sheet])) == 1
    path.write_bytes(spoiled(GOOD, sheet, lambda text: number.sub(b"<v>" + b"9" * digits + b"</v>", text)))
    assert typed_by_people(read(SMALL, path))[Place("goods.lines.width_z2", "M1")] == held
