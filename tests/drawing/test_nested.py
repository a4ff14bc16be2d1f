"""Nested sizes: one outline a size, in order, growing where the steps do; an uneven step is said and marked."""

import itertools
import re
import xml.etree.ElementTree as ET

import pytest
from shapely.geometry import Polygon, box

from sheetgen.drawing import Measure, nested
from sheetgen.garments import BY_WORD

from .styles import GARMENTS, SIZES, all_sizes, measures

SVG = "{http://www.w3.org/2000/svg}"


def laid(svg: str) -> list[tuple[str, str, list[tuple[float, float]]]]:
    """Each size's outlines: the size, what piece it is, and its points."""
    found = []
    for element in ET.fromstring(svg).iter(f"{SVG}path"):
        if element.get("class") == "size":
            numbers = [float(word) for word in re.findall(r"-?[\d.]+", element.get("d"))]
            points = list(zip(numbers[::2], numbers[1::2], strict=True))
            found.append((element.get("data-size"), element.get("data-piece"), points))
    return found


def outlines(svg: str) -> list[tuple[str, list[tuple[float, float]]]]:
    return [(size, points) for size, piece, points in laid(svg) if not piece.startswith("Sleeve")]


def texts(svg: str) -> list[str]:
    return [element.text or "" for element in ET.fromstring(svg).iter(f"{SVG}text")]


def graded(steps: list[float], name: str = "chest width") -> list[tuple[str, list[Measure]]]:
    """T-shirts whose named point grows by these steps; all else stays."""
    sizes, more = [], 0.0
    for size, step in zip(SIZES, [0.0, *steps], strict=False):
        more += step
        sizes.append(
            (
                size,
                [
                    Measure(m.ref, m.name, m.value + (more if m.name == name else 0), m.half)
                    for m in measures("t-shirt")
                ],
            )
        )
    return sizes


@pytest.mark.parametrize("garment", GARMENTS)
def test_one_outline_for_each_size_in_order_and_each_in_the_legend(garment):
    svg = nested(garment, all_sizes(garment))
    assert [size for size, _ in outlines(svg)] == list(SIZES)
    assert [word for word in texts(svg) if word in SIZES] == list(SIZES)


@pytest.mark.parametrize("garment", GARMENTS)
def test_outlines_grow_where_the_steps_do(garment):
    drawn = [points for _, points in outlines(nested(garment, all_sizes(garment)))]
    for axis in (0, 1):
        ends = [max(point[axis] for point in points) for points in drawn]
        assert ends == sorted(ends)
        assert len(set(ends)) == len(ends)


def test_widths_in_the_file_grow_by_the_step_at_one_scale():
    svg = nested("t-shirt", all_sizes("t-shirt"))
    scale = sum(float(e.get("width")) for e in ET.fromstring(svg).iter() if e.get("height") == "9") / 10
    # The hem's corner is the last point but one of the half outline: half the bottom width from the center line.
    halves = [points[-2][0] - points[-1][0] for _, points in outlines(svg)]
    assert [half / scale for half in halves] == pytest.approx([24, 25.25, 26.5, 27.75, 29, 30.25], rel=0.002)


@pytest.mark.parametrize("garment", GARMENTS)
def test_all_sizes_hang_from_the_center_line_and_one_level(garment):
    drawn = [points for _, points in outlines(nested(garment, all_sizes(garment)))]
    if garment not in LEGGED:  # legs lie on each other at their middle
        assert {points[0][0] for points in drawn} == {drawn[0][0][0]}
    assert {min(y for _, y in points) for points in drawn} == {min(y for _, y in drawn[0])}


def test_each_size_has_its_own_line():
    svg = nested("shirt", all_sizes("shirt"))
    looks = {
        (e.get("stroke"), e.get("stroke-dasharray")) for e in ET.fromstring(svg).iter() if e.get("class") == "size"
    }
    assert len(looks) == len(SIZES)


def bars(svg: str) -> list[tuple[float, bool]]:
    return [
        (float(e.get("height")), e.get("fill") == "#F6CFC6")
        for e in ET.fromstring(svg).iter()
        if e.get("class") == "step"
    ]


def test_an_even_grade_has_equal_bars_and_says_even():
    svg = nested("t-shirt", all_sizes("t-shirt"))
    assert len({height for height, _ in bars(svg)}) == 1
    assert [marked for _, marked in bars(svg)] == [False] * 10
    assert "P3 chest width: even" in texts(svg)
    assert "P1 front length from high shoulder point: even" in texts(svg)
    assert texts(svg).count("+2.5") == 5


def test_an_uneven_step_is_marked_and_its_bar_stands_out():
    svg = nested("t-shirt", graded([2.5, 2.5, 4, 2.5, 2.5]))
    found = bars(svg)[:5]
    assert [marked for _, marked in found] == [False, False, True, False, False]
    assert found[2][0] / found[0][0] == pytest.approx(1.6, rel=0.01)
    assert "P3 chest width: uneven" in texts(svg)
    assert "+4" in texts(svg)


def test_a_step_backward_goes_down_from_the_line():
    svg = nested("t-shirt", graded([2.5, 2.5, -1, 2.5, 2.5]))
    assert "−1" in texts(svg)
    rects = [e for e in ET.fromstring(svg).iter() if e.get("class") == "step"]
    assert float(rects[2].get("y")) == pytest.approx(float(rects[1].get("y")) + float(rects[1].get("height")))


def test_half_a_millimeter_is_even_and_more_is_not():
    assert "P3 chest width: even" in texts(nested("t-shirt", graded([2.5, 2.54, 2.5, 2.5])))
    assert "P3 chest width: uneven" in texts(nested("t-shirt", graded([2.5, 2.56, 2.5, 2.5])))


def test_other_uneven_points_are_named():
    svg = nested("t-shirt", graded([1, 1, 3, 1, 1], "neck width"))
    assert "Uneven as well: P12" in texts(svg)


def test_steps_are_in_inches_where_the_sheet_is():
    svg = nested("t-shirt", graded([2.54] * 5), unit="in")
    assert texts(svg).count("+1") == 5
    assert "Step to the next size, in" in texts(svg)
    assert "4 in" in texts(svg)


@pytest.mark.parametrize("garment", GARMENTS)
def test_one_size_or_none_is_no_trouble(garment):
    assert len(outlines(nested(garment, all_sizes(garment)[:1]))) == 1
    assert outlines(nested(garment, [])) == []


def test_many_sizes_find_room():
    sizes = [(str(number), measures("trousers", number - 8)) for number in range(24)]
    root = ET.fromstring(nested("trousers", sizes))
    high = float(root.get("viewBox").split()[3])
    assert max(float(e.get("y")) for e in root.iter(f"{SVG}text")) < high


def parts(garment: str) -> dict[str, list[Polygon]]:
    """The outlines of all sizes by the piece that they are of."""
    found: dict[str, list[Polygon]] = {}
    for _, piece, points in laid(nested(garment, all_sizes(garment))):
        found.setdefault(piece, []).append(Polygon(points))
    return found


SLEEVED = [
    word
    for word, garment in BY_WORD.items()
    if garment.features.silhouette in {"top", "with a waist seam"} and garment.features.sleeves != "none"
]
LEGGED = [word for word, garment in BY_WORD.items() if garment.features.silhouette == "two legs"]


@pytest.mark.parametrize("garment", SLEEVED + LEGGED)
def test_sleeves_and_legs_lie_in_each_other_without_crossing(garment):
    """Each size by its own axis, as a pattern's do: drawn at another angle, they crossed at wrist and inseam."""
    straight = [sizes for words, sizes in parts(garment).items() if garment in LEGGED or words.startswith("Sleeve")]
    assert len(straight) == 1
    for small, large in itertools.pairwise(straight[0]):
        left, low, right, up = large.bounds
        # The armhole gets deeper from size to size: its lines leave the shoulder point side by side.
        below = box(left + 0.7 * (right - left) if garment in SLEEVED else left, low, right, up)
        assert small.area < large.area
        assert large.buffer(1.5).contains(small.intersection(below))


@pytest.mark.parametrize("garment", SLEEVED)
def test_a_sleeve_is_as_long_and_as_wide_as_measured(garment):
    svg = nested(garment, all_sizes(garment))
    scale = sum(float(e.get("width")) for e in ET.fromstring(svg).iter() if e.get("height") == "9") / 10
    (sleeves,) = [sizes for words, sizes in parts(garment).items() if words.startswith("Sleeve")]
    for (_, measured), sleeve in zip(all_sizes(garment), sleeves, strict=True):
        long = {m.name: m.value for m in measured}.get("sleeve length from shoulder")
        if long is not None:
            left, _, right, _ = sleeve.bounds
            assert (right - left) / scale == pytest.approx(long, rel=0.003)
