"""Flats: whole, symmetric, colored by part, for all garments, sizes and odd figures."""

from __future__ import annotations

import itertools
import math
import re
from xml.etree import ElementTree

import pytest
from shapely.geometry import LineString, Polygon

from sheetgen.drawing import Colors, Measure, flat
from sheetgen.drawing.flat import mixed
from sheetgen.drawing.garments import views
from sheetgen.garments import BY_WORD
from sheetgen.trade.contrast import contrast

SVG = "{http://www.w3.org/2000/svg}"
HANG = 0.98


def measures(word: str, factor: float = 1.0) -> list[Measure]:
    points = BY_WORD[word].points
    return [
        Measure(f"P{number}", one.point, one.base_cm * factor, one.half_or_full == "half")
        for number, one in enumerate(points, 1)
    ]


def paths(drawing: str) -> list[tuple[dict[str, str], list[list[tuple[float, float]]]]]:
    """Each path's attributes and its polylines."""
    found = []
    for element in ElementTree.fromstring(drawing).iter(f"{SVG}path"):
        lines = [
            [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+) (-?[\d.]+)", part)]
            for part in element.attrib["d"].split("M") if part
        ]  # fmt: skip
        found.append((element.attrib, lines))
    return found


@pytest.mark.parametrize("word", list(BY_WORD))
@pytest.mark.parametrize("back", [False, True])
@pytest.mark.parametrize("factor", [0.5, 1.0, 1.6])
def test_all_of_it_is_on_the_drawing_and_both_halves_are_alike(word, back, factor):
    drawing = flat(word, measures(word, factor), back=back)
    root = ElementTree.fromstring(drawing)
    width, height = (float(root.attrib[name]) for name in ("width", "height"))
    assert max(width / 1000, height / 1100) <= 1.001
    outlines = [lines for attributes, lines in paths(drawing) if attributes["stroke-width"] == "4.2"]
    points = {(round(x, 1), round(y, 1)) for line in itertools.chain(*outlines) for x, y in line}
    assert len(points) > 20
    assert all(0 < x < width and 0 < y < height for x, y in points)
    for x, y in points:
        assert any(abs(width - x - one) <= 0.3 and abs(y - other) <= 0.3 for one, other in points), (x, y)


@pytest.mark.parametrize("word", ["hooded sweatshirt"])
def test_a_hood_is_wider_than_the_neck_and_covers_it(word):
    for front, view in enumerate(views(word, measures(word), HANG)[1::-1]):
        hood = next(one for one in view.strokes if one.part == "hood" and one.kind == "cloth").paths[0]
        high = view.spots["high shoulder"].x
        assert max(point.x for point in hood) > 1.1 * high
        shape = Polygon([(point.x, point.y) for point in hood])
        assert shape.is_valid
        neck = [
            point
            for point in view.silhouette
            if point.y >= 0 and point.x <= high + 1e-6 and point.y <= view.spots["neck"].y
        ]
        assert all(shape.buffer(0.01).covers(LineString([(p.x, p.y), (p.x, p.y - 0.5)])) for p in neck[:-2]), front


@pytest.mark.parametrize("word", ["trousers", "leggings", "skirt"])
def test_a_hip_is_round(word):
    """Below the waistband, from one short piece of the side seam to the next, it turns by some degrees and never by a corner."""
    side = views(word, measures(word))[0].silhouette
    top = min(point.y for point in side)
    down = [point for point in side[: len(side) // 2] if top + 9 < point.y < top + 40]
    angles = [math.atan2(b.x - a.x, b.y - a.y) for a, b in itertools.pairwise(down) if a.distance(b) > 0.2]
    assert len(angles) > 5
    assert max(abs(b - a) for a, b in itertools.pairwise(angles)) < math.radians(9)


def test_parts_have_their_colors():
    colors = Colors(
        {"body": "#224466", "rib": "#AA3311", "button": "#FFFFFF", "stitch": "#DDCC00", "inside": "#998877"}
    )
    shirt = flat("shirt", measures("shirt"), colors=colors)
    fills = [attributes["fill"] for attributes, _ in paths(shirt)]
    assert {"#224466", "#FFFFFF", "#998877", "none"} == set(fills)
    assert any(attributes["stroke"] == "#DDCC00" and "stroke-dasharray" in attributes for attributes, _ in paths(shirt))
    sweatshirt = flat("sweatshirt", measures("sweatshirt"), colors=colors)
    assert [attributes["fill"] for attributes, _ in paths(sweatshirt)].count("#AA3311") >= 3
    plain = flat("shirt", measures("shirt"))
    assert {attributes["fill"] for attributes, _ in paths(plain)} == {"none", "#FFFFFF", "#E2E2E2"}


@pytest.mark.parametrize("ground", ["#000000", "#FFFFFF", "#5B6B4A", "#808080", "#1F2A31", "#F4F6F7"])
def test_lines_can_be_told_from_what_they_lie_on(ground):
    """Contrast by the W3C's formula, for what is not text at least 3 (WCAG 2.1, 1.4.11)."""
    colors = Colors({"body": ground})
    for stroke in (one for view in views("shirt", measures("shirt"))[:1] for one in view.strokes if one.kind == "seam"):
        assert contrast(colors.line(stroke)[1:], ground[1:]) >= 3


def test_colors_are_mixed():
    assert mixed("#000000", "#FFFFFF", 0.5) == "#808080"


def test_an_unknown_garment_is_refused():
    with pytest.raises(ValueError, match="no drawing for 'kilt'"):
        flat("kilt", [])
