"""Tight-fitting children's sleepwear: every row of the published table, silent at its figure and counted a millimeter above.

Rows stand in `sleepwear_tight_fit.csv`: 16 CFR 1615.1(o)(1). They are cautions: an accredited laboratory decides.
"""

from __future__ import annotations

import itertools

import pytest

from sheetgen.trade.sleepwear import MOST_CM, PLACES, SEEN
from tests.published.book import Shown
from tests.trade.tables import rows

ROWS = rows("sleepwear_tight_fit.csv")
BY_SIZE = {size: list(some) for size, some in itertools.groupby(ROWS, key=lambda row: row["size"])}


def style(size: str, more_cm: float, unit: str = "cm", meant: str = "yes") -> Shown:
    """A garment of one size whose points are the published figures and so much more; girths are typed flat."""
    places = [(row["point"].replace("_", " "), float(row["max_full_cm"])) for row in BY_SIZE[size]]
    in_unit = {"cm": 1.0, "mm": 10.0, "in": 1 / 2.54}[unit]
    points = [
        {"point": place, "extent": "half", "base": (figure + more_cm) / 2 * in_unit, "step": 0}
        for place, figure in places
    ]
    at = {place: f"P{number}" for number, (place, _) in enumerate(places, 1)}
    tight = [{"row": place, "point": at[place]} for place in PLACES if place in at]
    return Shown(
        (size,), style={"unit": unit}, measurements={"points": points}, quality={"tight_fit": meant, "tight": tight}
    )


@pytest.mark.parametrize("size", BY_SIZE)
@pytest.mark.parametrize("unit", ["cm", "in", "mm"])
def test_at_the_published_figures_nothing_counts_and_above_all_do(size, unit):
    assert style(size, 0, unit).number("checks.wrong_quality_too_wide") == 0
    assert style(size, -1, unit).number("checks.wrong_quality_too_wide") == 0
    assert style(size, 0.1, unit).number("checks.wrong_quality_too_wide") == len(BY_SIZE[size])


@pytest.mark.parametrize("size", BY_SIZE)
def test_what_is_not_meant_so_does_not_count_and_what_has_no_point_does(size):
    assert style(size, 5, meant="no").number("checks.wrong_quality_too_wide") == 0
    assert style(size, 0).number("checks.wrong_quality_not_judged") == len(PLACES) - len(BY_SIZE[size])


def test_a_size_of_another_name_is_not_judged():
    data = {"point": "chest", "extent": "full", "base": 10, "step": 0}
    shown = Shown(
        ("116",),
        measurements={"points": [data]},
        quality={"tight_fit": "yes", "tight": [{"row": "chest", "point": "P1"}]},
    )
    assert shown.number("checks.wrong_quality_not_judged") == len(PLACES)


def test_the_table_is_the_published_one_and_the_rest_is_marked():
    published = {(row["size"], row["point"].replace("_", " ")): float(row["max_full_cm"]) for row in ROWS}
    assert published == {(size, place): MOST_CM[size][place] for size, place in SEEN}
