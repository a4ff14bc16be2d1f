"""The command: what it prints and writes, and one clear sentence where the files do not fit together."""

import shutil

import openpyxl
import pytest

from sheetgen.cli import main
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from tests.edits import edited
from tests.loop import fresh_loop
from tests.offers.returns import FIRST, RETURNS, SECOND, THIRD, three_returns


def said(capsys):
    out, err = capsys.readouterr()
    return " ".join(out.split()), " ".join(err.split())


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(three_returns(tmp_path))
    return tmp_path


def test_three_returns_into_one_workbook(folder, capsys):
    assert main(["compare", "a-working.xlsx", *RETURNS, "--out", "offers.xlsx"]) == 0
    shown = said(capsys)[0]
    assert f"{FIRST} 2 25.8000 26.6000 26.6000 1.5% 0 0" in shown
    assert f"{SECOND} 1 24.9320 25.7320 26.2150 0.0% 0 0" in shown
    assert f"{THIRD} 3 25.9500 26.7500 26.9500 2.8% 1 1" in shown
    assert f"Cheapest: {SECOND}, the next one 0.3850 more. In EUR per garment." in shown
    assert "brand only" in shown
    titles = openpyxl.load_workbook(folder / "offers.xlsx").sheetnames
    assert titles[:2] == ["Offers", "Picture"]

    held = (folder / "offers.xlsx").read_bytes()
    assert main(["compare", "a-working.xlsx", RETURNS[1], "--out", "offers.xlsx"]) == 2
    assert "is there already" in said(capsys)[1]
    assert (folder / "offers.xlsx").read_bytes() == held

    # What it wrote is no style's workbook and no return.
    assert main(["build", "offers.xlsx", "--out", "b.xlsx"]) == 3
    assert main(["compare", "a-working.xlsx", "offers.xlsx"]) == 3
    assert "is a workbook of another kind (offers); name the style's working workbook or a return" in said(capsys)[1]


def test_without_a_name_it_lies_beside_the_working_workbook(folder):
    assert main(["compare", "a-working.xlsx", RETURNS[1]]) == 0
    assert (folder / "a-offers.xlsx").exists()


def test_two_files_of_one_sort_are_listed_cell_by_cell(folder, capsys):
    edited(BOOK, folder / "a-working.xlsx", [Edit("pricing.freight", "type", 0.5)], folder / "b-working.xlsx")
    assert main(["compare", "a-working.xlsx", "b-working.xlsx"]) == 0
    assert "Freight 0.42 0.5 1 values differ." in said(capsys)[0]
    edited(BOOK, folder / RETURNS[0], [Edit("quote.remark", "type", "Other words")], folder / "later.xlsx")
    assert main(["compare", RETURNS[0], "later.xlsx"]) == 0
    shown = said(capsys)[0]
    assert "Other words" in shown
    assert "1 values differ." in shown


def refused(capsys, *files, status=2):
    assert main(["compare", *files, "--out", "refused.xlsx"]) == status
    out, err = capsys.readouterr()
    assert err.startswith("sheetgen: ")
    assert err.count("\n") == 1
    assert "Traceback" not in out + err
    return err


def test_two_returns_of_one_vendor(folder, capsys):
    shutil.copy(RETURNS[1], "again.xlsx")
    words = refused(capsys, "a-working.xlsx", RETURNS[1], "again.xlsx")
    assert f"again.xlsx: is a return of {SECOND}, as {RETURNS[1]} is; name one return of each vendor." in words
    assert not (folder / "refused.xlsx").exists()


def test_a_return_first(folder, capsys):
    assert "name the style's working workbook first" in refused(capsys, RETURNS[1], "a-working.xlsx")


def test_a_working_workbook_among_the_returns(folder, capsys):
    shutil.copy("a-working.xlsx", "other.xlsx")
    assert "other.xlsx: is a working workbook" in refused(capsys, "a-working.xlsx", RETURNS[1], "other.xlsx")


def test_a_return_of_another_revision(folder, capsys):
    edited(BOOK, folder / "a-working.xlsx", [Edit("style.revision", "type", 2)], folder / "next.xlsx")
    words = refused(capsys, "next.xlsx", RETURNS[1])
    assert f"{RETURNS[1]}: answers revision 1, next.xlsx is revision 2" in words


def test_a_return_of_another_style(folder, capsys, tmp_path_factory):
    other = fresh_loop(tmp_path_factory.mktemp("jacket"), "jacket")
    words = refused(capsys, "a-working.xlsx", str(other / "a-returned.xlsx"))
    assert "answers style HV-27A-KJ-007, a-working.xlsx is style HV-27A-OS-014" in words


@pytest.mark.parametrize(
    ("content", "words"),
    [(b"", "is empty"), (b"PK\x03\x04" + b"\0" * 50, "is damaged"), (None, "there is no such file")],
)
def test_a_file_that_cannot_be_read(folder, capsys, content, words):
    if content is not None:
        (folder / "back.xlsx").write_bytes(content)
    said_ = refused(capsys, "a-working.xlsx", RETURNS[1], "back.xlsx", status=3)
    assert "back.xlsx" in said_
    assert words in said_
    assert not (folder / "refused.xlsx").exists()
