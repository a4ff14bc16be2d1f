"""From the vendor's price to the shop: duty bases, fees, insurance, quotes in another currency, prices by quantity.

Rows are those of tests/data/costing_examples.csv and costing_examples_2.csv, which name the source of each.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.published.book import NO_CHARGES, Shown, in_source

FIRST, SECOND = "costing_examples.csv", "costing_examples_2.csv"


def pricing(fob: float, pieces: int | None = None, **typed: object) -> Shown:
    order = {"sizes": [{"row": "M", "pieces": pieces}]} if pieces else {}
    return Shown(quote={"fob": fob}, pricing={**NO_CHARGES, **typed}, order=order)


def test_duty_on_the_price_and_on_price_with_freight_and_insurance() -> None:
    # D1 and D2, structure from customs practice; the rates are inputs and come from memory.
    share = {"insured": "share of price and freight", "insurance": 0.003}
    in_source(FIRST, "D1", "recomputed", "insurance 0.0258", "duty 1.3200", "fees 0.03771", "landed 9.9835")
    book = pricing(8, freight=0.6, duty=0.165, fee_share=0.003464 + 0.00125, **share)
    assert book.number("pricing.insurance_cost") == pytest.approx(0.0258)
    assert book.number("pricing.duty_cost") == pytest.approx(1.32)
    assert book.number("pricing.fees_each") == pytest.approx(0.03771, abs=5e-6)
    assert book.number("pricing.landed") == pytest.approx(9.9835, abs=5e-5)

    in_source(FIRST, "D2", "recomputed", "CIF 8.6258", "duty 1.03510", "landed before VAT 9.66090")
    book = pricing(8, freight=0.6, duty=0.12, duty_base="price with freight and insurance", **share)
    assert book.number("pricing.cif") == pytest.approx(8.6258)
    assert book.number("pricing.landed") == pytest.approx(9.66090, abs=5e-6)


def test_published_imports() -> None:
    # LC02, LC03: a carrier's guide to UK import. LC05, LC06, LC08, LC09: an article on CIF and FOB duty.
    in_source(SECOND, "LC03", "published_answer", "10920")
    assert pricing(10500, duty=0.04).number("pricing.landed") == pytest.approx(10920)
    in_source(SECOND, "LC06", "published_answer", "1262.6")
    book = pricing(1000, duty=0.07, tax=0.18)
    assert book.number("pricing.landed") + book.number("pricing.landed_tax") == pytest.approx(1262.6)
    in_source(SECOND, "LC09", "published_answer", "1176.74")
    book = pricing(932, duty=0.07, tax=0.18)
    assert book.number("pricing.landed") + book.number("pricing.landed_tax") == pytest.approx(1176.74, abs=0.005)
    # LC11, LC12: US landed-cost guide, furniture: 10,000 of value, freight 2,500, fees 34.64 and 12.50, 2,800 and 35.
    in_source(SECOND, "LC12", "recomputed", "15382.14")
    book = pricing(10000, freight=2500, fee_share=0.003464 + 0.00125, inland=2800 + 35)
    assert book.number("pricing.landed") == pytest.approx(15382.14)


def test_a_fee_has_a_least_and_a_most_for_the_shipment() -> None:
    # The US processing fee, 0.3464 % of the value, has both; the figures are those of an article and change yearly.
    fee = {"fee_share": 0.003464, "fee_least": 31.67, "fee_most": 614.35}
    assert pricing(8, 100, **fee).number("pricing.fees_each") == pytest.approx(31.67 / 100)
    assert pricing(8, 10000, **fee).number("pricing.fees_each") == pytest.approx(0.003464 * 8)
    assert pricing(8, 100000, **fee).number("pricing.fees_each") == pytest.approx(614.35 / 100000)


def test_cover_of_110_percent() -> None:
    # D3, Incoterms 2020, CIF A5 and CIP A5 (from memory): insured is the whole price plus 10 %.
    book = pricing(90, freight=5, insured="share of price with freight and insurance plus 10 %", insurance=0.01)
    cif = book.number("pricing.cif")
    assert book.number("pricing.insurance_cost") == pytest.approx(1.1 * cif * 0.01)


def test_margin_is_no_mark_up() -> None:
    # MK04 and M10: own identities; 60 % margin on 12.00 is 30.00, not the 19.20 of a 60 % mark-up.
    in_source(SECOND, "MK04", "published_answer", "30.0")
    assert pricing(12, wholesale_margin=0.6).number("pricing.wholesale_wanted") == pytest.approx(30)


def test_break_even_by_hand() -> None:
    # By hand: (1,500 + 300 + 200) / (40 - 24) = 125 pieces exactly; one cent of cost more makes it 126.
    quote = {"fob": 24, "development": 300, "tooling": 200}
    for inland, pieces in ((0, 125), (0.01, 126)):
        book = Shown(quote=quote, pricing={**NO_CHARGES, "fixed": 1500, "wholesale": 40, "inland": inland})
        assert book.number("pricing.break_even") == pieces


def test_a_quote_in_another_currency_and_by_quantity() -> None:
    # By hand: 1,000 pieces reach the price from 800, 9.50; at 0.9 that is 8.55.
    book = Shown(
        style={"currency": "EUR"},
        materials={"rates": [{"code": "USD", "rate": 0.9}]},
        order={"sizes": [{"row": "M", "pieces": 1000}]},
        quote={"currency": "USD", "fob": 10, "development": 100, "ladder": [
            {"from_quantity": 300, "price": 10}, {"from_quantity": 2000, "price": 9}, {"from_quantity": 800, "price": 9.5},
        ]},
    )  # fmt: skip
    assert book.number("quote.tier") == 800
    assert book.number("quote.price") == pytest.approx(8.55)
    assert book.number("quote.one_off") == pytest.approx(90)
    assert book.number("order.value") == pytest.approx(8550)


def test_where_the_money_goes_adds_up_and_swings_follow() -> None:
    book = Shown(
        quote={"fob": 20, "overhead": 0.1, "profit": 0.1},
        materials={"bom": [{"item": "Cloth", "group": "fabric", "net": 2, "waste": 0, "unit": "m", "price": 4, "currency": "USD"}]},
        pricing={**NO_CHARGES, "freight": 1, "duty": 0.1, "overhead": 2, "wholesale": 40},
    )  # fmt: skip
    assert book.number("pricing.part_sum") == pytest.approx(40)
    # By hand: landed 20 + 1 + 2 = 23. Price 10 % up: 2 x 1.1 = 2.2 more. Cloth 10 % up: 0.8 x 1.21 x 1.1 = 1.0648.
    assert book.number("pricing.landed") == pytest.approx(23)
    assert book.number("pricing.swings[S1].landed_4") == pytest.approx(25.2)
    assert book.number("pricing.swings[S2].landed_4") == pytest.approx(23)
    assert book.number("pricing.swings[S3].landed_4") == pytest.approx(24.0648)
    assert book.number("pricing.swings[S4].landed_1") == pytest.approx(22.9)
    assert book.number("pricing.swings[S5].landed_1") == pytest.approx(22.8)


AMOUNT = st.floats(0, 50).map(lambda x: round(x, 2))


@settings(max_examples=10, deadline=None)
@given(AMOUNT, AMOUNT, st.sampled_from(["freight", "insurance", "duty", "fees", "inland", "other_duty"]), st.booleans())
def test_landed_cost_never_falls_when_something_rises(price: float, more: float, what: str, on_all: bool) -> None:
    base = {"duty": 0.12, "duty_base": "price with freight and insurance" if on_all else "price"}
    step = more / 50 if "duty" in what else more
    before = pricing(price, **base).number("pricing.landed")
    after = pricing(price, **{**base, what: float(base.get(what, 0)) + step}).number("pricing.landed")
    assert after >= before - 1e-9
    assert pricing(price + more, **base).number("pricing.landed") >= before - 1e-9


def market(fob: float, there: dict[str, object], **above: object) -> Shown:
    """One delivery of ten pieces, with what differs from the form above typed in its row."""
    order = {"sizes": [{"row": "M", "pieces": 10}], "deliveries": [{"to": "There", "pieces": 10}]}
    return Shown(
        quote={"fob": fob}, order=order, pricing={**NO_CHARGES, **above, "markets": [{"row": "There", **there}]}
    )


def test_a_market_counts_as_the_form_above_where_nothing_differs() -> None:
    # LC12 (a US landed-cost guide) in the row of a market, and LC03 typed there alone.
    in_source(SECOND, "LC12", "recomputed", "15382.14")
    book = market(10000, {}, freight=2500, fee_share=0.003464 + 0.00125, inland=2800 + 35)
    assert book.number("pricing.markets[DL1].landed_there") == pytest.approx(15382.14)
    in_source(SECOND, "LC03", "published_answer", "10920")
    book = market(9000, {"price_there": 10500, "rate_there": 0.04}, duty=0.5)
    assert book.number("pricing.markets[DL1].landed_there") == pytest.approx(10920)
    assert book.number("pricing.landed") == pytest.approx(13500)


def test_a_market_has_its_own_base_of_duty() -> None:
    # D2, structure from customs practice: duty on the price with freight and insurance.
    in_source(FIRST, "D2", "recomputed", "CIF 8.6258", "landed before VAT 9.66090")
    there = {
        "freight_there": 0.6,
        "insurance_there": 0.0258,
        "rate_there": 0.12,
        "base_there": "price with freight and insurance",
    }
    assert market(8, there).number("pricing.markets[DL1].landed_there") == pytest.approx(9.66090, abs=5e-6)
    # By hand: sold at 24 with 1.9 of overhead, 24 - 9.6609 - 1.9 is 51.8296 % of it; the shop sells at 60 with 20 % tax: 50 - 24.
    book = market(
        8, {**there, "wholesale_there": 24, "retail_there": 60, "tax_there": 0.2}, overhead=1.9, wholesale=30, retail=70
    )
    assert book.number("pricing.markets[DL1].margin_there") == pytest.approx(0.518296, abs=5e-7)
    assert book.number("pricing.markets[DL1].shop_there") == pytest.approx(26 / 50)
    assert book.number("pricing.markets[DL1].earned_there") == pytest.approx(124.391, abs=5e-4)


def test_deliveries_must_be_the_pieces_of_the_order() -> None:
    def counted(pieces: int) -> float:
        order = {
            "sizes": [{"row": "M", "pieces": 10}],
            "deliveries": [{"to": "North", "pieces": 4}, {"to": "South", "pieces": pieces}],
        }
        return Shown(order=order).number("checks.wrong_order_deliveries")

    assert [counted(pieces) for pieces in (5, 6, 7)] == [1, 0, 1]
