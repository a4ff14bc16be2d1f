"""Three invented returns of the overshirt side by side: 1200 pieces, style in EUR, one USD is worth 0.92 EUR.

Expected figures are worked out by hand from the returns and the brief: freight 0.42, insurance 0.03, inland 0.35, no
duty, no fees: 0.80 from the price to the warehouse.
"""

import io

import openpyxl
import pytest

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.offers.gather import gather
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from sheetgen.workbook.model.calculation import shown_by
from sheetgen.workbook.model.values import ready, shape_of
from tests.edits import edited
from tests.loop import fresh_loop
from tests.offers.returns import FIRST, RETURNS, SECOND, THIRD, Reopened, compared, three_compared, three_returns

LANDED = {
    FIRST: (25.80, 26.60, 0.0, 26.60, 31920.00),  # 25.80 + 0.80; nothing charged once; 26.60 x 1200
    SECOND: (
        24.932,
        25.732,
        0.483,
        26.215,
        31458.00,
    ),  # 27.10 x 0.92; (450 + 180) x 0.92 = 579.60, / 1200; 30878.40 + 579.60
    THIRD: (25.95, 26.75, 0.20, 26.95, 32340.00),  # 240 / 1200; 26.75 x 1200 = 32100 + 240
}
"""Price in EUR, landed, share of what is charged once, both together, the order."""


@pytest.mark.parametrize("vendor", LANDED)
def test_landed_cost_at_the_orders_quantity(vendor):
    names = ("price", "landed_each", "once_each", "total", "order_total")
    found = [three_compared().of(f"offers.{name}", vendor) for name in names]
    assert found == pytest.approx(LANDED[vendor], abs=1e-9)


def test_the_cheapest_is_named_and_the_others_follow():
    compared = three_compared()
    assert compared.text("offers.cheapest") == SECOND
    assert compared.number("offers.lead") == pytest.approx(26.60 - 26.215)
    assert [compared.of("offers.rank", vendor) for vendor in compared.vendors] == [2, 1, 3]
    assert compared.of("offers.more", THIRD) == pytest.approx(0.735)  # 26.95 - 26.215
    assert compared.of("offers.more_share", THIRD) == pytest.approx(0.735 / 26.215)
    assert compared.text("offers.ranked_by").startswith("Landed cost at the order's quantity")


def shown(address, row=""):
    compared = three_compared()
    place = Place(address, row)
    return compared.shown.get(place, compared.values.get(place))


def test_lines_in_one_currency_and_the_lowest_of_each():
    # M1: 1.8 m + 5 % = 1.89 m; 1.89 x 4.65 = 8.7885; 4.62 USD x 0.92 = 4.2504, x 1.89 = 8.0333; 1.89 x 4.80 = 9.0720
    assert [shown(f"lines.bom.shown_v{number}", "M1") for number in (1, 2, 3)] == [8.7885, 8.0333, 9.0720]
    assert shown("lines.bom.lowest", "M1") == SECOND
    # M2: 0.09 + 5 % = 0.0945; x 2.35 = 0.2221; 2.70 x 0.92 x 0.0945 = 0.2347; the third left its price open.
    assert [shown(f"lines.bom.shown_v{number}", "M2") for number in (1, 2, 3)] == [0.2221, 0.2347, "missing"]
    assert shown("lines.bom.lowest", "M2") == FIRST
    # M6: both EUR vendors ask 0.0009.
    assert shown("lines.bom.lowest", "M6") == f"{FIRST} +1"
    assert [three_compared().of("offers.unpriced", vendor) for vendor in (FIRST, SECOND, THIRD)] == [0, 0, 1]


def test_making_in_one_currency():
    # 36.5 / 0.72 x 0.168651 = 8.549669; 39.5 / 0.61 x 0.129 x 0.92 = 7.685016; 35 / 0.7 x 0.172 = 8.60
    found = [three_compared().of("making.sew_cost_here", vendor) for vendor in (FIRST, SECOND, THIRD)]
    assert found == pytest.approx([8.549669, 7.685016, 8.60], abs=1e-6)
    assert shown("making.lowest_sew_cost_here") == SECOND
    assert shown("making.lowest_sew_minutes") == THIRD  # 35 against 36.5 and 39.5


def test_a_sum_with_a_line_missing_is_not_compared():
    # 10.7677 and 10.0397 are the sums of 16 lines each; the third has 15.
    found = [three_compared().of("making.materials_cost_here", vendor) for vendor in (FIRST, SECOND, THIRD)]
    assert found == [pytest.approx(10.7677), pytest.approx(10.0397), "lines missing"]
    assert three_compared().of("making.worked_out_here", THIRD) == "lines missing"
    assert shown("making.lowest_worked_out_here") == SECOND


def test_prices_at_every_quantity_that_a_vendor_names():
    found = {
        shown("quantity.breaks.quantity", row): [
            shown(f"quantity.breaks.price_at_v{number}", row) for number in (1, 2, 3)
        ]
        for row in ("Q1", "Q2", "Q3", "Q4", "Q5")
    }
    assert list(found) == [600, 1000, 1200, 2000, 2400]
    assert found[600] == pytest.approx([26.96, 24.932, 25.95])
    assert found[1200] == pytest.approx([25.80, 24.932, 25.95])
    assert found[2000] == pytest.approx([25.80, 24.196, 25.95])  # 26.30 x 0.92
    assert found[2400] == pytest.approx([25.03, 24.196, 25.95])


def test_what_is_missing_is_listed_with_who_left_it_open():
    assert [shown(f"missing.items.{name}", "N1") for name in ("entry", "row", "sheet")] == [
        "Price per unit",
        "M2 Poplin, inner yoke and inner stand",
        "Materials",
    ]
    assert [shown(f"missing.items.state_v{number}", "N1") for number in (1, 2, 3)] == ["given", "given", "missing"]
    assert shown("missing.items.entry", "N2") is None
    assert [three_compared().of("offers.open", vendor) for vendor in (FIRST, SECOND, THIRD)] == [0, 0, 1]


def test_what_was_changed_is_listed_with_what_was_sent_and_what_came_back():
    names = ("who", "what", "line", "entry", "sent", "came")
    assert [shown(f"changed.items.{name}", "G1") for name in names] == [
        THIRD,
        "A locked value was changed",
        "M1 Shell, cotton twill 3/1, peached",
        "Net use",
        "1.8",
        "1.74",
    ]
    assert shown("changed.items.who", "G2") is None
    assert [three_compared().of("offers.changes", vendor) for vendor in (FIRST, SECOND, THIRD)] == [0, 0, 1]


def test_a_minimum_above_the_order_is_flagged():
    found = [three_compared().of("offers.style_state", vendor) for vendor in (FIRST, SECOND, THIRD)]
    assert found == ["reached", "reached", "order below"]  # minimums of 400, 1000 and 1500; 1200 ordered


@pytest.mark.parametrize("number", [1, 2, 3])
def test_the_parts_of_the_picture_add_up_to_the_landed_cost(number):
    parts = ("materials", "making", "other", "rest", "transport", "duty", "inland", "once")
    found = [shown(f"picture.vendors.{part}", f"V{number}") for part in parts]
    vendor = (FIRST, SECOND, THIRD)[number - 1]
    assert sum(found) == pytest.approx(LANDED[vendor][3])
    assert shown("picture.vendors.label", f"V{number}") == f"{vendor}, {('26.60', '26.22', '26.95')[number - 1]}"


@pytest.mark.parametrize("number", [0, 1, 2])
def test_it_is_what_accepting_the_return_gives(tmp_path, number):
    folder = three_returns(tmp_path)
    values = api.accept(folder / "a-working.xlsx", folder / RETURNS[number]).built.values
    accepted = shown_by(ready(BOOK, shape_of(BOOK, values)), values)
    vendor = (FIRST, SECOND, THIRD)[number]
    for ours, theirs in (
        ("landed.landed", "pricing.landed"),
        ("landed.order_cost", "pricing.order_cost"),
        ("offers.materials", "materials.cost"),
        ("offers.one_off", "quote.one_off"),
        ("making.worked_out", "quote.worked_out"),
    ):
        assert three_compared().of(ours, vendor) == pytest.approx(accepted[Place(theirs)]), ours


def test_another_rate_gives_another_ranking(tmp_path):
    # 27.10 x 0.97 = 26.287, + 0.80 = 27.087, + 630 x 0.97 / 1200 = 0.50925: 27.59625, the dearest of the three.
    file = Reopened(tmp_path, **{"offers.rates[X1].rate": 0.97})
    assert file["offers.total_v2"] == pytest.approx(27.59625)
    assert [file[f"offers.rank_v{number}"] for number in (1, 2, 3)] == [1, 3, 2]
    assert file["offers.cheapest"] == FIRST
    assert file["offers.lowest_total"] == FIRST


def test_freight_and_duty_of_one_vendor_can_be_its_own(tmp_path):
    # 24.932 + 1.10 + 0.03 = 26.062; 12 % of it 3.12744; + 0.35
    file = Reopened(tmp_path, **{"landed.freight_v2": 1.1, "landed.duty_v2": 0.12})
    assert file["landed.landed_v2"] == pytest.approx(26.062 + 3.12744 + 0.35)
    assert file["landed.landed_v1"] == pytest.approx(26.60)
    assert file["offers.cheapest"] == FIRST


def test_another_quantity_takes_another_step(tmp_path):
    file = Reopened(tmp_path, **{"offers.pieces": 2400})
    assert file["offers.price_v1"] == pytest.approx(25.03)
    assert file["offers.price_v2"] == pytest.approx(24.196)
    assert file["offers.once_each_v3"] == pytest.approx(0.10)  # 240 / 2400
    assert file["offers.style_state_v3"] == "reached"


def test_without_freight_the_prices_are_ranked_and_that_is_said(tmp_path):
    file = Reopened(tmp_path, **{f"landed.freight_v{number}": None for number in (1, 2, 3)})
    assert file["landed.landed_v1"] in (None, "")
    assert [file[f"offers.rank_v{number}"] for number in (1, 2, 3)] == [2, 1, 3]
    assert str(file["offers.ranked_by"]).startswith("The vendors' price")


PRICINGS = (
    {"pricing.insured": "share of price and freight", "pricing.insurance": 0.004, "pricing.duty": 0.12, "pricing.other_duty": 0.02},
    {
        "pricing.insured": "share of price with freight and insurance plus 10 %", "pricing.insurance": 0.003,
        "pricing.duty_base": "price", "pricing.duty": 0.165, "pricing.fee_share": 0.003464, "pricing.fee_least": 31.67,
        "pricing.fee_most": 50,
    },
)  # fmt: skip


@pytest.mark.parametrize("pricing", PRICINGS)
def test_it_is_the_pricing_sheets_landed_cost_whatever_that_counts(tmp_path, pricing):
    folder = three_returns(tmp_path)
    working = folder / "other-working.xlsx"
    edited(BOOK, folder / "a-working.xlsx", [Edit(place, "type", value) for place, value in pricing.items()], working)
    returned = [folder / "b-returned.xlsx", folder / "c-returned.xlsx"]
    found = compared(working, *returned)
    for offer in gather(working, returned).offers:
        landed = offer.shown[Place("pricing.landed")]
        assert found.of("landed.landed", offer.vendor) == pytest.approx(landed)
        assert landed != pytest.approx(LANDED[offer.vendor][1], abs=0.05)


@pytest.mark.parametrize("style", ["sweatshirt", "jacket"])
def test_one_return_of_another_style(tmp_path, style):
    folder = fresh_loop(tmp_path, style)
    compared = api.compare_offers(folder / "a-working.xlsx", [folder / "a-returned.xlsx"])
    (offer,) = gather(folder / "a-working.xlsx", [folder / "a-returned.xlsx"]).offers
    assert compared.of("landed.landed", offer.vendor) == pytest.approx(offer.shown[Place("pricing.landed")])
    assert compared.of("offers.rank", offer.vendor) == 1
    assert not [place for place, value in compared.shown.items() if str(value).startswith("#")]


def test_an_answer_that_is_no_number_is_missing_and_its_vendor_unranked(tmp_path):
    folder = three_returns(tmp_path)
    edits = [Edit("quote.fob", "type", "25,80"), Edit("quote.ladder[U2].price", "type", "TBC")]
    edited(BOOK, folder / "a-returned.xlsx", edits, folder / "d-returned.xlsx")
    offers = compared(folder / "a-working.xlsx", folder / "d-returned.xlsx", folder / "b-returned.xlsx")
    assert offers.of("offers.rank", SECOND) == 1
    found = {
        (offers.values[Place("missing.items.entry", ref)], offers.values[Place("missing.items.state_v1", ref)])
        for ref in ("N1", "N2")
    }
    assert found == {("Price per garment", "not usable: 25,80"), ("Price", "says only TBC")}
    assert offers.of("offers.open", FIRST) == 2
    assert offers.of("offers.rank", FIRST) == ""
    assert offers.shown[Place("picture.vendors.label", "V1")] == f"{FIRST}, no price"
    assert offers.shown[Place("picture.vendors.rest", "V1")] == 0
    assert not [place for place, value in offers.shown.items() if str(value).startswith("#")]


def test_an_offered_alternative_is_listed_and_not_counted(tmp_path):
    folder = three_returns(tmp_path)
    row = {"item": "Button, corozo, 15 mm", "price": 0.04, "currency": "EUR"}
    edited(BOOK, folder / "c-returned.xlsx", [Edit("materials.bom", "add-row", row)], folder / "d-returned.xlsx")
    compared = api.compare_offers(folder / "a-working.xlsx", [folder / "d-returned.xlsx"])
    listed = [str(value) for place, value in compared.values.items() if place.entry == "changed.items.came"]
    assert any("Button, corozo, 15 mm" in words for words in listed)
    assert compared.of("offers.materials", THIRD) == pytest.approx(three_compared().of("offers.materials", THIRD))
    assert compared.of("offers.changes", THIRD) == 2


def test_the_file_shows_no_error_and_says_that_it_is_private():
    book = openpyxl.load_workbook(io.BytesIO(three_compared().data), data_only=True)
    cells = [str(cell.value) for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert not [text for text in cells if text.startswith("#")]
    first = [str(cell.value) for row in book.worksheets[0].iter_rows() for cell in row if cell.value is not None]
    assert any("brand only" in text and "send it to nobody" in text for text in first)
    assert len(book["Picture"]._charts) == 1


def test_the_same_returns_give_the_same_bytes(tmp_path):
    folder = three_returns(tmp_path)
    again = api.compare_offers(folder / "a-working.xlsx", [folder / name for name in RETURNS])
    assert again.data == three_compared().data
