"""Stitch numbers, names and thread figures follow their sources."""

import re

import pytest

from sheetgen.trade import stitches
from sheetgen.trade.stitches import STITCHES, stitch, thread_m_per_m
from tests.lists import offered


@pytest.mark.parametrize(
    ("code", "threads"),
    # ISO 4915 numbering as taught on public course pages.
    [("101", 1), ("301", 2), ("401", 2), ("406", 3), ("504", 3), ("516", 5), ("607", 6)],
)
def test_threads(code: str, threads: int) -> None:
    found = stitch(code)
    assert found is not None
    assert found.threads == threads


def test_safety_stitches_are_the_combinations_of_the_standard() -> None:
    # A course page calls 515 the 401 + 504 combination; by ISO numbering it is 401 + 503.
    names = {row.code: row.name for row in STITCHES}
    assert "401 + 503" in names["515"]
    assert "401 + 504" in names["516"]


def test_a_choice_finds_its_stitch() -> None:
    assert "301 lockstitch" in offered("stitches")
    assert [stitch(choice) for choice in offered("stitches")] == list(STITCHES)
    assert stitch("999") is None
    assert stitch("") is None


def test_codes_are_in_order_and_in_a_class() -> None:
    codes = [row.code for row in STITCHES]
    assert codes == sorted(set(codes))
    # ISO 4915:1991 has the classes 100 to 600, seen; a class 700 on some course pages is not one of them.
    assert all(re.fullmatch("[1-6][0-9]{2}", code) for code in codes)


@pytest.mark.parametrize(
    ("code", "table", "meters"),
    [
        # A: Carr & Latham as restated in a course hand-out; B: a thread maker's guide; C: a shirt example.
        ("301", "A", 2.5),
        ("401", "A", 5.5),
        ("504", "A", 14.0),
        ("605", "A", 28.0),
        ("606", "A", 32.0),
        ("101", "A", 4.0),
        ("101", "B", 5.0),
        ("304", "A", 7.0),
        ("304", "B", 5.5),
        ("103", "B", 4.5),
        ("504", "C", 9.0),
        ("103", "A", None),
        ("514", "A", None),
        ("407", "B", None),
    ],
)
def test_thread_figures_by_table(code: str, table: str, meters: float | None) -> None:
    assert thread_m_per_m(code, table) == meters


def test_the_unraveled_401_splits_as_the_table_says() -> None:
    # A published measurement: 15 cm of 401 gave 19.5 cm of needle and 62.0 cm of looper thread.
    row = stitch("401")
    assert row is not None
    assert row.needle_share == pytest.approx(19.5 / (19.5 + 62.0), abs=0.015)
    assert row.thread_m_per_m == pytest.approx((19.5 + 62.0) / 15, rel=0.02)


def test_every_thread_figure_names_its_table() -> None:
    for row in STITCHES:
        assert (row.table in stitches.TABLES) == (row.thread_m_per_m is not None)
        assert row.needle_share is None or 0 < row.needle_share <= 1
    with pytest.raises(ValueError, match="Z"):
        thread_m_per_m("301", "Z")
