"""`sheetgen cutplan`: the plan on the screen and in the workbook, and one sentence for what cannot be planned."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from tests.edits import edited
from tests.loop import fresh_loop

ROOT = Path(__file__).parents[2]
LIMITS = ["--plies", "60", "--garments", "6"]


def said(capsys: pytest.CaptureFixture[str]) -> tuple[str, str]:
    out, err = capsys.readouterr()
    return " ".join(out.split()), " ".join(err.split())


@pytest.fixture
def working(tmp_path: Path) -> Path:
    """The sample overshirt: 1200 pieces, Moss and Slate as 3 to 2 in each of six sizes."""
    return fresh_loop(tmp_path) / "a-working.xlsx"


def test_a_plan_is_shown_and_written(working: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before, planned = working.read_bytes(), working.with_name("planned.xlsx")
    options = [*LIMITS, "--over", "2%", "--material", "M1", "--out", str(planned)]
    assert main(["cutplan", str(working), *options]) == 0
    shown = said(capsys)[0]
    # 1242 pieces (1200 and 3 % over) in lays of 60 x 6 are 3.5, so no plan has fewer than four.
    assert "4 lays of" in shown
    assert "(proved fewest: no plan has fewer than 4; in theory 4 if all were full)" in shown
    assert "1242 pieces to cut, as the order has it with what it cuts over; nothing more in the lays." in shown
    assert "Lay XS S M L XL XXL Moss Slate Plies Pieces" in shown
    assert f"Written: {planned}" in shown
    assert working.read_bytes() == before
    got = api.read(planned)
    assert got.typed[Place("cutting.most_plies")] == 60
    assert got.typed[Place("cutting.most_garments")] == 6
    assert got.typed[Place("cutting.most_over")] == 0.02
    assert got.typed[Place("cutting.lay_material")] == "M1"
    assert got.shown[Place("cutting.pieces_planned")] == got.shown[Place("order.pieces_to_cut")] == 1242
    assert got.shown[Place("checks.wrong_cutting_short")] == 0
    fabric = got.shown[Place("cutting.fabric_planned")]
    assert isinstance(fabric, float)
    assert fabric > 1000  # more than 0.83 m a piece


def test_limits_are_read_from_the_sheet_and_old_lays_replaced(
    working: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    edits = [
        Edit("order.overage", "type", 0),
        Edit("cutting.most_plies", "type", 50),
        Edit("cutting.most_garments", "type", 4),
        Edit("cutting.lays[A1].lay", "type", "by hand"),
        Edit("cutting.lays[A1].garments_z1", "type", 3),
        Edit("cutting.lays[A1].plies_c1", "type", 77),
        Edit("cutting.lays[A4].lay", "type", "by hand too"),
    ]
    edited(BOOK, working, edits, working)
    # The sheet's 50 plies stand, the option is stronger than its 4 garments.
    assert main(["cutplan", str(working), "--garments", "8", "--replace"]) == 0
    assert "3 lays of" in said(capsys)[0]
    got = api.read(working)
    assert got.typed[Place("cutting.most_garments")] == 8
    names = [value for place, value in got.typed.items() if place.entry == "cutting.lays.lay"]
    assert len(names) == 3
    assert "by hand" not in names
    plies = [value for place, value in got.typed.items() if place.entry.startswith("cutting.lays.plies_")]
    assert all(isinstance(value, int | float) and value <= 50 for value in plies)
    assert got.shown[Place("cutting.over_planned")] == 0


@pytest.mark.parametrize(
    ("options", "words"),
    [
        (["--garments", "6"], "“Plies in a lay, at most” is not given"),
        (["--plies", "60"], "“Garments in a marker, at most” is not given"),
        (["--plies", "1", "--garments", "1"], "1242 lays would be needed at 1 x 1 (plies x garments)"),
        ([*LIMITS, "--material", "M99"], "--material M99: "),
        ([*LIMITS, "--over", "40%"], "40% is no share from 0% to 20%"),
        ([*LIMITS, "--over", "some"], "some is no share"),
        (["--plies", "0", "--garments", "6"], "0 is not in the range"),
    ],
)
def test_what_cannot_be_planned_is_one_sentence(
    working: Path, capsys: pytest.CaptureFixture[str], options: list[str], words: str
) -> None:
    out = working.with_name("planned.xlsx")
    assert main(["cutplan", str(working), *options, "--out", str(out)]) == 2
    shown, err = said(capsys)
    assert words in err
    assert "Traceback" not in shown + err
    assert not out.exists()


def test_the_file_itself_is_not_written_over_unasked(working: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = working.read_bytes()
    assert main(["cutplan", str(working), *LIMITS]) == 2
    assert "give another name with --out or add --replace" in said(capsys)[1]
    issued = working.with_name("a-issued.xlsx")
    assert main(["cutplan", str(working), *LIMITS, "--out", str(issued)]) == 2
    assert "is there already" in said(capsys)[1]
    assert working.read_bytes() == before


def test_a_vendors_copy_is_refused(working: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["cutplan", str(working.with_name("a-issued.xlsx")), *LIMITS, "--replace"]) == 2
    assert "is a vendor's copy; plan in the working workbook" in said(capsys)[1]


def test_a_limit_that_is_none_names_its_cell(working: Path, capsys: pytest.CaptureFixture[str]) -> None:
    edited(BOOK, working, [Edit("cutting.most_plies", "type", "sixty")], working)
    assert main(["cutplan", str(working), "--garments", "6", "--replace"]) == 2
    cell = api.read(working).where.at(Place("cutting.most_plies"))
    assert cell is not None
    assert f"Cutting {cell.address}: “Plies in a lay, at most” is sixty, no whole number from 1" in said(capsys)[1]


def test_the_solver_is_loaded_only_for_a_plan() -> None:
    code = "import sys, sheetgen.commands.cutplan; sys.exit('clingo' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False, cwd=ROOT).returncode == 0


def test_an_order_without_pieces_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "new.xlsx"
    assert main(["start", "t-shirt", "--out", str(path)]) == 0
    capsys.readouterr()
    assert main(["cutplan", str(path), *LIMITS, "--replace"]) == 2
    assert "nothing is ordered; type pieces by size and colorway into its sheet Order" in said(capsys)[1]


def test_the_main_fabric_is_taken_and_what_is_no_fabric_refused(
    working: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    out = working.with_name("planned.xlsx")
    assert main(["cutplan", str(working), *LIMITS, "--material", "M5", "--out", str(out)]) == 2
    assert "--material M5: is no fabric of the Yield sheet in" in said(capsys)[1]  # M5 are buttons
    assert not out.exists()
    assert main(["cutplan", str(working), *LIMITS, "--out", str(out)]) == 0
    assert api.read(out).typed[Place("cutting.lay_material")] == "M1"


def test_pieces_typed_as_words_are_refused_and_counted(working: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spoiled = working.with_name("b-working.xlsx")
    edited(BOOK, working, [Edit("order.sizes[Z3].pieces_c1", "type", "160 pcs")], spoiled)
    assert api.read(spoiled).shown[Place("checks.wrong_order_no_number")] == 1
    assert main(["cutplan", str(spoiled), *LIMITS, "--replace"]) == 2
    assert "“160 pcs” is no number; type the pieces only, without a unit." in said(capsys)[1]
