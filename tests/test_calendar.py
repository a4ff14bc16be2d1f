"""Dates back from the delivery, held against numpy's count of business days (numpy.busday_offset, its own documentation)."""

from __future__ import annotations

import datetime

import numpy
import pytest

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import DAY_ZERO, Value
from tests.blanking.emptied import Bench
from tests.loop import SAMPLES

WEEKS = {"Monday to Friday": "1111100", "Monday to Saturday": "1111110", "Sunday to Thursday": "1111001"}
STEPS = {"E1": 240, "E2": 125, "E3": 100, "E4": 42, "E5": 7, "E6": 1}
"""Days before the delivery: a plan of eleven months is nothing unusual where the fabric is made for the order."""
HOLIDAYS = (datetime.date(2027, 5, 6), datetime.date(2027, 6, 10))
DELIVERY = datetime.date(2027, 7, 15)


@pytest.mark.parametrize("week", WEEKS)
def test_steps_in_working_days_are_those_that_numpy_counts(week: str) -> None:
    changed: dict[Place, Value] = {Place("order.week"): week, Place("style.delivery"): DELIVERY}
    changed |= {Place("order.calendar.before", ref): days for ref, days in STEPS.items()}
    changed |= {Place("order.holidays.on", f"H{number}"): day for number, day in enumerate(HOLIDAYS, 1)}
    values = {**api.build(SAMPLES / "overshirt" / "brief.toml").values, **changed}
    shown = Bench(values).before
    for ref, days in STEPS.items():
        wanted = numpy.busday_offset(DELIVERY, -days, roll="forward", weekmask=WEEKS[week], holidays=HOLIDAYS)
        found = shown[Place("order.calendar.due", ref)]
        assert isinstance(found, int | float)
        assert DAY_ZERO + datetime.timedelta(days=found) == wanted.astype(datetime.date), ref
