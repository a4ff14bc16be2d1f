"""Slips in a vendor's costing, each known by its figure; rounded, cut and re-added figures that are right.

All figures are worked out by hand from the inputs below, which are invented.
"""

from __future__ import annotations

from functools import cache

import pytest

from sheetgen.audit.case import Case
from sheetgen.audit.cost_slips import (
    agrees,
    direct_slips,
    direct_sums,
    line_rights,
    line_slips,
    make_slips,
    material_slips,
    material_sums,
    other_rate,
)
from sheetgen.audit.slips import recognised
from tests.published.book import case

LINES = [
    {"item": "Cloth", "net": 2, "waste": 0.05, "unit": "m", "price": 10, "currency": "EUR"},  # 2.1 x 10 x 1.08 = 22.68
    {"item": "Lining", "net": 1.5, "waste": 0.1, "unit": "m", "price": 2.4, "currency": "USD"},  # 1.65 x 2.4 = 3.96
    {"item": "Buttons", "net": 7, "waste": 0, "unit": "pc", "price": 0.125, "currency": "USD"},  # 0.875
    {
        "item": "Other buttons",
        "net": 7,
        "waste": 0,
        "unit": "pc",
        "price": 0.2,
        "currency": "USD",
        "instead_of": "M3",
    },  # 1.4
]
MAKING = {"sew_minutes": 30, "cut_minutes": 5, "finish_minutes": 4, "rate": 0.1, "efficiency": 0.8}
"""3.75, 0.625 and 0.5: together 4.875."""
ADDITIONS = {
    "process_cost": 1.2,
    "testing_cost": 0.3,
    "packing_cost": 0.2,
    "commercial_cost": 0.9,
    "overhead": 0,
    "profit": 0,
}


def costed(**quote: object) -> Case:
    rates = [{"code": "EUR", "rate": 1.08}, {"code": "TRY", "rate": 0.03}]
    bom = [{"group": "fabric", **line} for line in LINES]
    return case(materials={"bom": bom, "rates": rates}, quote={**MAKING, **ADDITIONS, **quote})


@cache
def in_dollars() -> Case:
    return costed()


@cache
def in_euros() -> Case:
    return costed(currency="EUR")


@pytest.mark.parametrize(
    ("stated", "cause"),
    [
        # 21.65 is 21.6 too, when it is rounded to one decimal.
        (21.6, "the waste of 5 % is left out, or if the waste of 5 % is added to the cost as an amount"),
        (22.14, "the waste of 5 % is added as an amount (2 + 0.05)"),
        (23.814, "the waste of 5 % is added twice"),
        (21.65, "the waste of 5 % is added to the cost as an amount"),
        (21, "the exchange rate of 1.08 is left out"),
        (19.44, "it is divided by the exchange rate of 1.08 instead of multiplied"),
        (0.63, "the rate of TRY, 0.03, is used instead of 1.08"),
        (12.9, "use and price are added instead of multiplied"),
        (10.8, "the price alone is taken, without the use"),
        (272.16, "a dozen is counted for one"),
        (3.96, "the cost of M2 Lining is taken"),
        (22.86, "two digits of 22.68 are swapped"),
        (23.1, ""),
        (41.7, ""),
    ],
)
def test_slips_in_a_line(stated: float, cause: str) -> None:
    rights = line_rights(in_dollars(), "M1")
    assert rights[0] == pytest.approx(22.68)
    assert not agrees(stated, rights)
    assert recognised(stated, rights, line_slips(in_dollars(), "M1", stated)) == cause


def test_a_rate_that_would_explain_a_line_is_told() -> None:
    assert other_rate(in_dollars(), "M1", 23.1) == "an exchange rate of 1.1 is used instead of 1.08"
    assert other_rate(in_dollars(), "M1", 41.7) == ""  # 1.986 is no rate of the euro in dollars
    assert other_rate(in_dollars(), "M2", 4.1) == ""  # no rate in that line


def test_a_gross_for_one_button() -> None:
    assert recognised(126, [0.875], line_slips(in_dollars(), "M3", 126)) == "a gross is counted for one"


@pytest.mark.parametrize("stated", [22.68, 22.7, 23, 22.680001])
def test_a_line_that_is_rounded_is_right(stated: float) -> None:
    assert agrees(stated, line_rights(in_dollars(), "M1"))


@pytest.mark.parametrize(
    ("stated", "cause"),
    [
        (3.12, "it is multiplied by the efficiency of 80 % instead of divided"),
        (3.9, "the efficiency of 80 % is left out"),
        (4.25, "cutting is left out"),
        (3.75, "only sewing is counted"),
        (292.5, "minutes are taken for hours"),
        (58.5, "a dozen is counted for one"),
        (3.875, "1.000 is lost in adding up"),
        (4.42, ""),
    ],
)
def test_slips_in_the_making(stated: float, cause: str) -> None:
    assert in_dollars().number("quote.make_cost") == pytest.approx(4.875)
    assert recognised(stated, [4.875], make_slips(in_dollars(), stated)) == cause


@pytest.mark.parametrize(
    ("stated", "cause"),
    [
        # Right: 22.68 + 3.96 + 0.875 = 27.515.
        (26.075, "the waste of all lines is left out"),  # 21.6 + 3.6 + 0.875
        (25.835, "prices of all currencies are added without their rates"),  # 21 + 3.96 + 0.875
        (23.555, "M2 Lining is left out"),
        (31.475, "M2 Lining is counted twice"),
        (28.915, "the alternative M4 is counted too"),
        (26.515, "1.000 is lost in adding up"),
        (330.18, "a dozen is counted for one"),
        (29.333, ""),
    ],
)
def test_slips_in_the_materials(stated: float, cause: str) -> None:
    rights = material_sums(in_dollars())
    assert rights[0] == pytest.approx(27.515)
    assert recognised(stated, rights, material_slips(in_dollars(), stated)) == cause


def test_materials_in_the_currency_of_the_quote() -> None:
    """27.515 USD are 25.4769 EUR; 29.7162 is what comes of multiplying by 1.08."""
    rights = material_sums(in_euros())
    assert agrees(25.48, rights)
    assert (
        recognised(27.515, rights, material_slips(in_euros(), 27.515))
        == "it is not changed into the quote's currency (1.08)"
    )
    assert recognised(29.7162, rights, material_slips(in_euros(), 29.7162)).startswith(
        "it is multiplied by the exchange rate"
    )


@pytest.mark.parametrize(
    ("stated", "cause"),
    [
        # Right: 27.515 + 4.875 + 1.2 + 0.3 + 0.2 + 0.9 = 34.99.
        (33.235, "in the making it is multiplied by the efficiency of 80 % instead of divided"),
        (33.79, "print, embroidery and wash is left out"),
        (39.865, "the making is counted twice"),
        (44.99, "10.00 is added in adding up"),
        (419.88, "a dozen is counted for one"),
        (37.77, ""),
    ],
)
def test_slips_in_the_direct_cost(stated: float, cause: str) -> None:
    rights = direct_sums(in_dollars())
    assert rights[0] == pytest.approx(34.99)
    assert recognised(stated, rights, direct_slips(in_dollars(), stated)) == cause


def test_a_sum_of_what_the_vendor_states_is_right() -> None:
    """The vendor's own making of 5.00 and materials of 27.50 are other findings; 35.10 is their sum with the rest."""
    stated = costed(stated_make=5, stated_materials=27.5)
    assert agrees(35.1, direct_sums(stated))
    assert agrees(34.975, direct_sums(stated))  # the vendor's materials, the sheets' making
    assert not agrees(35.21, direct_sums(stated))


def test_lines_rounded_to_cents_may_be_added() -> None:
    """22.68 + 3.96 + 0.88; cut off, 0.87: both are ways to add."""
    rights = material_sums(in_dollars())
    assert agrees(27.52, rights)
    assert agrees(27.51, rights)
    assert not agrees(27.56, rights)
