"""A sheet that remembers all that is written on it: what a receipt keeps, so that a return can be held against it."""

# mypy: disable-error-code="override"
# The library types these methods by a protocol of its own; we call them by row and column alone.
from __future__ import annotations

import datetime
import io
from collections.abc import Callable
from hashlib import sha256
from typing import Any

from xlsxwriter.format import Format
from xlsxwriter.worksheet import CellFormulaTuple, Worksheet

from sheetgen.declare.a1 import letters
from sheetgen.workbook.model.engine import day_number
from sheetgen.workbook.model.written import (
    Mark,
    Message,
    Shown,
    Style,
    WrittenCell,
    WrittenDrawing,
    WrittenSheet,
)

StyleOf = Callable[[Format | None], Style]


class RecordingSheet(Worksheet):
    """Writes, and keeps what it wrote; takes formulas as they are.

    xlsxwriter searches each formula for functions that spill and for thirty that need a prefix, a quarter of a build; none of
    them is on the list of safe functions. It searches each attribute of each cell for five signs, too.
    """

    def __init__(self) -> None:
        super().__init__()
        self._kept: dict[tuple[int, int], tuple[Shown, bool, Format | None]] = {}
        self._kept_drawings: list[WrittenDrawing] = []
        self._kept_messages: list[Message] = []
        self._kept_marks: list[tuple[str, str, Format]] = []
        self._kept_links: list[tuple[tuple[int, int], str]] = []
        self._kept_header = self._kept_footer = ""
        self._kept_away: set[int] = set()

    def _prepare_formula(self, formula: str, expand_future_functions: bool = False) -> str:  # noqa: ARG002
        return formula.removeprefix("=")

    def _write_formula(
        self, row: int, col: int, formula: str, cell_format: Format | None = None, value: Any = 0
    ) -> Any:
        if self._check_dimensions(row, col):
            return -1
        self.table[row][col] = CellFormulaTuple(self._prepare_formula(formula), cell_format, value)
        return 0

    def _escape_attributes(self, attribute: Any) -> Any:
        """Most of what comes here are addresses and numbers of formats: there is nothing in them to be escaped."""
        if not isinstance(attribute, str) or attribute.isalnum():
            return attribute
        return super()._escape_attributes(attribute)  # type: ignore[no-untyped-call]

    def written(self, style_of: StyleOf, numbered: dict[Style, int]) -> WrittenSheet:
        """All that was written; `style_of` says how a format looks, `numbered` gives each style of a cell its number."""
        known: dict[int, int] = {}

        def number(form: Format | None) -> int:
            if id(form) not in known:
                known[id(form)] = numbered.setdefault(style_of(form), len(numbered))
            return known[id(form)]

        return WrittenSheet(
            str(self.name),
            {at: WrittenCell(shown, formula, number(form)) for at, (shown, formula, form) in self._kept.items()},
            tuple(self._kept_drawings),
            self._kept_header,
            self._kept_footer,
            tuple(self._kept_messages),
            tuple(
                Mark(areas, "expression", (formula.removeprefix("="),), style_of(form))
                for areas, formula, form in self._kept_marks
            ),
            tuple(self._kept_links),
            bool(self.hidden),
            frozenset(self._kept_away),
        )

    def set_column(
        self, first_col: int, last_col: int, width: float | None = None, cell_format: Format | None = None,
        options: dict[str, Any] | None = None,
    ) -> Any:  # fmt: skip
        """Set it, and keep which are hidden."""
        if (options or {}).get("hidden"):
            self._kept_away |= set(range(first_col + 1, last_col + 2))
        return super().set_column(first_col, last_col, width, cell_format, options)

    def write_string(self, row: int, col: int, string: str, cell_format: Format | None = None) -> Any:
        """Write it, and keep it."""
        self._kept[row + 1, col + 1] = (string, False, cell_format)
        return super().write_string(row, col, string, cell_format)

    def write_number(self, row: int, col: int, number: float, cell_format: Format | None = None) -> Any:
        """Write it, and keep it."""
        self._kept[row + 1, col + 1] = (number, False, cell_format)
        return super().write_number(row, col, number, cell_format)

    def write_datetime(self, row: int, col: int, date: Any, cell_format: Format | None = None) -> Any:
        """Write it, and keep it."""
        shown = day_number(date) if isinstance(date, datetime.date) else str(date)
        self._kept[row + 1, col + 1] = (shown, False, cell_format)
        return super().write_datetime(row, col, date, cell_format)

    def write_blank(self, row: int, col: int, blank: Any, cell_format: Format | None = None) -> Any:
        """Write it, and keep it."""
        self._kept[row + 1, col + 1] = (None, False, cell_format)
        return super().write_blank(row, col, blank, cell_format)

    def write_formula(self, row: int, col: int, formula: str, cell_format: Format | None = None, value: Any = 0) -> Any:
        """Write it, and keep it."""
        self._kept[row + 1, col + 1] = (value if value != "" else None, True, cell_format)
        return super().write_formula(row, col, formula, cell_format, value)

    def merge_range(
        self, first_row: int, first_col: int, last_row: int, last_col: int, data: Any, cell_format: Format | None = None
    ) -> Any:
        """Write it, and keep it."""
        code = super().merge_range(first_row, first_col, last_row, last_col, data, cell_format)
        self._kept[first_row + 1, first_col + 1] = (data if data != "" else None, False, cell_format)
        return code

    def write_url(
        self, row: int, col: int, url: str, cell_format: Format | None = None, string: str | None = None,
        tip: str | None = None,
    ) -> Any:  # fmt: skip
        """Write it, and keep it."""
        code = super().write_url(row, col, url, cell_format, string, tip)
        self._kept[row + 1, col + 1] = (string or url, False, cell_format)
        self._kept_links.append(((row + 1, col + 1), url.removeprefix("internal:")))
        return code

    def insert_image(self, row: int, col: int, source: Any, options: dict[str, Any] | None = None) -> Any:
        """Write it, and keep it."""
        data = (options or {}).get("image_data")
        digest = sha256(data.getvalue()).hexdigest() if isinstance(data, io.BytesIO) else ""
        self._kept_drawings.append(WrittenDrawing("picture", (row + 1, col + 1), digest))
        return super().insert_image(row, col, source, options)

    def insert_chart(self, row: int, col: int, chart: Any, options: dict[str, Any] | None = None) -> Any:
        """Write it, and keep it."""
        self._kept_drawings.append(WrittenDrawing("chart", (row + 1, col + 1)))
        return super().insert_chart(row, col, chart, options)

    def data_validation(
        self, first_row: int, first_col: int, last_row: int, last_col: int, options: dict[str, Any] | None = None
    ) -> Any:
        """Write it, and keep it."""
        code = super().data_validation(first_row, first_col, last_row, last_col, options)
        rule = options or {}
        source = rule.get("source", "")
        listed = f'"{",".join(source)}"' if isinstance(source, list) else str(source).removeprefix("=")
        self._kept_messages.append(
            Message(
                _area(first_row, first_col, last_row, last_col),
                str(rule.get("validate", "")),
                listed,
                str(rule.get("input_title", "")),
                str(rule.get("input_message", "")),
            )
        )
        return code

    def conditional_format(
        self, first_row: int, first_col: int, last_row: int, last_col: int, options: dict[str, Any] | None = None
    ) -> Any:
        """Write it, and keep it."""
        rule = dict(options or {})
        code = super().conditional_format(first_row, first_col, last_row, last_col, options)
        areas = str(rule.get("multi_range") or _area(first_row, first_col, last_row, last_col))
        self._kept_marks.append((areas, str(rule["criteria"]), rule["format"]))
        return code

    def set_header(self, header: str = "", options: dict[str, Any] | None = None, margin: float | None = None) -> Any:
        """Write it, and keep it."""
        self._kept_header = header
        return super().set_header(header, options, margin)

    def set_footer(self, footer: str = "", options: dict[str, Any] | None = None, margin: float | None = None) -> Any:
        """Write it, and keep it."""
        self._kept_footer = footer
        return super().set_footer(footer, options, margin)


def _area(first_row: int, first_col: int, last_row: int, last_col: int) -> str:
    return f"{letters(first_col + 1)}{first_row + 1}:{letters(last_col + 1)}{last_row + 1}"
