"""The command line: exit status, one sentence for a mistake, nothing half-written."""

import json

import pytest

from sheetgen.cli import main
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from tests.edits import edited
from tests.loop import SAMPLES, fresh_loop


def said(capsys):
    out, err = capsys.readouterr()
    return " ".join(out.split()), " ".join(err.split())


def test_once_round_by_hand(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert main(["build", str(SAMPLES / "overshirt" / "brief.toml"), "--out", "o-working.xlsx"]) == 0
    assert main(["issue", "o-working.xlsx", "--purpose", "quote", "--due", "2026-12-11"]) == 0
    assert (tmp_path / "o-issued.xlsx").exists()
    assert json.loads((tmp_path / "o-issued.receipt.json").read_text("utf-8"))["purpose"] == "quote"
    capsys.readouterr()
    assert main(["audit", "o-issued.xlsx"]) == 1
    assert "Price per unit" in said(capsys)[0]
    assert main([]) == 0
    shown = said(capsys)[0]
    assert "HV-27A-OS-014" in shown
    assert "with Valmora Confecções for quote until 2026-12-11" in shown


def test_a_due_day_that_is_past_is_pointed_out(tmp_path, capsys):
    folder = fresh_loop(tmp_path)
    working = str(folder / "a-working.xlsx")
    assert main(["issue", working, "--due", "2020-01-01", "--out", str(folder / "late.xlsx")]) == 0
    assert "due 2020-01-01. That day is past" in said(capsys)[0]
    assert main(["issue", working, "--due", "2999-01-01", "--out", str(folder / "early.xlsx")]) == 0
    assert "That day is past" not in said(capsys)[0]


def test_a_clean_return_audits_to_exit_status_0(tmp_path, capsys):
    folder = fresh_loop(tmp_path)
    assert main(["audit", str(folder / "a-returned.xlsx")]) == 0
    assert "Nothing to fix" in said(capsys)[0]


def test_json_is_one_object_and_nothing_else(tmp_path, capsys):
    folder = fresh_loop(tmp_path)
    edited(BOOK, folder / "a-returned.xlsx", [Edit("quote.lead_time", "type", "45 days")], folder / "b.xlsx")
    assert main(["audit", str(folder / "b.xlsx"), "--json"]) == 1
    found = json.loads(capsys.readouterr().out)
    assert list(found) == ["files"]
    (file,) = found["files"]
    assert file["status"] == "audited"
    assert file["reason"] is None
    (finding,) = file["findings"]
    assert set(finding) == {
        "rule",
        "level",
        "owner",
        "sheet",
        "cell",
        "row",
        "column",
        "expected",
        "found",
        "message",
        "action",
    }
    assert finding["rule"] == "number-as-text"
    assert finding["sheet"] == "Quote"
    assert finding["found"] == "45 days"


def test_a_copy_without_its_receipt_is_audited_with_a_warning(tmp_path, capsys):
    folder = fresh_loop(tmp_path)
    (folder / "a-issued.receipt.json").unlink()
    assert main(["audit", str(folder / "a-returned.xlsx")]) == 0
    assert "No receipt was found beside the file" in said(capsys)[0]


@pytest.mark.parametrize(
    ("make", "words"),
    [
        (lambda path: path.write_bytes(b"PK\x03\x04" + b"\0" * 50), "is damaged"),
        (
            lambda path: path.write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le")),
            "is protected with a password",
        ),
        (lambda path: path.write_bytes(b"\x89PNG\r\n\x1a\n" + b"\0" * 50), "is not a workbook"),
        (lambda path: path.mkdir(), "is a folder"),
        (lambda _: None, "there is no such file"),
        (lambda path: path.write_bytes(b""), "is empty"),
    ],
)
def test_a_file_that_cannot_be_used_is_one_sentence_and_exit_status_3(tmp_path, capsys, make, words):
    path = tmp_path / "back.xlsx"
    make(path)
    before = sorted(tmp_path.iterdir())
    assert main(["audit", str(path), "--html", str(tmp_path / "report.html"), "--json"]) == 3
    found = json.loads(capsys.readouterr().out)["files"][0]
    assert found["status"] == "unusable"
    assert words in found["reason"]
    assert "back.xlsx" in found["reason"]
    assert found["findings"] == []
    # The report says it too; nothing else was written.
    assert sorted(tmp_path.iterdir()) == sorted([*before, tmp_path / "report.html"])
    for command in (["build", str(path)], ["issue", str(path)], ["accept", str(path), str(path)]):
        assert main(command) == 3
        out, err = capsys.readouterr()
        assert err.startswith("sheetgen: ")
        assert words in err
        assert err.count("\n") == 1
        assert "Traceback" not in out + err


@pytest.mark.parametrize(
    ("brief", "words"),
    [
        ('[style]\nnumbr = "A-1"\n', "nothing is called 'numbr'; is it 'number'? @ style.numbr"),
        ('[style]\nrevision = "two"\n', "must be a whole number of at least 1 @ style.revision"),
        ("[style\n", "correct that line"),
    ],
)
def test_a_wrong_brief_is_one_sentence_and_exit_status_2(tmp_path, capsys, brief, words):
    path = tmp_path / "brief.toml"
    path.write_text(brief, "utf-8")
    assert main(["build", str(path)]) == 2
    out, err = capsys.readouterr()
    assert words in err
    assert "brief.toml" in err
    assert "Traceback" not in out + err
    assert sorted(tmp_path.iterdir()) == [path]


def test_an_existing_file_is_not_written_over_unasked(tmp_path, capsys):
    folder = fresh_loop(tmp_path)
    held = (folder / "a-issued.xlsx").read_bytes()
    assert main(["issue", str(folder / "a-working.xlsx")]) == 2
    assert "is there already" in said(capsys)[1]
    assert (folder / "a-issued.xlsx").read_bytes() == held
    assert main(["build", str(SAMPLES / "overshirt" / "brief.toml"), "--out", str(folder / "a-issued.xlsx")]) == 2
    assert (folder / "a-issued.xlsx").read_bytes() == held


def test_wrong_usage_is_exit_status_2(capsys):
    assert main(["audit"]) == 2
    assert main(["frobnicate"]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_accept_leaves_the_working_file_and_says_what_was_left(tmp_path, capsys):
    folder = fresh_loop(tmp_path)
    edited(BOOK, folder / "a-returned.xlsx", [Edit("materials.bom[M2].price", "type", "2,50")], folder / "b.xlsx")
    held = (folder / "a-working.xlsx").read_bytes()
    assert main(["accept", str(folder / "a-working.xlsx"), str(folder / "b.xlsx")]) == 1
    shown = said(capsys)[0]
    assert "Not taken: 1" in shown
    assert "materials.bom[M2].price" in shown
    assert (folder / "a-working.xlsx").read_bytes() == held
    assert (folder / "a-rev2.xlsx").exists()


def test_an_empty_folder_says_how_to_begin(tmp_path, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert main([]) == 0
    assert "sheetgen demo" in said(capsys)[0]


def test_season_lists_styles_below_a_folder(tmp_path, capsys):
    fresh_loop(tmp_path / "one")
    fresh_loop(tmp_path / "two", "jacket")
    assert main(["season", str(tmp_path)]) == 0
    shown = said(capsys)[0]
    assert "HV-27A-OS-014" in shown
    assert "HV-27A-KJ-007" in shown


def test_season_proposes_the_next_free_style_number(tmp_path, capsys):
    fresh_loop(tmp_path / "one")  # HV-27A-OS-014 is taken
    brand = str(SAMPLES / "brand" / "brand.toml")
    assert main(["season", str(tmp_path), "--brand", brand, "--next", "HV-27A-OS"]) == 0
    assert said(capsys)[0].startswith("HV-27A-OS-015 (")
    assert main(["season", str(tmp_path), "--brand", brand, "--next", "HV-99A-OS"]) == 2
    assert "'99A' in 'HV-99A-OS' is no code of season" in said(capsys)[1]
    assert main(["season", str(tmp_path), "--next", "HV-27A-OS"]) == 2
    assert "has no scheme of style numbers" in said(capsys)[1]
