"""Sampling plans of the Lists sheet agree with the published tables and behave as plans do."""

from itertools import pairwise
from typing import NamedTuple

import pytest
from scipy.stats import binom, hypergeom

from sheetgen.sheets.lists import AQL_COLUMNS, LEVEL_COLUMNS
from sheetgen.trade.sampling import AQLS, CODE_LETTERS, LEVELS, SAMPLE_SIZES, plan_of_letter
from tests.lists import listed

from .tables import rows


class Answer(NamedTuple):
    """What the Lists sheet says of the lots from `lot_from` on."""

    level: str
    lot_from: int
    code_letter: str
    aql: float
    n: int
    accept: int


PLANS = {str(row["letter"]): row for row in listed("plans")}
ANSWERS = [
    Answer(
        level, band["lot_from"], band[column], aql, PLANS[band[column]][f"n_{name}"], PLANS[band[column]][f"ac_{name}"]
    )
    for column, level in LEVEL_COLUMNS.items()
    for band in listed("letters")
    for name, aql in AQL_COLUMNS.items()
]


def answer(lot: int, level: str, aql: float) -> tuple[int, int]:
    """Sample and acceptance number of the last band that begins at the lot or below."""
    found = [one for one in ANSWERS if one.level == level and one.aql == aql and one.lot_from <= lot]
    return max(found)[-2:]


def test_level_ii_is_the_published_table() -> None:
    published = [
        (row["lot_from"], row["code_letter_II"], row["aql"], row["n_used"], row["Ac"])
        for row in rows("aql_normal_II.csv")
    ]
    ours = [
        (str(one.lot_from), one.code_letter, str(one.aql), str(one.n), str(one.accept))
        for one in ANSWERS
        if one.level == "II"
    ]
    assert sorted(ours) == sorted(published)


def test_the_letter_that_an_arrow_leads_to_is_the_published_one() -> None:
    for row in rows("aql_normal_II.csv"):
        found = plan_of_letter(row["code_letter_II"], float(row["aql"]))
        assert (found.letter, found.n, found.accept) == (row["letter_used"], int(row["n_used"]), int(row["Ac"]))
        assert int(row["Re"]) == found.accept + 1


@pytest.mark.parametrize(
    ("lot", "level", "aql", "expected"),
    [
        # MIL-STD-105E Table II-A. A faulty copy in circulation prints 21/22 for 200 at 2.5.
        (5000, "II", 2.5, (200, 10)),
        (5000, "II", 4.0, (200, 14)),
        (5000, "II", 1.5, (200, 7)),
        (1200, "II", 2.5, (80, 5)),
        (1201, "II", 2.5, (125, 7)),
        (300, "II", 2.5, (50, 3)),
        (200, "II", 2.5, (32, 2)),
        (120, "II", 2.5, (20, 1)),
        (300, "I", 4.0, (20, 2)),
        (300, "III", 2.5, (80, 5)),
        (20000, "II", 6.5, (200, 21)),  # M, an arrow up
        (60, "II", 2.5, (20, 1)),  # E, an arrow down
        (600000, "III", 1.0, (1250, 21)),  # R, an arrow up; row R is from memory
        (10, "II", 1.0, (13, 0)),  # more than there are: all of them
        (2, "II", 6.5, (2, 0)),
    ],
)
def test_plans_of_the_printed_table(lot: int, level: str, aql: float, expected: tuple[int, int]) -> None:
    assert answer(lot, level, aql) == expected


@pytest.mark.parametrize(
    ("level", "aql", "expected"),
    # MIL-STD-105E Tables I and II-A at a lot of 2000: letter, sample, acceptance number.
    [("S-4", 4.0, ("G", 32, 3)), ("S-3", 1.0, ("E", 13, 0)), ("S-1", 1.0, ("E", 13, 0))],  # S-1: C, two arrows down
)
def test_special_levels_of_the_printed_table(level: str, aql: float, expected: tuple[str, int, int]) -> None:
    band = next(band for band in CODE_LETTERS if band.lot_to and band.lot_from <= 2000 <= band.lot_to)
    assert tuple(plan_of_letter(band.letters[LEVELS.index(level)], aql)) == expected


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


def chance_of_acceptance(one: Answer) -> float:
    """Binomial chance that a lot exactly at the limit passes, by scipy."""
    return float(binom.cdf(one.accept, one.n, one.aql / 100))


def test_a_lot_at_its_limit_is_accepted_about_as_often_as_the_standard_means() -> None:
    # Computed by the editors of the table for its level II cells: 0.874 to 0.994, to three decimals.
    assert min(round(chance_of_acceptance(one), 3) for one in ANSWERS) == 0.874
    assert max(round(chance_of_acceptance(one), 3) for one in ANSWERS) == 0.994


def test_the_chance_of_acceptance_is_the_published_one_cell_by_cell() -> None:
    published = {
        (int(row["lot_from"]), float(row["aql"])): float(row["P_accept_at_AQL_binomial"])
        for row in rows("aql_normal_II.csv")
    }
    level_ii = [one for one in ANSWERS if one.level == "II"]
    assert len(level_ii) == len(published) == 75
    for one in level_ii:
        assert round(chance_of_acceptance(one), 4) == published[one.lot_from, one.aql], one


def test_every_plan_of_the_sheets_accepts_at_its_limit_as_the_scheme_of_iso_2859_1_implies() -> None:
    # The producer's risk of the scheme is about 5 %, for the smallest samples up to 13 %: acceptance at the AQL above 0.87.
    checked = 0
    for letter, row in PLANS.items():
        for name, aql in AQL_COLUMNS.items():
            found = float(binom.cdf(row[f"ac_{name}"], row[f"n_{name}"], aql / 100))
            assert 0.87 < found < 1, (letter, aql, found)
            checked += 1
    assert checked == len(SAMPLE_SIZES) * len(AQL_COLUMNS)


def test_a_worse_lot_is_accepted_less_often_and_a_lot_of_finite_size_about_as_often() -> None:
    # The operating characteristic falls; drawn from a lot of 500 without putting back it is the hypergeometric one.
    n, accept = answer(500, "II", 2.5)
    shares = [0.01, 0.025, 0.05, 0.1, 0.2]
    curve = [float(binom.cdf(accept, n, share)) for share in shares]
    assert curve == sorted(curve, reverse=True)
    assert curve[-1] < 0.05
    lots = [float(hypergeom.cdf(accept, 500, round(500 * share), n)) for share in shares]
    assert lots == pytest.approx(curve, abs=0.05)


def test_inspecting_a_whole_lot_allows_no_faulty_piece() -> None:
    # So the acceptance number needs no scaling where the sample is cut to the lot.
    assert {one.accept for one in ANSWERS if one.n >= one.lot_from} == {0}


@pytest.mark.parametrize("letter", SAMPLE_SIZES)
@pytest.mark.parametrize("aql", AQLS)
def test_every_letter_has_a_plan_that_can_be_carried_out(letter: str, aql: float) -> None:
    found = plan_of_letter(letter, aql)
    assert found.n == SAMPLE_SIZES[found.letter]
    assert found.accept < found.n


@pytest.mark.parametrize(("letter", "aql"), [("I", 2.5), ("O", 2.5), ("S", 2.5), ("J", 0.0), ("K", 0.65)])
def test_what_the_table_does_not_hold_is_refused(letter: str, aql: float) -> None:
    with pytest.raises(ValueError, match=f"^no sampling plan for letter '{letter}' at {aql} percent$"):
        plan_of_letter(letter, aql)


def test_the_sample_of_each_letter() -> None:
    # MIL-STD-105E, Table II-A: there is no letter I and no letter O. Letter R is from memory.
    assert SAMPLE_SIZES == {
        "A": 2, "B": 3, "C": 5, "D": 8, "E": 13, "F": 20, "G": 32, "H": 50, "J": 80, "K": 125, "L": 200, "M": 315, "N": 500,
        "P": 800, "Q": 1250, "R": 2000,
    }  # fmt: skip
