"""Prices from minutes to the shop: published calculations, and the published slips that must not come back.

Case letters are those of tests/data/costing_examples.csv, which names the source of each.
"""

import re

import pytest

from tests.published.book import NO_CHARGES, Shown, in_source, published

TABLE = "costing_examples.csv"
NO_COSTS = {"process_cost": 0, "testing_cost": 0, "packing_cost": 0, "commercial_cost": 0, "overhead": 0, "profit": 0}
NO_MINUTES = {"sew_minutes": 0, "cut_minutes": 0, "finish_minutes": 0, "rate": 1, "efficiency": 1}
RATES = [{"code": "USD", "rate": 1}]


def quote(materials: list[tuple[float, float, float]] | None = None, **typed: object) -> Shown:
    """A quote; materials are (net use, waste, price)."""
    bom = [
        {"item": f"Line {number}", "group": "fabric", "net": net, "waste": waste, "price": price, "currency": "USD"}
        for number, (net, waste, price) in enumerate(materials or [], 1)
    ]
    return Shown(quote={**NO_MINUTES, **NO_COSTS, **typed}, materials={"bom": bom, "rates": RATES})


def pricing(fob: float, **typed: object) -> Shown:
    """The brand's pricing of that price; without freight, duty and own costs but for what is named."""
    return Shown(quote={"fob": fob}, pricing={**NO_CHARGES, **typed})


@pytest.mark.parametrize(
    ("case", "wages", "operators", "days", "hours", "minutes", "cost", "shown"),
    [
        ("L1", 5000, 1, 26, 8, 12480, 5000 / 12480, "0.4006"),  # course page, CM by SAM, 2011
        ("L3", 561600, 1000, 26, 10, 15600000, 0.036, "0.036"),  # textile-calculation page, 2015
    ],
)
def test_what_a_minute_costs(
    case: str, wages: float, operators: int, days: int, hours: int, minutes: float, cost: float, shown: str
) -> None:
    in_source(TABLE, case, "published_result", shown)
    book = Shown(quote={"wages": wages, "operators": operators, "days": days, "hours": hours})
    assert book.number("quote.minutes_available") == minutes
    assert book.number("quote.minute_cost") == pytest.approx(cost, rel=1e-9)
    assert book.number("quote.minute_cost") == pytest.approx(float(shown), abs=5e-5)


def test_making_cost_by_minutes_and_efficiency() -> None:
    # L2, course page, CM by SAM, 2011.
    in_source(TABLE, "L2", "published_result", "12.00 + 1.60 = 13.60")
    book = quote(sew_minutes=15, cut_minutes=2, rate=0.40, efficiency=0.5)
    assert book.number("quote.sew_cost") == pytest.approx(12.00)
    assert book.number("quote.cut_cost") == pytest.approx(1.60)
    assert book.number("quote.make_cost") == pytest.approx(13.60)


def test_a_minute_produced_is_not_divided_by_efficiency_again() -> None:
    # L4, textile-calculation page, 2015: 0.036 is the cost of a minute produced.
    in_source(TABLE, "L4", "published_result", "0.36; 4.32")
    made = quote(sew_minutes=10, rate=0.036, efficiency=1).number("quote.make_cost")
    assert (made, made * 12) == pytest.approx((0.36, 4.32))


@pytest.mark.parametrize(("efficiency", "wrong", "right"), [(0.75, 2.19, 3.66), (0.47, 1.48, 5.6617)])
def test_lower_efficiency_makes_it_dearer_unlike_a_published_page(
    efficiency: float, wrong: float, right: float
) -> None:
    # L5: a public calculator multiplies by the efficiency although it says that it divides.
    in_source(TABLE, "L5", "published_result", str(wrong))
    in_source(TABLE, "L5", "recomputed", str(right))
    direct = quote(sew_minutes=18, rate=0.14, efficiency=efficiency, commercial_cost=0.30).number("quote.direct")
    assert direct == pytest.approx(right, abs=5e-5)
    assert abs(direct - wrong) > 1


def test_price_from_direct_cost_overhead_and_profit() -> None:
    # F1, textile-calculation page, men's T-shirt, 2015; it prints the profit as 1.55.
    in_source(TABLE, "F1", "recomputed", "2.871; 22.011; 1.54077; 23.55177")
    book = quote(process_cost=19.14, overhead=0.15, profit=0.07)
    assert book.number("quote.direct") == pytest.approx(19.14)
    assert book.number("quote.overhead_cost") == pytest.approx(2.871)
    assert book.number("quote.direct") + book.number("quote.overhead_cost") == pytest.approx(22.011)
    assert book.number("quote.profit_cost") == pytest.approx(1.54077)
    assert book.number("quote.worked_out") == pytest.approx(23.55177)


def test_a_shirt_from_fabric_to_the_port_of_arrival() -> None:
    # F2, textile-calculations page, woven shirt, per dozen. Its overhead is an amount, ours a share of direct cost.
    in_source(TABLE, "F2", "recomputed", "28.224", "43.524", "44.864", "CIF 46.164")
    direct = 28.224 + 5.0 + 5.5 + 3
    book = quote([(17.64, 0, 1.60), (1, 0, 5.0)], sew_minutes=5.5, commercial_cost=3, overhead=1.8 / direct)
    assert book.number("materials.bom[M1].cost") == pytest.approx(28.224)
    assert book.number("quote.worked_out") == pytest.approx(43.524)
    fob = book.number("quote.worked_out")
    assert pricing(fob, freight=1.34).number("pricing.cif") == pytest.approx(44.864)  # C&F: no insurance yet
    assert pricing(fob, freight=1.34, insurance=1.3).number("pricing.cif") == pytest.approx(46.164)


def test_a_trouser_by_its_published_lines() -> None:
    # F3, textile storage, 2016: the additions agree (its consumption is wrong, see W11 and W12).
    in_source(TABLE, "F3", "recomputed", "27.04", "28.54", "29.79", "30.49")
    book = quote([(14.4, 0, 1.60), (4.01, 0, 0.50), (1, 0, 0.50)], sew_minutes=1.50, commercial_cost=1.50)
    fob = book.number("quote.worked_out")
    assert fob - 1.50 == pytest.approx(27.04, abs=0.006)
    assert fob == pytest.approx(28.54, abs=0.006)
    assert pricing(fob, freight=1.25).number("pricing.cif") == pytest.approx(29.79, abs=0.006)
    assert pricing(fob, freight=1.25, insurance=0.70).number("pricing.cif") == pytest.approx(30.49, abs=0.006)


def test_polo_shirts_without_the_slips_of_their_pages() -> None:
    # F4, definetextile, 2014: prints 23.89 and 0.66 for 23.86 and 0.60; its totals stand.
    in_source(TABLE, "F4", "recomputed", "23.8581", "collar knit 0.60", "4.6638", "37.52", "39.67")
    book = quote([(4.41, 0, 5.41), (1, 0, 4.6638), (1, 0, 3)], sew_minutes=6)
    assert book.number("materials.bom[M1].cost") == pytest.approx(23.8581, abs=5e-5)
    assert book.number("quote.direct") == pytest.approx(37.52, abs=0.005)

    # F5, ordnur: adds 21.96 + 4.48 + 6 + 3 to 34.44; everything after it is 1.00 too low.
    in_source(TABLE, "F5", "published_result", "34.44", "36.52")
    in_source(TABLE, "F5", "recomputed", "35.44", "37.52")
    lines = [
        (3.80, 0.08, 3.90),
        (3.80, 0.08, 0.15),
        (3.80, 0.08, 1.30),
        (0.70, 0, 3.90),
        (0.07, 0, 12),
        (0.70, 0, 1.30),
        (1, 0, 3),
    ]
    book = quote(lines, sew_minutes=6, commercial_cost=0.8832, process_cost=1.2)
    assert sum(book.number(f"materials.bom[M{line}].cost") for line in (1, 2, 3)) == pytest.approx(21.96, abs=0.005)
    assert sum(book.number(f"materials.bom[M{line}].cost") for line in (4, 5, 6)) == pytest.approx(4.48, abs=0.005)
    assert book.number("quote.materials_cost") + book.number("quote.make_cost") == pytest.approx(35.44, abs=0.005)
    assert book.number("quote.worked_out") == pytest.approx(37.52, abs=0.005)


@pytest.mark.parametrize("case", ["M-20", "M-25", "M-33", "M-50", "M-67", "M-100", "M-120", "M-150"])
def test_mark_up_and_margin_are_two_names_of_one_price(case: str) -> None:
    # Algebra; the pairs as in the table, whose shares have two to four decimals.
    row = published(TABLE)[case]
    markup = float(re.findall(r"cost ([\d.]+) %", row["inputs"])[0]) / 100
    margin, factor = (
        float(figure) for figure in re.findall(r"margin ([\d.]+) %; multiplier ([\d.]+)", row["recomputed"])[0]
    )
    book = pricing(100, wholesale=100 * (1 + markup), wholesale_margin=margin / 100)
    assert book.number("pricing.margin_got") == pytest.approx(margin / 100, abs=3e-5)
    assert book.number("pricing.markup_got") == pytest.approx(markup, rel=1e-9)
    assert book.number("pricing.wholesale_wanted") / 100 == pytest.approx(factor, abs=1e-4)


@pytest.mark.parametrize(("case", "cost", "price"), [("M1", 10, 20.00), ("M2", 37.50, 75.00)])
def test_keystone(case: str, cost: float, price: float) -> None:
    # Marketing dictionaries (50 % of retail); classroom exercise.
    in_source(TABLE, case, "published_result", f"{price:.2f}" if case == "M2" else "20")
    book = pricing(1, wholesale=cost, retail_margin=0.5, retail=price)
    assert book.number("pricing.retail_wanted") == price
    assert book.number("pricing.retail_markup_got") == pytest.approx(1.0)
    assert book.number("pricing.retail_margin_got") == pytest.approx(0.5)


def test_from_cost_to_wholesale_to_retail() -> None:
    # M9, constructed: x 2.2 twice.
    in_source(TABLE, "M9", "recomputed", "18.480 (margin 54.55 %)", "40.6560 (retailer margin 54.55 %)", "79.34 %")
    book = pricing(8.40, wholesale=18.48, retail=40.656, retail_margin=1 - 1 / 2.2)
    assert book.number("pricing.landed") == pytest.approx(8.40)
    assert book.number("pricing.margin_got") == pytest.approx(0.5455, abs=5e-5)
    assert book.number("pricing.retail_wanted") == pytest.approx(40.656)
    assert book.number("pricing.retail_margin_got") == pytest.approx(0.5455, abs=5e-5)
    assert book.number("pricing.direct_margin") == pytest.approx(0.7934, abs=5e-5)


def test_a_margin_is_taken_from_the_price_not_put_on_the_cost() -> None:
    # M10, algebra: 21.00, not 8.40 x 1.60 = 13.44.
    in_source(TABLE, "M10", "recomputed", "21.00 (not 8.40 x 1.60 = 13.44)")
    assert pricing(8.40, wholesale_margin=0.6).number("pricing.wholesale_wanted") == pytest.approx(21.00)


@pytest.mark.parametrize(
    ("case", "base", "duty", "fees", "cif", "duty_cost", "landed"),
    [
        # The structure of customs practice; the rates are inputs (from memory).
        ("D1", "price", 0.165, 0.03771, 8.6258, 1.32, 9.98351),
        ("D2", "price with freight and insurance", 0.12, 0, 8.6258, 1.035096, 9.660896),
    ],
)
def test_landed_cost(
    case: str, base: str, duty: float, fees: float, cif: float, duty_cost: float, landed: float
) -> None:
    in_source(TABLE, case, "recomputed", {"D1": "landed 9.9835", "D2": "9.66090"}[case])
    book = pricing(8.00, freight=0.60, insurance=0.003 * 8.60, duty_base=base, duty=duty, fees=fees)
    assert book.number("pricing.cif") == pytest.approx(cif)
    assert book.number("pricing.duty_cost") == pytest.approx(duty_cost)
    assert book.number("pricing.landed") == pytest.approx(landed)
