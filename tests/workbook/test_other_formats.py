"""A return in another format: OpenDocument read in full, old binary files for what was typed; written by LibreOffice."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pytest

from sheetgen.api import audit
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.open_formula import area_of, excel_formula
from tests.forms.make import FOLDER
from tests.kept import kept
from tests.loop import loop
from tests.referee.office import SOFFICE, needs_office, profile


def _converted(folder: Path) -> None:
    source = shutil.copy(loop("overshirt") / "a-returned.xlsx", folder / "a.xlsx")
    for ending in ("ods", "xls"):
        words = [
            str(SOFFICE),
            profile(folder / f"profile-{ending}"),
            "--headless",
            "--convert-to",
            ending,
            "--outdir",
            str(folder),
        ]
        subprocess.run([*words, str(source)], check=True, capture_output=True, timeout=180)
    shutil.copy(loop("overshirt") / "a-issued.receipt.json", folder)


@pytest.fixture(scope="module")
def saved() -> Path:
    needs_office()
    return kept("other-formats", _converted)


@pytest.mark.parametrize("ending", ["ods", "xls"])
def test_a_clean_return_in_another_format_has_no_finding(saved: Path, ending: str) -> None:
    result = audit(saved / f"a.{ending}")
    assert [finding.short for finding in result.findings] == []
    counts = result.got.accounts.counts
    assert counts["changed"] == counts["lost"] == 0 and counts["filled"] > 100
    assert bool(result.warnings) == (ending == "xls")  # one line says what could not be checked


def test_an_open_document_holds_all_that_the_workbook_held(saved: Path) -> None:
    one, other = read(BOOK, saved / "a.xlsx"), read(BOOK, saved / "a.ods")
    assert other.typed == one.typed
    assert other.formulas.keys() == one.formulas.keys()
    assert other.where == one.where


def test_what_was_typed_survives_the_old_format(saved: Path) -> None:
    one, other = read(BOOK, saved / "a.xlsx"), read(BOOK, saved / "a.xls")
    pictures = {place for place in one.typed if one.ready.book.entries[place.entry].entry.kind.name == "picture"}
    answers = {place for place in one.formulas if place in one.typed}
    for place in one.typed.keys() - pictures - answers:
        assert str(other.typed[place]).rstrip("0.") == str(one.typed[place]).rstrip("0."), place


def test_a_box_of_another_program_is_no_workbook(tmp_path: Path) -> None:
    path = tmp_path / "a.xls"
    path.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 4096)
    with pytest.raises(UserError, match="is not a workbook, or is damaged") as caught:
        audit(path)
    assert caught.value.status == 3


def test_all_names_lost_is_no_finding(tmp_path: Path) -> None:
    import openpyxl

    book = openpyxl.load_workbook(FOLDER / "form_2" / "issued.xlsx")
    book.defined_names.clear()
    book.save(tmp_path / "a.xlsx")
    before, after = read(BOOK, FOLDER / "form_2" / "issued.xlsx"), read(BOOK, tmp_path / "a.xlsx")
    assert after.lost == [] and after.typed.keys() == before.typed.keys()


# OpenFormula (ISO/IEC 26300-2, 5.8: references) against ECMA-376 part 1, 18.17.2.
@pytest.mark.parametrize(
    ("text", "formula"),
    [
        ('of:=IF([.B12]="";"";[$Style.$C$6]*2)', '=IF(B12="","",Style!$C$6*2)'),
        ("of:=SUM([.$C$5:.$C$9])", "=SUM($C$5:$C$9)"),
        ("of:=[$'Bought goods'.A1]&\"a;b\"", "='Bought goods'!A1&\"a;b\""),
        ("of:=INDEX({1;2|3;4};1;2)", "=INDEX({1,2;3,4},1,2)"),
        ("of:=SUM([$A.$B$1:.$B$3])", "=SUM(A!$B$1:$B$3)"),
        ("of:=name+1", "=name+1"),
        ("of:=[.#REF!]+1", "=#REF!+1"),
    ],
)
def test_a_formula_of_an_open_document_reads_as_one_of_a_workbook(text: str, formula: str) -> None:
    assert excel_formula(text) == formula


def test_an_area_of_an_open_document() -> None:
    assert area_of("$'Bought goods'.$A$1:.$B$9") == ("Bought goods", "$A$1:$B$9")
    assert area_of("nonsense") == ("", "")
