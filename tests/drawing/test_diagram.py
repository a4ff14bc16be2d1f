"""The diagram: every ref once, nothing overlapping, text safe, and no number that breaks it."""

import ast
import io
import re
import sys
import xml.etree.ElementTree as ET
from dataclasses import replace
from itertools import combinations
from pathlib import Path
from typing import get_args, get_type_hints

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

import sheetgen.drawing
from sheetgen.drawing import Measure, diagram, nested, palette
from sheetgen.garments import BY_WORD, Features
from sheetgen.workbook.model import look
from sheetgen.workbook.model.pictures import load

from .styles import GARMENTS, all_sizes, measures

SVG = "{http://www.w3.org/2000/svg}"
PACKAGE = Path(sheetgen.drawing.__file__).parent


def texts(svg: str) -> list[str]:
    return [element.text or "" for element in ET.fromstring(svg).iter(f"{SVG}text")]


@pytest.mark.parametrize("garment", GARMENTS)
def test_every_ref_stands_once_at_its_line_or_in_the_legend(garment):
    found = measures(garment)
    svg = diagram(garment, found)
    words, lines = texts(svg), re.findall(r'data-ref="([^"]+)"', svg)
    legend = " ".join(word for word in words if word.startswith("not drawn: "))
    for measure in found:
        named = len(re.findall(rf"\b{measure.ref} {re.escape(measure.name)}", legend))
        assert (words.count(measure.ref), lines.count(measure.ref), named) in {(1, 1, 0), (0, 0, 1)}, measure


@pytest.mark.parametrize(
    ("garment", "legend"),
    [
        ("t-shirt", ["not drawn: P16 minimum neck stretch"]),
        ("leggings", ["not drawn: P2 waist width, stretched (minimum)"]),
        ("trousers", []),
        ("jacket", []),
        ("dress", []),
        ("shirt", []),
    ],
)
def test_the_legend_names_what_is_not_drawn(garment, legend):
    assert [word for word in texts(diagram(garment, measures(garment))) if "not drawn" in word] == legend


def test_a_point_that_no_garment_knows_and_a_second_of_one_name_are_in_the_legend():
    found = [
        Measure("P1", "Chest width", 50, half=True),
        Measure("P2", "Loop to loop", 3, half=False),
        Measure("P3", "chest width", 51, half=True),
        Measure("P4", "Cuff opening, stretched, minimum", 12, half=True),
    ]
    assert "not drawn: P2 Loop to loop; P3 chest width; P4 Cuff opening, stretched, minimum" in texts(
        diagram("jacket", found)
    )


def test_a_long_legend_takes_more_lines_and_loses_nothing():
    found = [Measure(f"Q{number}", "a point that nobody has drawn before", 1, half=False) for number in range(40)]
    words = texts(diagram("skirt", found))
    start = next(index for index, word in enumerate(words) if word.startswith("not drawn: "))
    assert len(words[start:]) > 5
    assert re.findall(r"Q\d+", " ".join(words[start:])) == [f"Q{number}" for number in range(40)]


@pytest.mark.parametrize("garment", GARMENTS)
@pytest.mark.parametrize("steps", [-2, 0, 3])
def test_no_two_refs_overlap_and_all_are_on_the_page(garment, steps):
    root = ET.fromstring(diagram(garment, measures(garment, steps)))
    boxes = [[float(e.get(k)) for k in ("x", "y", "width", "height")] for e in root.iter(f"{SVG}rect") if e.get("rx")]
    _, _, wide, high = map(float, root.get("viewBox").split())
    for x, y, w, h in boxes:
        assert x >= 0 and x + w <= wide
        assert y >= 0 and y + h <= high
    for (x, y, w, h), (x2, y2, w2, h2) in combinations(boxes, 2):
        assert x + w <= x2 or x2 + w2 <= x or y + h <= y2 or y2 + h2 <= y


@pytest.mark.parametrize("garment", GARMENTS)
def test_all_text_reads_on_paper(garment):
    for svg in (diagram(garment, measures(garment)), nested(garment, all_sizes(garment))):
        sizes = [float(e.get("font-size")) for e in ET.fromstring(svg).iter(f"{SVG}text")]
        assert min(sizes) * 1100 / 1600 >= 11


@pytest.mark.parametrize("garment", ["shirt", "leggings"])
def test_it_becomes_a_picture_as_any_other_drawing(tmp_path, garment):
    path = tmp_path / "points.svg"
    path.write_text(diagram(garment, measures(garment)), "utf-8")
    image = Image.open(io.BytesIO(load(path).data)).convert("L")
    assert image.width == 1100
    assert image.getextrema() == (0, 255) or image.getextrema()[0] < 60


@pytest.mark.parametrize(
    "draw",
    [
        lambda words: diagram("skirt", [Measure(words, words, 5, half=True)], caption=words),
        lambda words: nested("skirt", [(words, [Measure(words, words, 5, half=True)])], caption=words),
    ],
)
@pytest.mark.parametrize(
    "words", ["<script>alert(1)</script>", 'a" onload="x', "a & b", "\x00\x1f tab\t", "x" * 4000, "\ud800"]
)
def test_text_is_only_text(draw, words):
    svg = draw(words)
    root = ET.fromstring(svg.encode("utf-8"))
    assert "<script" not in svg
    assert {name for element in root.iter() for name in element.attrib if name.startswith("on")} == set()


def test_words_come_out_as_they_went_in():
    assert 'Kids\' <jacket> & "hood"' in texts(diagram("jacket", [], caption='Kids\' <jacket> & "hood"'))


@pytest.mark.parametrize("garment", GARMENTS)
def test_the_same_numbers_draw_the_same_file(garment):
    assert diagram(garment, measures(garment)) == diagram(garment, tuple(measures(garment)))


def test_another_number_draws_another_file():
    assert diagram("shirt", measures("shirt")) != diagram("shirt", measures("shirt", 1))


def test_a_garment_nobody_can_draw_is_refused():
    with pytest.raises(ValueError, match="no drawing for 'sock'; known: t-shirt, sweatshirt"):
        diagram("sock", [])


def test_capital_letters_are_understood():
    assert diagram("T-shirt", measures("t-shirt")) == diagram("t-shirt", measures("t-shirt"))


VALUES = st.floats(min_value=1, max_value=300, allow_nan=False)


@st.composite
def any_style(draw):
    garment = draw(st.sampled_from(GARMENTS))
    base = measures(garment)
    kept = draw(st.lists(st.sampled_from(base), unique=True, max_size=len(base)))
    return garment, [Measure(m.ref, m.name, draw(VALUES), m.half) for m in kept]


@settings(max_examples=50, deadline=None)
@given(any_style())
def test_no_number_breaks_a_drawing(style):
    garment, found = style
    svg = diagram(garment, found)
    for one in (svg, nested(garment, [("a", found), ("b", measures(garment))])):
        assert "nan" not in one
        assert "inf" not in " ".join(e.get("d", "") for e in ET.fromstring(one).iter())
    for path in (e.get("d") for e in ET.fromstring(svg).iter() if e.get("class") == "outline"):
        numbers = [float(word) for word in re.findall(r"-?[\d.]+", path)]
        assert all(-1 <= x <= 1601 for x in numbers[::2])
        assert all(-1 <= y <= 1101 for y in numbers[1::2])
    for measure in found:
        assert re.search(rf"\b{measure.ref}\b", svg)


FEATURES = st.builds(
    Features,
    **{
        name: st.sampled_from(get_args(kind)) if get_args(kind) else st.booleans()
        for name, kind in get_type_hints(Features).items()
        if name != "hip_above_crotch_cm"
    },
)


@settings(max_examples=60, deadline=None)
@given(features=FEATURES, like=st.sampled_from(GARMENTS))
def test_no_features_together_break_a_drawing(features, like):
    """A garment may be declared with features that none has together today."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setitem(BY_WORD, like, replace(BY_WORD[like], features=features))
        for svg in (diagram(like, measures(like)), nested(like, all_sizes(like)[:2])):
            assert "nan" not in svg
            ET.fromstring(svg)
        drawn = diagram(like, measures(like))
    for measure in measures(like):
        assert re.search(rf"\b{measure.ref}\b", drawn)


@pytest.mark.parametrize("value", [0.0, -5.0, 1e-9, 1e6])
@pytest.mark.parametrize("garment", GARMENTS)
def test_nor_does_nothing_or_less(garment, value):
    assert "nan" not in diagram(garment, [Measure(m.ref, m.name, value, m.half) for m in measures(garment)])


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_what_is_no_number_is_not_drawn(value):
    found = [Measure("P1", "chest width", value, half=True), Measure("P2", "neck width", 18, half=False)]
    assert "not drawn: P1 chest width" in texts(diagram("t-shirt", found))
    assert "nan" not in nested("t-shirt", [("S", found), ("M", found)])


def test_the_colors_are_the_workbooks():
    ours = {name: getattr(palette, name) for name in ("INK", "FAINT", "RULE", "BAND")}
    assert ours == {name: getattr(look, name) for name in ours}
    assert (palette.INSIDE, palette.UNEVEN) == (look.HEADING, look.BAD)


def test_it_reads_no_file_and_imports_only_garments_the_trade_and_the_texts():
    for path in PACKAGE.glob("*.py"):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            names = (
                [a.name for a in node.names]
                if isinstance(node, ast.Import)
                else [node.module]
                if isinstance(node, ast.ImportFrom)
                else []
            )
            for name in names:
                assert (
                    name.startswith(("sheetgen.drawing", "sheetgen.garments", "sheetgen.trade", "sheetgen.texts"))
                    or name.split(".")[0] in sys.stdlib_module_names
                ), (path.name, name)
            assert not (isinstance(node, ast.Name) and node.id == "open"), path.name


def test_files_and_functions_stay_short():
    for path in PACKAGE.glob("*.py"):
        text = path.read_text("utf-8")
        assert len(text.splitlines()) < 300, path.name
        for node in ast.walk(ast.parse(text)):
            if isinstance(node, ast.FunctionDef):
                assert node.end_lineno - node.lineno < 40, (path.name, node.name)
