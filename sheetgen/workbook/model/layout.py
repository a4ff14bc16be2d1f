"""Layout: where each part of each sheet will stand, how wide the columns and how high the rows are.

A sheet's grid is that of its widest table; forms lie on it in label and value blocks, so that nothing is scaled
by hand. The planned geometry comes out of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from sheetgen.declare.entry import Entry, Place
from sheetgen.declare.kinds import Value
from sheetgen.declare.parts import Chart, Form, Ledger, Line, Part, Pictures, Section, Sheet, Table, Words
from sheetgen.workbook.model.gaps import set_heights_between
from sheetgen.workbook.model.geometry import Cell, Geometry, TablePlace
from sheetgen.workbook.model.grid import blocks, columns_of, frames, grid_of, ledger_columns
from sheetgen.workbook.model.heights import CELL_EDGES, INDENT_WIDTH, MOST_HEIGHT, WIDE, field_height, text_height
from sheetgen.workbook.model.off_paper import leave_empty_frames, leave_empty_tables
from sheetgen.workbook.model.page import (
    TOP_ROWS,
    Page,
    PlacedCharts,
    PlacedField,
    PlacedFields,
    PlacedLedger,
    PlacedTable,
    PlacedWords,
    Span,
)
from sheetgen.workbook.model.values import Ready, Shape, Values, row_refs, with_words

LARGE_PICTURE = 250.0
ROW_HEIGHT, SPARE_HEIGHT, HEADING_HEIGHT = 15.0, 12.75, 20.0
"""Points of a row of one line, of one that waits to be filled, and of headings of one line."""


def plan(ready: Ready, values: Values) -> tuple[list[Page], Geometry]:
    """Place all sheets, and say where everything stands."""
    rows = row_refs(ready, values)
    paper = values.get(Place(ready.book.about.paper))
    geometry = Geometry()
    pages = []
    for sheet in ready.book.sheets:
        page = _Planner(sheet, rows, values, paper, ready.shape).page
        pages.append(page)
        _note(page, geometry)
    return pages, geometry


def _note(page: Page, geometry: Geometry) -> None:
    title, name = page.sheet.title, page.sheet.name
    geometry.titles[name] = title
    for part in page.parts:
        if isinstance(part, PlacedFields):
            for placed in part.fields:
                geometry.fields[f"{name}.{placed.entry.name}"] = Cell(title, placed.value.row, placed.value.first)
        elif isinstance(part, PlacedTable):
            geometry.tables[part.address] = TablePlace(
                title, part.first, part.last,
                {entry.name: column for entry, column in part.columns},
                {ref: part.first + index for index, ref in enumerate(part.refs)},
            )  # fmt: skip
        elif isinstance(part, PlacedLedger):
            for row, line in part.lines:
                for entry, (column, _) in zip(line.entries, part.columns[len(line.words) :], strict=False):
                    geometry.fields[f"{name}.{entry.name}"] = Cell(title, row, column)


def fit_to_shown(pages: Iterable[Page], values: Mapping[Place, Value]) -> None:
    """Rows as high as what is worked out in them, too: `values` are all that is typed and shown. No row moves."""
    for page in pages:
        leave_empty_tables(page, values)
        for part in page.parts if page.sheet.printed else ():
            for row, needed in _heights_shown(page, part, values):
                page.heights[row] = max(page.heights[row], needed)


def _heights_shown(page: Page, part: object, values: Mapping[Place, Value]) -> Iterator[tuple[int, float]]:
    if isinstance(part, PlacedFields) and isinstance(part.part, Form):
        for placed in part.fields:
            value = values.get(Place(f"{page.sheet.name}.{placed.entry.name}"))
            yield placed.value.row, field_height(page, placed, value)
    elif isinstance(part, PlacedTable):
        for entry, column in part.columns:
            if entry.who != "computed" or entry.kind.name != "text":
                continue
            for row, ref in enumerate(part.refs, part.first):
                text = values.get(Place(f"{part.address}.{entry.name}", ref))
                if isinstance(text, str) and text:
                    yield row, text_height(text, page.widths[column - 1] - INDENT_WIDTH) + CELL_EDGES


class _Planner:
    """Goes down one sheet and gives each part its rows."""

    def __init__(
        self, sheet: Sheet, rows: Mapping[str, list[str]], values: Values, paper: object, shape: Shape
    ) -> None:  # fmt: skip
        self.rows, self.values, self.shape = rows, values, shape
        self.page = grid_of(sheet, paper)
        self.row = TOP_ROWS + 2
        for part in sheet.parts:
            self._place(part)
        self.page.last_row = self.row
        leave_empty_frames(self.page, values)
        set_heights_between(self.page)

    def _place(self, part: Part) -> None:
        if isinstance(part, Table | Form | Ledger | Pictures) and not part.printed and not self.page.printed_rows:
            self.page.printed_rows = self.row - 2
        if isinstance(part, Table | Form | Ledger) and part.new_page:
            self.page.row_breaks.append(self.row)
        if isinstance(part, Table):
            self._table(part)
        elif isinstance(part, Form):
            self._form(part)
        elif isinstance(part, Pictures):
            self._pictures(part)
        elif isinstance(part, Chart):
            self._chart(part)
        elif isinstance(part, Ledger):
            self._ledger(part)
        elif isinstance(part, Words):
            self.page.parts.append(PlacedWords(part, self.row))
            for offset, line in enumerate(part.lines, 1):
                self.page.heights[self.row + offset] = text_height(line, self.page.width(1, self.page.first_page))
            self.row += len(part.lines) + 2

    def _table(self, table: Table) -> None:
        address = f"{self.page.sheet.name}.{table.name}"
        refs = self.rows[address]
        columns: list[tuple[Entry, int]] = []
        spans: list[tuple[str, int, int]] = []
        for column, at in columns_of(table, self.page.open_columns or len(self.page.widths)):
            inner = column.columns if isinstance(column, Section) else (column,)
            if isinstance(column, Section):
                spans.append((column.title, at, at + len(inner) - 1))
            columns.extend((entry, at + index) for index, entry in enumerate(inner))
        sections = self.row + (2 if table.note else 1)
        headings = sections + 2
        placed = PlacedTable(
            table,
            address,
            self.row,
            sections,
            headings,
            headings + 1,
            headings + 1 + len(refs),
            columns,
            spans,
            refs,
        )
        self.page.parts.append(placed)
        self.page.heights[headings] = max(
            HEADING_HEIGHT,
            *(
                text_height(with_words(entry.heading, self.shape), self.page.widths[at - 1] - 0.6, bold=True)
                for entry, at in columns
            ),
        )
        for index, ref in enumerate(refs):
            self.page.heights[placed.first + index] = self._row_height(table, address, columns, ref)
        self.page.heights[placed.last] = 14
        self.row = placed.last + 2

    def _row_height(self, table: Table, address: str, columns: list[tuple[Entry, int]], ref: str) -> float:
        heights = [SPARE_HEIGHT]
        for entry, column in columns:
            value = self.values.get(Place(f"{address}.{entry.name}", ref))
            if value not in (None, ""):
                heights.append(ROW_HEIGHT)
            if isinstance(value, str) and entry.kind.name != "color":  # a swatch stands on one line, without an indent
                heights.append(text_height(value, self.page.widths[column - 1] - INDENT_WIDTH) + CELL_EDGES)
            elif value is not None and entry.kind.name == "picture":
                heights.append(table.row_height or 60)
        return max(heights)

    def _form(self, form: Form) -> None:
        title = self.row
        self.row += 2 if form.note else 1
        fields: list[PlacedField] = []
        pairs = blocks(self.page)
        slot, tall = 0, 0.0
        for entry in form.entries:
            wide = entry.kind.name == "text" and entry.kind.width >= WIDE
            if wide and slot:
                self.row, slot, tall = self.row + 1, 0, 0.0
            label, cells = pairs[slot]
            last = self.page.first_page if wide else cells[1]
            placed = PlacedField(entry, Span(self.row, *label), Span(self.row, cells[0], last))
            fields.append(placed)
            value = self.values.get(Place(f"{self.page.sheet.name}.{entry.name}"))
            tall = max(tall, field_height(self.page, placed, value))
            self.page.heights[self.row] = tall
            slot += 1
            if wide or slot == len(pairs):
                self.row, slot, tall = self.row + 1, 0, 0.0
        self.row += 1 if slot == 0 else 2
        self.page.parts.append(PlacedFields(form, title, fields))

    def _pictures(self, part: Pictures) -> None:
        title = self.row
        if self.page.parts and part.height >= LARGE_PICTURE:
            self.page.row_breaks.append(title)
        self.row += 2 if part.note else 1
        fields: list[PlacedField] = []
        for start in range(0, len(part.entries), part.across):
            if start and part.height >= LARGE_PICTURE:
                self.page.row_breaks.append(self.row)
            across = frames(self.page, part.across)
            for entry, (first, last) in zip(part.entries[start : start + part.across], across, strict=False):
                fields.append(PlacedField(entry, Span(self.row, first, last), Span(self.row + 1, first, last)))
            has_any = any(
                self.values.get(Place(f"{self.page.sheet.name}.{entry.name}")) is not None
                for entry in part.entries[start : start + part.across]
            )
            asked = any(entry.who == "vendor" for entry in part.entries)
            # Excel draws no row higher than 409 points; an empty frame stays small, but where a photo is to come.
            self.page.heights[self.row + 1] = min(part.height, MOST_HEIGHT) if has_any else 110 if asked else 40
            self.row += 2
        self.row += 1
        self.page.parts.append(PlacedFields(part, title, fields))

    def _chart(self, part: Chart) -> None:
        spans = frames(self.page, 2) if part.half else [(1, self.page.first_page)]
        beside = self.page.parts[-1] if self.page.parts else None
        if part.half and len(spans) > 1 and isinstance(beside, PlacedCharts) and len(beside.frames) == 1:
            before, span = beside.frames[0]
            if before.half:
                beside.frames.append((part, Span(span.row, *spans[1])))
                self.page.heights[span.row] = min(max(before.height, part.height), MOST_HEIGHT)
                return
        if beside is not None and part.height >= LARGE_PICTURE:
            self.page.row_breaks.append(self.row)
        self.page.parts.append(PlacedCharts([(part, Span(self.row, *spans[0]))]))
        self.page.heights[self.row] = min(part.height, MOST_HEIGHT)
        self.row += 2

    def _value_heights(self, line: Line, columns: list[tuple[int, int]]) -> Iterator[float]:
        for entry, span in zip(line.entries, columns, strict=False):
            value = self.values.get(Place(f"{self.page.sheet.name}.{entry.name}"))
            if isinstance(value, str):
                yield text_height(value, self.page.width(*span) - INDENT_WIDTH) + CELL_EDGES

    def _ledger(self, part: Ledger) -> None:
        headings = self.row + (2 if part.note else 1)
        columns: list[tuple[int, int]] = []
        at = 1
        for column in ledger_columns(self.page.sheet, part):
            columns.append((at, at + len(column) - 1))
            at += len(column)
        lines = [(headings + 1 + index, line) for index, line in enumerate(part.lines)]
        self.page.parts.append(PlacedLedger(part, self.row, headings, lines, columns))
        self.page.heights[headings] = max(
            ROW_HEIGHT,
            *(
                text_height(heading, self.page.width(*span) - 1) + CELL_EDGES
                for heading, span in zip(part.headings, columns, strict=True)
            ),
        )
        for row, line in lines:
            heights = (
                text_height(word, self.page.width(*span)) + CELL_EDGES
                for word, span in zip(line.words, columns, strict=False)
            )
            words = any(
                entry.kind.name == "text" and entry.kind.width >= 24 and entry.formula not in {'""', ""}
                for entry in line.entries
            )
            values = self._value_heights(line, columns[len(line.words) :])
            self.page.heights[row] = max([30.0 if words else ROW_HEIGHT, *heights, *values])
        self.row = headings + len(lines) + 2
