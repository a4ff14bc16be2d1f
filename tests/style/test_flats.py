"""Flats and views of a style without drawings: there on the first evening, drawn anew, and gone for the designer's own."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from sheetgen import api
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Picture
from sheetgen.sheets import BOOK
from sheetgen.sheets.construction import LEFT_BLANK
from sheetgen.style.flats import FRAMES, colors_of, parts_meant, to_draw
from sheetgen.testing.edit import typed_in
from sheetgen.workbook.model.values import Values
from tests.loop import ISSUED, SAMPLES
from tests.workbook.briefs import png

FRONT, FLAT = Place("style.front"), Place("construction.flat_front")
SWATCH = Place("colorways.components.swatch_c1", "K1")


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """A shirt as it was started, named and with a purpose, without a drawing of its own."""
    folder = tmp_path_factory.mktemp("flats")
    values = api.start("shirt").values
    (folder / "a.xlsx").write_bytes(api.from_values({**values, Place("style.number"): "TB-1"}).data)
    return folder


def shown(path) -> Values:
    return api.read(path).typed


def colors(picture: object) -> set[tuple[int, int, int]]:
    assert isinstance(picture, Picture)
    image = Image.open(io.BytesIO(picture.data)).convert("RGB")
    return {color for count, color in image.getcolors(100_000) if count > image.width * image.height / 100}


def test_a_started_style_has_flats_and_views_and_waits_for_no_drawing(folder):
    typed = shown(folder / "a.xlsx")
    assert {place for place in FRAMES if isinstance(typed.get(place), Picture)} == {
        place for place, frame in FRAMES.items() if frame.colorway < 2
    }
    findings = [one.short for one in api.audit(folder / "a.xlsx", purpose="quote").findings]
    assert not [one for one in findings if "flat_" in one or "style.front" in one]


def test_they_are_drawn_anew_and_no_value_of_the_style(folder):
    again = api.build(folder / "a.xlsx")
    assert not set(FRAMES) & set(again.values)
    assert again.data == (folder / "a.xlsx").read_bytes()


def test_a_swatch_colors_the_view_and_leaves_the_flat(folder):
    typed_in(BOOK, folder / "a.xlsx", {SWATCH: "#7A1F10"}, folder / "b.xlsx")
    (folder / "c.xlsx").write_bytes(api.build(folder / "b.xlsx").data)
    before, after = shown(folder / "a.xlsx"), shown(folder / "c.xlsx")
    assert (0x7A, 0x1F, 0x10) in colors(after[FRONT])
    assert after[FLAT] == before[FLAT]


def test_a_drawing_of_ones_own_takes_the_place_of_all_on_its_sheet(folder):
    own = Picture(png())
    built = api.from_values({**api.build(folder / "a.xlsx").values, FRONT: own})
    (folder / "d.xlsx").write_bytes(built.data)
    typed = shown(folder / "d.xlsx")
    assert (typed[FRONT], typed.get(Place("style.back"))) == (own, None)
    assert isinstance(typed[FLAT], Picture)
    again = api.build(folder / "d.xlsx")
    assert (again.values[FRONT], again.data) == (own, built.data)


def test_they_can_be_left_blank(folder):
    values = {**api.build(folder / "a.xlsx").values, Place("construction.flats"): LEFT_BLANK}
    assert to_draw(values) == ()
    (folder / "e.xlsx").write_bytes(api.from_values(values).data)
    assert not set(FRAMES) & set(shown(folder / "e.xlsx"))


def test_callouts_stand_on_a_drawn_flat_and_it_is_still_drawn_anew(folder):
    marks = {place_of(f"construction.callouts[N1].{name}"): value for name, value in (("across", 0.5), ("down", 0.1))}
    typed_in(BOOK, folder / "a.xlsx", marks, folder / "f.xlsx")
    built = api.build(folder / "f.xlsx")
    (folder / "g.xlsx").write_bytes(built.data)
    assert shown(folder / "g.xlsx")[FLAT] != shown(folder / "a.xlsx")[FLAT]
    assert shown(folder / "g.xlsx").get(Place("workings.clean_front")) is None
    assert api.build(folder / "g.xlsx").data == built.data


def test_a_copy_takes_them_along_and_comes_back_clean(folder):
    issued = api.issue(folder / "a.xlsx", issued=ISSUED, vendor="Invented Sewing", anyway="a try")
    (folder / "copy.xlsx").write_bytes(issued.data)
    (folder / "copy.receipt.json").write_text(issued.receipt.text, "utf-8")
    assert isinstance(shown(folder / "copy.xlsx")[FLAT], Picture)
    assert not [one for one in api.audit(folder / "copy.xlsx").findings if one.rule != "entry-missing"]


def test_samples_with_drawings_of_their_own_are_left_alone():
    for style in ("overshirt", "sweatshirt", "jacket"):
        values = api.build(SAMPLES / style / "brief.toml").values
        assert to_draw(values) == (), style


@pytest.mark.parametrize(
    ("name", "parts"),
    [
        ("body and sleeves", ["body", "sleeve"]), ("neck rib", ["rib"]), ("hood lining", ["inside"]), ("hood cord", []),
        ("pocket embroidery", []), ("main label", []), ("topstitch", ["stitch"]), ("buttonholes", []), ("buttons", ["button"]),
        ("inner yoke and stand", ["inside"]), ("seam thread", []), ("zips", ["zip"]),
    ],
)  # fmt: skip
def test_components_by_their_names(name, parts):
    assert list(parts_meant(name)) == parts


def test_the_first_swatch_is_the_bodys_where_no_name_says_body():
    values: Values = {
        Place("colorways.components.component", "K1"): "Twill", Place("colorways.components.swatch_c1", "K1"): "#112233",
        Place("colorways.components.component", "K2"): "Rib", Place("colorways.components.swatch_c1", "K2"): "#445566",
    }  # fmt: skip
    assert colors_of(values, 1).of == {"rib": "#445566", "body": "#112233"}
    assert colors_of(values, 2).of == {}
