"""Drafts of what a label says of fibers, by the rows of two regulations that a text can be held against.

The rows stand in `label_rule_cases.csv`: 16 CFR 303 and Regulation (EU) No 1007/2011, each with what was seen of it.
"""

from __future__ import annotations

import re
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetgen.trade.labels import FIBER_CHOICES
from tests.published.book import Shown
from tests.trade.tables import rows

CASES = {row["rule_id"]: row for row in rows("label_rule_cases.csv")}
NOT_OURS = {
    "US-F7": "ornamentation has no row", "US-F8": "ornamentation has no row", "US-F10": "a word that implies a fiber: a person reads it",
    "EU-F3": "a typed word, not a draft", "EU-F4": "measured in a laboratory", "EU-F6": "measured in a laboratory",
    "EU-F7": "measured in a laboratory", "EU-F9": "each part has its own line; which may be left out a person decides",
    "EU-F10": "decoration has no row", "EU-F12": "durability and language: a person decides", "EU-F13": "scope: a person decides",
    "US-F12": "each part has its own line", "US-F14": "an abbreviation is not understood, and nothing is printed (tested below)",
    "US-F15": "a typed word, not a draft",
}  # fmt: skip
"""Rows on fibers that no draft can be held against."""


def cloth(composition: str) -> dict[str, object]:
    return {"item": "Cloth", "group": "fabric", "composition": composition, "net": 1, "unit": "m²", "weight": 200}


@cache
def drafted(composition: str) -> Shown:
    return Shown(materials={"bom": [cloth(composition)]})


def said(expected: str) -> str:
    """As the drafts write what the table spells out."""
    return re.sub(r"(\d+) percent", r"\1%", expected).lower()


@pytest.mark.parametrize("rule", ["US-F1", "US-F2", "US-F4", "US-F5"])
def test_the_draft_for_the_us(rule):
    case = CASES[rule]
    typed = ", ".join(f"{share}% {name}" for name, share in re.findall(r"(\w+) (\d+)", case["test_input"]))
    typed = typed.replace("4% other", "4% silk")  # the row gives the other fiber no name
    assert drafted(typed)["labels.composition_text_us"] == said(case["expected"])


def test_shares_that_are_no_whole_print_nothing():
    assert CASES["US-F11"]["test_input"] == "cotton 60, polyester 38"
    part = {"part": "Body", "fiber_1": "cotton", "share_1": 0.6, "fiber_2": "polyester", "share_2": 0.38}
    book = Shown(labels={"composition": [part]})
    assert book["labels.composition[F1].wording"] == "Body: "
    assert book.number("checks.wrong_labels_composition_sum") == 1
    assert drafted("60% cotton, 38% polyester")["labels.composition_text"] == ""


@pytest.mark.parametrize(("market", "counted"), [("market_eu", 1), ("market_uk", 1), ("market_us", 0)])
def test_spandex_is_no_name_for_a_label_in_the_eu(market, counted):
    assert CASES["EU-F1"]["expected"] == "flag; use elastane"
    part = {"part": "Rib", "fiber_1": "cotton", "share_1": 0.95, "fiber_2": "spandex", "share_2": 0.05}
    book = Shown(style={market: "yes"}, labels={"composition": [part]})
    assert book.number("checks.wrong_labels_fiber_name") == counted


@pytest.mark.parametrize(
    "typed",
    [
        "98 % cotton, 2 % other fibres",
        "60 % Ctn, 40 % polyester",
        "20% cotton 20% wool 20% silk 20% hemp 20% ramie",
        "95% eco cotton 5% elastane",
    ],
)
def test_what_is_not_understood_as_a_whole_prints_nothing_and_says_where(typed):
    book = drafted(typed)
    assert book["labels.composition_text"] == book["labels.composition_text_us"] == ""
    assert book["labels.composition_waits"] == "1 without a weight or not understood, first M1 on Materials"


def test_a_label_that_contradicts_its_material_is_counted():
    part = {
        "part": "Body",
        "material": "M1",
        "fiber_1": "polyester",
        "share_1": 0.4,
        "fiber_2": "cotton",
        "share_2": 0.6,
    }
    for composition, wrong in (("60% cotton, 40% polyester", 0), ("55% cotton, 45% polyester", 1)):
        book = Shown(materials={"bom": [cloth(composition)]}, labels={"composition": [part]})
        assert book["labels.composition[F1].wording"] == "Body: 60% cotton, 40% polyester"
        assert book.number("checks.wrong_labels_contradicts") == wrong


SHARES = st.lists(st.integers(1, 400), min_size=1, max_size=5).map(lambda parts: [part / sum(parts) for part in parts])


@settings(max_examples=10, deadline=None)
@given(shares=SHARES, names=st.permutations(FIBER_CHOICES))
def test_a_label_says_100_and_the_largest_first_whatever_was_typed(shares, names):
    part = {"part": "Body"}
    for number, (share, name) in enumerate(zip(shares, names, strict=False), 1):
        part |= {f"fiber_{number}": name, f"share_{number}": share}
    wording = str(Shown(labels={"composition": [part]})["labels.composition[F1].wording"]).removeprefix("Body: ")
    told = [int(percent) for percent in re.findall(r"(\d+)% ", wording)]
    assert sum(told) == 100
    assert told == sorted(told, reverse=True)
    assert len(told) == len(shares)
    assert min(told) >= 1
    traces = sum(share < 0.01 for share in shares)  # each counts 1, and the largest gives it
    given_up = [abs(percent - share * 100) for percent, share in zip(told, sorted(shares, reverse=True), strict=True)]
    assert max(given_up) <= 1 + traces


def test_every_row_on_fibers_is_tested_or_says_why_not():
    fibers = {rule for rule, row in CASES.items() if row["topic"] == "fibre"}
    assert fibers == {"US-F1", "US-F2", "US-F4", "US-F5", "US-F11", "EU-F1"} | set(NOT_OURS)
