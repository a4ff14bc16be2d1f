"""Close-ups of a style: there on the first evening, with the figures of its sheets, gone for the designer's own or a word."""

from __future__ import annotations

import re

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.declare.families import member_name
from sheetgen.declare.kinds import Picture
from sheetgen.jobs.packs import content_for
from sheetgen.sheets.construction import LEFT_BLANK
from sheetgen.style.closeups import CLOSEUPS
from sheetgen.workbook.model.values import Values
from tests.loop import loop
from tests.workbook.briefs import png


def labels(values: Values, tmp_path) -> list[tuple[str, str]]:
    """Ref and figure of each dimension in the pack of a style."""
    path = tmp_path / "a.xlsx"
    path.write_bytes(api.from_values(values).data)
    made = content_for(api.read(path), "quote", ("Close-ups",))[0]
    return re.findall(r">([PL]\d+) = ([^<]+)<", b"".join(made.pictures.values()).decode())


@pytest.mark.parametrize(("unit", "figures"), [
    # The shirt's starting values at its base size, in eighths of an inch: 6.5 cm are 2.56, 14 cm 5.51.
    ("cm", {("P14", "6.5"), ("P19", "12"), ("P20", "14"), ("P18", "3.3"), ("L1", "5")}),
    ("in", {("P14", "2 1/2"), ("P20", "5 1/2")}),
])  # fmt: skip
def test_a_started_style_has_them_with_the_figures_of_its_sheets(unit, figures, tmp_path):
    built = api.start("shirt", unit=unit)
    assert figures <= set(labels(dict(built.values), tmp_path))
    assert CLOSEUPS not in {**built.values, **api.read(tmp_path / "a.xlsx").typed}, (
        "drawn anew, and no value of the style"
    )


def test_each_figure_is_what_the_measurements_say():
    """In the copy of a sample: of the sample size, in the style's unit."""
    for style in ("overshirt", "sweatshirt", "jacket"):
        got = api.read(loop(style) / "a-issued.xlsx")
        made = content_for(got, "quote", ("Close-ups", "Measurements", "Labels"))[0]
        said = {str(place): text for text, place in made.texts}
        sizes = [place.row for place in got.typed if place.entry == "style.sizes.name"]
        number = 1 + [got.typed[Place("style.sizes.name", row)] for row in sizes].index(
            got.typed[Place("style.sample_size")]
        )
        drawn = b"".join(data for name, data in made.pictures.items() if name.endswith("svg")).decode()
        found = re.findall(r">(P\d+) = ([^<]+)<", drawn)
        assert len(found) >= 2
        for ref, figure in found:
            assert said[str(Place(f"measurements.points.{member_name('spec', 'size', number)}", ref))] == figure


def test_a_word_leaves_them_out_and_ones_own_detail_takes_the_place_of_one(tmp_path):
    values = dict(api.start("shirt").values)
    own = {
        Place("construction.details.detail", "DT1"): "Cuff, open",
        Place("construction.details.shown", "DT1"): Picture(png()),
    }
    refs = {ref for ref, _ in labels({**values, **own}, tmp_path)}
    assert "P20" in refs and not {"P13", "P14"} & refs
    assert labels({**values, Place("construction.flats"): LEFT_BLANK}, tmp_path) == []
    assert labels({**values, Place("measurements.garment"): None}, tmp_path) == []


@pytest.mark.parametrize(("where", "below"), [
    ("inside back neck, centered, 2 cm below the seam", "2"), ("inside back neck, centered, 1 in below the seam", "1 in"),
    ("inside back neck, centered", ""), ("wearer's left side seam, inside", None),
])  # fmt: skip
def test_the_main_label_lies_where_its_placement_says(where, below, tmp_path):
    values = {**api.start("shirt").values, Place("labels.items.placement", "L1"): where}
    found = [figure for ref, figure in labels(values, tmp_path) if ref == "L1"]
    assert sorted(found) == sorted(["5", "2", *([below] if below else [])] if below is not None else [])
