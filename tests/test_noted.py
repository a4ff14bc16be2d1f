"""What a vendor adds where nothing has a place is taken onto Questions, saved, or said: none of it vanishes."""

from __future__ import annotations

import re
import zipfile
from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from sheetgen.workbook.exchange.accept import Wish, merge
from sheetgen.workbook.exchange.receipts import load_receipt
from tests.edits import edited
from tests.kept import kept
from tests.loop import fresh_loop, loop

REMARKS = [
    Edit("materials.bom[M1]", "stray", "the mill closes in August"),
    Edit("measurements.points[P3]", "text-box", "hard to measure on the form"),
    Edit("quote.valid_until", "stray", "see mail"),
]


def _with_remarks(folder: Path) -> None:
    edited(BOOK, loop() / "a-returned.xlsx", REMARKS, folder / "remarks.xlsx")
    edited(BOOK, folder / "remarks.xlsx", [Edit("Notes of the factory", "add-sheet")], folder / "sheet.xlsx")
    with zipfile.ZipFile(folder / "remarks.xlsx") as package:
        parts = {name: package.read(name) for name in package.namelist()}
    name = "xl/drawings/drawing1.xml"
    drawn = parts[name].decode()
    anchor = re.search(r"<xdr:twoCellAnchor.*?</xdr:twoCellAnchor>", drawn, re.DOTALL)
    assert anchor is not None
    again = re.sub(r"(<xdr:row>)\d+(</xdr:row>)", r"\g<1>150\2", anchor.group(), count=1)
    again = re.sub(r"(<xdr:to>.*?<xdr:row>)\d+(</xdr:row>)", r"\g<1>160\2", again, count=1, flags=re.DOTALL)
    parts[name] = drawn.replace("</xdr:wsDr>", again + "</xdr:wsDr>").encode()
    with zipfile.ZipFile(folder / "photo.xlsx", "w") as package:
        for part, data in parts.items():
            package.writestr(part, data)


@pytest.fixture
def folder(tmp_path):
    fresh_loop(tmp_path)
    for path in kept("return-with-remarks", _with_remarks).iterdir():
        (tmp_path / path.name).write_bytes(path.read_bytes())
    return tmp_path


def accept(folder: Path, name: str, **options):
    return api.accept(folder / "a-working.xlsx", folder / name, receipt=folder / "a-issued.receipt.json", **options)


def merged(wish: Wish):
    """The clean return put into its working file, as `accept` puts it together."""
    working, returned = (api.read(loop() / f"a-{name}.xlsx") for name in ("working", "returned"))
    return merge(working, load_receipt(loop() / "a-issued.receipt.json"), returned, {}, wish)


def questions(values) -> dict[str, object]:
    return {
        str(value): values.get(Place("questions.asked.about", at.row))
        for at, value in values.items()
        if at.entry == "questions.asked.question"
    }


def test_remarks_and_text_boxes_come_onto_questions_about_the_row_beside_them(folder):
    done = accept(folder, "remarks.xlsx")
    asked = questions(done.built.values)
    about = {words.split(" (")[0]: row for words, row in asked.items() if "(stood at " in words}
    assert about["the mill closes in August"] == "M1"
    assert about["see mail"] is None
    assert [row for words, row in about.items() if "hard to measure" in words] == ["P3"]
    assert len(done.noted) == 3
    assert done.unplaced == ()


def test_a_second_acceptance_of_the_same_return_notes_nothing_twice(folder):
    first = accept(folder, "remarks.xlsx")
    (folder / "a-working.xlsx").write_bytes(first.built.data)
    second = accept(folder, "remarks.xlsx")
    assert second.noted == ()
    assert questions(second.built.values) == questions(first.built.values)


def test_a_photo_beside_the_frames_comes_along_and_is_saved_by_name(folder, capsys):
    done = accept(folder, "photo.xlsx")
    pictures = [value for at, value in done.built.values.items() if at.entry == "questions.asked.picture"]
    assert len(pictures) == 1
    assert isinstance(pictures[0], Picture)
    words = [
        "accept",
        str(folder / "a-working.xlsx"),
        str(folder / "photo.xlsx"),
        "--receipt",
        str(folder / "a-issued.receipt.json"),
    ]
    assert main([*words, "--photos", str(folder / "photos"), "--out", str(folder / "next.xlsx")]) == 0
    saved = list((folder / "photos").iterdir())
    assert pictures[0].data in [path.read_bytes() for path in saved]
    assert all(path.name.startswith("hv-27a-os-014-") for path in saved)
    assert "4" in capsys.readouterr().out


def test_a_sheet_that_was_added_is_said_and_sets_the_exit_status(folder, capsys):
    words = [
        "accept",
        str(folder / "a-working.xlsx"),
        str(folder / "sheet.xlsx"),
        "--receipt",
        str(folder / "a-issued.receipt.json"),
    ]
    assert main([*words, "--out", str(folder / "next.xlsx")]) == 1
    assert "Notes of the factory was added" in " ".join(capsys.readouterr().out.split())


def test_more_than_can_be_remarks_is_not_poured_onto_questions(folder):
    edits = [Edit(f"materials.bom[M{row}]", "stray", f"{row}") for row in range(1, 17)]
    edits += [Edit(f"measurements.points[P{row}]", "stray", f"{row}") for row in range(1, 20)]
    edits += [Edit(f"construction.callouts[N{row}]", "stray", f"{row}") for row in range(1, 13)]
    edited(BOOK, folder / "a-returned.xlsx", edits, folder / "poured.xlsx")
    done = accept(folder, "poured.xlsx")
    assert len(done.unplaced) > 40
    assert questions(done.built.values) == questions(accept(folder, "a-returned.xlsx").built.values)


def test_a_plan_says_every_cell_and_writes_nothing(folder, capsys):
    before = sorted(path.name for path in folder.iterdir())
    words = [
        "accept",
        str(folder / "a-working.xlsx"),
        str(folder / "a-returned.xlsx"),
        "--receipt",
        str(folder / "a-issued.receipt.json"),
        "--plan",
    ]
    assert main(words) == 0
    said = capsys.readouterr().out
    assert "Nothing was written" in said
    assert said.count("(fit.points[") > 15
    assert sorted(path.name for path in folder.iterdir()) == before


@pytest.mark.parametrize(("leave", "gone", "stays"), [
    ("materials", "materials.bom[M2].price", "quote.fob"), ("materials.bom.price", "materials.bom[M2].price", "materials.bom[M2].lead"),
    ("materials.bom[M2]", "materials.bom[M2].lead", "materials.bom[M3].price"), ("quote.fob", "quote.fob", "quote.lead_time"),
])  # fmt: skip
def test_a_sheet_a_column_a_row_or_a_place_is_left(leave, gone, stays):
    done = merged(Wish(leave=(leave,)))
    assert place_of(gone) not in done.values
    assert place_of(stays) in done.values
    assert {one.reason for one in done.of("refused")} == {"left, as was asked"}


def test_the_word_that_says_more_decides():
    done = merged(Wish(("materials.bom[M2]",), ("materials",)))
    rows = {at.row for at in done.values if at.entry == "materials.bom.price"}
    assert rows == {"M2"}


def test_a_word_for_nothing_is_one_sentence(folder):
    with pytest.raises(UserError, match=r"--leave materials\.bomb: there is no such place"):
        accept(folder, "a-returned.xlsx", leave=["materials.bomb"])
