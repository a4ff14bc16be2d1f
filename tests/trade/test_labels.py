"""Fiber names belong to their market's law, and care words stand in their order."""

import pytest

from sheetgen.trade import labels
from sheetgen.trade.labels import counterpart, known_fibre


@pytest.mark.parametrize(
    ("name", "in_eu", "in_us"),
    [
        # Regulation (EU) 1007/2011 Annex I against 16 CFR 303.7 and 303.6.
        # Annex rows 21-49 and most of 303.7 are from memory.
        ("cotton", True, True),
        ("Wool", True, True),
        ("elastane", True, False),
        ("spandex", False, True),
        ("polyamide", True, False),
        ("nylon", True, True),  # row 30: polyamide or nylon
        ("viscose", True, True),  # US: through ISO 2076
        ("rayon", False, True),
        ("cashmere", True, True),
        ("cashmere wool", True, False),  # row 2: with or without "wool" or "hair"
        ("polyacrylate", True, False),  # added by 2018/122, seen
        ("fluoropolymer", False, True),
        ("trivinyl", True, True),  # US: through ISO 2076:2013, seen
        ("true  hemp", True, False),
        ("bamboo", False, False),
        ("other fiber", False, False),
        ("", False, False),
    ],
)
def test_a_name_is_known_where_its_law_has_it(name: str, in_eu: bool, in_us: bool) -> None:
    assert known_fibre(name, "EU") is in_eu
    assert known_fibre(name, "UK") is in_eu  # SI 2012/1102 keeps the EU list
    assert known_fibre(name, "US") is in_us


def test_another_market_is_refused() -> None:
    with pytest.raises(ValueError, match="XX"):
        known_fibre("cotton", "XX")
    with pytest.raises(ValueError, match="XX"):
        counterpart("cotton", "XX")


@pytest.mark.parametrize(
    ("name", "market", "expected"),
    [
        ("spandex", "EU", ("elastane",)),
        ("Elastane", "US", ("spandex",)),
        ("olefin", "UK", ("polypropylene", "polyethylene")),
        ("viscose", "US", ("rayon",)),
        ("cotton", "US", ()),
    ],
)
def test_nearest_names_across_markets(name: str, market: str, expected: tuple[str, ...]) -> None:
    assert counterpart(name, market) == expected  # the editors' pairs, from memory


def test_each_pair_is_known_on_its_own_side() -> None:
    assert all(known_fibre(us, "US") and known_fibre(eu, "EU") for us, eu in labels.US_EU_PAIRS)


def test_every_choice_is_a_legal_name_somewhere() -> None:
    assert all(known_fibre(name, "EU") or known_fibre(name, "US") for name in labels.FIBER_CHOICES)
    assert len(set(labels.FIBER_CHOICES)) == len(labels.FIBER_CHOICES)


def test_only_seen_rows_say_so() -> None:
    # Annex I rows 1-20 and 50 were seen; 21-49 are from memory.
    seen = {fiber.ref for fiber in labels.FIBERS["EU"] if fiber.provenance == "seen in a stored source"}
    assert seen == {f"Annex I row {row}" for row in [*range(1, 21), 50]}


def test_care_steps_stand_in_the_order_of_the_standard() -> None:
    # ISO 3758: wash tub, triangle, square, iron, circle.
    assert labels.CARE_ORDER == ("wash", "bleach", "dry", "iron", "professional care")
    assert tuple(labels.CARE_CHOICES) == labels.CARE_ORDER


def test_care_choices_name_only_temperatures_of_the_standard() -> None:
    # ISO 3758: wash 30-95, iron 110, 150, 200, tumble 60, 80 degrees Celsius.
    for step, allowed in (
        ("wash", labels.WASH_C),
        ("iron", labels.IRON_C.values()),
        ("dry", labels.TUMBLE_C.values()),
    ):
        named = {
            int(word.strip("(),"))
            for choice in labels.CARE_CHOICES[step]
            for word in choice.split()
            if word.strip("(),").isdigit()
        }
        assert named == set(allowed), step
