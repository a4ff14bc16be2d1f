"""In or out of tolerance: not known where no tolerance is typed, one-sided where one side is (common practice)."""

from __future__ import annotations

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from tests.blanking.emptied import Bench
from tests.loop import SAMPLES


@pytest.mark.parametrize(
    ("minus", "plus", "verdicts"),
    [
        (1.0, 1.0, ("in", "out", "in")),
        (1.0, None, ("in", "out", "out")),
        (None, 1.0, ("out", "out", "in")),
        (None, None, ("", "", "")),
    ],
    ids=["both sides", "only too small allowed", "only too large allowed", "no tolerance"],
)
def test_a_verdict_needs_a_tolerance(minus: Value, plus: Value, verdicts: tuple[str, str, str]) -> None:
    values = dict(api.build(SAMPLES / "overshirt" / "brief.toml").values)
    base = values[Place("measurements.points.base", "P1")]
    assert isinstance(base, int | float)
    values |= {Place("measurements.points.minus", "P1"): minus, Place("measurements.points.plus", "P1"): plus}
    found = []
    for deviation in (-0.5, -3.0, 0.5):
        shown = Bench({**values, Place("fit.points.value_r1", "P1"): base + deviation}).before
        found.append(shown[Place("fit.points.verdict_r1", "P1")] or "")
    assert tuple(found) == verdicts
