"""The points of measure of each garment are whole; their values are common practice and are not judged here."""

import pytest

from sheetgen.drawing.names import NAMES
from sheetgen.garments import BY_WORD, GARMENTS, POINTS

EVERY = [pytest.param(garment, id=word) for word, garment in BY_WORD.items()]


@pytest.mark.parametrize(
    ("word", "count"),
    [
        ("t-shirt", 17),
        ("sweatshirt", 13),
        ("hooded sweatshirt", 17),
        ("shirt", 20),
        ("trousers", 15),
        ("skirt", 10),
        ("dress", 18),
        ("jacket", 16),
        ("leggings", 12),
    ],
)
def test_a_garment_has_all_its_points(word, count):
    assert len(BY_WORD[word].points) == count


@pytest.mark.parametrize("garment", EVERY)
def test_each_point_can_be_measured(garment):
    names = [point.point for point in garment.points]
    assert len(names) == len(set(names)) >= 8
    assert set(names) <= set(POINTS)
    for point in garment.points:
        assert point.point == point.point.lower(), point
        assert point.how, point
        assert point.half_or_full in {"half", "full"}, point
        assert point.runs in {"length", "width", "other"}, point
        assert point.base_cm > 0, point
        assert point.step_cm >= 0, point
        assert (point.tolerance_cm == 0) == point.is_minimum, point


@pytest.mark.parametrize("garment", EVERY)
def test_what_the_points_leave_out_is_in_the_drawings_words_and_said_once(garment):
    measured = {NAMES.get(point.point) or NAMES.get(point.point.partition(",")[0]) for point in garment.points}
    assert set(garment.starting) <= set(NAMES.values())
    assert not set(garment.starting) & measured
    assert all(value > 0 for value in garment.starting.values())


@pytest.mark.parametrize("garment", [pytest.param(one, id=one.word) for one in GARMENTS if one.hooded])
def test_with_a_hood_a_garment_has_all_its_points_in_front_of_the_hoods(garment):
    points = garment.hooded.points
    assert points[: len(garment.points)] == garment.points
    assert any("hood" in point.point for point in points[len(garment.points) :])
    assert garment.hooded.features.hood
    assert not garment.features.hood


def test_a_point_is_what_its_row_says():
    chest = next(point for point in BY_WORD["t-shirt"].points if point.point == "chest width")
    assert chest.how == "edge to edge, 2.5 cm below armhole"
    assert (chest.half_or_full, chest.base_cm, chest.step_cm, chest.tolerance_cm) == ("half", 53, 2.5, 1)
