"""Prices out of line with their like: found with what would explain them, and honest lists left alone. Prices are invented."""

from __future__ import annotations

import datetime
import math
import random
import tomllib
from collections import defaultdict
from collections.abc import Callable
from dataclasses import replace

import pytest

from sheetgen.audit.alike_prices import far_off
from sheetgen.audit.prices import price_jumped, price_out_of_line, price_unexplained
from sheetgen.audit.rule import Example
from sheetgen.declare.entry import Place
from sheetgen.declare.judgment import LIMITS
from sheetgen.style.starters import STARTERS, starter
from tests.audit.made import Made, quick_case
from tests.loop import SAMPLES
from tests.published.book import findings

LABELS = (0.055, 0.018, 0.041, 0.014, 0.045)
APART, LEAST = LIMITS["alike_apart"].usual, LIMITS["alike_lines"].usual


def far(*prices: float) -> list[float]:
    lines = {Place("materials.bom.price", f"M{number}"): price for number, price in enumerate(prices, 1)}
    return [off.price for off in far_off(lines, APART, LEAST)]


@pytest.mark.parametrize(
    ("prices", "found"),
    [
        (LABELS, []),
        ((*LABELS[1:], 5.5), [5.5]),
        ((*LABELS[1:], 0.00055), [0.00055]),
        ((5.5, 1.8, *LABELS[2:]), [5.5, 1.8]),  # two that slipped alike do not hide each other
        ((0.05, 5.0), []),  # of two nobody knows which is wrong
        ((0.05, 0.05, 5.0), [5.0]),
        ((0.05, 0.05, 0.4), [0.4]),  # eight times
        ((0.05, 0.05, 0.399), []),
        ((0.01, 0.1, 1.0), []),  # a kind so wide that nothing can be said
    ],
)
def test_a_price_far_from_most_of_its_like(prices: tuple[float, ...], found: list[float]) -> None:
    assert far(*prices) == found


def honest(chance: random.Random, lines: int) -> list[float]:
    """Prices of one kind: 95 in 100 within 2.7 times its middle (spread of the logarithm 0.5; the samples' labels have 0.6)."""
    return [math.exp(chance.gauss(0, 0.5)) for _ in range(lines)]


def test_an_honest_list_is_asked_about_in_less_than_one_file_of_two_hundred() -> None:
    chance = random.Random(21)
    assert sum(any(far(*honest(chance, lines)) for lines in (5, 3, 3)) for _ in range(2000)) <= 9


def invented_prices() -> dict[tuple[str, str], list[float]]:
    """What the three samples' vendors ask, by kind and unit, each in its style's currency."""
    found: dict[tuple[str, str], list[float]] = defaultdict(list)
    for style in ("overshirt", "sweatshirt", "jacket"):
        brief, answers = (
            tomllib.loads((SAMPLES / style / name).read_text("utf-8")) for name in ("brief.toml", "answers-clean.toml")
        )
        rates = {line["code"]: line["rate"] for line in brief["materials"]["rates"]}
        said = {line["row"]: line for line in answers["materials"]["bom"]}
        for number, line in enumerate(brief["materials"]["bom"], 1):
            answer = said[f"M{number}"]
            found[line["kind"], line["unit"]].append(answer["price"] * rates.get(answer["currency"], 1))
    return found


def test_all_samples_together_and_all_starters_are_left_alone() -> None:
    """The lines of a kind of three styles at once; and every starter's lines at these prices, up to twice as much or half."""
    prices = invented_prices()
    assert [kind for kind, of in prices.items() if far(*of)] == []
    chance, compared = random.Random(23), 0
    for garment in STARTERS:
        by_kind: dict[tuple[str, str], list[float]] = defaultdict(list)
        materials = starter(garment)["materials"]
        assert isinstance(materials, dict)
        for line in materials["bom"]:
            if of := prices.get((line["kind"], line["unit"])):
                by_kind[line["kind"], line["unit"]].append(chance.choice(of) * 2 ** chance.uniform(-1, 1))
        assert [kind for kind, of in by_kind.items() if far(*of)] == [], garment
        compared += sum(len(of) >= LEAST for of in by_kind.values())
    assert compared >= len(STARTERS)


@pytest.mark.parametrize("factor", [100, 1 / 100, 1000, 1 / 1000, 25_000])
def test_hundreds_thousands_and_a_weak_currency_are_found_in_more_than_nineteen_of_twenty(factor: float) -> None:
    chance, found = random.Random(22), 0
    for _ in range(400):
        prices = honest(chance, chance.choice((3, 4, 5)))
        found += prices[0] * factor in far(prices[0] * factor, *prices[1:])
    assert found >= 380


def test_a_dear_line_ten_or_twelve_times_too_dear_is_named_by_the_price_that_it_would_explain(overshirt: Made) -> None:
    """What ten and twelve times is too near to honest prices among its like shows in the build-up, to the cent."""
    for ref, price, word in (
        ("M1", 46.5, "the decimal point stands one place too far right"),
        ("M1", 55.8, "a dozen is counted for one"),
    ):
        case = quick_case(overshirt, Example("slip", {f"materials.bom[{ref}].price": price}))
        assert case is not None
        (fault,) = price_unexplained.check(case)
        assert fault.cause == f"The same figure comes out if in the price of {ref} {word}."


def test_a_jump_names_its_cause_and_is_not_told_twice(overshirt: Made) -> None:
    case = quick_case(
        overshirt, Example("jump", {"materials.bom[M9].price": 1.8}, sent={"materials.bom[M9].price": 0.018})
    )
    assert case is not None
    (fault,) = price_jumped.check(case)
    assert (fault.expected, fault.found) == ("0.018", "1.8")
    assert fault.cause.startswith("The same figure comes out if the decimal point stands two places too far right")
    assert list(price_out_of_line.check(case)) == []


def test_what_was_asked_about_in_an_earlier_round_is_not_asked_again(overshirt: Made) -> None:
    changes: dict[str, object] = {"materials.bom[M9].price": 1.8}
    case = quick_case(overshirt, Example("known", changes, sent={"materials.bom[M9].price": 1.8}))
    assert case is not None
    assert list(price_out_of_line.check(case)) == []
    own = replace(case, own=True)
    assert [str(fault.place) for fault in price_out_of_line.check(own)] == ["materials.bom[M9].price"]


def lines(*prices: tuple[float, str], kind: str = "label", unit: str = "pc") -> dict[str, str]:
    """What is said of lines of one kind in a style in dollars, with a rate for the dong."""
    found = findings(
        "price-out-of-line",
        materials={
            "bom": [
                {
                    "item": f"Article {number}",
                    "group": "label",
                    "kind": kind,
                    "unit": unit,
                    "net": 1,
                    "price": price,
                    "currency": code,
                }
                for number, (price, code) in enumerate(prices, 1)
            ],
            "rates": [{"code": "VND", "rate": 0.00004, "on": datetime.date(2026, 11, 20)}],
        },
    )
    return {place: message.partition(" Limit:")[0] for place, message in found.items()}


def test_another_currency_is_named_with_the_price_that_it_gives() -> None:
    assert lines((0.05, "USD"), (0.04, "USD"), (1000, "VND"), (1100, "USD")) == {
        "materials.bom[M4].price": "Price per unit of M4 Article 4 is 1100 USD; 3 other lines of the kind label, priced by the pc, are "
        "from 0.04 USD to 0.05 USD. In line it would be 0.044 USD if it is in VND.",
    }


def test_what_has_no_kind_or_another_unit_is_not_compared() -> None:
    slip = ((0.05, "USD"), (0.04, "USD"), (0.045, "USD"), (5.0, "USD"))
    assert lines(*slip) != {}
    assert lines(*slip, kind="other") == {}
    assert lines(*slip, unit="") == {}


LADDER: list[tuple[dict[str, object], dict[str, str]]] = [
    ({"quote.ladder[U2].price": 258}, {
        "quote.ladder[U2].price": "the other prices by quantity are from 25.03 EUR to 26.96 EUR | In line it would be 25.8 EUR if the decimal "
        "point stands one place too far right, or 21.5 EUR if a dozen is counted for one.",
    }),
    ({"quote.ladder[U2].price": 0.258}, {
        "quote.ladder[U2].price": "the other prices by quantity are from 25.03 EUR to 26.96 EUR | In line it would be 25.8 EUR if the decimal "
        "point stands two places too far left, as from percent or centimeters.",
    }),
    ({"quote.ladder[U2].price": 27.5}, {"quote.ladder[U2].price": "from 600 pieces on it is 26.96 EUR | More pieces cost more each."}),
    ({"quote.ladder[U1].price": 40}, {}),  # a small order may be dear
    ({"quote.ladder[U1].price": 25.8, "quote.ladder[U3].price": 25.8}, {}),
]  # fmt: skip


@pytest.mark.parametrize(("changes", "says"), LADDER)
def test_prices_by_quantity(changes: dict[str, object], says: dict[str, str], made: Callable[[str], Made]) -> None:
    case = quick_case(made("overshirt"), Example("ladder", changes))
    assert case is not None
    assert {str(one.place): f"{one.expected} | {one.cause}" for one in price_out_of_line.check(case)} == says
