"""What the tests of published rows share: how a figure is held against its row, and one bill of materials with many lines."""

from functools import cache

import pytest

from tests.published.book import Shown, published


def check(table: str, row: str, got: float) -> None:
    """What the sheets show is the row's own formula, and the source's answer within the rounding that the row states."""
    data = published(table)[row]
    # Cells with a rounded result, such as a cost in 0.0001, agree to that.
    assert got == pytest.approx(float(data["recomputed"]), rel=5e-6, abs=5e-5)
    assert got == pytest.approx(float(data["published_answer"]), abs=max(float(data["tolerance"]), 1e-4))


@cache
def lines() -> Shown:
    """Lines of a bill of materials: net use, waste and price, in the order of the rows that they stand for."""
    typed = [
        (2.20416, 0.10, 1),  # M1 KN02
        (3.45, 0.10, 1),  # M2 KN04
        (1.6 * 12, 0.05, 1),  # M3 WV11
        (1.29, 0.05, 1),  # M4 JK03
        (19, 0.07, 1),  # M5 DZ02
        (1 / 4.17, 0, 600),  # M6 CV04
        (12, 0, 0.36),  # M7 CM04
        (4.05, 0.09, 1),  # M8 FB05
        (0.06 * 12, 0.09, 1),  # M9 FB07
    ]
    bom = [
        {"item": f"Line {n}", "group": "fabric", "unit": "kg", "net": net, "waste": waste, "price": price, "currency": "USD"}
        for n, (net, waste, price) in enumerate(typed, 1)
    ]  # fmt: skip
    return Shown(materials={"bom": bom})
