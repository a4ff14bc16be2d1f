"""Buying, packing and inspecting an order: constructed arithmetic, a freight page, and the published sampling plans."""

import re

import pytest

from tests.lists import stitch
from tests.published.book import Shown, in_source
from tests.trade.tables import rows

BUY = "purchasing_examples.csv"


def ordered(
    pieces: int, material: dict[str, object] | None = None, multiple: float | None = None, **order: object
) -> Shown:
    """An order of one size and color, of one material that goes into it."""
    line = {"item": "Material", "group": "fabric", "color": "any", "waste": 0, **(material or {})}
    buy = [{"row": "M1", "multiple": multiple}] if multiple else []
    return Shown(materials={"bom": [line]}, order={"sizes": [{"row": "M", "pieces": pieces}], "buy": buy, **order})


def test_fabric_is_bought_in_whole_rolls() -> None:
    in_source(BUY, "Q5", "inputs", "1000 x 1.35 m x 1.05; rolls of 50 m")
    in_source(BUY, "Q5", "result", "1417.5 m; 29 rolls = 1450 m; surplus 32.5 m")
    book = ordered(1000, {"net": 1.35, "waste": 0.05}, multiple=50)
    assert book.number("order.buy[M1].need") == pytest.approx(1417.5)
    assert book.number("order.buy[M1].buy") == 1450
    assert book.number("order.buy[M1].surplus") == pytest.approx(32.5)


def test_no_less_than_the_minimum_is_bought() -> None:
    in_source(BUY, "Q6", "result", "1000 m; surplus 170 m (20.48 % of need)")
    book = ordered(830, {"net": 1, "minimum": 1000}, multiple=50)
    assert book.number("order.buy[M1].buy") == 1000
    surplus = book.number("order.buy[M1].surplus")
    assert surplus == pytest.approx(170)
    assert surplus / book.number("order.buy[M1].need") == pytest.approx(0.2048, abs=5e-5)

    in_source(BUY, "Q7", "result", "9 gross = 1296 buttons")
    assert ordered(1213, {"net": 1}, multiple=144).number("order.buy[M1].buy") == 1296


def test_a_need_that_fills_its_rolls_exactly_takes_no_roll_more() -> None:
    # 1000 x 1.1 is 1100.0000000000002 in floats; 22 rolls of 50 hold it.
    assert ordered(1000, {"net": 1.1}, multiple=50).number("order.buy[M1].buy") == 1100


def test_cut_overage_is_rounded_up() -> None:
    in_source(BUY, "Q8", "inputs", "120 at 3 %")
    in_source(BUY, "Q8", "result", "124")
    assert ordered(120, overage=0.03).number("order.pieces_to_cut") == 124
    assert ordered(100, overage=0.03).number("order.pieces_to_cut") == 103  # 100 x 1.03 is 103.0 exactly, not 104


def test_cartons() -> None:
    in_source(BUY, "Q9", "result", "21 cartons, last holds 40")
    book = ordered(1000, carton_pieces=48)
    assert (book["order.cartons"], book["order.last_carton"]) == (21, 40)

    # Q10, apparel-industry freight page.
    in_source(BUY, "Q10", "result", "3 m3")
    book = ordered(10, carton_pieces=10, carton_long=100, carton_wide=150, carton_high=200)
    assert book.number("order.volume") == pytest.approx(3)

    in_source(BUY, "Q13", "result", "10.214 gross")
    book = ordered(48, carton_pieces=48, piece_weight=0.185 + 0.008, carton_weight=0.95)
    assert book.number("order.full_weight") == pytest.approx(10.214)


PLANS = {
    # MIL-STD-105E Tables I and II-A, same plans in ISO 2859-1:1999; arrows followed.
    (int(row["lot_from"]), float(row["aql"])): (int(row["n_used"]), int(row["Ac"]), int(row["Re"]))
    for row in rows("aql_normal_II.csv")
}
BANDS = {int(row["lot_from"]): int(row["lot_to"] or 10 * int(row["lot_from"])) for row in rows("aql_normal_II.csv")}


@pytest.mark.parametrize("major", sorted({aql for _, aql in PLANS}))
def test_inspection_is_that_of_the_published_plans(major: float) -> None:
    """The first and last lot of every band; minor defects by the next looser AQL, as is the custom."""
    aqls = sorted({aql for _, aql in PLANS})
    minor = aqls[(aqls.index(major) + 1) % len(aqls)]
    assert len(BANDS) == 15
    for band, last in BANDS.items():
        for lot in (band, last):
            book = ordered(lot, aql_critical=0, aql_major=major, aql_minor=minor)
            for word, aql in (("major", major), ("minor", minor)):
                n, accept, reject = PLANS[band, aql]
                got = tuple(book[f"order.{figure}_{word}"] for figure in ("sample", "accept", "reject"))
                assert got == (min(n, lot), accept, reject), (lot, aql)


def test_a_single_piece_has_no_plan() -> None:
    book = ordered(1, aql_critical=0, aql_major=2.5, aql_minor=4)
    assert [book[f"order.{figure}_major"] for figure in ("sample", "accept", "reject")] == ["", "", ""]


def seam(code: str, centimeters: float) -> dict[str, object]:
    return {
        "area": f"Seam {code}",
        "stitch": stitch(code),
        "extra": centimeters,
    }


@pytest.mark.parametrize(
    ("code", "centimeters"),
    [
        ("301", 550),  # a page that quotes a thread maker's method
        ("401", 1210),  # thread maker's bulletin: from memory
    ],
)
def test_thread_of_a_seam(code: str, centimeters: float) -> None:
    row = next(row for row in rows("thread_examples.csv") if row["case"] == f"ratio method {code}")
    assert row["inputs"].startswith("220 cm")
    assert f"{centimeters} cm" in row["published_result"]
    book = Shown(construction={"callouts": [seam(code, 220)]})
    assert book.number("construction.callouts[N1].thread") * 100 == pytest.approx(centimeters)


def test_thread_of_a_garment() -> None:
    # Constructed on the ratios of a thread maker's table (504 and 406 from memory).
    row = next(row for row in rows("thread_examples.csv") if row["case"].startswith("garment roll-up"))
    assert row["inputs"].startswith("301 1.2 m; 504 3.4 m; 406 2.1 m; 15 % waste")
    net, gross = (float(figure) for figure in re.findall(r"([\d.]+) m (?:net|gross)", row["recomputed"]))
    seams = [seam("301", 120), seam("504", 340), seam("406", 210)]
    book = Shown(style={"thread_waste": 0.15}, construction={"callouts": seams})
    assert book.number("construction.thread_net") == pytest.approx(net)
    assert book.number("construction.thread_gross") == pytest.approx(gross)
