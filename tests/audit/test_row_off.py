"""A column of answers that came back one row off is told once. The prices are invented."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from sheetgen.audit.prices import price_jumped
from sheetgen.audit.row_off import answers_a_row_off
from sheetgen.audit.rule import Example, Fault
from tests.audit.made import Made, quick_case

PRICES = (4.65, 2.35, 1.8, 0.85, 0.058, 0.0009, 0.0006, 0.055)


def again(overshirt: Made, now: Sequence[float | None]) -> tuple[list[Fault], list[Fault]]:
    """What is said of the columns, and of jumps, where the first eight prices were sent along and came back as these."""
    sent = {f"materials.bom[M{row}].price": price for row, price in enumerate(PRICES, 1)}
    changes = {f"materials.bom[M{row}].price": price for row, price in enumerate(now, 1)}
    case = quick_case(overshirt, Example("again", changes, sent=sent))
    assert case is not None
    return list(answers_a_row_off.check(case)), list(price_jumped.check(case))


@pytest.mark.parametrize(
    ("now", "place", "side", "count"),
    [
        ((None, *PRICES[:-1]), "materials.bom[M2].price", "above", "7 answers"),
        ((*PRICES[1:], 0.018), "materials.bom[M1].price", "below", "7 answers"),
        ((None, *PRICES[:5], 0.07, 0.0006), "materials.bom[M2].price", "above", "6 answers"),  # one of them anew
    ],
)
def test_a_column_one_row_off(
    overshirt: Made, now: tuple[float | None, ...], place: str, side: str, count: str
) -> None:
    (fault,), jumps = again(overshirt, now)
    assert (str(fault.place), fault.expected, fault.found) == (place, side, count)
    assert len(jumps) <= 1


def test_prices_as_before_and_prices_anew_are_no_column_off(overshirt: Made) -> None:
    assert again(overshirt, PRICES) == ([], [])
    columns, jumps = again(overshirt, [round(price * 1.2, 5) for price in PRICES])
    assert columns == []
    assert len(jumps) == len(PRICES)


def test_a_few_rows_off_are_no_column(overshirt: Made) -> None:
    columns, jumps = again(overshirt, (4.65, 4.65, 2.35, 1.8, 0.058, 0.0009, 0.0006, 0.055))
    assert columns == []
    assert len(jumps) == 3
