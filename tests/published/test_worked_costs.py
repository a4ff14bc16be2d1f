"""Published costings, purchases and seams, row by row through the sheets' live formulas.

Rows are those of the `_2` tables in tests/data, which name the source of each. Not here: CP01 to CP07, cut plans, in
tests/cutting; CP10, whose source rounds each cell up where ours keep the total (CP08 in test_sharing_out); MQ01, garments
out of a given length, which no sheet asks; FS02 and FS03, which round yards first.
"""

import pytest

from sheetgen.trade.lengths import YARD_M
from tests.lists import stitch
from tests.published.book import NO_CHARGES, Shown, published
from tests.published.rows import check, lines

COSTING, PURCHASING, THREAD = "costing_examples_2.csv", "purchasing_examples_2.csv", "thread_examples_2.csv"


def making(**quote: float) -> Shown:
    return Shown(quote=quote)


def test_what_a_minute_costs_in_a_month() -> None:
    book = making(operators=1000, hours=10, days=26, wages=561600)
    check(COSTING, "CM01", book.number("quote.minutes_available"))
    check(COSTING, "CM02", book.number("quote.minute_cost"))
    check(COSTING, "CM05", making(operators=1, hours=8, days=26).number("quote.minutes_available"))
    # A day of one hour: 60 minutes of it are what the row calls a day.
    check(COSTING, "CM10", 60 * making(operators=1, hours=1, days=26, wages=4000000).number("quote.minute_cost"))
    # The row goes on with the cost of a day as its source rounded it.
    check(COSTING, "CM11", 60 * making(operators=125, hours=1, days=1, wages=153846.2).number("quote.minute_cost"))
    # 120 pieces an hour are two a minute.
    check(COSTING, "CM13", making(operators=2, hours=8, days=1, wages=36923.08).number("quote.minute_cost"))


def test_making_by_minutes() -> None:
    book = making(sew_minutes=15, cut_minutes=2, rate=0.4, efficiency=0.5)
    check(COSTING, "CM07", book.number("quote.sew_cost"))
    check(COSTING, "CM08", book.number("quote.cut_cost"))
    check(COSTING, "CM04", lines().number("materials.bom[M7].cost"))
    # CM14: 25 of 100 machines, 5,000,000 a month of 26 days of 8 hours, 200 pieces an hour: 0.3 minutes each.
    minute = making(operators=4, hours=8, days=26, wages=5000000).number("quote.minute_cost")
    check(COSTING, "CM14", making(sew_minutes=0.3, rate=minute, efficiency=1).number("quote.sew_cost"))


def test_a_t_shirt_from_direct_cost_to_price() -> None:
    # FB01, FB02, FB04: per dozen; making of 4.00 is four minutes at 1.00.
    bom = [
        {"item": "Jersey", "group": "fabric", "unit": "kg", "net": 1.94, "waste": 0, "price": 6, "currency": "USD"},
        {"item": "Accessories", "group": "trim", "unit": "set", "net": 1, "waste": 0, "price": 3.5, "currency": "USD"},
    ]
    none = dict.fromkeys(
        ("cut_minutes", "finish_minutes", "process_cost", "testing_cost", "packing_cost", "commercial_cost"), 0
    )
    quote = {"sew_minutes": 4, "rate": 1, "efficiency": 1, "overhead": 0.15, "profit": 0.07, **none}
    book = Shown(materials={"bom": bom}, quote=quote)
    check(COSTING, "FB01", book.number("quote.direct"))
    check(COSTING, "FB02", book.number("quote.overhead_cost"))
    check(COSTING, "FB04", book.number("quote.worked_out"))
    check(COSTING, "FB05", lines().number("materials.bom[M8].gross"))
    check(COSTING, "FB07", lines().number("materials.bom[M9].gross"))
    # FB08: yarn, knitting and dyeing of a collar.
    parts = [
        {"item": item, "group": "trim", "unit": "set", "net": 1, "waste": 0, "price": price, "currency": "USD"}
        for item, price in (("Yarn", 3.12), ("Knitting", 0.6), ("Dyeing", 0.94))
    ]
    check(COSTING, "FB08", Shown(materials={"bom": parts}).number("materials.cost"))


@pytest.mark.parametrize(
    ("row", "place", "price", "typed"),
    [
        ("LC02", "duty_cost", 10500, {"duty": 0.04}),
        ("LC05", "landed_tax", 1000, {"duty": 0.07, "tax": 0.18}),  # 1000 + 70 = 1070, the row's base
        ("LC08", "landed_tax", 932, {"duty": 0.07, "tax": 0.18}),
        ("LC11", "fees_each", 10000, {"fee_share": 0.00125}),
        ("MK01", "wholesale_wanted", 37.5, {"wholesale_margin": 0.5}),
    ],
)
def test_from_the_port_to_the_shop(row: str, place: str, price: float, typed: dict[str, float]) -> None:
    book = Shown(quote={"fob": price}, pricing={**NO_CHARGES, **typed})
    check(COSTING, row, book.number(f"pricing.{place}"))


def test_keystone_is_half_of_the_price() -> None:
    book = Shown(quote={"fob": 10}, pricing={**NO_CHARGES, "wholesale": 20})
    check(COSTING, "MK02", 100 * book.number("pricing.margin_got"))


def bought(net: float, pieces: int, multiple: float | None = None) -> Shown:
    line = {"item": "Binding", "group": "trim", "unit": "yd", "net": net, "waste": 0, "color": "any"}
    buy = [{"row": "M1", "multiple": multiple}] if multiple else []
    return Shown(materials={"bom": [line]}, order={"sizes": [{"row": "M", "pieces": pieces}], "buy": buy})


def test_binding_is_never_bought_short() -> None:
    check(PURCHASING, "MQ02", bought(18 / 36, 2500).number("order.buy[M1].need"))
    book = bought(18 / 36 / 27, 2500, 1)
    check(PURCHASING, "MQ04", book.number("order.buy[M1].need"))
    assert book.number("order.buy[M1].buy") == 47  # the source buys about 46: 0.3 yd short


def test_cartons_by_volume() -> None:
    def carton(pieces: int, each: int, *sides: float, **more: float) -> Shown:
        names = dict(zip(("carton_long", "carton_wide", "carton_high"), sides, strict=True))
        return Shown(order={"sizes": [{"row": "M", "pieces": pieces}], "carton_pieces": each, **names, **more})

    check(PURCHASING, "CB01", carton(1, 1, 100, 150, 200).number("order.volume"))
    # CB03: 22 in are 0.5588 m; times a metre and a metre.
    check(PURCHASING, "CB03", carton(1, 1, 22 * 2.54, 100, 100).number("order.volume"))
    check(PURCHASING, "CB04", carton(5000, 1, 22 * 2.54, 15 * 2.54, 6 * 2.54).number("order.volume"))
    check(
        PURCHASING,
        "CB06",
        carton(1, 1, 60, 40, 40, air_divisor=6000, piece_weight=0.4, carton_weight=1).number("order.air_weight"),
    )


def test_a_size_in_all_colors() -> None:
    # CP11: the source's own cells, typed; the shared-out ones keep the total of 10,000 (test_sharing_out).
    colors = [{"name": name} for name in ("Red", "Blue", "Green")]
    book = Shown(
        colorways={"list": colors}, order={"sizes": [{"row": "M", "pieces": {"Red": 834, "Blue": 1667, "Green": 834}}]}
    )
    check(PURCHASING, "CP11", book.number("order.sizes[Z1].total"))


def test_a_seam_taken_apart_in_inches() -> None:
    # TH07: 3 in of a 401 seam gave 8 in of looper thread. TH08: 1.17 yd of it, 3 needle and 2.67 looper to one.
    def looper_and_all(inches: float, looper: float) -> tuple[float, float]:
        book = Shown(
            style={"unit": "in"},
            construction={"callouts": [{"area": "Seam", "stitch": stitch("401"), "extra": inches}]},
            thread={"seams": [{"row": "N1", "own_ratio": 3 + looper, "own_needle": 3 / (3 + looper)}]},
        )
        seam = (book.number(f"thread.seams[N1].{part}_meters") / YARD_M for part in ("needle", "looper"))
        needle, other = seam
        return other, needle + other

    check(THREAD, "TH07", looper_and_all(36, 8 / 3)[0])
    assert looper_and_all(1.17 * 36, 2.67)[1] == pytest.approx(
        float(published(THREAD)["TH08"]["published_answer"]), abs=0.005
    )
