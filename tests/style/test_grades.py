"""Grades and body tables from elsewhere, and starters, through the command line."""

import openpyxl
import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place, place_of
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.style.grades import apply_grade, from_csv, steps_of
from sheetgen.style.starters import STARTERS
from sheetgen.testing.edit import Edit
from tests.edits import edited
from tests.loop import SAMPLES, fresh_loop


def point(values, entry, row="P1"):
    return values.get(Place(f"measurements.points.{entry}", row))


def test_steps_of_a_published_uneven_row():
    # N. A. Raaz, "Measurement points for different garments" (2019/2020), basic T-shirt, half bottom width: seen.
    assert steps_of({"S": 27, "M": 28.5, "L": 30, "XL": 31}) == (1.5, {"XL": 1.0})


def test_a_table_of_graded_figures_becomes_base_and_steps(tmp_path):
    path = tmp_path / "grade.csv"
    path.write_text("point,how,S,M,L,XL\nBottom width,flat,27,28.5,30,31\n", "utf-8")
    values = {Place("style.sizes.name", f"Z{n}"): size for n, size in enumerate(("S", "M", "L", "XL"), 1)}
    assert apply_grade(values, from_csv(path, "cm", "M")) == ["1 points graded, 1 of them new"]
    assert (point(values, "base"), point(values, "step"), point(values, "over_z4")) == (28.5, 1.5, 1.0)
    assert point(values, "over_z3") is None


def test_a_table_of_steps_with_semicolons_and_fractions(tmp_path):
    path = tmp_path / "grade.csv"
    path.write_text('point;step;to XL;minus\nChest width;1/2;3/4";1/4\n', "utf-8")
    (grade,) = from_csv(path, "in", "M")
    assert grade.step == 0.5
    assert grade.steps_to == {"XL": 0.75}
    assert grade.others == {"minus": 0.25}


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("name,S\nChest,50\n", "has no column 'point'"),
        ("point,step\nChest,wide\n", "line 2, column step: 'wide' is no length"),
    ],
)
def test_a_wrong_table_is_one_sentence(tmp_path, text, words):
    path = tmp_path / "grade.csv"
    path.write_text(text, "utf-8")
    with pytest.raises(UserError, match=words) as raised:
        from_csv(path, "cm", "M")
    assert "grade.csv" in str(raised.value)


def test_the_grade_of_another_workbook_is_taken_and_its_bases_are_not(tmp_path):
    folder = fresh_loop(tmp_path)
    edits = [Edit("measurements.points[P1].step", "type", 2.0), Edit("measurements.points[P1].base", "type", 99)]
    edited(BOOK, folder / "a-working.xlsx", edits, folder / "other.xlsx")
    built = api.build(folder / "a-working.xlsx", grade=folder / "other.xlsx")
    assert point(built.values, "step") == 2.0
    assert point(built.values, "base") == 58
    assert any("20 points graded, 0 of them new" in note for note in built.notes)


def test_a_graded_size_typed_over_is_kept_as_a_correction(tmp_path):
    folder = fresh_loop(tmp_path)
    edited(BOOK, folder / "a-working.xlsx", [Edit("measurements.points[P1].spec_z5", "type", 64.5)], folder / "b.xlsx")
    built = api.build(folder / "b.xlsx")
    assert built.values[place_of("measurements.points[P1].fix_z5")] == 64.5
    assert built.not_carried == ()


def test_a_starter_is_a_working_workbook_whose_figures_are_marked_suggestions(tmp_path, capsys):
    out = tmp_path / "skirt-working.xlsx"
    assert main(["start", "skirt", "--out", str(out), "--body", "women"]) == 0
    got = api.read(out)
    # Common practice: skirt, waist width 37, step 2.
    assert point(got.typed, "point") == "Waist width"
    assert (point(got.typed, "base"), point(got.typed, "step")) == (37, 2)
    assert got.shown[place_of("measurements.points[P1].still")] == "suggestion"
    # EN 13402-3 women's M: bust girth 90-98, the middle is 94 (seen).
    number = dict(got.ready.shape.axes)["size"].index("M") + 1
    assert got.typed[place_of(f"ease.body[B1].value_z{number}")] == 94
    edited(BOOK, out, [Edit("measurements.points[P1].base", "type", 38)], tmp_path / "own.xlsx")
    assert api.read(tmp_path / "own.xlsx").shown[place_of("measurements.points[P1].still")] == "own"
    # Suggestions are the brand's own matter: a vendor's copy has none of them.
    copy = api.issue(out, anyway="a starter")
    (tmp_path / "issued.xlsx").write_bytes(copy.data)
    assert not any("suggested" in place.entry for place in api.read(tmp_path / "issued.xlsx").typed)


@pytest.mark.long
@pytest.mark.parametrize("garment", STARTERS)
def test_every_starter_is_drawn_to_scale_in_its_workbook(tmp_path, garment):
    """Both drawings stand in the Measurements sheet, large enough for a page, also in the vendor's copy."""
    out = tmp_path / "s.xlsx"
    out.write_bytes(api.start(garment).data)
    (tmp_path / "issued.xlsx").write_bytes(api.issue(out, anyway="a starter").data)
    for path in (out, tmp_path / "issued.xlsx"):
        pictures = openpyxl.load_workbook(path)["Measurements"]._images
        assert len(pictures) == 2
        assert all(max(picture.width, picture.height) > 400 for picture in pictures)


def test_a_hood_belongs_on_a_sweatshirt(tmp_path, capsys):
    assert main(["start", "skirt", "--hood", "--out", str(tmp_path / "x.xlsx")]) == 2
    err = capsys.readouterr().err
    assert err.startswith("sheetgen: skirt")
    assert not (tmp_path / "x.xlsx").exists()
    assert main(["start", "sweatshirt", "--hood", "--child", "--unit", "in", "--out", str(tmp_path / "y.xlsx")]) == 0


def test_own_drawings_take_the_place_of_the_drawn_ones(tmp_path):
    """The drawn picture is no data: read back it is not there; an own drawing is, and stays."""
    brief = (SAMPLES / "overshirt" / "brief.toml").read_text("utf-8")
    own = brief.replace("[measurements]\n", '[measurements]\nown_diagram = "pictures/detail_pocket.svg"\n', 1)
    for path in (SAMPLES / "overshirt" / "pictures").iterdir():
        (tmp_path / "pictures").mkdir(exist_ok=True)
        (tmp_path / "pictures" / path.name).write_bytes(path.read_bytes())
    (tmp_path / "brief.toml").write_text(own, "utf-8")
    built = api.build(tmp_path / "brief.toml", SAMPLES / "brand" / "brand.toml")
    (tmp_path / "own.xlsx").write_bytes(built.data)
    got = api.read(tmp_path / "own.xlsx")
    assert Place("measurements.own_diagram") in got.typed
    assert Place("measurements.diagram") not in got.typed
    assert api.build(tmp_path / "own.xlsx").data == built.data


@pytest.mark.parametrize("cell", ["a" * 300_000, "1\0" + "b" * 140_000])
def test_a_cell_that_no_table_holds_names_its_line(tmp_path, cell):
    path = tmp_path / "grade.csv"
    path.write_text(f"point,S,M\nHigh hip,1,2\n{cell},1,2\n", "utf-8")
    with pytest.raises(UserError, match=r"grade\.csv: line 3 cannot be read as CSV"):
        from_csv(path, "cm", "M")
