"""A material known by a swatch only: the copy asks what it is, the answer comes in, the brand says yes, the line says it."""

from __future__ import annotations

import pytest

from sheetgen import api
from sheetgen.declare.entry import place_of
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import typed_in
from sheetgen.workbook.model.values import Values
from tests.loop import ISSUED, SAMPLES, loop

LINE = "materials.bom[M1].{0}"
NAMED: dict[str, Value] = {
    "named_composition": "98 % cotton, 2 % elastane",
    "named_weight": 8.3,
    "named_unit": "oz/yd²",
    "named_width": 148,
}


def places(typed: dict[str, Value]) -> Values:
    return {place_of(LINE.format(name)): value for name, value in typed.items()}


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    """The overshirt whose shell is a swatch, its copy for a quote, and the working file with the vendor's answer."""
    folder = tmp_path_factory.mktemp("identified")
    unknown = {"composition", "weight", "weight_unit", "width", "weight_within"}
    values = {
        place: value for place, value in api.build(SAMPLES / "overshirt" / "brief.toml").values.items()
        if not (place.row == "M1" and place.entry.rpartition(".")[2] in unknown)
    }  # fmt: skip
    (folder / "a.xlsx").write_bytes(api.from_values({**values, **places({"ask": "yes"})}).data)
    issued = api.issue(folder / "a.xlsx", purpose="quote", issued=ISSUED, anyway="the width is still to be named")
    (folder / "copy.xlsx").write_bytes(issued.data)
    (folder / "copy.receipt.json").write_text(issued.receipt.text, "utf-8")
    typed_in(BOOK, folder / "copy.xlsx", places(NAMED), folder / "back.xlsx")
    (folder / "b.xlsx").write_bytes(
        api.accept(folder / "a.xlsx", folder / "back.xlsx", receipt=folder / "copy.receipt.json").built.data
    )
    return folder


def missing(file) -> set[str]:
    return {
        str(one.place) for one in api.audit(file).findings if one.rule == "entry-missing" and "[M1]" in str(one.place)
    }


def test_the_copy_asks_for_what_the_line_does_not_say_and_only_there(folder):
    asked = {LINE.format(name) for name in ("named_composition", "named_weight", "named_width")}
    assert asked <= missing(folder / "copy.xlsx")
    assert not asked & missing(loop() / "a-issued.xlsx")
    assert not asked & missing(folder / "back.xlsx")


def test_the_line_does_not_wait_for_its_composition_while_it_is_asked(folder):
    got = api.read(folder / "a.xlsx")
    assert got.shown[place_of("materials.bom[M1].asking")] == "asked"
    assert got.shown[place_of("checks.open_materials_bom_composition")] == 0


def test_what_was_named_waits_for_the_brand_and_is_then_the_line(folder):
    got = api.read(folder / "b.xlsx")
    assert got.typed.get(place_of(LINE.format("composition"))) is None
    assert got.shown[place_of("checks.wrong_materials_named")] == 1
    typed_in(BOOK, folder / "b.xlsx", places({"identified": "yes"}), folder / "c.xlsx")
    made = api.build(folder / "c.xlsx")
    assert [
        made.values.get(place) for place in places({"composition": 0, "weight": 0, "weight_unit": 0, "width": 0})
    ] == list(NAMED.values())
    assert made.shown[place_of("checks.wrong_materials_named")] == 0
    assert made.shown[place_of(LINE.format("base"))] == pytest.approx(
        8.3 * 33.9057, abs=0.01
    )  # 1 oz/yd2 is 33.9057 g/m2
    assert "M1 is what the vendor named: 98 % cotton, 2 % elastane, 8.3, oz/yd², 148." in made.notes


def test_what_the_brand_typed_stays_and_the_difference_is_counted(folder):
    typed_in(BOOK, folder / "b.xlsx", places({"identified": "yes", "composition": "100 % cotton"}), folder / "d.xlsx")
    made = api.build(folder / "d.xlsx")
    assert made.values[place_of(LINE.format("composition"))] == "100 % cotton"
    assert made.shown[place_of("checks.wrong_materials_named_otherwise")] == 1
