"""Published worked examples, row by row: the inputs typed into the sheets, the answer read from their live formulas.

Rows are those of the `_2` tables in tests/data, which name the source of each; `recomputed` there is the figure of the
row's own formula, `published_answer` the one that its source prints. Rows with a source's own rounding in between are
typed with the rounded figure, as the source went on.

Not here: CP01 to CP07, cut plans, in tests/cutting; CP10, whose source rounds each cell up where ours keep the total (CP08
in test_sharing_out); MQ01, garments out of a given length, which no sheet asks; FS02 and FS03, which round yards first.
"""

from functools import cache

import pytest

from sheetgen.trade.lengths import YARD_M
from sheetgen.trade.stitches import STITCH_CHOICES
from tests.published.book import Shown, published

CONSUMPTION, COSTING, PURCHASING = "consumption_examples_2.csv", "costing_examples_2.csv", "purchasing_examples_2.csv"
THREAD = "thread_examples_2.csv"
NO_MARGINS = {
    "overhead": 0,
    "tax": 0,
    "freight": 0,
    "insurance": 0,
    "duty_base": "price",
    "duty": 0,
    "fees": 0,
    "inland": 0,
}


def cut(unit: str, usable: float, *pieces: tuple[float, float, int], use: str = "yd", weight: float = 100) -> Shown:
    """Each piece (length, width, count) of a fabric of its own, M1, M2 and so on, all of one width; one garment is ordered."""
    rows = range(1, len(pieces) + 1)
    return Shown(
        style={"unit": unit},
        materials={"bom": [{"item": f"Cloth {n}", "group": "fabric", "unit": use, "weight": weight} for n in rows]},
        order={"sizes": [{"row": "M", "pieces": 1}]},
        **{"yield": {
            "fabrics": [{"material": f"M{n}", "usable": usable, "efficiency": 1} for n in rows],
            "pieces": [
                {"material": f"M{n}", "piece": f"Piece {n}", "count": count, "long_plus": long, "wide_plus": wide}
                for n, (long, wide, count) in enumerate(pieces, 1)
            ],
        }},
    )  # fmt: skip


@cache
def shirt_in_cm() -> Shown:
    # On cloth one metre wide, metres are square metres.
    return cut(
        "cm", 100, (75 + 5, 55 + 6, 2), (65 + 4, 25 + 5, 2 * 2), (32 + 3, 2 + 2, 2), (14 + 2, 12 + 1, 1), use="m²"
    )


@cache
def whole_shirt_in_cm() -> Shown:
    # Its parts as areas, each a strip one centimetre wide of so many centimetres.
    parts = (9760, 8280, 720, 280, 208, 1508)
    pieces = [{"material": "M1", "piece": f"{part}", "count": 1, "long_plus": part, "wide_plus": 1} for part in parts]
    return Shown(
        materials={"bom": [{"item": "Cloth", "group": "fabric", "unit": "m²"}, {"item": "Strip", "group": "fabric", "unit": "in"}]},
        order={"sizes": [{"row": "M", "pieces": 1}]},
        **{"yield": {
            "fabrics": [{"material": "M1", "usable": 100, "efficiency": 1}, {"material": "M2", "usable": 2.54, "efficiency": 1}],
            "pieces": [*pieces, {"material": "M2", "piece": "All, on cloth an inch wide", "count": 1, "long_plus": 20756, "wide_plus": 1}],
        }},
    )  # fmt: skip


@cache
def shirt_in_inches() -> Shown:
    return cut(
        "in", 44, (31 + 2, 24 + 2, 1), (21 + 4, 4 + 1, 1), (34.5 - 11 + 1, 21 + 1, 2), (9 + 3, 2.5 + 0.5, 2),
        (16 + 5, 2 + 1, 4), (57.45, 44, 1),
    )  # fmt: skip


@cache
def jacket_in_inches() -> Shown:
    return cut("in", 56, (29.87, 43.68, 2))


@cache
def knits() -> Shown:
    return cut("cm", 150, (73 + 19.5 + 10, 52 + 4, 2), use="kg", weight=160)


@cache
def a_meter_of_knit() -> Shown:
    return cut("cm", 60 * 2.54, (100, 60 * 2.54, 1), use="g", weight=220)


@cache
def lines() -> Shown:
    """Lines of a bill of materials: net use, waste and price, in the order of the rows that they stand for."""
    typed = [
        (2.20416, 0.10, 1),  # M1 KN02
        (3.45, 0.10, 1),  # M2 KN04
        (1.6 * 12, 0.05, 1),  # M3 WV11
        (1.29, 0.05, 1),  # M4 JK03
        (19, 0.07, 1),  # M5 DZ02
        (1 / 4.17, 0, 600),  # M6 CV04
        (12, 0, 0.36),  # M7 CM04
        (4.05, 0.09, 1),  # M8 FB05
        (0.06 * 12, 0.09, 1),  # M9 FB07
    ]
    bom = [
        {"item": f"Line {n}", "group": "fabric", "unit": "kg", "net": net, "waste": waste, "price": price, "currency": "USD"}
        for n, (net, waste, price) in enumerate(typed, 1)
    ]  # fmt: skip
    return Shown(materials={"bom": bom})


@cache
def shrunk() -> Shown:
    # SH02: four yards that must be left after 10 % shrinkage. ME01: pieces that fill 82 of 100.
    marker = {"material": "M1", "width": 100, "long": 100, "area": 82, "garments": 1}
    piece = {"material": "M1", "piece": "Panel", "count": 1, "long_plus": 4 * 36, "wide_plus": 44, "long_shrink": 0.1}
    return Shown(
        style={"unit": "in"},
        materials={"bom": [{"item": "Cloth", "group": "fabric", "unit": "yd"}, {"item": "Other", "group": "fabric"}]},
        order={"sizes": [{"row": "M", "pieces": 1}]},
        markers={"list": [{**marker, "material": "M2", "width": 100 / 2.54}]},
        **{"yield": {"fabrics": [{"material": "M1", "usable": 44, "efficiency": 1}], "pieces": [piece]}},
    )


MADE_OF = {
    # row: the book, the place, and how many of what the place shows are one of what the row counts
    "KN01": (knits, "yield.fabrics[B1].mix_kg", 12),
    "KN02": (lines, "materials.bom[M1].gross", 1),
    "KN04": (lines, "materials.bom[M2].gross", 1),
    "WV01": (shirt_in_cm, "yield.pieces[Y1].area_z1", 1e4),
    "WV02": (shirt_in_cm, "yield.pieces[Y2].area_z1", 1e4),
    "WV04": (shirt_in_cm, "yield.pieces[Y3].area_z1", 1e4),
    "WV05": (shirt_in_cm, "yield.pieces[Y4].area_z1", 1e4),
    "WV07": (whole_shirt_in_cm, "yield.fabrics[B1].worked_out", 1e4),
    "WV08": (whole_shirt_in_cm, "yield.fabrics[B2].worked_out", 1),
    "WV10": (shirt_in_inches, "yield.fabrics[B6].worked_out", 1),
    "WV11": (lines, "materials.bom[M3].gross", 1),
    "LS01": (shirt_in_inches, "yield.fabrics[B1].worked_out", 1),
    "LS02": (shirt_in_inches, "yield.fabrics[B2].worked_out", 1),
    "LS04": (shirt_in_inches, "yield.fabrics[B3].worked_out", 1),
    "LS05": (shirt_in_inches, "yield.fabrics[B4].worked_out", 1),
    "LS07": (shirt_in_inches, "yield.fabrics[B5].worked_out", 1),
    "JK02": (jacket_in_inches, "yield.fabrics[B1].worked_out", 1),
    "JK03": (lines, "materials.bom[M4].gross", 1),
    "DZ02": (lines, "materials.bom[M5].gross", 1),
    "CV01": (a_meter_of_knit, "yield.fabrics[B1].worked_out", 1),
    "CV04": (lines, "materials.bom[M6].cost", 1),
    "SH02": (shrunk, "yield.fabrics[B1].worked_out", 1),
    "ME01": (shrunk, "markers.list[G1].efficiency", 100),
}


@pytest.mark.parametrize("row", MADE_OF)
def test_a_published_consumption(row: str) -> None:
    book, place, times = MADE_OF[row]
    check(CONSUMPTION, row, book().number(place) * times)


def check(table: str, row: str, got: float) -> None:
    """What the sheets show is the row's own formula, and the source's answer within the rounding that the row states."""
    data = published(table)[row]
    # Cells with a rounded result, such as a cost in 0.0001, agree to that.
    assert got == pytest.approx(float(data["recomputed"]), rel=5e-6, abs=5e-5)
    assert got == pytest.approx(float(data["published_answer"]), abs=max(float(data["tolerance"]), 1e-4))


def test_sums_of_published_parts() -> None:
    # LS08: the seven parts as printed, each a length of cloth 44 in wide.
    printed = (0.541, 0.079, 0.562, 0.68, 0.05, 0.032, 0.159)
    pieces = [
        {"material": "M1", "piece": f"{yards} yd", "count": 1, "long_plus": yards * 36, "wide_plus": 44}
        for yards in printed
    ]
    book = Shown(
        style={"unit": "in"},
        materials={"bom": [{"item": "Cloth", "group": "fabric", "unit": "yd"}]},
        order={"sizes": [{"row": "M", "pieces": 1}]},
        **{"yield": {"fabrics": [{"material": "M1", "usable": 44, "efficiency": 1}], "pieces": pieces}},
    )
    check(CONSUMPTION, "LS08", book.number("yield.fabrics[B1].worked_out"))


def test_cloth_by_the_kilogram() -> None:
    # CV03: 4.17 m of cloth a metre wide weigh a kilogram at 240 g/m2; 100 / 0.24 cm of it weigh exactly one.
    assert published(CONSUMPTION)["CV03"]["recomputed"] == "4.166667"
    kilogram = cut("cm", 100, (100 / 0.24, 100, 1), use="kg", weight=240)
    assert kilogram.number("yield.fabrics[B1].worked_out") == pytest.approx(1, rel=1e-9)
    # KN05: 3.795 kg a dozen for 10,000 pieces; the source counts 833.33 dozen.
    line = {"item": "Knit", "group": "fabric", "unit": "kg", "net": 3.45 / 12, "waste": 0.1, "color": "any"}
    book = Shown(materials={"bom": [line]}, order={"sizes": [{"row": "M", "pieces": 10000}]})
    assert book.number("order.buy[M1].need") == pytest.approx(
        float(published(CONSUMPTION)["KN05"]["published_answer"]), abs=0.05
    )


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
    book = Shown(quote={"fob": price}, pricing={**NO_MARGINS, **typed})
    check(COSTING, row, book.number(f"pricing.{place}"))


def test_keystone_is_half_of_the_price() -> None:
    book = Shown(quote={"fob": 10}, pricing={**NO_MARGINS, "wholesale": 20})
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
    stitch = next(choice for choice in STITCH_CHOICES if choice.startswith("401"))

    def looper_and_all(inches: float, looper: float) -> tuple[float, float]:
        book = Shown(
            style={"unit": "in"},
            construction={"callouts": [{"area": "Seam", "stitch": stitch, "extra": inches}]},
            thread={"seams": [{"row": "N1", "own_ratio": 3 + looper, "own_needle": 3 / (3 + looper)}]},
        )
        seam = (book.number(f"thread.seams[N1].{part}_meters") / YARD_M for part in ("needle", "looper"))
        needle, other = seam
        return other, needle + other

    check(THREAD, "TH07", looper_and_all(36, 8 / 3)[0])
    assert looper_and_all(1.17 * 36, 2.67)[1] == pytest.approx(
        float(published(THREAD)["TH08"]["published_answer"]), abs=0.005
    )
