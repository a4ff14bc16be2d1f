"""A file with charts does its work as before: it is read, edited, saved by another program, audited and built again."""

import zipfile
from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest
from openpyxl.chart import BarChart, Reference

from sheetgen.audit import RULES
from sheetgen.audit.run import audit
from sheetgen.declare.entry import Place
from sheetgen.declare.parts import Book, Chart
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import typed_in
from sheetgen.workbook.exchange.issue import issue
from sheetgen.workbook.read.file import read
from tests.referee.books import ISSUED, brief
from tests.referee.office import needs_office, recalculated

from .charted import CHARTED, TITLES, TYPED, drawn, made, texts
from .small import built, typed_by_people


def test_a_file_with_charts_is_read_without_a_stray_and_built_again_the_same(tmp_path):
    path = built(TYPED, tmp_path / "a.xlsx", CHARTED)
    got = read(CHARTED, path)
    assert (got.strays, got.lost, got.added_sheets) == ([], [], [])
    assert typed_by_people(got) == TYPED
    assert made(typed_by_people(got)) == path.read_bytes()


def test_a_file_without_values_has_its_charts_too(tmp_path):
    path = built({}, tmp_path / "a.xlsx", CHARTED)
    assert sorted(drawn(path.read_bytes())) == sorted(TITLES)
    assert typed_by_people(read(CHARTED, path)) == {}


def test_typing_keeps_the_charts(tmp_path):
    path = built(TYPED, tmp_path / "a.xlsx", CHARTED)
    typed_in(CHARTED, path, {Place("pricing.freight"): 1.62}, tmp_path / "b.xlsx")
    assert sorted(drawn((tmp_path / "b.xlsx").read_bytes())) == sorted(TITLES)
    assert read(CHARTED, tmp_path / "b.xlsx").shown[Place("pricing.margin")] == pytest.approx(20.89)


def test_a_chart_that_somebody_puts_in_takes_nothing_away(tmp_path):
    path = built(TYPED, tmp_path / "a.xlsx", CHARTED)
    loaded = openpyxl.load_workbook(path)
    chart = BarChart()
    chart.add_data(Reference(loaded["Pricing"], min_col=2, min_row=5, max_row=7))
    loaded["Pricing"].add_chart(chart, "C5")
    loaded.save(path)
    got = read(CHARTED, path)
    assert (got.strays, got.lost, typed_by_people(got)) == ([], [], TYPED)


@pytest.mark.libreoffice
def test_saved_in_another_program_all_is_there(tmp_path):
    needs_office()
    (saved,) = recalculated([built(TYPED, tmp_path / "a.xlsx", CHARTED)], tmp_path)
    got = read(CHARTED, saved)
    assert (got.strays, got.lost, got.added_sheets, typed_by_people(got)) == ([], [], [], TYPED)
    assert sorted(drawn(saved.read_bytes())) == sorted(TITLES)
    ours = drawn(made())
    for title, root in drawn(saved.read_bytes()).items():
        assert texts(root, ".//c:val//c:f") == texts(ours[title], ".//c:val//c:f"), title


def with_a_chart() -> Book:
    chart = Chart("Price by quantity", "line", ("ladder.price",), "per garment", "ladder.from_quantity")
    return replace(BOOK, sheets=tuple(
        replace(sheet, parts=(chart, *sheet.parts)) if sheet.name == "quote" else sheet for sheet in BOOK.sheets
    ))  # fmt: skip


def findings(book: Book, folder: Path, *, saved: bool = False) -> set[str]:
    folder.mkdir()
    issued = issue(book, brief("jacket"), {}, ISSUED)
    (folder / "a.xlsx").write_bytes(issued.data)
    path = recalculated([folder / "a.xlsx"], folder)[0] if saved else folder / "a.xlsx"
    path.with_name("a.receipt.json").write_text(issued.receipt.text, "utf-8")
    with zipfile.ZipFile(path) as package:
        assert any(name.startswith("xl/charts/") for name in package.namelist()) == (book is not BOOK)
    return {finding.short for finding in audit(book, RULES, path).findings}


@pytest.mark.libreoffice
def test_the_audit_says_nothing_of_a_chart(tmp_path):
    needs_office()
    without = findings(BOOK, tmp_path / "without")
    assert without
    assert findings(with_a_chart(), tmp_path / "with") == without
    assert findings(with_a_chart(), tmp_path / "saved", saved=True) == without
