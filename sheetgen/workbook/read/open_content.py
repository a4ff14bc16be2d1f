"""The pass over an OpenDocument spreadsheet's content: sheets, rows and cells; what else stands there goes to `open_extras`."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from typing import Any

from sheetgen.declare.a1 import letters
from sheetgen.texts import say
from sheetgen.workbook.read.loaded import Held
from sheetgen.workbook.read.open_extras import Extras, Frame, OpenCell, OpenSheet
from sheetgen.workbook.read.open_formula import excel_formula
from sheetgen.workbook.read.open_styles import OpenStyles
from sheetgen.workbook.read.scanning import MOST_CELLS, MOST_COLUMN, MOST_GRID, MOST_ROW, far, too_many

_KINDS: dict[str, Any] = {
    "image": "picture", "text-box": "text", "object": "object", "object-ole": "object", "plugin": "object",
    "applet": "object", "floating-frame": "object",
}  # fmt: skip
_SHAPES = frozenset(
    {"custom-shape", "rect", "line", "circle", "ellipse", "polygon", "polyline", "path", "connector", "caption", "measure",
     "regular-polygon", "g", "control"}
)  # fmt: skip
_MOST_COPIES = 64
"""A cell or row of blanks is repeated to the end of the sheet; so many copies of a look are kept."""


class Content(Extras):
    """Keeps where in the content the parser is."""

    def __init__(self, styles: OpenStyles, parts: Mapping[str, bytes]) -> None:
        super().__init__(styles, parts)
        self.sheets: list[OpenSheet] = []
        self.repeated_row = self.cells = 0
        self.row_cells: list[tuple[int, int, Held, str]] = []
        self.row_hidden = False
        self.inside: list[str] = []

    def start(self, name: str, attributes: Mapping[str, str]) -> None:
        """An element begins."""
        local = {key.rpartition(":")[2]: value for key, value in attributes.items()}
        begin = _BEGIN.get(name)
        if begin is not None:
            begin(self, local)
        elif name in _SHAPES or name == "frame":
            self.frames.append(Frame("shape" if name in _SHAPES else "picture", local))
        elif name in _KINDS and self.frames:
            self._inner(name, local)
        elif name in {"annotation", "desc", "title"}:
            self.inside.append(name)
        elif name in {"p", "s", "tab", "line-break", "a"}:
            self._of_text(name, local)

    def _inner(self, name: str, local: Mapping[str, str]) -> None:
        frame = self.frames[-1]
        if name != "image" or not frame.target:
            frame.kind = _KINDS[name]
            frame.target = local.get("href", frame.target)

    def _of_text(self, name: str, local: Mapping[str, str]) -> None:
        if name == "p":
            if lines := self._lines():
                lines[0].append("")
        elif name == "s":
            self.text(" " * min(int(local.get("c", "1") or 1), 1000))
        elif name == "tab":
            self.text("\t")
        elif name == "line-break":
            self.text("\n")
        elif self.sheet is not None and self.cell is not None:
            self.sheet.links.append(((self.row, self.column), local.get("href", "").removeprefix("#")))

    def _lines(self) -> list[list[str]]:
        """Where text goes now: a comment, something drawn, a message, or the cell; nowhere for a picture's description."""
        if self.inside[-1:] in (["desc"], ["title"]):
            return []
        if self.inside[-1:] == ["annotation"] and self.cell is not None:
            return [self.cell.comment]
        if self.frames:
            return [self.frames[-1].words]
        if self.help:
            return [self.validation]
        return [self.cell.lines] if self.cell is not None else []

    def text(self, words: str) -> None:
        """Text of the element that is read."""
        for lines in self._lines():
            if lines:
                lines[-1] += words

    def end(self, name: str) -> None:
        """An element ends."""
        finish = _END.get(name)
        if finish is not None:
            finish(self)
        elif name in {"annotation", "desc", "title"} and self.inside:
            self.inside.pop()
        elif (name in _SHAPES or name == "frame") and self.frames:
            self.drawn(self.frames.pop())

    # Sheets, columns, rows

    def _table(self, local: Mapping[str, str]) -> None:
        look = self.styles.styles.get(("table", local.get("style-name", "")))
        header, footer = self.styles.headers.get(look.master if look else "", ("", ""))
        shown = (look.set.get("display", "true") if look else "true") != "false"
        self.sheet = OpenSheet(local.get("name", ""), shown, local.get("protected") == "true", header, footer)
        self.sheets.append(self.sheet)
        self.row = self.column = 0

    def _end_table(self) -> None:
        self.sheet = None

    def _table_column(self, local: Mapping[str, str]) -> None:
        if self.sheet is None:
            return
        repeated = _count(local.get("number-columns-repeated"))
        if local.get("visibility", "visible") != "visible":
            self.sheet.hidden_columns.update(range(self.column + 1, min(self.column + repeated, MOST_COLUMN) + 1))
        self.column += repeated

    def _table_row(self, local: Mapping[str, str]) -> None:
        self.repeated_row = _count(local.get("number-rows-repeated"))
        self.row += 1
        self.column = 0
        self.row_cells = []
        self.row_hidden = local.get("visibility", "visible") != "visible"

    def _end_row(self) -> None:
        sheet = self.sheet
        if sheet is None:
            return
        holds = any(held.value is not None for _, _, held, _ in self.row_cells)
        if holds and self.repeated_row > MOST_ROW:
            raise too_many()
        times = self.repeated_row if holds else min(self.repeated_row, _MOST_COPIES)
        for row in range(self.row, self.row + times):
            if row > MOST_ROW and holds:
                raise far(say("row {row}", row=row))
            if self.row_hidden:
                sheet.hidden_rows.add(row)
            for first, count, held, message in self.row_cells:
                for column in range(first, first + count):
                    self._keep(sheet, row, column, held)
                    if message:
                        sheet.messages.setdefault(message, []).append(f"{letters(column)}{row}")
        self.row += self.repeated_row - 1

    def _keep(self, sheet: OpenSheet, row: int, column: int, held: Held) -> None:
        self.cells += 1
        if self.cells > MOST_CELLS:
            raise too_many()
        sheet.cells[row, column] = held
        if held.value is not None:
            sheet.last_row, sheet.last_column = max(sheet.last_row, row), max(sheet.last_column, column)
            if sheet.last_row * sheet.last_column > MOST_GRID:
                raise far(f"{letters(column)}{row}")

    # Cells

    def _table_cell(self, local: Mapping[str, str]) -> None:
        self.cell = OpenCell(local)
        self.column += 1

    def _covered_cell(self, local: Mapping[str, str]) -> None:
        self.cell = OpenCell(local, covered=True)
        self.column += 1

    def _end_cell(self) -> None:
        cell, self.cell = self.cell, None
        if cell is None:
            return
        repeated = _count(cell.local.get("number-columns-repeated"))
        held, message = self._held(cell), cell.local.get("content-validation-name", "")
        across, down = (_count(cell.local.get(f"number-{side}-spanned")) for side in ("columns", "rows"))
        if self.sheet is not None and across * down > 1:
            if across * down > MOST_CELLS:
                raise too_many()
            self.sheet.merged.append((self.row, self.column, self.row + down - 1, self.column + across - 1))
        if held.value is not None and self.column > MOST_COLUMN:
            raise far(f"{letters(min(self.column, 16384))}{self.row}")
        plain = held.value is None and held.comment is None and not message and held.style == 0
        if not cell.covered and not plain:
            if held.value is not None and repeated > MOST_COLUMN:
                raise too_many()
            count = repeated if held.value is not None else min(repeated, _MOST_COPIES)
            self.row_cells.append((self.column, count, held, message))
        self.column += repeated - 1

    def _held(self, cell: OpenCell) -> Held:
        local = cell.local
        style = self.styles.number(local["style-name"]) if "style-name" in local else 0
        comment = "\n".join(cell.comment).strip() if cell.comment else None
        shown = _value(local, "\n".join(cell.lines))
        if "formula" not in local:
            return Held(shown, None, comment, _is_error(local), None, style)
        formula = excel_formula(local["formula"])
        return Held(formula, formula, comment, _is_error(local), shown, style)


_BEGIN: dict[str, Any] = {
    "table": Content._table, "table-column": Content._table_column, "table-row": Content._table_row,
    "table-cell": Content._table_cell, "covered-table-cell": Content._covered_cell, "named-range": Content.named_range,
    "content-validation": Content.begin_validation, "help-message": Content.begin_help,
    "conditional-format": Content.begin_condition, "condition": Content.condition,
}  # fmt: skip
_END: dict[str, Any] = {
    "table": Content._end_table, "table-row": Content._end_row, "table-cell": Content._end_cell,
    "covered-table-cell": Content._end_cell, "help-message": Content.end_help,
}  # fmt: skip


def _count(text: str | None) -> int:
    return min(int(text), 1 << 21) if text and text.isdigit() else 1


def _is_error(local: Mapping[str, str]) -> bool:
    return local.get("value-type") == "error"


def _value(local: Mapping[str, str], text: str) -> Any:
    """A cell's value or a formula's result, as openpyxl would give it."""
    kind = local.get("value-type", "")
    try:
        if kind in {"float", "percentage", "currency"}:
            number = float(local["value"])
            return int(number) if number == int(number) and abs(number) < 1e15 else number
        if kind == "date":
            return datetime.datetime.fromisoformat(local["date-value"].removesuffix("Z"))
        if kind == "boolean":
            return local["boolean-value"] == "true"
    except (KeyError, ValueError, OverflowError):
        return text or None
    if kind == "time":
        return local.get("time-value", text)
    return text or local.get("string-value") or None
