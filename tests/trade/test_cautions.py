"""Cautions are complete, defer to the law, and say the published limits."""

import re

import pytest

from sheetgen.trade.cautions import CAUTIONS, DEFERENCE

BY_ID = {row.id: row for row in CAUTIONS}


def test_each_caution_is_complete_and_defers() -> None:
    assert len(CAUTIONS) == 21
    for row in CAUTIONS:
        assert row.sentence.endswith(f". {DEFERENCE}"), row.id
        assert all((row.area, row.trigger, row.rule, row.source, row.provenance)), row.id


def test_ids_are_words_and_differ() -> None:
    assert all(re.fullmatch("[a-z]+(-[a-z]+)*", row.id) for row in CAUTIONS)
    assert len(BY_ID) == 21


@pytest.mark.parametrize(
    ("name", "figure"),
    [
        ("waist-cord-us", "3 in (76 mm)"),  # 16 CFR 1120.3(b), seen
        ("neck-cord-eu-young", "not permitted"),  # EN 14682:2014, seen
        ("waist-cord-eu", "140 mm"),  # EN 14682:2014, from memory
        ("small-parts-us", "EXEMPT"),  # 16 CFR 1501.3(d), seen: clothing and its buttons are exempt
        ("flammability-us", "2.6 oz/yd2 (88.2 g/m2)"),  # 16 CFR 1610.1(d), from memory
        ("lead-us", "100 ppm"),  # CPSIA s.101, from memory
        ("nickel-eu", "0.5 ug/cm2/week"),  # REACH Annex XVII entry 27, seen
        ("azo-dyes-eu", "30 mg/kg"),  # REACH Annex XVII entry 43, limit from memory
        ("chromium-eu", "3 mg/kg"),  # REACH Annex XVII entry 47, from memory
    ],
)
def test_limits_are_those_of_the_law(name: str, figure: str) -> None:
    assert figure in BY_ID[name].rule


def test_what_is_from_memory_says_so() -> None:
    assert BY_ID["hood-cord-uk"].provenance == "from memory"
    assert BY_ID["needle-control"].provenance == "common practice"
    assert BY_ID["hood-cord-us"].provenance == "seen in a stored source"
