"""What holds for every plan, whatever the order."""

from __future__ import annotations

import json
import math
import os
import subprocess
import sys
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetgen.cut_planning import CutPlan, plan, search
from sheetgen.cut_planning.order import order_of
from tests.cut_planning.test_published import cut

SIZES = ("S", "M", "L", "XL")
ORDERS = st.dictionaries(
    st.sampled_from(("sand", "rust", "moss")),
    st.dictionaries(st.sampled_from(SIZES), st.integers(0, 60), min_size=1),
    min_size=1,
).filter(lambda order: any(any(sizes.values()) for sizes in order.values()))


@pytest.mark.long
@settings(max_examples=8, deadline=None)
@given(ORDERS, st.integers(8, 80), st.integers(2, 6), st.sampled_from((0.0, 0.02, 0.1)))
def test_every_plan_keeps_the_order_and_the_limits(
    ordered: dict[str, dict[str, int]], plies: int, garments: int, share: float
) -> None:
    found = plan(ordered, plies, garments, share)
    kept(found, ordered, plies, garments, share)


def kept(found: CutPlan, ordered: dict[str, dict[str, int]], plies: int, garments: int, share: float) -> None:
    pieces = cut(found)
    for color, sizes in ordered.items():
        for size, need in sizes.items():
            had = pieces.pop((color, size), 0)
            assert need <= had <= need + math.ceil(Fraction(str(share)) * need), (color, size)
            assert found.over.get(color, {}).get(size, 0) == had - need
    assert pieces == {}, "something is cut that nobody ordered"
    for lay in found.lays:
        assert 1 <= lay.height <= plies
        assert 1 <= sum(lay.garments.values()) <= garments
    assert len(found.lays) >= found.least >= found.in_theory
    assert found.proved == (len(found.lays) == found.least)


# Both invented.
LARGE = {
    "sand": {"XS": 41, "S": 97, "M": 160, "L": 151, "XL": 88, "XXL": 33},
    "rust": {"XS": 22, "S": 60, "M": 101, "L": 95, "XL": 47, "XXL": 18},
    "moss": {"XS": 55, "S": 130, "M": 204, "L": 187, "XL": 120, "XXL": 60},
}
UNEVEN = {"sand": {"S": 41, "M": 97, "L": 63, "XL": 29}, "rust": {"S": 22, "M": 60, "L": 47, "XL": 26}}


@pytest.mark.long
def test_an_ordinary_order_needs_hardly_more_lays_than_the_theory() -> None:
    found = plan(LARGE, 60, 6, 0.03)
    kept(found, LARGE, 60, 6, 0.03)
    assert found.in_theory == 5  # 1669 pieces in lays of 360
    assert len(found.lays) <= 6


@pytest.mark.parametrize(("ordered", "share"), [(UNEVEN, 0.0), (UNEVEN, 0.05)])
def test_an_order_too_large_for_all_steps_keeps_the_laws_and_takes_no_more_than_it_may(monkeypatch, ordered, share):
    monkeypatch.setattr(search, "_IN_FULL", 1)
    monkeypatch.setattr(search, "_STEPS_OF_THESE", 100)
    asked = []
    ask = search.reworked
    monkeypatch.setattr(search, "reworked", lambda *of: (asked.append(1), ask(*of))[1])
    patience = search.Patience(order_of(ordered, 40, 4, share))
    assert patience.is_short
    found = plan(ordered, 40, 4, share)
    kept(found, ordered, 40, 4, share)
    assert len(asked) <= patience.left + 4, "one step at least for each of the questions that remain"


@given(st.integers(1, 60), st.integers(1, 30), st.integers(1, 20))
def test_an_ordinary_order_takes_all_steps_and_a_larger_one_about_as_much_work(lays, sizes, colors):
    one = {f"c{color}": {f"s{size}": 1 for size in range(sizes)} for color in range(colors)}
    order = order_of(one, 60, 6, 0.0)
    patience = search.Patience(order)
    products = order.fewest_lays * sizes * colors
    if products <= search._IN_FULL:
        assert [patience.steps(wanted) for wanted in (16, 40)] == [16, 40] and not patience.is_over
    else:
        assert patience.left * products <= search._IN_FULL * search._STEPS_OF_THESE
        assert patience.steps(40) <= 40


_APART = """
import json, sys
from sheetgen.cut_planning import plan
found = plan(json.loads(sys.argv[1]), 60, 4)
print(json.dumps([[lay.garments, lay.plies] for lay in found.lays]))
"""


@pytest.mark.long
def test_the_same_order_gets_the_same_plan_in_another_process_under_load() -> None:
    said: list[str] = []
    here = plan(UNEVEN, 60, 4, progress=said.append)
    phases = " ".join(said)
    assert all(words in phases for words in ("can be enough", "fewer markers"))
    root = Path(__file__).parents[2]
    environment = {**os.environ, "PYTHONPATH": str(root), "PYTHONHASHSEED": "7"}
    busy = subprocess.Popen([sys.executable, "-c", "while True: pass"])
    try:
        ran = subprocess.run(
            [sys.executable, "-c", _APART, json.dumps(UNEVEN)],
            env=environment,
            check=True,
            capture_output=True,
            text=True,
        )
    finally:
        busy.kill()
        busy.wait()
    assert json.loads(ran.stdout) == [[lay.garments, lay.plies] for lay in here.lays]


@pytest.mark.parametrize(
    ("ordered", "limits", "words"),
    [
        ({"sand": {"S": 0}}, (60, 6), "without pieces"),
        ({}, (60, 6), "without pieces"),
        ({"sand": {"S": -1}}, (60, 6), "-1 pieces of sand in size S"),
        ({"sand": {"S": 1.5}}, (60, 6), "1.5 pieces of sand in size S"),
        ({"sand": {"S": 5}}, (0, 6), "at most 0 plies"),
        ({"sand": {"S": 5}}, (60, 0), "at most 0 garments"),
        ({"sand": {"S": 5}}, (60, 6, 1.5), "allowance of 1.5"),
        ({"sand": {"S": 5}}, (60, 6, -0.1), "allowance of -0.1"),
    ],
)
def test_what_is_no_order_is_refused(ordered: dict[str, dict[str, int]], limits: tuple[int, int], words: str) -> None:
    with pytest.raises(ValueError, match=words):
        plan(ordered, *limits)


def test_an_allowance_is_taken_as_it_is_written() -> None:
    # 0.07 x 100 is 7.000000000000001 in floats, and 8 over would be one too many; of 101 pieces 7.07 are rounded up.
    assert order_of({"sand": {"S": 100, "M": 101}}, 60, 6, 0.07).room == ((7, 8),)
