"""Published cut plans, met or beaten: by the solver, and by what the workbook's own formulas then show.

Source: cutting-plan lecture slides (three worked contracts), as tests/data/purchasing_examples_2.csv quotes them.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.cut_planning import CutPlan, plan
from sheetgen.declare.entry import Place
from sheetgen.jobs.cut_plan import Limits, Planned, planned
from sheetgen.sheets import BOOK
from sheetgen.style.figures import figures
from sheetgen.workbook.exchange.brief import values_of
from tests.published.book import in_source

TABLE = "purchasing_examples_2.csv"

CONTRACTS = [
    # Ordered by size, plies, garments, lays of the published plan. All cut exactly.
    pytest.param({"10": 40, "12": 90, "14": 80, "16": 25, "18": 25}, 50, 4, 2, id="CP01-CP02"),
    pytest.param({"12": 100, "14": 160, "16": 120, "18": 60}, 60, 4, 2, id="CP04"),
    pytest.param({"S": 300, "M": 600, "L": 400}, 75, 5, 4, id="CP05"),
]


def test_the_contracts_are_those_of_the_source() -> None:
    in_source(TABLE, "CP01", "topic", "sizes 10-18 = 40/90/80/25/25, max 50 plies x 4 garments")
    in_source(TABLE, "CP01", "note", "practical minimum ceil = 2")
    in_source(TABLE, "CP02", "note", "all five sizes exact: 10=40, 12=90, 14=80, 16=25, 18=25")
    in_source(TABLE, "CP04", "note", "all exact: 12=100, 14=160, 16=120, 18=60")
    in_source(TABLE, "CP05", "topic", "S/M/L = 300/600/400, max 75 x 5")
    in_source(TABLE, "CP05", "note", "ceil = 4")


@pytest.mark.parametrize(("ordered", "plies", "garments", "lays"), CONTRACTS)
def test_a_published_plan_is_met(ordered: dict[str, int], plies: int, garments: int, lays: int) -> None:
    found = plan({"navy": ordered}, plies, garments)
    assert len(found.lays) == lays
    assert found.proved
    assert found.pieces_over == 0
    assert cut(found) == {("navy", size): pieces for size, pieces in ordered.items()}


@pytest.mark.parametrize(("ordered", "plies", "garments", "lays"), CONTRACTS)
def test_the_workbook_shows_it_too(
    tmp_path: Path, ordered: dict[str, int], plies: int, garments: int, lays: int
) -> None:
    made = in_workbook(tmp_path, {"navy": ordered}, Limits(plies, garments))
    shown = figures(made.built.values)[1]
    assert shown[Place("cutting.lays_least")] == lays  # in these three the theory can be reached
    assert shown[Place("cutting.pieces_planned")] == sum(ordered.values())
    assert shown[Place("cutting.over_planned")] == 0
    rows = [f"Z{number}" for number in range(1, len(ordered) + 1)]
    assert [shown[Place("cutting.sizes.planned_c1", row)] for row in rows] == list(ordered.values())
    assert [shown[Place("cutting.sizes.over_c1", row)] for row in rows] == [0] * len(ordered)
    assert contradictions(shown) == [0, 0, 0]


def test_sheet_and_plan_agree_where_pieces_are_over(tmp_path: Path) -> None:
    # Invented. Two S and one M in a marker, on 8 plies and 5: one S over in each color.
    ordered = {"sand": {"S": 15, "M": 8}, "rust": {"S": 9, "M": 5}}
    made = in_workbook(tmp_path, ordered, Limits(20, 3, 0.125))
    assert len(made.plan.lays) == 1
    assert made.plan.over == {"C1": {"Z1": 1, "Z2": 0}, "C2": {"Z1": 1, "Z2": 0}}
    shown = figures(made.built.values)[1]
    assert shown[Place("cutting.over_planned")] == 2
    assert [shown[Place(f"cutting.sizes.over_c{color}", f"Z{size}")] for color in (1, 2) for size in (1, 2)] == [
        1,
        0,
        1,
        0,
    ]
    assert contradictions(shown) == [0, 0, 0]


def test_a_changed_order_or_limit_is_marked(tmp_path: Path) -> None:
    made = in_workbook(tmp_path, {"navy": {"S": 300, "M": 600, "L": 400}}, Limits(75, 5))
    values = made.built.values
    more = {**values, Place("order.sizes.pieces_c1", "Z1"): 301}
    assert contradictions(figures(more)[1]) == [1, 0, 0]
    less = {**values, Place("order.sizes.pieces_c1", "Z2"): 599}
    assert contradictions(figures(less)[1]) == [0, 1, 0]
    assert contradictions(figures({**less, Place("cutting.most_over"): 0.01})[1]) == [0, 0, 0]
    lower = {**values, Place("cutting.most_plies"): 40, Place("cutting.most_garments"): 3}
    assert contradictions(figures(lower)[1]) == [0, 0, 2]


def cut(found: CutPlan) -> dict[tuple[str, str], int]:
    """Pieces by color and size, added up lay by lay."""
    pieces: dict[tuple[str, str], int] = {}
    for lay in found.lays:
        for color, plies in lay.plies.items():
            for size, garments in lay.garments.items():
                pieces[color, size] = pieces.get((color, size), 0) + plies * garments
    return pieces


def in_workbook(folder: Path, ordered: dict[str, dict[str, int]], limits: Limits) -> Planned:
    sizes = list(next(iter(ordered.values())))
    data = {
        "style": {
            "unit": "cm",
            "currency": "USD",
            "sample_size": sizes[0],
            "sizes": [{"name": size} for size in sizes],
        },
        "colorways": {"list": [{"name": color} for color in ordered]},
        "order": {
            "sizes": [{"row": size, "pieces": {color: row[size] for color, row in ordered.items()}} for size in sizes]
        },
    }
    path = folder / "working.xlsx"
    path.write_bytes(api.from_values(values_of(BOOK, data, path)).data)
    return planned(path, limits)


def contradictions(shown: api.Values) -> list[object]:
    """What the Checks sheet counts: short, beyond the allowance, limits."""
    return [shown[Place(f"checks.wrong_cutting_{check}")] for check in ("short", "beyond", "limits")]
