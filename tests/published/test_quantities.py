"""One quantity: what is cut is what materials, thread and labels are bought for, whole, color by color and size by size.

Laws of the trade (common practice): a zip is bought whole, a label of one size is of no use for another, and a cut plan
that is in force is what is cut.
"""

from __future__ import annotations

import math
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.published.book import Shown

SIZES, COLORS = ("S", "M", "L", "XL"), ("Red", "Blue", "Sand")
ZIP = {"item": "Zip", "group": "trim", "net": 1, "waste": 0, "unit": "pc"}


def order(material: dict[str, object], *pieces: dict[str, int], **data: object) -> Shown:
    """An order of four sizes in three colors: by size, its pieces by color."""
    sizes = [{"row": size, "pieces": own} for size, own in zip(SIZES, pieces, strict=True)]
    buy = data.pop("buy", [])
    return Shown(
        sizes=SIZES,
        colorways={"list": [{"name": name} for name in COLORS]},
        materials={"bom": [material]},
        order={"sizes": sizes, "overage": data.pop("overage", 0.03), "buy": buy},
        **data,
    )


def ten_each(material: dict[str, object], **data: object) -> Shown:
    return order(material, *([dict.fromkeys(COLORS, 10)] * 4), **data)


def test_twelve_cells_of_ten_with_three_per_cent_are_132_pieces_and_132_zips():
    book = ten_each({**ZIP, "color": "Steel"}, buy=[{"row": "M1", "bought": 124}])
    assert book.number("order.pieces_to_cut") == 132  # 11 of each: 10 x 1.03, rounded up in every cell
    assert book.number("order.buy[M1].for_pieces") == 132
    assert book.number("order.buy[M1].need") == 132
    assert book.number("order.buy[M1].short") == 8
    assert book["order.cut_by"] == "the order, with what is cut over"


def test_the_lays_are_what_is_cut_as_soon_as_there_are_any():
    lays = [{"lay": "1", "garments": dict.fromkeys(SIZES, 1), "plies": dict.fromkeys(COLORS, 12)}]
    book = ten_each({**ZIP, "color": "Steel"}, cutting={"lays": lays})
    assert book.number("cutting.pieces_planned") == 144
    assert book.number("order.pieces_to_cut") == 144
    assert book.number("order.buy[M1].need") == 144
    assert book["order.cut_by"] == "the lays on Cutting"
    assert book.number("cutting.over_planned") == 144 - 132


def test_six_sizes_of_a_label_sold_by_500_are_3000():
    sizes = ("XS", "S", "M", "L", "XL", "XXL")
    label = {
        "item": "Size label",
        "group": "label",
        "net": 1,
        "waste": 0,
        "unit": "pc",
        "color": "White",
        "by_size": "yes",
    }
    pieces = [{"row": size, "pieces": 200} for size in sizes]
    book = Shown(
        sizes=sizes, materials={"bom": [label]}, order={"sizes": pieces, "buy": [{"row": "M1", "multiple": 500}]}
    )
    assert book.number("order.buy[M1].need") == 1200
    assert book.number("order.buy[M1].buy") == 3000
    same = Shown(sizes=sizes, materials={"bom": [{**label, "by_size": ""}]},
                 order={"sizes": pieces, "buy": [{"row": "M1", "multiple": 500}]})  # fmt: skip
    assert same.number("order.buy[M1].buy") == 1500


def test_the_length_of_a_zip_follows_its_point_in_every_size():
    points = [{"point": "Front opening", "base": 47, "step": 2}]
    zips = {**ZIP, "color": "Steel", "by_size": "yes", "size_point": "P1", "size_plus": -1.5}
    book = ten_each(zips, measurements={"points": points})
    base = book.number("measurements.points[P1].spec_z2") - book.number("measurements.points[P1].spec_z1")
    lengths = [book.number(f"order.by_size[M1].long_z{n}") for n in range(1, 5)]
    assert base != 0
    assert lengths == [book.number(f"measurements.points[P1].spec_z{n}") - 1.5 for n in range(1, 5)]


def test_cones_are_whole_in_every_color_and_the_same_on_thread_and_order():
    thread = {
        "item": "Thread",
        "group": "thread",
        "net": 100,
        "waste": 0.1,
        "unit": "m",
        "color": dict(zip(COLORS, COLORS, strict=True)),
    }
    book = ten_each(
        thread, thread={"articles": [{"material": "M1", "cone": 5000}]}, buy=[{"row": "M1", "multiple": 5000}]
    )
    # 44 pieces x 110 m is 4840 m of each color: one cone each, where 14520 m of one color were three as well
    assert book.number("thread.articles[H1].cones") == 3
    assert book.number("order.buy[M1].buy") == 3 * 5000
    more = ten_each({**thread, "net": 105}, thread={"articles": [{"material": "M1", "cone": 5000}]})
    assert more.number("thread.articles[H1].cones") == 6  # 5082 m of each color
    other = ten_each(
        thread, thread={"articles": [{"material": "M1", "cone": 5000}]}, buy=[{"row": "M1", "multiple": 3000}]
    )
    assert other.number("checks.wrong_thread_cone") == 1
    assert book.number("checks.wrong_thread_cone") == 0


@cache
def bought(
    cells: tuple[tuple[int, ...], ...], net: float, unit: str, over: float, multiple: float, least: int, by_size: str
) -> Shown:
    material = {"item": "Trim", "group": "trim", "net": net, "waste": 0, "unit": unit, "by_size": by_size,
                "color": {"Red": "Red", "Blue": "Blue", "Sand": "Red"}, "minimum": least}  # fmt: skip
    buy = [{"row": "M1", "multiple": multiple}] if multiple else []
    return order(material, *(dict(zip(COLORS, own, strict=True)) for own in cells), overage=over, buy=buy)


@settings(max_examples=12, deadline=None)
@given(
    cells=st.tuples(*[st.tuples(*[st.integers(1, 90)] * 3)] * 4),
    net=st.sampled_from((1, 2, 0.25, 1.37)),
    unit=st.sampled_from(("pc", "m", "set")),
    over=st.sampled_from((0, 0.03, 0.05)),
    multiple=st.sampled_from((0, 12, 100)),
    least=st.sampled_from((0, 250)),
    by_size=st.sampled_from(("", "yes")),
)
def test_bought_is_at_least_what_is_cut_needs_color_by_color_and_size_by_size(
    cells, net, unit, over, multiple, least, by_size
):
    book = bought(cells, net, unit, over, multiple, least, by_size)
    cut = [[math.ceil(round(pieces * (1 + over), 6)) for pieces in row] for row in cells]
    assert book.number("order.pieces_to_cut") == sum(map(sum, cut))
    need = book.number("order.buy[M1].need")
    red = sum(row[0] + row[2] for row in cut) * net  # Sand wears red trims, too: bought together
    blue = sum(row[1] for row in cut) * net
    assert need >= red + blue - 1e-6
    assert book.number("order.buy[M1].buy_of_c1") >= red - 1e-6
    assert book.number("order.buy[M1].buy_of_c2") >= blue - 1e-6
    assert book.number("order.buy[M1].buy") >= max(need, least) - 1e-6
    if unit != "m":
        assert need == pytest.approx(round(need), abs=1e-9)
    for number, row in enumerate(cut, 1):
        bought_of_it = book[f"order.by_size[M1].size_buy_z{number}"]
        if by_size != "yes":
            assert bought_of_it == ""
            continue
        own = book.number(f"order.by_size[M1].size_buy_z{number}")
        assert own >= max(sum(row) * net, least) - 1e-6
        if multiple:
            assert own / multiple == pytest.approx(round(own / multiple))
