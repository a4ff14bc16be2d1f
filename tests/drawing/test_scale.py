"""The drawing is to scale: outline and measured lines are as long as the numbers, at every size."""

import math
import re
import xml.etree.ElementTree as ET
from itertools import pairwise

import pytest

from sheetgen.drawing import Measure, diagram
from sheetgen.drawing.garments import views
from sheetgen.drawing.measures import key_of
from sheetgen.drawing.shapes import length
from sheetgen.garments import BY_WORD

from .styles import GARMENTS, STEPS, all_sizes, measures

CLOSE = 0.005
"""Half a percent: a quarter of a centimeter on a chest, less than the line is thick."""
OTHERWISE_GIVEN = {"sleeve length from center back neck": 0.01, "sleeve length from center back": 0.01}
"""It follows from shoulder and sleeve length; given beside them it can only be nearly true."""
GIRTHS = {"chest", "waist", "hip", "high hip", "bottom", "thigh", "knee", "calf", "leg"}
EVERY_SIZE = [(garment, steps) for garment in GARMENTS for steps in STEPS.values()]

CORNERS = {
    "high shoulder": "neck",
    "shoulder": "shoulder",
    "underarm": "chest",
    "waist": "waist",
    "hip": "hip",
    "hem side": "bottom",
}
"""Corner of the outline -> what is measured from it to its like on the other side, in the drawing's words."""


def by_key(found: list[Measure]) -> dict[str, float]:
    return {key_of(measure.name): measure.value for measure in found if key_of(measure.name)}


@pytest.mark.parametrize(("garment", "steps"), EVERY_SIZE)
def test_the_outline_is_as_wide_as_the_measures(garment, steps):
    given, front = by_key(measures(garment, steps)), views(garment, measures(garment, steps))[0]
    legs = BY_WORD[garment].features.silhouette == "two legs"
    held = [spot for spot, key in CORNERS.items() if spot in front.spots and key in given]
    if legs:
        held.remove("hip")  # measured over three points
    assert len(held) >= (1 if legs else 3)
    for spot in held:
        corner = front.spots[spot]
        assert 2 * corner.x == pytest.approx(given[CORNERS[spot]], rel=CLOSE), spot
        assert min(corner.distance(point) for point in front.silhouette) < 0.01, spot


@pytest.mark.parametrize(
    ("garment", "steps"), [one for one in EVERY_SIZE if BY_WORD[one[0]].features.silhouette != "two legs"]
)
def test_the_outline_is_as_long_as_the_measures(garment, steps):
    given, front = by_key(measures(garment, steps)), views(garment, measures(garment, steps))[0]
    if BY_WORD[garment].features.silhouette == "waist to hem":
        long = given["back length"]
    elif "length" in given:
        long = given["length"]
    else:
        long = given["back length"] + BY_WORD[garment].starting["back neck drop"]
    top = front.spots.get("high shoulder", front.silhouette[0])
    assert front.spots["hem center"].y - top.y == pytest.approx(long, rel=CLOSE)
    assert max(point.y for point in front.silhouette) == pytest.approx(front.spots["hem center"].y, abs=0.01)


@pytest.mark.parametrize(("garment", "steps"), EVERY_SIZE)
def test_every_measured_line_is_as_long_as_its_value(garment, steps):
    found = measures(garment, steps)
    lines = {span.key: length(span.path) for view in views(garment, found) for span in view.spans}
    missing = [measure.name for measure in found if key_of(measure.name) not in lines]
    assert missing == [point.point for point in BY_WORD[garment].points if point.is_minimum]
    for measure in found:
        if measure.name not in missing:
            near = OTHERWISE_GIVEN.get(measure.name, CLOSE)
            assert lines[key_of(measure.name)] == pytest.approx(measure.value, rel=near), measure.name


@pytest.mark.parametrize("garment", GARMENTS)
def test_widths_reach_from_edge_to_edge(garment):
    front = views(garment, measures(garment))[0]
    edges = list(pairwise(front.silhouette))
    given = {key_of(measure.name) for measure in measures(garment)}
    for span in front.spans:
        if span.key in GIRTHS & given and span.path[-1].x > 0:
            assert min(off(span.path[-1], *edge) for edge in edges) < 0.05, span.key


def off(point, a, b):
    """How far a point lies from a straight piece."""
    long = a.distance(b)
    if not long:
        return point.distance(a)
    part = ((point.x - a.x) * (b.x - a.x) + (point.y - a.y) * (b.y - a.y)) / long**2
    return point.distance(a.toward(b, min(max(part, 0), 1)))


@pytest.mark.parametrize("garment", GARMENTS)
def test_the_outline_is_the_same_left_and_right(garment):
    for view in views(garment, measures(garment))[:2]:
        points = {
            (round(p.x, 6), round(p.y, 6))
            for s in view.strokes
            if s.kind == "outline"
            for path in s.paths
            for p in path
            if abs(p.x) > 1e-6
        }
        assert points == {(-x, y) for x, y in points}


def drawn_lines(svg: str) -> dict[str, list[tuple[float, float]]]:
    """The dimension line of each ref as drawn, in units of the drawing."""
    found = {}
    for element in ET.fromstring(svg).iter():
        if "data-ref" in element.attrib:
            numbers = [float(word) for word in re.findall(r"-?[\d.]+", element.get("d"))]
            found[element.get("data-ref")] = list(zip(numbers[::2], numbers[1::2], strict=True))
    return found


def units_for_a_cm(svg: str, bar: float = 10) -> float:
    """From the scale bar: two boxes of one height, 9 units."""
    halves = [float(e.get("width")) for e in ET.fromstring(svg).iter() if e.get("height") == "9"]
    assert len(halves) == 2
    return sum(halves) / bar


@pytest.mark.parametrize(
    ("garment", "names"),
    [
        ("t-shirt", ["chest width", "bottom width", "across shoulder", "across back", "center back length", "front length from high shoulder point", "neck width", "sleeve opening", "sleeve length", "armhole straight"]),
        ("hooded sweatshirt", ["chest width", "bottom width, rib relaxed", "cuff opening, relaxed", "hood height", "hood width", "pocket width at bottom", "pocket opening length"]),
        ("shirt", ["chest width", "waist width", "bottom width", "center back length", "chest pocket width"]),
        ("trousers", ["waist width, straight", "hip width (seat)", "thigh width", "knee width", "leg opening", "fly length", "back pocket width"]),
        ("skirt", ["waist width", "high hip width", "hip width", "bottom sweep", "center back length", "zip opening length", "vent length"]),
        ("dress", ["bust width", "waist width", "hip width", "bottom sweep", "waist position", "hip position"]),
        ("jacket", ["chest width", "bottom width", "front zip length", "pocket opening", "center back length"]),
        ("leggings", ["waist width, relaxed", "hip width", "calf width", "leg opening"]),
    ],
)  # fmt: skip
@pytest.mark.parametrize("steps", [-2, 0, 3])
def test_the_lines_in_the_file_measure_true_by_its_scale_bar(garment, names, steps):
    found = measures(garment, steps)
    svg = diagram(garment, found)
    lines, scale = drawn_lines(svg), units_for_a_cm(svg)
    for name in names:
        measure = next(measure for measure in found if measure.name == name)
        long = sum(math.dist(a, b) for a, b in pairwise(lines[measure.ref]))
        assert long / scale == pytest.approx(measure.value, rel=CLOSE), name


def test_details_at_twice_the_scale_measure_double_and_say_so():
    svg = diagram("shirt", measures("shirt"))
    lines, scale = drawn_lines(svg), units_for_a_cm(svg)
    assert math.dist(*lines["P1"]) / scale == pytest.approx(2 * 40, rel=CLOSE)
    assert "collar, laid open (2 × the scale)" in svg


def test_the_scale_bar_is_four_inches_where_the_sheet_is_in_inches():
    metric, inches = (diagram("t-shirt", measures("t-shirt"), unit=unit) for unit in ("cm", "in"))
    assert units_for_a_cm(metric) == pytest.approx(units_for_a_cm(inches, 10.16), rel=CLOSE)
    assert ">10 cm<" in metric
    assert ">4 in<" in inches


def test_a_girth_given_all_round_is_drawn_flat():
    whole = [Measure("P1", "Chest width", 106, half=False), Measure("P2", "Across shoulder", 46, half=False)]
    front = views("t-shirt", whole)[0]
    assert front.spots["chest"].x == 26.5
    assert front.spots["shoulder"].x == 23


def test_what_is_not_given_follows_in_proportion():
    half_size = [Measure("P1", "chest width", 26.5, half=True)]
    front = views("t-shirt", half_size)[0]
    assert front.spots["chest"].x == 13.25
    assert front.spots["shoulder"].x == pytest.approx(11.5)  # the 46 cm declared, halved twice
    assert front.spots["hem center"].y == pytest.approx(36)  # its 72 cm, halved


def test_a_front_length_follows_from_the_back_and_the_neck_drop():
    given = [Measure("P1", "Center back length", 70, half=False), Measure("P2", "Back neck drop", 2.5, half=False)]
    assert views("jacket", given)[0].spots["hem center"].y == 72.5


def test_a_garment_without_any_number_is_as_declared_at_its_base_size():
    assert views("trousers", [])[0].spots["waist"].x == 21.5
    assert all_sizes("trousers")[2][1] == measures("trousers")
