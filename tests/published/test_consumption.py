"""Fabric per garment from its pieces, against the worked examples of course pages, right ones and wrong ones.

Case letters are those of tests/data/consumption_examples.csv, which names the source of each.
"""

import pytest

from sheetgen.trade.lengths import YARD_M
from tests.published.book import Shown, in_source

TABLE = "consumption_examples.csv"
Piece = tuple[float, float, int]


def yields(
    unit: str,
    usable: float,
    pieces: list[Piece],
    *,
    weight: float = 0,
    efficiency: float = 1,
    shrink: tuple[float, float] = (0, 0),
) -> Shown:
    """One fabric and the pieces (length, width, count) cut of it; ten garments ordered."""
    cut = [
        {
            "material": "M1", "piece": f"Piece {number}", "count": count, "long_plus": long, "wide_plus": wide,
            "long_shrink": shrink[0], "wide_shrink": shrink[1],
        }
        for number, (long, wide, count) in enumerate(pieces, 1)
    ]  # fmt: skip
    return Shown(
        style={"unit": unit},
        materials={"bom": [{"item": "Fabric", "group": "fabric", "weight": weight}]},
        order={"sizes": [{"row": "M", "pieces": 10}]},
        **{"yield": {"fabrics": [{"material": "M1", "usable": usable, "efficiency": efficiency}], "pieces": cut}},
    )


def yards(unit: str, usable: float, pieces: list[Piece], shrink: tuple[float, float] = (0, 0)) -> float:
    """Net yards of fabric in one garment."""
    return yields(unit, usable, pieces, shrink=shrink).number("yield.fabrics[B1].meters_z1") / YARD_M


def kilograms(pieces: list[Piece], weight: float) -> float:
    """Net kilograms in a dozen garments. A knit's width cancels out: any usable width weighs the same."""
    return 12 * yields("cm", 160, pieces, weight=weight).number("yield.fabrics[B1].mix_kg")


def gross(net: float, waste: float) -> float:
    """What Materials makes of a net use."""
    line = {"item": "Fabric", "group": "fabric", "net": net, "waste": waste}
    return Shown(materials={"bom": [line]}).number("materials.bom[M1].gross")


@pytest.mark.parametrize(
    ("case", "usable", "piece", "printed", "exact"),
    [
        # textile apex, basic long-sleeve shirt: the page rounds up.
        ("W4", 44, (19, 2.5, 2), "0.06 yd", 0.059975),
        ("W5", 44, (25, 6, 2), "0.19 yd", 0.189394),
        ("W6", 44, (31.5, 25, 1), "0.5 yd", 0.497159),
        ("W7", 44, (33, 28, 1), "0.59 yd", 0.583333),
        ("W8", 44, (24, 18.25, 2), "0.553 yd", 0.553030),
    ],
)
def test_parts_of_a_woven_shirt(case: str, usable: float, piece: Piece, printed: str, exact: float) -> None:
    in_source(TABLE, case, "published_result", printed)
    in_source(TABLE, case, "recomputed", f"{exact:.6f}")
    got = yards("in", usable, [piece])
    assert got == pytest.approx(exact, abs=5e-7)
    assert -0.0005 <= float(printed.removesuffix(" yd")) - got < 0.01


def test_a_piece_takes_its_sides_from_the_measurements() -> None:
    # W9, textile-calculations page: (31 + 2) x (24 + 2) in, width 44 in; here half of the width twice.
    in_source(TABLE, "W9", "published_result", "0.541 yd")
    shown = Shown(
        style={"unit": "in"},
        measurements={"points": [{"point": "Back length", "base": 31, "step": 1}, {"point": "Half back", "base": 12, "step": 1}]},
        materials={"bom": [{"item": "Fabric", "group": "fabric"}]},
        **{"yield": {
            "fabrics": [{"material": "M1", "usable": 44, "efficiency": 1}],
            "pieces": [{"material": "M1", "piece": "Back", "count": 1, "long_point": "P1", "long_plus": 2,
                        "wide_point": "P2", "wide_times": 2, "wide_plus": 2}],
        }},
    )  # fmt: skip
    assert shown.number("yield.fabrics[B1].meters_z1") / YARD_M == pytest.approx(0.541667, abs=5e-7)


def test_a_whole_woven_shirt() -> None:
    # W1, definetextile, 2014, pieces in cm on cloth of 56 in.
    in_source(TABLE, "W1", "recomputed", "20756 cm2", "1.59583 yd", "20.1074 yd/doz")
    pieces = [(80, 61, 2), (69, 30, 4), (45, 8, 2), (35, 4, 2), (16, 13, 1), (52, 14.5, 2)]
    net = yards("cm", 56 * 2.54, pieces)
    assert net == pytest.approx(1.59583, abs=5e-5)
    assert 12 * gross(net, 0.05) == pytest.approx(20.1074, abs=5e-4)

    # W2, woven fabric consumption formula page; computed, because the page prints no answer.
    in_source(TABLE, "W2", "recomputed", "2.262626", "28.5091")
    net = yards("in", 44, [(37 + 27, 28, 2)])
    assert net == pytest.approx(2.262626, abs=5e-7)
    assert 12 * gross(net, 0.05) == pytest.approx(28.5091, abs=5e-5)


def test_a_knit_by_weight() -> None:
    # K1, apparel merchandising page, 2011: quoted 2.43, rounded up.
    in_source(TABLE, "K1", "recomputed", "2.204160", "2.424576")
    net = kilograms([(73 + 19.5 + 10, 52 + 4, 2)], 160)
    assert (net, gross(net, 0.10)) == pytest.approx((2.20416, 2.424576), rel=1e-9)

    # K2, apparel-science page, by parts: its gross figure has a digit too many (1.5172208).
    in_source(TABLE, "K2", "recomputed", "1.37928", "1.517208 gross", "0.12643")
    net = kilograms([(65, 47, 2), (25, 42, 2)], 140)
    assert (net, gross(net, 0.10), gross(net, 0.10) / 12) == pytest.approx((1.37928, 1.517208, 0.126434), rel=1e-9)

    # K3, textile-calculations page: body, sleeves and a rib of another weight.
    in_source(TABLE, "K3", "recomputed", "1.2852 + 0.4410 + 0.092232 = 1.818432", "1.94572")
    net = kilograms([(70, 102, 1), (25, 49, 2)], 150) + kilograms([(61, 7, 1)], 180)
    assert (net, gross(net, 0.07)) == pytest.approx((1.818432, 1.94572224), rel=1e-9)

    # C4, arithmetic.
    in_source(TABLE, "C4", "recomputed", "0.3402 kg")
    shown = yields("cm", 180, [(105, 180, 1)], weight=180)
    assert shown.number("yield.fabrics[B1].mix") == pytest.approx(1.05)
    assert shown.number("yield.fabrics[B1].mix_kg") == pytest.approx(0.3402)


def test_shrinkage_divides() -> None:
    # C1, algebra: 70 / 0.95, not 70 x 1.05 = 73.5.
    in_source(TABLE, "C1", "recomputed", "73.6842 cm by 1/(1-s)")
    area = yields("cm", 100, [(70, 100, 1)], shrink=(0.05, 0)).number("yield.pieces[Y1].area_z1")
    assert area * 100 == pytest.approx(73.6842, abs=5e-5)

    # W14, a consumption worksheet multiplies by 1 + s and gets 1.29; ours is the recomputed 1.2976.
    in_source(TABLE, "W14", "recomputed", "1.2944 net", "with dims/(1 - shrinkage): 1.2976 net")
    assert yards("in", 56, [(29, 42, 2)], shrink=(0.03, 0.04)) == pytest.approx(1.2976, abs=5e-5)


def test_marker_efficiency() -> None:
    # C3, definition: 7.905 m2 of pieces lie on 6.20 m x 1.50 m at 85 %.
    in_source(TABLE, "C3", "recomputed", "85.00 %")
    shown = yields("cm", 150, [(790.5, 100, 1)], efficiency=0.85)
    assert shown.number("yield.fabrics[B1].meters_z1") == pytest.approx(6.20)


@pytest.mark.parametrize(
    ("case", "usable", "pieces", "waste", "printed", "right"),
    [
        # Printed and right figures are gross yards for a dozen.
        ("W11", 58, [(45, 14, 4)], 0.05, 14.45, 15.2069),  # adds 0.05 yd instead of 5 %
        ("W12", 42, [(12, 8, 4), (8, 8, 2)], 0.05, 4.01, 4.2667),  # the same fault
    ],
)
def test_waste_is_a_share_and_not_a_length(
    case: str, usable: float, pieces: list[Piece], waste: float, printed: float, right: float
) -> None:
    in_source(TABLE, case, "published_result", str(printed))
    in_source(TABLE, case, "recomputed", str(right))
    got = 12 * gross(yards("in", usable, pieces), waste)
    assert got == pytest.approx(right, abs=5e-5)
    assert got - printed > 0.2


def test_other_published_slips_do_not_come_back() -> None:
    # K4, knit formula page, 2014: prints 2.28 net for 75 + 30 by 60 by 2 at 145 g/m2.
    in_source(TABLE, "K4", "recomputed", "2.1924 net; 2.345868 gross")
    net = kilograms([(70 + 5 + 25 + 5, 60, 2)], 145)
    assert (net, gross(net, 0.07)) == pytest.approx((2.1924, 2.345868), rel=1e-9)

    # W3, same page as W2: adds where its formula multiplies.
    in_source(TABLE, "W3", "recomputed", "6.5333 yd/doz by the page's own formula", "0.8867")
    assert 12 * gross(yards("in", 60, [(28, 10, 4)]), 0.05) == pytest.approx(6.5333, abs=5e-5)

    # W10, woven shirt page: prints 1.47; the recomputed figure takes the page's 6.45 cm2 for a square inch.
    in_source(TABLE, "W10", "published_result", "1.47 yd")
    in_source(TABLE, "W10", "recomputed", "1.49463 gross")
    got = gross(yards("cm", 57 * 2.54, [(87 + 70, 60, 2)]), 0.05)
    assert got == pytest.approx(1.49463 * 6.45 / 6.4516, abs=5e-5)

    # W13, ordnur: works out the waste, then leaves it out and prints 1.58.
    in_source(TABLE, "W13", "recomputed", "18.997 yd/doz", "1.6939 yd/pc")
    net = yards("in", 55, [(37614 / 12, 1, 1)])
    assert 12 * net == pytest.approx(18.997, abs=5e-4)
    assert gross(net, 0.07) == pytest.approx(1.6939, abs=5e-5)
