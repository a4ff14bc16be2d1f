"""Inches: no cell shows less than it holds without a sign (common practice: a tolerance of 1/16 is none of 0)."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import formualizer
import openpyxl
import pytest
from openpyxl.utils import coordinate_to_tuple

from sheetgen import api
from sheetgen.api.making import from_values
from sheetgen.declare.entry import Place
from sheetgen.sheets import BOOK
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned
from tests.kept import kept
from tests.loop import SAMPLES

TYPED, WORKED_OUT = Place("measurements.points.plus", "P1"), Place("measurements.points.current", "P1")
EIGHTHS, SIXTEENTHS = "# ?/8", "# ??/16"


def _make(fractions: str, folder: Path) -> None:
    values = {**api.build(SAMPLES / "sweatshirt" / "brief.toml").values, Place("style.fractions"): fractions}
    (folder / "a.xlsx").write_bytes(from_values(values, (), ()).data)


def _rules(sheet: Any, row: int, column: int) -> Iterator[Any]:
    """The conditions of a cell that give a number format, the first to hold first, with the cell that they are written for."""
    found = [
        (rule.priority, rule, sheet.cell(*coordinate_to_tuple(str(area.sqref).split(" ")[0].split(":")[0])))
        for area in sheet.conditional_formatting
        for rule in area.rules
        if sheet.cell(row, column).coordinate in area and rule.dxf is not None and rule.dxf.numFmt is not None
    ]
    for _, rule, first in sorted(found, key=lambda one: one[0]):
        yield rule.dxf.numFmt.formatCode, rule.formula[0], first.coordinate


@cache
def opened(fractions: str) -> tuple[Returned, Any]:
    """A style that shows such fractions, as the project reads it and as openpyxl does."""
    path = kept(f"inches-{fractions}", lambda into: _make(fractions, into)) / "a.xlsx"
    return read(BOOK, path), openpyxl.load_workbook(path)


def format_of(fractions: str, place: Place, value: float) -> str:
    """The number format by which a cell shows a value, its conditions decided by the engine."""
    got, book = opened(fractions)
    cell = got.where.at(place)
    assert cell is not None
    sheet = book[cell.sheet]
    for form, formula, first in _rules(sheet, cell.row, cell.column):
        engine: Any = formualizer.Workbook()
        engine.add_sheet("S")
        row, column = coordinate_to_tuple(first)
        engine.set_value("S", row, column, value)
        engine.set_formula("S", row + 1, column, f"={formula}")
        engine.evaluate_all()
        if engine.get_value("S", row + 1, column) in (True, 1):
            return str(form)
    return str(sheet.cell(cell.row, cell.column).number_format)


@pytest.mark.parametrize(
    ("fractions", "value", "typed", "worked_out"),
    [
        ("eighths", 1 / 16, SIXTEENTHS, SIXTEENTHS),
        ("eighths", 3 / 16, SIXTEENTHS, SIXTEENTHS),
        ("eighths", 5 / 64, "# ??/64", "# ??/64"),
        ("eighths", 22 + 3 / 8, EIGHTHS, EIGHTHS),
        ("eighths", 22.5, "# ?/2", "# ?/2"),
        ("eighths", 0.3, f'"≈"{EIGHTHS}', "# ?/4"),
        ("eighths", 0, "0", "0"),
        ("sixteenths", 1 / 32, "# ??/32", "# ??/32"),
        ("sixteenths", 3 / 16, SIXTEENTHS, SIXTEENTHS),
        ("sixteenths", 57.5 / 2.54, f'"≈"{SIXTEENTHS}', "# ?/8"),
        ("sixteenths", -0.25, "# ?/4", "# ?/4"),
    ],
)
def test_what_is_held_is_shown_or_marked(fractions: str, value: float, typed: str, worked_out: str) -> None:
    assert format_of(fractions, TYPED, value) == typed
    assert format_of(fractions, WORKED_OUT, value) == worked_out
