"""Nesting: nothing overlaps, nothing hangs over the selvedge, the grain is kept, and all is laid as often as it is cut."""

from collections import Counter
from itertools import combinations

import pytest
from shapely import Polygon
from shapely.strtree import STRtree

from sheetgen.drawing.shapes import Point
from sheetgen.garments import OUTLINES
from sheetgen.nesting import Marker, Piece, nest, outline
from sheetgen.nesting.outlines import mirror_image

from .conftest import MIX, T_SHIRTS
from .garments import all_of, shirt, t_shirt


def polygons(marker: Marker) -> list[Polygon]:
    return [Polygon(one.polygon) for one in marker.placed]


def overlap(marker: Marker) -> float:
    """The most that two pieces cover of each other, as a share of the smaller one."""
    return max(a.intersection(b).area / min(a.area, b.area) for a, b in combinations(polygons(marker), 2))


def nearest(marker: Marker) -> float:
    """The least way between two pieces, in cm."""
    laid = polygons(marker)
    tree = STRtree(laid)
    return min(
        laid[index].distance(laid[other])
        for index in range(len(laid))
        for other in tree.query(laid[index].buffer(5))
        if other != index
    )


def test_no_two_pieces_overlap(marker):
    assert overlap(marker) < 1e-6


@pytest.mark.parametrize(("name", "gap"), [("one_way", 0), ("two_ways", 0.3), ("shirts", 0.2)])
def test_the_gap_is_kept_between_all_pieces(name, gap, request):
    marker = request.getfixturevalue(name)
    assert marker.gap_cm == gap
    assert nearest(marker) >= gap - 1e-9


def test_all_pieces_lie_within_the_fabric_and_it_ends_where_they_end(marker):
    points = [point for one in marker.placed for point in one.polygon]
    assert min(point.x for point in points) == 0
    assert max(point.x for point in points) == marker.length_cm
    assert min(point.y for point in points) >= 0
    assert max(point.y for point in points) <= marker.width_cm


def test_the_grain_is_kept(marker):
    for one in marker.placed:
        drawn = outline(one.piece)
        if one.mirrored:
            drawn = mirror_image(drawn, one.piece.width)
        if one.turned:
            drawn = tuple(Point(one.piece.length - x, one.piece.width - y) for x, y in drawn)
        start = Point(min(x for x, _ in one.polygon), min(y for _, y in one.polygon))
        for laid, point in zip(one.polygon, drawn, strict=True):
            assert laid == pytest.approx((point.x + start.x, point.y + start.y), abs=1e-9), one


def test_one_way_turns_no_piece_and_two_ways_turn_some(one_way, two_ways, shirts):
    assert not any(one.turned for one in one_way.placed)
    assert {one.turned for one in two_ways.placed} == {one.turned for one in shirts.placed} == {True, False}


def test_every_piece_lies_as_often_as_it_is_cut(shirts):
    counted = Counter((one.ref, one.size, one.mirrored) for one in shirts.placed)
    garments = {"M": 2, "L": 1}
    wanted = Counter()
    for size, number in garments.items():
        for piece in shirt(size):
            wanted[piece.ref, size, False] += number * (piece.count // 2 if piece.mirrored else piece.count)
            wanted[piece.ref, size, True] += number * (piece.count // 2 if piece.mirrored else 0)
    assert counted == +wanted
    assert sum(counted.values()) == 3 * 20  # 2 + 1 + 2 + 2 + 4 + 2 + 2 + 1 + 4 pieces
    assert shirts.garments == garments


def test_the_efficiency_is_that_of_the_polygons_laid(marker):
    area = sum(polygon.area for polygon in polygons(marker))
    cut = sum(
        Polygon(outline(piece)).area * piece.count * marker.garments[piece.size]
        for piece in {(one.ref, one.size): one.piece for one in marker.placed}.values()
    )
    assert marker.area_cm2 == pytest.approx(area, rel=1e-9) == pytest.approx(cut, rel=1e-9)
    assert marker.efficiency == pytest.approx(area / (marker.length_cm * marker.width_cm), rel=1e-9)
    assert marker.efficiency <= 1
    assert marker.length_cm >= area / marker.width_cm


def test_t_shirts_in_three_sizes_use_three_quarters_of_the_fabric(one_way, two_ways):
    assert one_way.efficiency >= 0.75
    assert two_ways.efficiency >= 0.75


def test_the_fabric_of_one_garment_has_its_share_of_the_end_loss(one_way):
    assert one_way.length_per_garment() == pytest.approx(one_way.length_cm / 3)
    assert one_way.length_per_garment(6) == pytest.approx(one_way.length_cm / 3 + 2)


def test_more_effort_is_never_worse():
    pieces = t_shirt("M")
    lengths = [nest(pieces, {"M": 1}, 120, nap="two ways", seconds=s, seed=2).length_cm for s in (0.0001, 0.01, 0.1)]
    assert lengths == sorted(lengths, reverse=True)
    assert lengths[0] > lengths[-1]


def test_all_outlines_lie_in_one_marker():
    pieces = [
        Piece(f"Y{n}", kind, kind, 20 + n, 9 + n / 2, 2, mirrored=True, size="M") for n, kind in enumerate(OUTLINES)
    ]
    marker = nest(pieces, {"M": 1}, 90, nap="two ways", seconds=0.1)
    assert Counter(one.ref for one in marker.placed) == dict.fromkeys((piece.ref for piece in pieces), 2)
    assert overlap(marker) < 1e-6


@pytest.mark.parametrize("gap", [0, 0.5])
def test_a_piece_as_wide_as_the_fabric_can_be_laid(gap):
    pieces = [Piece("Y1", "Panel", "rectangle", 30, 90), Piece("Y2", "Strip", "rectangle", 20, 5, 3)]
    marker = nest(pieces, {"": 2}, 90, gap_cm=gap, seconds=0.05)
    assert [one.ref for one in marker.placed].count("Y1") == 2
    assert all(0 <= y <= 90 for one in marker.placed for _, y in one.polygon)
    assert marker.length_cm == pytest.approx(80 + 2 * gap, abs=0.5)  # two panels and the strips, beside each other
    assert nearest(marker) >= gap


def test_pieces_of_other_sizes_and_of_no_count_are_left_out():
    pieces = [*T_SHIRTS, Piece("Y9", "Pocket", "patch pocket", 12, 11, 0, size="M")]
    marker = nest(pieces, {"M": 1, "L": 0}, 150, seconds=0.02)
    assert {one.size for one in marker.placed} == {"M"}
    assert "Y9" not in {one.ref for one in marker.placed}
    assert marker.garments == {"M": 1}


@pytest.mark.parametrize(
    ("pieces", "garments", "width", "options", "sentence"),
    [
        (
            T_SHIRTS, MIX, 54, {},
            "Y1 Front in size M is 54.5 cm wide and the fabric only 54 cm: cut the piece in two with a seam, or take a wider fabric.",
        ),
        (T_SHIRTS, {"XXL": 1}, 180, {}, "size XXL has no cut pieces; list them, or leave the size out of the marker"),
        (T_SHIRTS, {"M": -1}, 180, {}, "-1 garments of size M can't be laid; give 0 or more"),
        (T_SHIRTS, {}, 180, {}, "a marker without pieces has no length; give one garment of one size at least"),
        ((), {}, 180, {}, "a marker without pieces has no length; give one garment of one size at least"),
        (T_SHIRTS, MIX, 0, {}, "a fabric is not 0 cm wide; give its usable width"),
        (T_SHIRTS, MIX, 180, {"gap_cm": -1}, "a gap of -1 cm between pieces is not possible; give 0 or a few millimeters"),
        (T_SHIRTS, MIX, 180, {"seconds": 0}, "a search can't take 0 seconds; give a number above 0"),
        (T_SHIRTS, MIX, 180, {"nap": "sideways"}, "pieces lie one way, two ways, any way, not 'sideways'"),
        (T_SHIRTS, MIX, 180, {"seed": -1}, "a seed is a whole number from 0 to 999999, not -1"),
    ],
)  # fmt: skip
def test_what_cannot_be_laid_is_said_in_one_sentence(pieces, garments, width, options, sentence):
    with pytest.raises(ValueError) as refused:
        nest(pieces, garments, width, **options)
    assert str(refused.value) == sentence


def test_a_marker_can_mix_garments_of_one_size_without_a_name():
    marker = nest(all_of(lambda _: (Piece("Y1", "Scarf", "rectangle", 20, 30),), [""]), {"": 3}, 100, seconds=0.02)
    assert marker.length_cm == pytest.approx(20, abs=0.05)
    assert marker.efficiency == pytest.approx(0.9, abs=0.005)
