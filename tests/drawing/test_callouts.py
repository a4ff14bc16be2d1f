"""Marks around a picture: laws of their placing, held by another library's geometry."""

from __future__ import annotations

import random
import re
from itertools import combinations

import pytest
from shapely.geometry import LineString, Point

from sheetgen.drawing.callouts import Box, Target, marks_of, placed

SIZES = ((1000, 1000), (600, 1100), (1400, 700), (1100, 360))
"""Pictures as flats have them: square, tall as trousers, wide as a spread shirt, wide as a cap."""


def targets(seed: int) -> tuple[list[Target], tuple[int, int]]:
    """Five to thirty places on a picture, some of them very near to each other, as stitches on one collar are."""
    chance = random.Random(seed)
    found = []
    for number in range(5 + seed % 26):
        if found and chance.random() < 0.3:
            near = found[-1]
            across, down = near.across + chance.uniform(-0.02, 0.02), near.down + chance.uniform(-0.02, 0.02)
        else:
            across, down = chance.random(), chance.random()
        found.append(Target(f"N{number + 1}", min(max(across, 0), 1), min(max(down, 0), 1)))
    return found, SIZES[seed % len(SIZES)]


@pytest.mark.parametrize("seed", range(240))
def test_circles_stand_beside_the_picture_apart_and_no_two_lines_cross(seed):
    wanted, (width, height) = targets(seed)
    around = placed(wanted, width, height)
    assert [mark.word for mark in sorted(around.marks, key=lambda one: int(one.word[1:]))] == [
        one.word for one in wanted
    ]
    left, top, right, bottom = around.frame
    ends = {one.word: (one.across * width, one.down * height) for one in wanted}
    for mark in around.marks:
        assert left <= mark.x - around.radius
        assert mark.x + around.radius <= right
        assert top <= mark.y - around.radius + 1e-6
        assert mark.y + around.radius <= bottom + 1e-6
        assert mark.x + around.radius < 0 or mark.x - around.radius > width, "a circle on the picture"
        assert (mark.to_x, mark.to_y) == pytest.approx(ends[mark.word]), "the line ends where its row points"
    for one, other in combinations(around.marks, 2):
        assert Point(one.x, one.y).distance(Point(other.x, other.y)) >= 2 * around.radius
        first, second = (LineString([(mark.x, mark.y), (mark.to_x, mark.to_y)]) for mark in (one, other))
        assert not first.crosses(second), (one, other)


def test_only_what_is_drawn_counts_and_a_target_outside_of_it_is_still_reached():
    around = placed([Target("N1", 0.5, 0.5), Target("N2", 0.95, 0.5)], 1000, 1000, Box(300, 200, 700, 800))
    by_word = {mark.word: mark for mark in around.marks}
    assert 200 < by_word["N1"].x + around.radius < 300
    assert by_word["N2"].x > 950


def test_the_same_marks_give_the_same_drawing():
    wanted, (width, height) = targets(3)
    assert marks_of(placed(wanted, width, height)) == marks_of(placed(list(wanted), width, height))
    assert (
        marks_of(placed([Target("<&", 0.1, 0.1)], width, height)).count("&lt;&amp;") == 2
    )  # as whose row the circle is, and in it


def test_a_circle_stands_on_the_side_of_what_it_speaks_of():
    one = placed([Target("N1", 0.9, 0.2)], 400, 600).marks[0]
    assert one.x > 400
    two = {mark.word: mark for mark in placed([Target("N1", 0.7, 0.2), Target("N2", 0.8, 0.6)], 400, 600).marks}
    assert two["N1"].x == two["N2"].x > 400
    left = placed([Target("N1", 0.1, 0.2), Target("N2", 0.2, 0.6), Target("N3", 0.6, 0.5)], 400, 600).marks
    assert [mark.x < 0 for mark in left] == [mark.word != "N3" for mark in left]


def test_a_full_side_gives_to_the_other_what_is_nearest_to_it():
    many = placed([Target(f"N{n}", 0.5 + n / 100, n / 40) for n in range(1, 40)], 400, 600).marks
    left = {mark.word for mark in many if mark.x < 0}
    right = {mark.word for mark in many if mark.x > 400}
    assert len(left) + len(right) == 39
    assert left and right
    assert abs(len(left) - len(right)) <= 1


COLUMN, HEIGHT = 97 / 25.4 * 72, 130 / 25.4 * 72
"""Points that the pack has for a flat beside its callouts."""


@pytest.mark.parametrize("count", [1, 2, 9, 12, 20, 30])
@pytest.mark.parametrize("size", SIZES)
def test_however_many_there_are_their_numbers_are_read_on_paper(count, size):
    chance = random.Random(count)
    wanted = [Target(f"N{number}", chance.random(), chance.random()) for number in range(1, count + 1)]
    around = placed(wanted, *size)
    left, top, right, bottom = around.frame
    scale = min(COLUMN / (right - left), HEIGHT / (bottom - top))
    written = [float(one) for one in re.findall(r'font-size="([\d.]+)"', marks_of(around))]
    assert len(written) == count
    assert min(written) * scale >= 7
