"""Private members of libraries that a door touches: they are still there, and do what they did."""

import inspect
import zipfile

import openpyxl
import pytest
import xlsxwriter
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.declare.formula import SAFE_FUNCTIONS
from sheetgen.workbook.write.recording import RecordingSheet


def test_the_libraries_still_have_the_private_members_that_their_doors_touch():
    book = openpyxl.Workbook()
    book.active["B2"] = 1
    known = {"_cells": {(2, 2): book.active["B2"]}}
    for name, value in known.items():
        assert getattr(book.active, name, None) == value, (
            f"openpyxl {openpyxl.__version__} no longer keeps a worksheet's {name} as it did; "
            "mend workbook/read/loading.py, which reads it, and this test"
        )
    assert [*inspect.signature(xlsxwriter.worksheet.Worksheet._write_formula).parameters] == [
        "self", "row", "col", "formula", "cell_format", "value",
    ], "xlsxwriter writes formulas otherwise; mend RecordingSheet in workbook/write/recording.py, which overrides it"  # fmt: skip
    assert [*inspect.signature(xlsxwriter.worksheet.Worksheet._prepare_formula).parameters] == [
        "self", "formula", "expand_future_functions",
    ], "xlsxwriter prepares formulas otherwise; mend RecordingSheet in workbook/write/recording.py, which overrides it"  # fmt: skip


CELLS = st.integers(0, 1 << 20) | st.sampled_from([-1, (1 << 20) - 1, 16383, 16384])
SAFE = st.sampled_from(sorted(SAFE_FUNCTIONS))


@given(CELLS, CELLS, SAFE, st.booleans(), st.text(max_size=5) | st.floats(allow_nan=False) | st.none())
def test_a_formula_of_safe_functions_is_kept_as_the_library_would(row, column, function, signed, value):
    ours, theirs = RecordingSheet(), xlsxwriter.worksheet.Worksheet()
    formula = f"{'=' * signed}{function}(B1:B2)&IF(A1<2,Other!C3,1)"
    codes = [sheet.write_formula(row, column, formula, None, value) for sheet in (ours, theirs)]
    assert codes[0] == codes[1]
    assert ours.table == theirs.table, "xlsxwriter keeps formulas otherwise: mend RecordingSheet"
    sides = ("dim_rowmin", "dim_rowmax", "dim_colmin", "dim_colmax")
    assert [getattr(ours, side) for side in sides] == [getattr(theirs, side) for side in sides]


def test_a_formula_goes_through_the_override_and_comes_out_as_it_was(tmp_path):
    book = xlsxwriter.Workbook(tmp_path / "a.xlsx")
    sheet = book.add_worksheet("A", RecordingSheet)
    sheet.write_formula(0, 0, "=SUM(B1:B2)&_xlfn.NOT_TOUCHED(SORT(1))", None, 3)
    book.close()
    xml = zipfile.ZipFile(tmp_path / "a.xlsx").read("xl/worksheets/sheet1.xml").decode()
    assert "<f>SUM(B1:B2)&amp;_xlfn.NOT_TOUCHED(SORT(1))</f>" in xml, (
        "xlsxwriter no longer asks _write_formula: a build is a quarter slower; see RecordingSheet in workbook/write/recording.py"
    )


def test_formulas_of_conditions_and_choices_are_not_searched_either(tmp_path):
    called = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(
            RecordingSheet, "_prepare_formula", lambda _self, one, *_: called.append(one) or one.removeprefix("=")
        )
        book = xlsxwriter.Workbook(tmp_path / "a.xlsx")
        sheet = book.add_worksheet("A", RecordingSheet)
        sheet.data_validation(0, 0, 0, 0, {"validate": "list", "source": "=$B$1:$B$3"})
        sheet.conditional_format(0, 0, 0, 0, {"type": "formula", "criteria": "=A1>2", "format": book.add_format()})
        book.close()
    assert {one.removeprefix("=") for one in called} == {"$B$1:$B$3", "A1>2"}, (
        "xlsxwriter no longer asks _prepare_formula: see RecordingSheet in workbook/write/recording.py"
    )


@given(st.text() | st.integers() | st.none() | st.floats(), st.text('&<>"\n aA1', max_size=8))
def test_attributes_are_escaped_as_the_library_would(attribute, signs):
    ours, theirs = RecordingSheet(), xlsxwriter.worksheet.Worksheet()
    for one in (attribute, signs):
        given_back, wanted = ours._escape_attributes(one), theirs._escape_attributes(one)
        assert given_back is wanted or given_back == wanted, "mend RecordingSheet in workbook/write/recording.py"


def test_attributes_go_through_the_override(tmp_path):
    called = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(RecordingSheet, "_escape_attributes", lambda _self, one: called.append(one) or one)
        book = xlsxwriter.Workbook(tmp_path / "a.xlsx")
        book.add_worksheet("A", RecordingSheet).write_number(2, 1, 5)
        book.close()
    assert "B3" in called, "xlsxwriter escapes a cell's attributes otherwise: mend RecordingSheet"
