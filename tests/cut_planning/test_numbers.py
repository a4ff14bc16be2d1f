"""An order in numbers, a draft of its lays, and the first draft: worked out by hand. Quantities are invented."""

from __future__ import annotations

import pytest

from sheetgen.cut_planning import CutPlan, Lay, plan
from sheetgen.cut_planning.draft import Draft, draft_of
from sheetgen.cut_planning.greedy import _plies_of, first_draft
from sheetgen.cut_planning.order import Order, order_of


def test_an_order_is_what_is_ordered_of_each_color_and_size() -> None:
    quantities = {"Moss": {"S": 10, "M": 20, "XL": 0}, "Sand": {"S": 0}, "Slate": {"M": 0, "L": 7, "S": 5}}
    order = order_of(quantities, 5, 2, 0.05)
    assert order.colors == ("Moss", "Slate")
    assert order.sizes == ("S", "M", "L")
    assert order.need == ((10, 20, 0), (5, 0, 7))
    assert order.room == ((1, 1, 0), (1, 0, 1))  # 0.5, 1 and 0.35 pieces, rounded up
    assert (order.most_plies, order.most_garments, order.pieces) == (5, 2, 42)
    assert [order.most_pieces(0, 1), order.most_pieces(1, 0), order.most_pieces(1, 1)] == [21, 6, 0]


@pytest.mark.parametrize(
    ("pieces", "share", "room"), [(100, 0.07, 7), (101, 0.07, 8), (100, 0, 0), (100, 1, 100), (3, 0.01, 1)]
)
def test_the_allowance_is_the_share_as_it_was_written(pieces: int, share: float, room: int) -> None:
    assert order_of({"Moss": {"S": pieces}}, 10, 4, share).room == ((room,),)


def order(*need: tuple[int, ...], plies: int, garments: int, room: int = 0) -> Order:
    """An order of colors A, B, ... in sizes 1, 2, ..., of every cell of which `room` more may be cut."""
    colors = tuple("ABCDEFGHIJKL"[: len(need)])
    sizes = tuple(str(number) for number in range(1, len(need[0]) + 1))
    rooms = tuple(tuple(room for _ in row) for row in need)
    return Order(colors, sizes, need, rooms, plies, garments)


@pytest.mark.parametrize(
    ("found", "theory", "plies", "lays"),
    [
        (order((30,), plies=5, garments=2), 3, 15, 3),  # full lays of 10
        (order((31,), plies=5, garments=2), 4, 16, 4),
        (order((29,), plies=5, garments=2), 3, 15, 3),
        # Four sizes need a place each in the markers, two places are in a marker.
        (order((1, 1, 1, 1), plies=10, garments=2), 1, 2, 2),
        (order((1, 1, 1, 1, 1), plies=10, garments=2), 1, 3, 3),
        # A size of 11 needs two places.
        (order((11, 10), plies=10, garments=2), 2, 11, 2),
        # Twelve colors need a ply each, five plies are in a lay.
        (order(*[(1,)] * 12, plies=5, garments=4), 1, 12, 3),
        (order((3, 2), (4, 0), plies=5, garments=4), 1, 3, 1),  # 5 and 4 pieces on 2 plies and 1
    ],
)
def test_the_counts_below_which_no_plan_can_be(found: Order, theory: int, plies: int, lays: int) -> None:
    assert (found.least_in_theory, found.fewest_plies, found.fewest_lays) == (theory, plies, lays)


@pytest.mark.parametrize(
    ("plies", "garments", "over", "says"),
    [
        (0, 4, 0, "A lay can't be at most 0 plies high; give a whole number from 1."),
        (2.5, 4, 0, "A lay can't be at most 2.5 plies high; give a whole number from 1."),
        (True, 4, 0, "A lay can't be at most True plies high; give a whole number from 1."),
        (10, 0, 0, "A marker can't hold at most 0 garments; give a whole number from 1."),
        (10, 1.5, 0, "A marker can't hold at most 1.5 garments; give a whole number from 1."),
        (10, 4, -0.01, "An allowance of -0.01 is no share; give a number from 0 (never over) to 1 (as many again)."),
        (10, 4, 1.01, "An allowance of 1.01 is no share; give a number from 0 (never over) to 1 (as many again)."),
    ],
)
def test_limits_that_are_none(plies, garments, over, says: str) -> None:
    with pytest.raises(ValueError, match="give a") as caught:
        order_of({"Moss": {"S": 10}}, plies, garments, over)
    assert str(caught.value) == says


@pytest.mark.parametrize(("plies", "garments", "over"), [(1, 1, 0), (1, 1, 1)])
def test_the_smallest_limits(plies: int, garments: int, over: float) -> None:
    assert order_of({"Moss": {"S": 10}}, plies, garments, over).least_in_theory == 10


@pytest.mark.parametrize(
    ("pieces", "says"),
    [
        (2.5, "2.5 pieces of Moss in size S can't be cut; give a whole number from 0."),
        (True, "True pieces of Moss in size S can't be cut; give a whole number from 0."),
        (-1, "-1 pieces of Moss in size S can't be cut; give 0 or more."),
    ],
)
def test_pieces_that_cannot_be_cut(pieces, says: str) -> None:
    with pytest.raises(ValueError, match="can't be cut") as caught:
        order_of({"Moss": {"M": 3, "S": pieces}}, 10, 4, 0)
    assert str(caught.value) == says


@pytest.mark.parametrize("quantities", [{}, {"Moss": {}}, {"Moss": {"S": 0}}])
def test_an_order_without_pieces(quantities) -> None:
    with pytest.raises(ValueError, match="An order without pieces has no cut plan; give the quantity of one size"):
        order_of(quantities, 10, 4, 0)


TWO = order((10, 20), (5, 0), plies=8, garments=3, room=2)
"""Two colors, two sizes."""


def test_a_draft_has_each_marker_once_in_falling_order_and_no_empty_ones() -> None:
    draft = draft_of(TWO, [([0, 1], (4, 0)), ((1, 2), (5, 1)), ([0, 0], [3, 3]), ([0, 1], [6, 1]), ((1, 0), (0, 0))])
    assert draft == Draft(TWO, (((1, 2), (5, 1)), ((0, 1), (10, 1))))


def test_what_a_draft_cuts() -> None:
    draft = Draft(TWO, (((1, 2), (5, 1)), ((1, 0), (5, 4))))
    assert draft.plies == 15
    assert draft.lays == 3  # 6 plies in one lay, 9 in two
    assert [draft.over_of(color, size) for color in (0, 1) for size in (0, 1)] == [0, -10, 0, 2]
    assert draft.over == 18 + 9 - 35
    assert draft.rank == (3, -8, 2, 15)


@pytest.mark.parametrize(
    ("cuts", "fits"),
    [
        ([((1, 2), (10, 0)), ((1, 0), (0, 5))], True),
        ([((1, 2), (10, 0)), ((1, 0), (1, 5))], True),  # one more
        ([((1, 2), (10, 0)), ((1, 0), (2, 5))], True),  # two more, as many as may be
        ([((1, 2), (10, 0)), ((1, 0), (3, 5))], False),
        ([((1, 2), (10, 0)), ((1, 0), (0, 4))], False),  # one short
        ([((1, 1), (10, 0)), ((0, 1), (10, 0)), ((1, 0), (0, 5))], True),
        ([((1, 3), (7, 0)), ((1, 0), (3, 5))], False),  # four garments in a marker of three
        ([((0, 3), (7, 0)), ((1, 0), (10, 5))], True),
    ],
)
def test_a_draft_fits_when_nothing_is_short_or_beyond_its_allowance(cuts, fits: bool) -> None:
    assert draft_of(TWO, cuts).fits is fits


def test_plies_are_dealt_out_color_after_color_each_lay_full_before_the_next() -> None:
    draft = Draft(TWO, (((1, 2), (10, 7)), ((1, 0), (3, 0))))
    assert draft.laid == [((1, 2), (8, 0)), ((1, 2), (2, 6)), ((1, 2), (0, 1)), ((1, 0), (3, 0))]


@pytest.mark.parametrize(
    ("found", "cuts"),
    [
        (order((10,), plies=5, garments=2), [((2,), (5,))]),
        (order((10, 10), plies=10, garments=2), [((1, 1), (10,))]),
        (order((11, 10), plies=10, garments=2), [((1, 1), (10,)), ((1, 0), (1,))]),
        # A wider marker that cuts no more than the narrower one is not taken.
        (order((4,), plies=10, garments=3), [((1,), (4,))]),
        (order((5,), plies=10, garments=3), [((1,), (5,))]),
        (order((6,), plies=3, garments=3), [((2,), (3,))]),
        # The same lay again and again.
        (order((40,), plies=10, garments=1), [((1,), (40,))]),
        (order((9, 3), plies=3, garments=4), [((3, 1), (3,))]),
        # The color with most first, the next one takes what is left of the lay.
        (order((4,), (6,), plies=8, garments=1), [((1,), (4, 6))]),
        (order((2, 2), (6, 6), plies=7, garments=2), [((1, 1), (2, 6))]),
        # The size that misses most is begun with.
        (order((1, 9), plies=9, garments=1), [((1, 0), (1,)), ((0, 1), (9,))]),
    ],
)
def test_the_first_draft(found: Order, cuts) -> None:
    draft = first_draft(found)
    assert draft == draft_of(found, cuts)
    assert draft.fits
    assert draft.over == 0


@pytest.mark.parametrize(
    ("missing", "marker", "plies"),
    [
        ([[4], [6]], [1], (2, 6)),  # the color with most first, the other gets what is left of 8
        ([[6], [4]], [1], (6, 2)),
        ([[5], [5]], [1], (5, 3)),  # of two alike the first
        ([[20], [4]], [1], (8, 0)),
        ([[20], [4]], [3], (6, 1)),  # three garments of the size a ply
        ([[9, 2], [8, 8]], [2, 1], (2, 4)),
        ([[9, 0], [8, 8]], [2, 1], (0, 4)),
    ],
)
def test_the_plies_of_a_marker_cut_only_what_is_missing(missing, marker, plies) -> None:
    found = order(*map(tuple, missing), plies=8, garments=3)
    assert _plies_of(found, missing, marker) == plies


def test_a_lay_and_a_plan_in_numbers() -> None:
    first, second = Lay({"S": 1, "M": 2}, {"Moss": 5, "Slate": 1}), Lay({"M": 2, "S": 1}, {"Moss": 3})
    third = Lay({"S": 2}, {"Slate": 4})
    assert [(lay.height, lay.pieces) for lay in (first, second, third)] == [(6, 18), (3, 9), (4, 8)]
    found = CutPlan((first, second, third), {"Moss": {"S": 1, "M": 0}, "Slate": {"S": 2}}, 3, 2)
    assert (found.markers, found.pieces_over, found.proved) == (2, 3, True)
    assert CutPlan((first, second, third), {}, 2, 2).proved is False


def test_a_plan_comes_back_by_the_names_of_the_order() -> None:
    found = plan({"Moss": {"S": 2, "M": 4, "L": 0}}, 4, 3)
    # Six pieces: one garment of S and two of M on two plies.
    assert found == CutPlan((Lay({"S": 1, "M": 2}, {"Moss": 2}),), {"Moss": {"S": 0, "M": 0}}, 1, 1)


def test_nothing_is_cut_over_the_order_unless_it_is_allowed() -> None:
    # Three pieces with two garments in a marker and two plies: one more piece saves a lay.
    kept = plan({"Moss": {"S": 3}}, 2, 2)
    assert (len(kept.lays), kept.pieces_over) == (2, 0)
    freer = plan({"Moss": {"S": 3}}, 2, 2, 0.3)
    assert freer == CutPlan((Lay({"S": 2}, {"Moss": 2}),), {"Moss": {"S": 1}}, 1, 1)


def test_who_plans_hears_what_is_looked_for() -> None:
    said: list[str] = []
    plan({"Moss": {"S": 7, "M": 11}, "Slate": {"S": 5, "M": 3}}, 4, 3, progress=said.append)
    assert said
    assert all(words == words.strip() and words for words in said)


def test_plies_and_garments_are_not_exchanged() -> None:
    found = plan({"sand": {"S": 40}}, 10, 2)
    assert [(lay.height, sum(lay.garments.values())) for lay in found.lays] == [(10, 2), (10, 2)]


def test_what_is_proved_and_what_theory_says_are_told_apart() -> None:
    # Three sizes of one piece: 3 of 120 places in one lay, but a marker of two garments holds two sizes only.
    found = plan({"sand": {"S": 1, "M": 1, "L": 1}}, 60, 2)
    assert (found.in_theory, found.least, len(found.lays), found.proved) == (1, 2, 2, True)


def test_a_lay_names_only_what_it_holds() -> None:
    found = plan({"sand": {"S": 1, "M": 1, "L": 1}, "rust": {"S": 1}}, 60, 2)
    assert all(all(lay.garments.values()) and all(lay.plies.values()) for lay in found.lays)
    assert {len(lay.garments) for lay in found.lays} <= {1, 2}
