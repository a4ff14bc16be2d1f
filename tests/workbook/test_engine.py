"""The calculation engine's door: typed values and formulas in, every computed value out."""

import datetime

import openpyxl
import pytest

from sheetgen.declare.entry import Place, computed, designer
from sheetgen.declare.kinds import Picture, number, text
from sheetgen.declare.parts import Book, Form, Sheet
from sheetgen.workbook.model.engine import cell_value, recalculate
from sheetgen.workbook.model.geometry import Cell

from .small import built

HERE = Cell("Sums", 1, 1)


def value_of(formula: str, **cells: object) -> object:
    constants = [(Cell("Sums", int(address[1:]), ord(address[0]) - 64), value) for address, value in cells.items()]
    return recalculate(["Sums", "It's rates"], constants, [(Place("x"), Cell("Sums", 50, 10), formula)])[Place("x")]


@pytest.mark.parametrize(
    ("formula", "value"),
    [
        ('=MATCH("x",A1:A3,0)', "#N/A"),
        ("=1/0", "#DIV/0!"),
        ('="a"*2', "#VALUE!"),
        ("=SQRT(0-1)", "#NUM!"),
        ("=A1+B2*2", 7),
        ('=A1&""', "1"),
        ('=A9&""', ""),
        ("=A1=1", 1),
        ("=A1=2", 0),
        ("=SUM(A1:B9)", 4),
    ],
)
def test_an_error_comes_back_as_its_text_and_a_truth_as_a_number(formula, value):
    # formualizer gives an error as a mapping: written as it is, it makes a file that nothing opens
    assert value_of(formula, A1=1, B2=3) == value


def test_a_file_whose_formula_shows_an_error_can_be_opened(tmp_path):
    sheet = Sheet("sums", "Sums", (Form("", (
        designer("x", "X", number()), designer("y", "Y", text()), computed("ratio", "Ratio", number(), "x/0"),
    )),))  # fmt: skip
    path = built({Place("sums.x"): 3}, tmp_path / "a.xlsx", Book((sheet,), axes={}))
    shown = [cell.value for row in openpyxl.load_workbook(path, data_only=True)["Sums"].iter_rows() for cell in row]
    assert "#DIV/0!" in shown


@pytest.mark.parametrize("words", ["=1+1", "TRUE", "2026-01-01", "5", "#N/A", "'x", "+3", "@a"])
def test_text_stays_text_whatever_it_looks_like(words):
    assert value_of("=IF(ISTEXT(A1),A1,0)", A1=words) == words


def test_dates_and_pictures_as_cells_hold_them():
    assert cell_value(datetime.date(2026, 1, 1)) == 46023  # days since 1899-12-30
    assert cell_value(datetime.datetime(2026, 1, 1, 18, 30)) == 46023
    assert value_of("=A1+1", A1=datetime.date(2026, 1, 1)) == 46024
    assert cell_value(datetime.time(18, 30)) == 18.5 / 24
    assert cell_value(datetime.timedelta(2, 6 * 3600)) == 2.25
    assert value_of('=IF(A1="","none",A1)', A1=Picture(b"x")) == "picture"


def test_blanks_are_blank():
    assert value_of("=COUNTA(A1:A3)", A1=None, A2="", A3="x") == 1


def test_a_chain_over_two_sheets_is_calculated_in_its_own_order():
    rates = "It's rates"
    formulas = [
        (Place("a"), Cell("Sums", 1, 2), "='It''s rates'!B1+1"),
        (Place("b"), Cell(rates, 1, 2), "=Sums!A1*10"),
        (Place("c"), Cell("Sums", 2, 2), "=B1+1"),
        (Place("d"), Cell("Sums", 3, 2), "=B2+1"),
    ]
    assert recalculate(["Sums", rates], [(HERE, 4)], formulas) == {
        Place("a"): 41, Place("b"): 40, Place("c"): 42, Place("d"): 43,
    }  # fmt: skip


def test_a_formula_that_blanks_gives_an_empty_text():
    assert value_of('=IF(A1="","",A1)') == ""
