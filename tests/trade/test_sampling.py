"""Sampling plans agree with the published tables and behave as plans do."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binom, hypergeom

from sheetgen.sheets.lists import AQL_COLUMNS, LISTS
from sheetgen.trade.sampling import (
    AQLS,
    CODE_LETTERS,
    LEVELS,
    PLAN_ROWS,
    SAMPLE_SIZES,
    Plan,
    PlanRow,
    plan,
    plan_of_letter,
    plan_rows,
)

from .tables import rows


def test_level_ii_is_the_published_table() -> None:
    published = [
        (
            row["lot_from"],
            row["code_letter_II"],
            row["aql"],
            row["letter_used"],
            row["n_used"],
            row["Ac"],
            row["Re"],
        )
        for row in rows("aql_normal_II.csv")
    ]
    ours = [
        (
            str(row.lot_from),
            row.code_letter,
            str(row.aql),
            row.letter,
            str(row.n),
            str(row.accept),
            str(row.reject),
        )
        for row in PLAN_ROWS
        if row.level == "II"
    ]
    assert sorted(ours) == sorted(published)


@pytest.mark.parametrize(
    ("lot", "level", "aql", "expected"),
    [
        # MIL-STD-105E Table II-A. A faulty copy in circulation prints 21/22 for 200 at 2.5.
        (5000, "II", 2.5, Plan("L", 200, 10, 11)),
        (5000, "II", 4.0, Plan("L", 200, 14, 15)),
        (5000, "II", 1.5, Plan("L", 200, 7, 8)),
        (1200, "II", 2.5, Plan("J", 80, 5, 6)),
        (1201, "II", 2.5, Plan("K", 125, 7, 8)),
        (300, "II", 2.5, Plan("H", 50, 3, 4)),
        (200, "II", 2.5, Plan("G", 32, 2, 3)),
        (120, "II", 2.5, Plan("F", 20, 1, 2)),
        (300, "I", 4.0, Plan("F", 20, 2, 3)),
        (300, "III", 2.5, Plan("J", 80, 5, 6)),
        (2000, "S-4", 4.0, Plan("G", 32, 3, 4)),
        (2000, "S-3", 1.0, Plan("E", 13, 0, 1)),
        (2000, "S-1", 1.0, Plan("E", 13, 0, 1)),  # C, two arrows down
        (20000, "II", 6.5, Plan("L", 200, 21, 22)),  # M, an arrow up
        (60, "II", 2.5, Plan("F", 20, 1, 2)),  # E, an arrow down
        (600000, "III", 1.0, Plan("Q", 1250, 21, 22)),  # R, an arrow up; row R is from memory
        (10, "II", 1.0, Plan("E", 10, 0, 1)),  # 13 asked for, 10 there: all of them
        (2, "II", 6.5, Plan("A", 2, 0, 1)),
    ],
)
def test_plans_of_the_printed_table(lot: int, level: str, aql: float, expected: Plan) -> None:
    assert plan(lot, level, aql) == expected


def test_the_lot_bands_leave_no_gap() -> None:
    assert CODE_LETTERS[0].lot_from == 2
    assert all(low.lot_to == high.lot_from - 1 for low, high in pairwise(CODE_LETTERS))
    assert CODE_LETTERS[-1].lot_to is None


@pytest.mark.parametrize("level", LEVELS)
def test_a_larger_lot_never_has_an_earlier_letter(level: str) -> None:
    letters = [band.letters[LEVELS.index(level)] for band in CODE_LETTERS]
    assert letters == sorted(letters)


def test_a_stricter_level_never_inspects_by_an_earlier_letter() -> None:
    assert all(list(band.letters[:4]) == sorted(band.letters[:4]) for band in CODE_LETTERS)
    assert all(list(band.letters[4:]) == sorted(band.letters[4:]) for band in CODE_LETTERS)


def chance_of_acceptance(row: PlanRow) -> float:
    """Binomial chance that a lot exactly at the limit passes, by scipy."""
    return float(binom.cdf(row.accept, row.n, row.aql / 100))


def test_a_lot_at_its_limit_is_accepted_about_as_often_as_the_standard_means() -> None:
    # Computed by the editors of the table for its level II cells: 0.874 to 0.994, to three decimals.
    assert min(round(chance_of_acceptance(row), 3) for row in PLAN_ROWS) == 0.874
    assert max(round(chance_of_acceptance(row), 3) for row in PLAN_ROWS) == 0.994


def test_the_chance_of_acceptance_is_the_published_one_cell_by_cell() -> None:
    published = {
        (int(row["lot_from"]), float(row["aql"])): float(row["P_accept_at_AQL_binomial"])
        for row in rows("aql_normal_II.csv")
    }
    level_ii = [row for row in PLAN_ROWS if row.level == "II"]
    assert len(level_ii) == len(published) == 75
    for row in level_ii:
        assert round(chance_of_acceptance(row), 4) == published[row.lot_from, row.aql], row


def test_every_plan_of_the_sheets_accepts_at_its_limit_as_the_scheme_of_iso_2859_1_implies() -> None:
    # The producer's risk of the scheme is about 5 %, for the smallest samples up to 13 %: acceptance at the AQL above 0.87.
    plans = LISTS.parts[[part.title.startswith("Sampling plans") for part in LISTS.parts].index(True)].rows
    checked = 0
    for row in plans:
        for name, aql in AQL_COLUMNS.items():
            found = float(binom.cdf(row[f"ac_{name}"], row[f"n_{name}"], aql / 100))
            assert 0.87 < found < 1, (row["letter"], aql, found)
            checked += 1
    assert checked == len(SAMPLE_SIZES) * len(AQL_COLUMNS)


def test_a_worse_lot_is_accepted_less_often_and_a_lot_of_finite_size_about_as_often() -> None:
    # The operating characteristic falls; drawn from a lot of 500 without putting back it is the hypergeometric one.
    found = plan(500, "II", 2.5)
    shares = [0.01, 0.025, 0.05, 0.1, 0.2]
    curve = [float(binom.cdf(found.accept, found.n, share)) for share in shares]
    assert curve == sorted(curve, reverse=True)
    assert curve[-1] < 0.05
    lots = [float(hypergeom.cdf(found.accept, 500, round(500 * share), found.n)) for share in shares]
    assert lots == pytest.approx(curve, abs=0.05)


def test_inspecting_a_whole_lot_allows_no_faulty_piece() -> None:
    # So the acceptance number needs no scaling where the sample is cut to the lot.
    assert {row.accept for row in PLAN_ROWS if row.n >= row.lot_from} == {0}


@given(st.integers(2, 10**7), st.sampled_from(LEVELS), st.sampled_from(AQLS))
def test_every_lot_has_a_plan_it_can_carry_out(lot: int, level: str, aql: float) -> None:
    found = plan(lot, level, aql)
    assert found.n == min(SAMPLE_SIZES[found.letter], lot)
    assert found.reject == found.accept + 1
    assert found.accept < found.n


@pytest.mark.parametrize(
    ("lot", "level", "aql", "says"),
    [
        (1, "II", 2.5, "no sampling plan for a lot of 1; the table starts at 2"),
        (0, "II", 2.5, "no sampling plan for a lot of 0; the table starts at 2"),
        (9, "IV", 2.5, "no sampling plan for level 'IV' at 2.5 percent"),
        (9, "II", 0.0, "no sampling plan for level 'II' at 0.0 percent"),
    ],
)
def test_what_the_table_does_not_hold_is_refused(lot: int, level: str, aql: float, says: str) -> None:
    with pytest.raises(ValueError, match="no sampling plan") as raised:
        plan(lot, level, aql)
    assert str(raised.value) == says


@pytest.mark.parametrize(("letter", "aql"), [("I", 2.5), ("K", 0.65), ("O", 0.65)])
def test_a_letter_or_a_limit_that_the_table_does_not_have_is_refused(letter: str, aql: float) -> None:
    with pytest.raises(ValueError, match=f"no sampling plan for letter '{letter}' at {aql} percent"):
        plan_of_letter(letter, aql)


def test_the_sample_of_each_letter() -> None:
    # MIL-STD-105E, Table II-A: there is no letter I and no letter O. Letter R is from memory.
    assert SAMPLE_SIZES == {
        "A": 2, "B": 3, "C": 5, "D": 8, "E": 13, "F": 20, "G": 32, "H": 50, "J": 80, "K": 125, "L": 200, "M": 315, "N": 500,
        "P": 800, "Q": 1250, "R": 2000,
    }  # fmt: skip


def test_a_row_says_its_band_the_letter_of_the_table_and_the_letter_used() -> None:
    # A lot of 9 to 15 pieces at level II is letter B; at 2.5 percent the arrow leads down to 5 pieces, letter C.
    assert plan_rows("II", 2.5)[1] == PlanRow("II", 9, 15, "B", 2.5, "C", 5, 0, 1)
    assert [row.code_letter for row in plan_rows("II", 2.5)] == list("ABCDEFGHJKLMNPQ")
