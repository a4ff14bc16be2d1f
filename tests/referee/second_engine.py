"""The second engine over a file as openpyxl reads it, with the values that are to be judged."""

from __future__ import annotations

from pathlib import Path

from openpyxl.utils.cell import coordinate_to_tuple

from sheetgen.jobs.second_opinion import SecondEngine as Engine
from sheetgen.workbook.model.geometry import Cell
from tests.referee.books import CellName, Shown, opened, plain


class SecondEngine:
    """Works out cells of one file from what the cells they read hold."""

    def __init__(self, path: Path, shown: dict[CellName, Shown]) -> None:
        loaded = opened(path)
        formulas = {_cell(name): str(loaded[name[0]][name[1]].value) for name in shown}
        held = {
            Cell(sheet.title, cell.row, cell.column): plain(cell.value)
            for sheet in loaded for row in sheet.iter_rows() for cell in row if cell.value is not None
        }  # fmt: skip
        self._engine = Engine(formulas, {**held, **{_cell(name): value for name, value in shown.items()}})

    def works_out(self, name: CellName) -> Shown:
        """What the formula in a cell gives."""
        return self._engine.works_out(_cell(name))


def _cell(name: CellName) -> Cell:
    return Cell(name[0], *coordinate_to_tuple(name[1]))
