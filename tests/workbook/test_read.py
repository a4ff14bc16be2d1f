"""Reading: all that people typed is found again, by names first, by words where a name is gone."""

import datetime
import json
import zipfile
from collections.abc import Callable
from pathlib import Path

import openpyxl
import pytest
from openpyxl.utils import get_column_letter
from openpyxl.utils.cell import range_boundaries

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, choice, date, number, text
from sheetgen.errors import UserError
from sheetgen.workbook.model.geometry import Cell
from sheetgen.workbook.model.packing import FORM, RECORD_SHEET
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Lost, Returned
from sheetgen.workbook.read.taking import from_cell
from sheetgen.workbook.write.file import workbook_bytes

from .briefs import png
from .small import FILLED, SMALL, built, ready_for, round_trip, typed_by_people

GOODS = "Bought goods"


def changed(folder: Path, change: Callable[[openpyxl.Workbook], None], values=FILLED) -> Returned:
    """The working file of the values, changed with another program, and read."""
    path = built(values, folder / "a.xlsx")
    loaded = openpyxl.load_workbook(path)
    change(loaded)
    loaded.save(path)
    return read(SMALL, path)


def inserted(loaded: openpyxl.Workbook, title: str, *, row: int = 0, column: int = 0) -> None:
    """A row or a column put in, with the names moved along as a spreadsheet program does."""
    if row:
        loaded[title].insert_rows(row)
    else:
        loaded[title].insert_cols(column)
    for name in loaded.defined_names.values():
        sheet, _, area = name.attr_text.rpartition("!")
        if sheet.strip("'") != title:
            continue
        left, first, right, last = range_boundaries(area)
        if row:
            first, last = first + (first >= row), last + (last >= row)
        else:
            left, right = left + (left >= column), right + (right >= column)
        name.attr_text = f"{sheet}!${get_column_letter(left)}${first}:${get_column_letter(right)}${last}"


def test_all_that_was_typed_is_read_again(tmp_path):
    assert round_trip(FILLED, tmp_path / "a.xlsx") == FILLED


def test_pictures_are_read_again_byte_for_byte(tmp_path):
    red, wide, photo = Picture(png()), Picture(png((0, 90, 0), (300, 20))), Picture(png((9, 9, 90), (20, 300), "JPEG"))
    values = {
        **FILLED,
        Place("style.front"): red,
        Place("style.back"): photo,
        Place("goods.lines.photo", "M1"): red,
        Place("goods.lines.photo", "M2"): wide,
        Place("goods.lines.photo", "M3"): photo,
        Place("goods.lines.item", "M3"): "Third",
    }
    assert round_trip(values, tmp_path / "a.xlsx") == values


def said(got):
    """What the hidden record was given to say, beside the account of all that was written."""
    assert got.record["form"] == FORM and got.written is not None
    return {key: value for key, value in got.record.items() if key not in {"form", "written"}}


def test_the_place_of_everything_is_found_as_it_was_planned(tmp_path):
    got = read(SMALL, built(FILLED, tmp_path / "a.xlsx"))
    assert (got.lost, got.strays, got.added_sheets) == ([], [], [])
    assert (got.renamed, got.added_rows, got.doubled_rows) == ({}, {}, {})
    assert said(got) == {"kind": "working"}
    assert got.ready.book.audience == "designer"
    assert dict(got.ready.shape.axes) == {"size": ("S", "M")}
    assert got.shown[Place("goods.total")] == 6.6
    assert got.formulas[Place("own.wholesale")].startswith("=IF(")


def test_a_renamed_sheet_is_known_by_its_names(tmp_path):
    def rename(loaded):
        loaded[GOODS].title = "Stoffe & Zutaten"
        for name in loaded.defined_names.values():
            name.attr_text = name.attr_text.replace(f"'{GOODS}'!", "'Stoffe & Zutaten'!")

    got = changed(tmp_path, rename)
    assert got.renamed == {"goods": "Stoffe & Zutaten"}
    assert typed_by_people(got) == FILLED
    assert got.added_sheets == []


def test_sheets_in_another_order_and_one_more(tmp_path):
    def reorder(loaded):
        loaded.move_sheet(GOODS, -1)
        loaded.create_sheet("Our notes")["B2"] = "hello"

    got = changed(tmp_path, reorder)
    assert typed_by_people(got) == FILLED
    assert got.added_sheets == ["Our notes"]


@pytest.mark.parametrize(("row", "column"), [(1, 0), (9, 0), (0, 1), (0, 3)])
def test_rows_and_columns_put_in_move_nothing(tmp_path, row, column):
    got = changed(tmp_path, lambda loaded: inserted(loaded, GOODS, row=row, column=column))
    assert typed_by_people(got) == FILLED
    assert got.lost == []


def test_a_row_put_into_a_table_is_a_row_like_any_other(tmp_path):
    def put_in(loaded):
        first = read(SMALL, tmp_path / "a.xlsx").where.tables["goods.lines"].first
        inserted(loaded, GOODS, row=first + 1)
        loaded[GOODS].cell(first + 1, 2, "Interlining")

    got = changed(tmp_path, put_in)
    assert [place.row for place in got.added_rows] == ["M5"]
    assert typed_by_people(got) == {**FILLED, Place("goods.lines.item", "M5"): "Interlining"}


@pytest.mark.parametrize(
    ("name", "place"),
    [
        ("goods__lines__price", Place("goods.lines.price", "M1")),
        ("goods__lines__width_z1", Place("goods.lines.width_z1", "M1")),
        ("style__vendor", Place("style.vendor")),
        ("own__margin", Place("own.margin")),
    ],
)
def test_where_a_name_is_gone_the_words_are_looked_for(tmp_path, name, place):
    got = changed(tmp_path, lambda loaded: loaded.defined_names.pop(name))
    assert got.lost == []
    assert got.typed[place] == FILLED[place]
    assert typed_by_people(got) == FILLED


def test_where_the_refs_lost_their_name_rows_are_still_known(tmp_path):
    assert typed_by_people(changed(tmp_path, lambda loaded: loaded.defined_names.pop("goods__lines__ref"))) == FILLED


def test_a_column_whose_name_and_heading_are_gone_is_lost_and_nothing_else(tmp_path):
    def lose(loaded):
        loaded.defined_names.pop("goods__lines__net")
        for row in loaded[GOODS].iter_rows():
            for cell in row:
                if cell.value == "Net use":
                    cell.value = "Verbrauch"

    got = changed(tmp_path, lose)
    assert got.lost == [Lost("column", "goods.lines.net")]
    assert typed_by_people(got) == {place: value for place, value in FILLED.items() if place.entry != "goods.lines.net"}


def test_a_sheet_that_is_gone_is_lost_and_nothing_else(tmp_path):
    def lose(loaded):
        del loaded["Scale"]
        for name in list(loaded.defined_names):
            if name.startswith("scale__"):
                del loaded.defined_names[name]

    got = changed(tmp_path, lose)
    assert got.lost == [Lost("sheet", "scale")]
    assert typed_by_people(got) == FILLED


def test_what_stands_beside_a_table_is_reported(tmp_path):
    def scribble(loaded):
        where = read(SMALL, tmp_path / "a.xlsx").where.tables["goods.lines"]
        loaded[GOODS].cell(where.first, 30, "please call")

    got = changed(tmp_path, scribble)
    assert [(stray.cell.column, stray.value) for stray in got.strays] == [(30, "please call")]


@pytest.mark.parametrize("keep_names", [True, False])
def test_the_record_is_found_under_another_title_by_its_mark(tmp_path, keep_names):
    def rename(loaded):
        loaded[RECORD_SHEET].title = "Sheet9"
        if not keep_names:
            loaded.defined_names.clear()

    got = changed(tmp_path, rename)
    assert said(got) == {"kind": "working"}
    assert got.added_sheets == []


@pytest.mark.parametrize("text", ["{broken", "[1, 2]", "", "{" * 5000])
def test_a_broken_record_leaves_the_rest_readable(tmp_path, text):
    def spoil(loaded):
        for row in loaded[RECORD_SHEET].iter_rows(min_row=2):
            row[0].value = None
        loaded[RECORD_SHEET]["A2"] = text

    got = changed(tmp_path, spoil)
    assert got.record == {}
    assert typed_by_people(got) == FILLED


def test_a_file_without_record_and_names_is_not_ours(tmp_path):
    def strip(loaded):
        del loaded[RECORD_SHEET]
        loaded.defined_names.clear()

    with pytest.raises(UserError) as caught:
        changed(tmp_path, strip)
    path = tmp_path / "a.xlsx"
    assert (str(caught.value), caught.value.status) == (
        f"{path}: is no workbook made by sheetgen; nothing in it can be found.", 3,
    )  # fmt: skip


def test_a_long_record_of_any_words_comes_back_whole(tmp_path):
    record = {"words": ['\u00e9\U0001f9f5 _x0041_ =1 "q" \\ \r\n\t' * 400, " lead", {"a": None, "b": 1.5}]}
    path = tmp_path / "a.xlsx"
    path.write_bytes(workbook_bytes(ready_for(FILLED), FILLED, record))
    assert said(read(SMALL, path)) == json.loads(json.dumps(record))


def test_a_wrong_value_is_kept_as_it_stands(tmp_path):
    def spoil(loaded):
        got = read(SMALL, tmp_path / "a.xlsx").where
        for place, value in (
            (Place("goods.lines.price", "M1"), "4,50 EUR"),
            (Place("goods.lines.price", "M2"), True),
            (Place("goods.remark"), 12.5),
            (Place("goods.sent"), "next week"),
            (Place("goods.answers.says", "M1"), "two\r\nlines"),
        ):
            cell = got.at(place)
            loaded[cell.sheet].cell(cell.row, cell.column).value = value

    typed = changed(tmp_path, spoil).typed
    assert typed[Place("goods.lines.price", "M1")] == "4,50 EUR"
    assert typed[Place("goods.lines.price", "M2")] == "yes"
    assert typed[Place("goods.remark")] == 12.5
    assert typed[Place("goods.sent")] == "next week"
    assert typed[Place("goods.answers.says", "M1")] == "two\nlines"


@pytest.mark.parametrize(
    ("kind", "held", "value"),
    [
        (date(), datetime.datetime(2026, 5, 4, 10, 30), datetime.date(2026, 5, 4)),
        (date(), 46023, datetime.date(2026, 1, 1)),
        (date(), 46023.75, datetime.date(2026, 1, 1)),
        (date(), 2026, 2026),
        (date(), "4.5.2026", "4.5.2026"),
        (number(), datetime.datetime(2026, 1, 1), datetime.date(2026, 1, 1)),
        (text(), datetime.datetime(2026, 5, 4), datetime.date(2026, 5, 4)),
        (text(), datetime.time(10, 30), "10:30:00"),
        (choice("yes", "no"), False, "no"),
        (text(), "a_x000D_\nb_x000D_c", "a\nb\nc"),
        (number(), 1.25, 1.25),
    ],
)
def test_what_a_cell_holds_as_the_kinds_value(kind, held, value):
    taken = from_cell(kind, held)
    assert (taken, type(taken)) == (value, type(value))


def test_an_error_value_that_the_fast_reader_does_not_know(tmp_path):
    path = built(FILLED, tmp_path / "a.xlsx")
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    sheet = parts["xl/worksheets/sheet2.xml"]
    assert sheet.count(b"<v>6.6</v>") == 2
    sheet = sheet.replace(b"<v>6.6</v>", b"<v>#SPILL!</v>", 1).replace(b'"><f>SUM', b'" t="e"><f>SUM', 1)
    with zipfile.ZipFile(path, "w") as package:
        for name, content in {**parts, "xl/worksheets/sheet2.xml": sheet}.items():
            package.writestr(name, content)
    got = read(SMALL, path)
    assert got.shown[Place("goods.total")] == "#SPILL!"
    assert got.shown[Place("goods.lines.cost", "M1")] == 6.6
    assert typed_by_people(got) == FILLED


def test_a_vendors_copy_is_read_as_one(tmp_path):
    path = tmp_path / "a.xlsx"
    path.write_bytes(workbook_bytes(ready_for(FILLED, "vendor"), FILLED, {"issue_id": "AB-001 rev 2 quote 0"}))
    got = read(SMALL, path)
    assert got.ready.book.audience == "vendor"
    assert "own.margin" not in got.ready.book.entries
    assert (got.lost, got.strays) == ([], [])
    assert isinstance(got.where.at(Place("goods.remark")), Cell)
