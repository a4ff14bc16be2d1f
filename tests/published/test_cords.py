"""Cords on children's clothing: a caution is raised where the published case wants one, and silent where it does not.

Cases stand in `drawstring_cases.csv`: 16 CFR 1120.3 with ASTM F1816-97, EN 14682:2014. They are cautions: local law and
accredited testing decide.
"""

from __future__ import annotations

import pytest

from tests.published.book import Shown
from tests.trade.tables import rows

CASES = {row["case"]: row for row in rows("drawstring_cases.csv")}
MARKETS = ("market_us", "market_eu", "market_uk")
RAISED = {
    "US": ("hood_cord_us", "waist_cord_us"),
    "EU": ("neck_cord_eu_young", "neck_cord_eu_older", "waist_cord_eu", "hem_cord_eu"),
}
SMALLEST_AGE = {"2T": 2, "12": 12, "12-14": 12, "13-15": 13, "L": 12, "M": 8, "XL": 14, "10": 10}
"""A size as the years it is worn from: letters of children's sizes as 16 CFR 1120.3(b)(2)(i) counts them."""
HEIGHT = {"116 cm": 116, "134 cm": 134, "5-9 years": 134}
"""The tallest child that is surely among those who wear it: of a range the stricter rule is used."""


def of_case(case: dict[str, str]) -> Shown:
    style: dict[str, object] = dict.fromkeys(MARKETS, "no")
    style[f"market_{case['market'].lower()}"] = "yes"
    if case["audience"] != "unstated":
        style["age_group"] = case["audience"]
    if case["upper_outerwear"] != "any":
        style["outerwear"] = "no" if case["upper_outerwear"].startswith("no") else "yes"
    if case["size_label"] in HEIGHT:
        style["height_to"] = HEIGHT[case["size_label"]]
    words = {"none": "nothing"}
    cord = {
        "place": case["location"],
        "free": float(case["free_length_mm"]) / 10,
        "ends": words.get(case["free_end"], case["free_end"]),
        "one_piece": case["one_continuous_string"],
        "tacked": case["bar_tacked"],
        "drawn_in": case["fully_retractable"],
        "age_from": SMALLEST_AGE.get(case["size_label"]),
    }
    return Shown(
        style=style, quality={"cords": [{name: value for name, value in cord.items() if value not in ("", None)}]}
    )


def cautions(book: Shown, market: str) -> int:
    return sum(int(book.number(f"checks.caution_{name}")) for name in RAISED[market])


@pytest.mark.parametrize("case", CASES.values(), ids=CASES)
def test_a_published_case(case):
    raised = cautions(of_case(case), case["market"])
    assert (raised > 0) == (case["expect_caution"] in ("yes", "ask")), case["reason"]


CHILD = {"age_group": "child", "market_us": "yes", "market_eu": "yes"}
BOTH = tuple(RAISED)


@pytest.mark.parametrize("kind", ["cord", "drawstring", "Cord, braided", "shoelace", ""])
@pytest.mark.parametrize("zone", ["hood", "neck", "hood or neck", "Hood, inside", "collar", "all", ""])
def test_a_cord_among_the_materials_is_seen_whatever_it_is_called_and_wherever(kind, zone):
    material = {"item": "Hood cord", "group": "trim", "kind": kind, "zone": zone}
    book = Shown(style=CHILD, materials={"bom": [{name: value for name, value in material.items() if value}]})
    assert all(cautions(book, market) for market in BOTH)
    assert book.number("checks.wrong_quality_cords") == 1


def test_what_holds_a_cord_is_none_and_an_adults_cord_is_not_asked_about():
    stopper = {"item": "Stopper", "group": "trim", "kind": "cord stopper", "zone": "hood"}
    packing = {"item": "Tag cord", "group": "packing", "kind": "cord"}
    book = Shown(style=CHILD, materials={"bom": [stopper, packing]})
    assert [cautions(book, market) for market in BOTH] == [0, 0]
    adult = Shown(
        style={**CHILD, "age_group": "adult"}, materials={"bom": [{"item": "Cord", "group": "trim", "kind": "cord"}]}
    )
    assert [cautions(adult, market) for market in BOTH] == [0, 0]
    assert adult.number("checks.wrong_quality_cords") == 0


def test_a_cord_that_draws_back_is_no_drawstring_in_the_us():
    # 16 CFR 1120.2(c): a non-retractable cord, ribbon or tape (from memory).
    cord = {"place": "waist", "free": 9, "ends": "toggle"}
    assert cautions(Shown(style=CHILD, quality={"cords": [cord]}), "US") == 1
    assert cautions(Shown(style=CHILD, quality={"cords": [{**cord, "drawn_in": "yes"}]}), "US") == 0


@pytest.mark.parametrize(
    ("fabric", "raised"),
    [
        # 16 CFR 1610.1(d): plain fabrics from 2.6 oz/yd2 (88.2 g/m2) on, and some fibers at any weight, are exempt.
        ({"weight": 80, "composition": "100% cotton"}, True),
        ({"weight": 2.5, "weight_unit": "oz/yd²", "composition": "100% cotton"}, True),
        ({"weight": 2.7, "weight_unit": "oz/yd²", "composition": "100% cotton"}, False),
        ({"weight": 200, "composition": "100% cotton"}, False),
        ({"weight": 40, "composition": "80% polyester, 20% wool"}, False),
        ({"weight": 40, "composition": "80% polyester, 20% viscose"}, True),
        ({"weight": 300, "composition": "100% cotton", "note": "Brushed inside"}, True),
    ],
)
def test_what_is_to_be_tested_for_burning(fabric, raised):
    cloth = {"item": "Cloth", "group": "fabric", **fabric}
    book = Shown(style={"market_us": "yes"}, materials={"bom": [cloth]})
    assert (book.number("checks.caution_flammability_us") > 0) == raised


@pytest.mark.parametrize(
    ("made_of", "raised"), [("100% corozo", 0), ("brass, painted", 1), ("", 1), ("polyester, zinc alloy slider", 1)]
)
def test_nickel_is_asked_of_metal_only(made_of, raised):
    button = {"item": "Button", "group": "trim", "kind": "button", **({"composition": made_of} if made_of else {})}
    book = Shown(style={"market_eu": "yes", "market_uk": "no"}, materials={"bom": [button]})
    assert book.number("checks.caution_nickel_eu") == raised
