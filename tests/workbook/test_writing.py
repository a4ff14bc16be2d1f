"""Writing: whole or not at all, every formula with its value, the same input the same bytes."""

import os
import re
import subprocess
import sys
import zipfile
from dataclasses import replace
from pathlib import Path

import openpyxl
import pytest

from sheetgen.declare.entry import Place, computed
from sheetgen.declare.kinds import whole
from sheetgen.declare.parts import Book, Ledger, Line
from sheetgen.errors import UserError
from sheetgen.sheets import ABOUT, BOOK
from sheetgen.workbook.model.look import shortened
from sheetgen.workbook.model.packing import RECORD_SHEET
from sheetgen.workbook.model.values import ready, shape_of
from sheetgen.workbook.write.file import workbook_bytes
from sheetgen.workbook.write.save import save

from .small import FILLED, GOODS, OWN, SCALE, SMALL, STYLE, built, ready_for

ROOT = Path(__file__).parents[2]


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_file_that_is_there_stays_as_it_is(tmp_path):
    path = tmp_path / "a.xlsx"
    path.write_bytes(b"old")
    with pytest.raises(UserError) as caught:
        save(b"new", path)
    assert (str(caught.value), caught.value.status) == (
        f"{path}: is there already; choose another name or add --replace.", 2,
    )  # fmt: skip
    assert path.read_bytes() == b"old"
    save(b"new", path, replace=True)
    assert path.read_bytes() == b"new"
    assert names_in(tmp_path) == ["a.xlsx"]


def test_missing_folders_are_made(tmp_path):
    save(b"new", tmp_path / "a" / "b" / "c.xlsx")
    assert (tmp_path / "a" / "b" / "c.xlsx").read_bytes() == b"new"


def test_what_cannot_be_written_leaves_nothing_behind(tmp_path, monkeypatch):
    def full(self, target):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    path = tmp_path / "a.xlsx"
    path.write_bytes(b"old")
    with pytest.raises(UserError) as caught:
        save(b"new", path, replace=True)
    assert str(caught.value) == f"{path}: cannot be written (No space left on device); choose another folder."
    assert path.read_bytes() == b"old"
    assert names_in(tmp_path) == ["a.xlsx"]


def test_a_folder_that_is_a_file(tmp_path):
    (tmp_path / "a").write_bytes(b"file")
    with pytest.raises(UserError, match="cannot be written"):
        save(b"new", tmp_path / "a" / "b.xlsx")


def test_the_file_is_never_there_half_written(tmp_path, monkeypatch):
    seen: list[list[str]] = []
    original = Path.replace

    def watched(self, target):
        seen.append([name for name in names_in(tmp_path) if not name.startswith(".")])
        assert self.read_bytes() == b"new"
        assert self.parent == tmp_path  # a rename over file systems would copy
        return original(self, target)

    monkeypatch.setattr(Path, "replace", watched)
    save(b"new", tmp_path / "a.xlsx")
    assert seen == [[]]


def test_every_formula_carries_its_value(tmp_path):
    path = built(FILLED, tmp_path / "a.xlsx")
    formulas, values = openpyxl.load_workbook(path), openpyxl.load_workbook(path, data_only=True)
    found = {
        (sheet.title, cell.value): values[sheet.title][cell.coordinate].value
        for sheet in formulas.worksheets
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    }
    shown = sorted((value for value in found.values() if value not in (None, "")), key=str)
    # stage 1; 1.5 x 1.1 x 4 = 6.6 in its line and in the total; wholesale 6.6 / (1 - 0.5); two lines; what they are
    assert shown == [1, 13.2, 2, 6.6, 6.6, "Button", "Twill"]
    # four lines with cost and four answers, and the stage, the total, the wholesale price, the count of lines
    assert len(found) == 4 + 4 + 4


@pytest.mark.parametrize("audience", ["designer", "vendor"])
def test_no_formula_of_the_book_is_without_a_value_or_too_long(tmp_path, audience):
    made = ready(BOOK, shape_of(BOOK, {}, audience))
    path = tmp_path / "a.xlsx"
    path.write_bytes(workbook_bytes(made, {}, {}))
    count = 0
    with zipfile.ZipFile(path) as package:
        for name in package.namelist():
            if name.startswith("xl/worksheets/"):
                for formula, rest in re.findall(r"<f>(.*?)</f>(.*?)</c>", package.read(name).decode()):
                    count += 1
                    assert rest.startswith("<v>"), f"{name}: {formula} carries no value"
                    assert len(formula) <= 8192
    assert count > len(made.formulas) / 2


def test_text_is_never_a_formula(tmp_path):
    words = "=1+1"
    path = built(
        {**FILLED, Place("style.name"): words, Place("goods.remark"): "=cmd|' /C calc'!A0"}, tmp_path / "a.xlsx"
    )
    cells = [cell for sheet in openpyxl.load_workbook(path).worksheets for row in sheet.iter_rows() for cell in row]
    assert [cell.data_type for cell in cells if cell.value in (words, "=cmd|' /C calc'!A0")] == ["s", "s"]


def test_a_text_longer_than_a_cell_names_its_place():
    values = {**FILLED, Place("style.name"): "x" * 32768}
    with pytest.raises(UserError, match=r"style\.name"):
        workbook_bytes(ready_for(values), values, {})


def test_the_record_is_very_hidden_and_nothing_points_outside(tmp_path):
    path = built(FILLED, tmp_path / "a.xlsx")
    states = {sheet.title: sheet.sheet_state for sheet in openpyxl.load_workbook(path).worksheets}
    assert states == {
        "Style": "visible", "Bought goods": "visible", "Scale": "visible", "Own figures": "visible", RECORD_SHEET: "veryHidden",
    }  # fmt: skip
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name).decode("utf-8") for name in package.namelist()}
    assert not [name for name, text in parts.items() if 'TargetMode="External"' in text or "file://" in text]
    assert not [name for name in parts if "vba" in name or "externalLink" in name]


def test_a_link_to_a_sheet_whose_title_has_a_blank_is_quoted(tmp_path):
    sheet = openpyxl.load_workbook(built(FILLED, tmp_path / "a.xlsx"))["Scale"]
    links = [cell.hyperlink.location for row in sheet.iter_rows() for cell in row if cell.hyperlink]
    assert links == ["'Bought goods'!A1"]


def test_the_same_input_gives_the_same_bytes():
    made = ready_for(FILLED)
    once = workbook_bytes(made, FILLED, {"kind": "working"})
    assert workbook_bytes(made, dict(FILLED), {"kind": "working"}) == once
    fresh = Book((STYLE, GOODS, SCALE, OWN), axes={"size": "style.sizes"}, about=ABOUT)
    assert workbook_bytes(ready_for(FILLED, book=fresh), FILLED, {"kind": "working"}) == once
    assert workbook_bytes(made, {**FILLED, Place("style.revision"): 3}, {"kind": "working"}) != once


PROGRAM = """
import datetime, hashlib, sys
from pathlib import Path
from sheetgen.style.brand import load_brand, load_style
from sheetgen.sheets import BOOK
from sheetgen.workbook.exchange.issue import issue
from sheetgen.workbook.model.values import ready, shape_of
from sheetgen.workbook.write.file import workbook_bytes
samples = Path(sys.argv[1])
values = load_style(BOOK, samples / "overshirt" / "brief.toml", load_brand(samples / "brand" / "brand.toml"))
working = workbook_bytes(ready(BOOK, shape_of(BOOK, values)), values, {"kind": "working"})
assert workbook_bytes(ready(BOOK, shape_of(BOOK, values)), values, {"kind": "working"}) == working
sent = issue(BOOK, values, {}, datetime.date(2026, 11, 20))
print(*(hashlib.sha256(data).hexdigest() for data in (working, sent.data, sent.receipt.text.encode())))
"""


def test_two_processes_write_the_same_bytes_wherever_and_whenever():
    runs = []
    for seed, zone in (("1", "Pacific/Auckland"), ("4242", "America/New_York")):
        environment = {**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "PYTHONPATH": str(ROOT), "LC_ALL": "C"}
        command = [sys.executable, "-c", PROGRAM, str(ROOT / "sample_inputs")]
        runs.append(subprocess.run(command, env=environment, capture_output=True, text=True, check=True).stdout)
    assert len(runs[0].split()) == 3
    assert runs[0] == runs[1]


def test_a_number_at_the_head_of_the_page_is_not_read_as_the_size_of_its_letters(tmp_path):
    values = {
        **FILLED,
        Place("style.number"): "2027-A&B",
        Place("style.company"): "&" * 300,
        Place("style.name"): "\U0001f9f5" * 300,
    }
    header = openpyxl.load_workbook(built(values, tmp_path / "a.xlsx"))["Style"].HeaderFooter.oddHeader
    assert (header.center.size, header.left.size) == (10, 10)
    assert header.center.text.startswith("2027-A&&B")
    assert len(header.center.text.encode("utf-16-le")) // 2 < 120


def test_a_ledger_of_steps_is_written_below_what_is_printed(tmp_path):
    step = Line(("Step",), (computed("step", "Step", whole(), "lines_count+1"),))
    steps = Ledger("Steps", ("What", "Gives"), (30, 9), (step,), printed=False)
    scale = replace(SCALE, parts=(*SCALE.parts, steps))
    book = replace(SMALL, sheets=(STYLE, GOODS, scale, OWN))
    sheet = openpyxl.load_workbook(built(FILLED, tmp_path / "a.xlsx", book))["Scale"]
    last = int(sheet.print_area.rpartition("$")[2])
    title = next(row[0].row for row in sheet.iter_rows(max_col=1) if row[0].value == "Steps")
    assert (last, sheet.max_row > title) == (title - 2, True)
    assert openpyxl.load_workbook(built(FILLED, tmp_path / "b.xlsx"))["Scale"].print_area.rpartition("$")[2] == str(
        title
    )


@pytest.mark.parametrize(
    ("text", "most", "cut"),
    [
        ("abc", 3, "abc"),
        ("abcd", 3, "ab…"),
        ("\U0001f9f5\U0001f9f5", 4, "\U0001f9f5\U0001f9f5"),
        ("\U0001f9f5\U0001f9f5\U0001f9f5", 4, "\U0001f9f5…"),
    ],
)
def test_a_text_is_shortened_as_the_file_format_counts(text, most, cut):
    assert shortened(text, most) == cut


def test_no_hole_is_left_in_any_cell_of_a_finished_workbook(tmp_path):
    """Units and currency are put in everywhere: headings, labels, notes, and the words that formulas make."""
    from sheetgen import api
    from tests.loop import fresh_loop

    folder = fresh_loop(tmp_path)
    for name in ("a-working.xlsx", "a-issued.xlsx"):
        got = api.read(folder / name)
        assert not [str(place) for place, value in got.shown.items() if isinstance(value, str) and "{" in value]
        for sheet in openpyxl.load_workbook(folder / name).worksheets:
            words = [cell.value for row in sheet.iter_rows() for cell in row if isinstance(cell.value, str)]
            assert not [
                word for word in words if not word.startswith(("=", "{")) and "{" in word and sheet.title != "Record"
            ]
            said = [
                text
                for rule in sheet.data_validations.dataValidation
                for text in (rule.prompt, rule.promptTitle, rule.error)
            ]
            assert not [text for text in said if text and "{" in text]
