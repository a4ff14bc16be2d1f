"""Sample stages stand in their order, and the calendar adds up to the published totals."""

import pytest

from sheetgen.trade.stages import STAGE_CHOICES, STAGES, STEPS, TRANSPORT_DAYS, TRANSPORT_STEP


def finish(step: int, high: bool) -> int:
    """The day a step is done when every step it waits for took its fewest (or most) days, from day 0."""
    row = next(row for row in STEPS if row.number == step)
    own = row.days_high if high else row.days_low
    return own + max((finish(number, high) for number in row.after), default=0)


def test_stages_are_in_the_order_of_the_published_list() -> None:
    # Course articles on sampling, several agreeing.
    assert [row.order for row in STAGES] == list(range(1, 10))
    assert STAGE_CHOICES[:2] == ("Proto", "Fit")
    order = {name: at for at, name in enumerate(STAGE_CHOICES)}
    assert order["Size set"] < order["Pre-production"] < order["Sealed reference"]
    assert order["Sealed reference"] < order["Top of production"]
    assert STAGE_CHOICES[-1] == "Shipment"


def test_a_step_waits_only_for_steps_before_it() -> None:
    assert [row.number for row in STEPS] == list(range(1, 23))
    assert all(number < row.number for row in STEPS for number in row.after)
    assert all(0 <= row.days_low <= row.days_high for row in STEPS)


@pytest.mark.parametrize(("step", "low", "high"), [(20, 60, 109), (22, 83, 156)])
def test_the_longest_path_adds_up(step: int, low: int, high: int) -> None:
    # Worked out by the editors of the table: pack to ex-factory, and to the warehouse by sea.
    assert (finish(step, high=False), finish(step, high=True)) == (low, high)


def test_the_days_between_purchase_order_and_ex_factory() -> None:
    # 47 to 90 on the full calendar, where the fabric also waits for the lab dip; same source.
    assert finish(20, high=False) - finish(8, high=False) == 47
    assert finish(20, high=True) - finish(8, high=True) == 90


def test_main_transport_is_given_by_sea() -> None:
    step = next(row for row in STEPS if row.number == TRANSPORT_STEP)
    assert (step.days_low, step.days_high) == TRANSPORT_DAYS["sea"]
