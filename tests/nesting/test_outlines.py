"""Outlines: the box exactly, no crossing edge whatever the details, and as much of the box as such a piece fills."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon
from shapely.affinity import scale

from sheetgen.garments import OUTLINES
from sheetgen.nesting import DETAILS, Piece, area, outline, symmetric
from sheetgen.nesting.outlines import _SHAPES, mirror_image
from sheetgen.trade import outlines
from tests.nesting.filled import fill

from .garments import SIZES, shirt, t_shirt, trousers

SIDES = st.floats(0.1, 10_000)
USUAL = st.floats(0.1, 200)
LENGTHS = st.one_of(USUAL, st.floats(allow_nan=True, allow_infinity=True))
MEASURED = st.dictionaries(st.sampled_from((*DETAILS, "inseam")), LENGTHS, max_size=len(DETAILS))
ALL_MEASURED = st.fixed_dictionaries(dict.fromkeys(DETAILS, USUAL))


def test_every_kind_has_its_shape():
    assert set(_SHAPES) == set(OUTLINES)
    assert len(set(OUTLINES)) == len(OUTLINES)


@pytest.mark.parametrize("kind", OUTLINES)
@settings(max_examples=70, deadline=None)
@given(length=st.one_of(SIDES, USUAL), width=st.one_of(SIDES, USUAL), details=st.one_of(MEASURED, ALL_MEASURED))
def test_no_box_and_no_details_break_an_outline(kind, length, width, details):
    piece = Piece("Y1", "", kind, length, width, details=details)
    path = outline(piece)
    drawn = Polygon(path)
    assert drawn.is_valid
    assert drawn.exterior.is_ccw
    assert drawn.bounds == (0, 0, length, width)
    assert 0.2 * length * width < drawn.area <= length * width * (1 + 1e-12)
    assert math.isclose(area(path), drawn.area, rel_tol=1e-9)
    assert 0 < fill(piece) <= 1
    mirrored = Polygon(mirror_image(path, width))
    assert mirrored.is_valid
    assert mirrored.exterior.is_ccw
    assert math.isclose(mirrored.area, drawn.area, rel_tol=1e-9)


PLAUSIBLE = {
    ("front", 77.5, 54.5): (0.78, 0.9),
    ("half front", 80, 33): (0.78, 0.92),
    ("back", 77.5, 54.5): (0.84, 0.94),
    ("half back", 68, 29): (0.84, 0.94),
    ("back below yoke", 74, 60): (0.86, 0.98),
    ("yoke", 12, 49): (0.7, 0.9),
    ("sleeve", 24, 41): (0.7, 0.85),
    ("sleeve", 61, 44): (0.7, 0.85),
    ("cuff", 26, 8.5): (0.95, 1),
    ("collar", 45, 7.5): (0.75, 0.95),
    ("collar stand", 46, 5.5): (0.65, 0.9),
    ("hood", 38, 30): (0.75, 0.92),
    ("front facing", 74, 10): (0.5, 0.75),
    ("neck facing", 12, 28): (0.4, 0.65),
    ("armhole facing", 63, 15): (0.3, 0.45),
    ("patch pocket", 16, 13.5): (0.85, 0.97),
    ("kangaroo pocket", 26, 38): (0.8, 0.95),
    ("pocket bag", 26, 18): (0.85, 0.97),
    ("pocket flap", 6, 14): (0.75, 0.95),
    ("front leg", 108, 32): (0.65, 0.8),
    ("back leg", 110, 38): (0.6, 0.75),
    ("whole leg", 95, 60): (0.55, 0.75),
    ("fly", 22, 7): (0.85, 0.98),
    ("gusset", 16, 10): (0.5, 0.75),
    ("skirt panel", 64, 52): (0.85, 0.97),
    ("half skirt panel", 64, 30): (0.85, 0.97),
    ("rectangle", 44, 5): (1, 1),
    ("waistband", 90, 6): (1, 1),
    ("curved waistband", 90, 12): (0.5, 0.75),
}
"""Kind, length, width -> between which shares of its box such a piece lies; from drafts known from memory."""


@pytest.mark.parametrize(("box", "share"), PLAUSIBLE.items(), ids=lambda value: str(value[0]))
def test_an_outline_fills_as_much_of_its_box_as_such_a_piece_does(box, share):
    assert share[0] <= fill(Piece("Y1", "", *box)) <= share[1]


def test_every_kind_that_garments_share_is_held_against_a_plausible_share():
    assert set(outlines.SHARED) <= {kind for kind, _, _ in PLAUSIBLE} <= set(OUTLINES)


@pytest.mark.parametrize("garment", [t_shirt, shirt, trousers])
def test_the_pieces_of_whole_garments_are_plausible_too(garment):
    shares = {"front": (0.78, 0.9), "sleeve": (0.7, 0.85), "front leg": (0.65, 0.8), "back leg": (0.55, 0.75)}
    for size in SIZES:
        for piece in garment(size):
            least, most = shares.get(piece.outline, (0.6, 1))
            assert least <= fill(piece) <= most, piece


def along(piece: Piece, across: float) -> list[float]:
    """Where a line along the grain, so far from the middle, meets the outline."""
    from shapely import LineString

    level = piece.width / 2 + across
    met = Polygon(outline(piece)).intersection(LineString([(-1, level), (piece.length + 1, level)]))
    return [met.bounds[0], met.bounds[2]]


def test_a_front_has_its_neck_and_armhole_where_they_are_measured():
    details = {"neck": 18, "neck drop": 10, "shoulder": 46, "slope": 5, "armhole depth": 26, "chest": 52, "bottom": 48}
    piece = Piece("Y1", "Front", "front", 75, 54, details=details)
    path = outline(piece)
    assert along(piece, 0) == pytest.approx([10, 75])  # the neck at its deepest
    assert (0, 27 - 9) in [(x, pytest.approx(y)) for x, y in path]  # high shoulder point: half of 18 from the middle
    assert min(abs(x - 5) + abs(y - 4) for x, y in path) < 1e-9  # shoulder: half of 46 from the middle, 5 lower
    assert min(x for x, y in path if y < 1e-9) == pytest.approx(26)  # underarm at the side
    assert min(y for x, y in path if x == 75) == pytest.approx(2)  # the hem is 4 narrower than the chest


def test_a_straight_armhole_decides_how_deep_it_is():
    # 3-4-5: half the chest of 54 lies 3 beyond half the shoulder of 48; 15 straight are then 14.7 down.
    details = {"shoulder": 48, "slope": 5, "armhole": 15}
    path = outline(Piece("Y1", "Front", "front", 75, 54, details=details))
    assert min(x for x, y in path if y < 1e-9) == pytest.approx(5 + math.sqrt(15**2 - 3**2))


def test_a_shirts_tail_lies_lower_at_the_center_and_a_waist_is_drawn_in():
    piece = Piece("Y1", "Back", "back", 80, 56, details={"tail": 6, "chest": 54, "waist": 48, "waist position": 45})
    path = outline(piece)
    assert max(x for x, y in path if y < 1e-9) == pytest.approx(74)
    assert along(piece, 0)[1] == 80
    assert min(abs(x - 45) + abs(y - 3) for x, y in path) < 1e-9  # 54 to 48 is 3 on each side


def test_a_sleeve_has_its_cap_and_its_opening():
    piece = Piece("Y3", "Sleeve", "sleeve", 60, 40, details={"cap height": 12, "opening": 13})
    path = outline(piece)
    assert min(x for x, y in path if y in (0, 40)) == pytest.approx(12)
    hem = [y for x, y in path if x == 60]
    assert max(hem) - min(hem) == pytest.approx(26)


def test_front_and_back_of_a_sleeve_differ_so_that_its_mirror_image_is_another():
    path = outline(Piece("Y3", "Sleeve", "sleeve", 24, 41))
    assert Polygon(path).symmetric_difference(Polygon(mirror_image(path, 41))).area > 5


def test_trousers_have_their_fork_knee_and_leg_opening():
    details = {"front rise": 28, "knee": 21, "leg": 18, "hip": 52, "waist": 40}
    piece = Piece("Y1", "Front leg", "front leg", 106, 32, details=details)
    path = outline(piece)
    fork = next(x for x, y in path if y == 0)
    assert fork == pytest.approx(28 * 0.93)
    hem = [y for x, y in path if x == 106]
    assert max(hem) - min(hem) == pytest.approx(18)
    knee = fork + (106 - fork) * 0.45
    level = [y for x, y in path if abs(x - knee) < 1e-6]
    assert max(level) - min(level) == pytest.approx(21)


def test_a_skirt_keeps_its_waist_below_its_hip():
    path = outline(Piece("Y1", "Front", "skirt panel", 60, 52, details={"hip": 50, "waist": 38, "bottom": 50}))
    top = [y for x, y in path if x == 0]
    assert max(top) - min(top) == pytest.approx(40)  # 2 cm of allowance, as at the hip


@pytest.mark.parametrize("kind", ["collar", "collar stand", "cuff", "curved waistband"])
def test_a_band_lies_with_its_length_along_the_longer_side_of_its_box(kind):
    standing, lying = outline(Piece("Y6", "", kind, 45, 8)), outline(Piece("Y6", "", kind, 8, 45))
    swapped = Polygon([(y, x) for x, y in lying])
    assert Polygon(standing).symmetric_difference(swapped).area < 1e-9


def test_both_sides_of_a_whole_piece_are_alike_and_a_half_piece_has_a_straight_center():
    for kind in ("front", "back", "back below yoke", "yoke", "skirt panel"):
        whole = Polygon(outline(Piece("Y1", "", kind, 70, 50, details={"tail": 5})))
        assert whole.symmetric_difference(scale(whole, 1, -1, origin=(35, 25))).area < 1e-9, kind
    for kind in ("half front", "half back", "half skirt panel"):
        path = outline(Piece("Y1", "", kind, 70, 25, details={"waist": 40, "waist position": 40}))
        center = [x for x, y in path if y == 0]
        assert len(center) == 2, kind


def test_pieces_whose_two_sides_are_alike_need_no_mirror_image():
    alike = {kind for kind in OUTLINES if symmetric(Piece("Y1", "", kind, 30, 50))}
    assert {"rectangle", "front", "back", "yoke", "collar", "patch pocket", "waistband", "skirt panel"} <= alike
    assert not alike & {
        "half front",
        "half back",
        "sleeve",
        "front leg",
        "back leg",
        "front facing",
        "pocket bag",
        "hood",
    }
