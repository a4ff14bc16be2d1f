"""Cut pieces: what they refuse, how a pair is counted, and which points of the sheet shape them."""

import pytest

from sheetgen.drawing import Measure
from sheetgen.garments import OUTLINES
from sheetgen.nesting import DETAILS, Piece, details_of


@pytest.mark.parametrize(
    ("wrong", "sentence"),
    [
        ({"outline": "cape"}, f"Y1 Front in size M: no outline 'cape'; known: {', '.join(OUTLINES)}"),
        ({"length": 0}, "Y1 Front in size M: its length of 0 cm is not between 0.1 and 10000 cm"),
        ({"width": -3}, "Y1 Front in size M: its width of -3 cm is not between 0.1 and 10000 cm"),
        ({"width": float("nan")}, "Y1 Front in size M: its width of nan cm is not between 0.1 and 10000 cm"),
        ({"length": float("inf")}, "Y1 Front in size M: its length of inf cm is not between 0.1 and 10000 cm"),
        ({"count": -1}, "Y1 Front in size M: its count of -1 is below 0"),
    ],
)
def test_a_piece_that_no_one_can_cut_is_refused_in_one_sentence(wrong, sentence):
    right = {"ref": "Y1", "name": "Front", "outline": "front", "length": 75, "width": 54, "size": "M"}
    with pytest.raises(ValueError) as refused:
        Piece(**{**right, **wrong})
    assert str(refused.value) == sentence


@pytest.mark.parametrize(
    ("count", "mirrored", "hands"),
    [
        (1, False, (1, 0)),
        (2, False, (2, 0)),
        (2, True, (1, 1)),
        (4, True, (2, 2)),
        (3, True, (2, 1)),
        (0, True, (0, 0)),
    ],
)
def test_every_second_piece_of_a_pair_is_the_mirror_image(count, mirrored, hands):
    assert Piece("Y1", "Sleeve", "sleeve", 24, 41, count, mirrored).hands == hands


def test_details_come_from_the_points_of_the_sheet_as_they_lie_flat():
    found = details_of(
        [
            Measure("P1", "Chest width", 104, half=False),
            Measure("P2", "Front neck drop", 9.5, half=True),
            Measure("P3", "Neck width", float("nan"), half=True),
            Measure("P4", "Cuff height", 6, half=True),
            Measure("P5", "Chest width, stretched", 130, half=False),
            Measure("P6", "Pocket that no library knows", 6, half=True),
        ]
    )
    assert found == {"chest": 52, "neck drop": 9.5}  # a girth is halved; a cuff's height shapes no outline


def test_all_details_but_four_are_words_of_the_drawing():
    from sheetgen.drawing.names import NAMES

    assert set(DETAILS) - set(NAMES.values()) == {"armhole depth", "cap height", "crotch depth", "tail"}
