"""Actions on what was written and on how it looks: headings, labels, forged formulas, looks, text boxes, names."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from sheetgen.declare.entry import REF, place_of
from sheetgen.testing import dressing
from sheetgen.testing.package import Package
from sheetgen.workbook.model.geometry import Cell, name_of
from sheetgen.workbook.model.packing import RECORD_SHEET

if TYPE_CHECKING:
    from sheetgen.testing.actions import Desk, Edit

Action = Callable[["Desk", "Edit"], None]


def _heading(desk: Desk, edit: Edit) -> None:
    """Other words in the heading of a column; none clears them."""
    table = desk.table(edit.place.rpartition(".")[0])
    desk.put(Cell(table.sheet, table.first - 1, table.columns[edit.place.rpartition(".")[2]]), edit.value)


def _label(desk: Desk, edit: Edit) -> None:
    """Other words in a field's label; none clears them."""
    cell = desk.cell(place_of(edit.place))
    cells = desk.got.loaded.sheets[cell.sheet].cells
    left = max(at[1] for at, held in cells.items() if at[0] == cell.row and at[1] < cell.column and held.value)
    desk.put(cell._replace(column=left), edit.value)


def _forged(desk: Desk, edit: Edit) -> None:
    """A formula, and a stored value that it does not give."""
    formula, stored = edit.value
    cell = desk.cell(place_of(edit.place))
    desk.package.sheet(cell.sheet).set(cell.row, cell.column, None, formula, stored)


def _stray_formula(desk: Desk, edit: Edit) -> None:
    """A formula to the right of a table's row."""
    place = place_of(edit.place)
    table = desk.table(place.entry.rpartition(".")[0])
    cell = Cell(table.sheet, table.rows[place.row], max(table.columns.values()) + 2)
    desk.package.sheet(cell.sheet).set(cell.row, cell.column, None, str(edit.value), 1.0)


def _hide_row(desk: Desk, edit: Edit) -> None:
    cell = desk.cell(place_of(edit.place))
    attributes, cells = desk.package.sheet(cell.sheet).rows[cell.row]
    desk.package.sheet(cell.sheet).rows[cell.row] = (f'{attributes} hidden="1"', cells)


def _column(desk: Desk, edit: Edit) -> None:
    """A cell's column hidden or shown."""
    cell = desk.cell(place_of(edit.place))
    part, hidden = desk.package.sheet(cell.sheet), ' hidden="1"' if edit.value == "hide" else ""

    def parted(found: re.Match[str]) -> str:
        first, last, said = int(found[1]), int(found[2]), found[3].replace(' hidden="1"', "")
        if not first <= cell.column <= last:
            return found[0]
        runs = (
            (first, cell.column - 1, found[3]),
            (cell.column, cell.column, said + hidden),
            (cell.column + 1, last, found[3]),
        )
        return "".join(f'<col min="{start}" max="{end}"{more}/>' for start, end, more in runs if start <= end)

    part.head = re.sub(r'<col min="(\d+)" max="(\d+)"([^/]*)/>', parted, part.head)


def _paper_words(desk: Desk, edit: Edit) -> None:
    """Words in a sheet's header or footer replaced: from -> to."""
    for old, new in dict(edit.value).items():
        if not desk.package.change(desk.title(edit.place), re.escape(old), new):
            raise KeyError(f"no header says {old}")


def _text_box(desk: Desk, edit: Edit) -> None:
    """A text box over a cell, or to the right of a table's row."""
    place = place_of(edit.place)
    cell = desk.cell(place)
    if place.entry.endswith(f".{REF}"):
        cell = cell._replace(column=max(desk.table(place.entry.rpartition(".")[0]).columns.values()) + 3)
    dressing.text_box(desk.package, cell, str(edit.value))


def _on_cell(work: Callable[[Package, Cell, Any], None]) -> Callable[[Desk, Edit], None]:
    def action(desk: Desk, edit: Edit) -> None:
        work(desk.package, desk.cell(place_of(edit.place)), edit.value)

    return action


ON_THE_SHEET: dict[str, Action] = {
    "heading": _heading, "label": _label, "forged": _forged,
    "stray-formula": _stray_formula, "hide-row": _hide_row, "column": _column, "paper-words": _paper_words, "text-box": _text_box,
    "look": _on_cell(dressing.dress), "link": _on_cell(dressing.link), "message": _on_cell(dressing.message),
    "mark": _on_cell(lambda package, cell, value: dressing.mark(package, cell, value["formula"], value)),
    "mirror": _on_cell(lambda package, cell, _: dressing.mirror(package, cell)),
    "move-name": lambda desk, edit: desk.package.move_name(name_of(edit.place), edit.value),
    "drop-record": lambda desk, _: desk.package.drop_sheet(RECORD_SHEET),
}  # fmt: skip
AFTERWARDS = frozenset(ON_THE_SHEET) - {"heading", "label"}
"""Done to the finished file: calculating would undo them."""
