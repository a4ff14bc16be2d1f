"""An engine in plain Python, the `formulas` package, works out in every computed cell what we stored there."""

from pathlib import Path

import pytest

from tests.referee.books import FILES, LEAST_FORMULAS, computed_cells, differing, errors, file_bytes, stored
from tests.referee.second_engine import SecondEngine

pytestmark = pytest.mark.long

NOT_DONE: dict[str, str] = {}
"""Sheet -> why the package cannot do it. Nothing: it does every sheet and every function that we write.

Known of it and kept out of our sheets: SUMIF takes a criterion that reads like a date (the ref M1) for one, and then
adds up every row that reads like one.
"""


# The others' formulas are those of these two; LibreOffice works out all four.
@pytest.mark.parametrize("name", [name for name in FILES if name not in {"jacket", "sweatshirt"}])
def test_the_formulas_package_agrees_on_every_computed_cell(name: str, tmp_path: Path) -> None:
    path = tmp_path / "style.xlsx"
    path.write_bytes(file_bytes(name))
    cells = [cell for cell in computed_cells(path) if cell[0] not in NOT_DONE]
    assert len(cells) > LEAST_FORMULAS
    ours = stored(path, cells)
    engine = SecondEngine(path, ours)
    theirs = {cell: engine.works_out(cell) for cell in cells}
    assert errors(ours) == []
    assert errors(theirs) == []
    assert differing(ours, theirs) == []


def test_a_wrong_stored_value_would_be_noticed(tmp_path: Path) -> None:
    path = tmp_path / "style.xlsx"
    path.write_bytes(file_bytes("overshirt"))
    shown = stored(path, computed_cells(path))
    ours = {cell: value for cell, value in shown.items() if cell[0] == "Order"}
    engine = SecondEngine(path, shown)
    theirs = {cell: engine.works_out(cell) for cell in ours}
    wrong, value = next((cell, value) for cell, value in ours.items() if isinstance(value, float) and value > 0)
    spoiled = {**ours, wrong: value * (1 + 1e-8)}
    assert [line.split(":")[0] for line in differing(spoiled, theirs)] == ["!".join(wrong)]
