"""Binary workbooks whose cells stand in short records are read whole.

Source of the records: [MS-XLSB] 2.4 (BrtShortBlank to BrtShortIsst). `short_records.xlsb` was written by a widely used
JavaScript library for spreadsheets (SheetJS 0.18), which writes every cell after the first of a row so; its figures are invented.
"""

from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from sheetgen.workbook.read.binary import load_binary
from sheetgen.workbook.read.short_records import lengthened

FILE = Path(__file__).parents[1] / "data" / "short_records.xlsb"


def test_every_cell_is_read_where_it_stands() -> None:
    cells = {place: held.value for place, held in load_binary(FILE).sheets["Fit"].cells.items()}
    assert cells == {
        (1, 1): "Point", (1, 2): "Base", (1, 4): True, (2, 1): "Chest, ½", (2, 2): 57.5, (2, 3): -3, (2, 4): 1.25,
        (4, 1): "x", (4, 4): 12345678901, (5, 3): "Größe", (5, 4): False,
    }  # fmt: skip


@given(st.binary(max_size=400))
def test_whatever_the_bytes_are_nothing_breaks_and_once_is_enough(data: bytes) -> None:
    made = lengthened(data)
    assert lengthened(made) == made


def test_a_sheet_of_long_records_is_left_as_it_is() -> None:
    row, cell = bytes([0, 4, 1, 0, 0, 0]), bytes([1, 8, 2, 0, 0, 0, 0, 0, 0, 0])
    assert lengthened(row + cell) == row + cell
    short = bytes([12, 4, 9, 9, 9, 9])
    assert lengthened(row + cell + short) == row + cell + bytes([1, 8, 3, 0, 0, 0, 9, 9, 9, 9])
