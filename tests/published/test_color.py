"""Color differences of lab dips: all pairs of Sharma, Wu & Dalal (2005), Table 1."""

from collections.abc import Sequence
from functools import cache

import pytest
from coloraide import Color

from tests.published.book import Shown
from tests.trade.tables import rows

Lab = tuple[float, float, float]
PAIRS: Sequence[tuple[str, Lab, Lab, float]] = [
    (
        row["pair"],
        (float(row["L1"]), float(row["a1"]), float(row["b1"])),
        (float(row["L2"]), float(row["a2"]), float(row["b2"])),
        float(row["dE00"]),
    )
    for row in rows("ciede2000_pairs.csv")
]


def differences(pairs: Sequence[tuple[Lab, Lab]], limit: float = 1) -> Shown:
    dips = [
        {
            "component": f"Pair {number}", "limit": limit,
            "target_l": target[0], "target_a": target[1], "target_b": target[2], "l": dip[0], "a": dip[1], "b": dip[2],
        }
        for number, (target, dip) in enumerate(pairs, 1)
    ]  # fmt: skip
    return Shown(colorways={"dips": dips})


@cache
def both_ways() -> tuple[Shown, Shown]:
    return (
        differences([(target, dip) for _, target, dip, _ in PAIRS]),
        differences([(dip, target) for _, target, dip, _ in PAIRS]),
    )


def test_all_pairs_are_there_and_copied_right() -> None:
    # The last printed decimal is the fourth.
    assert [pair for pair, *_ in PAIRS] == [str(number) for number in range(1, 35)]
    for pair, target, dip, published in PAIRS:
        other = Color("lab-d65", target).delta_e(Color("lab-d65", dip), method="2000")
        assert other == pytest.approx(published, abs=6e-5), pair


@pytest.mark.parametrize("number", range(1, 35))
def test_the_difference_of_a_pair_is_the_published_one_from_either_side(number: int) -> None:
    _, target, dip, published = PAIRS[number - 1]
    place = f"colorways.dips[D{number}].difference"
    forth, back = (shown.number(place) for shown in both_ways())
    assert forth == pytest.approx(published, abs=1e-4)
    assert back == pytest.approx(forth, rel=1e-9)
    # An independent library, told to take the readings as they are and not to adapt them to another light.
    other = Color("lab-d65", target).delta_e(Color("lab-d65", dip), method="2000")
    assert forth == pytest.approx(other, rel=1e-9)


def test_equal_colors_differ_by_nothing_also_without_chroma() -> None:
    shown = differences([((43.1, -12.5, 16.6),) * 2, ((50, 0, 0),) * 2, ((0, 0, 0),) * 2])
    assert [shown[f"colorways.dips[D{number}].difference"] for number in (1, 2, 3)] == [0, 0, 0]


def test_the_verdict_is_by_the_two_decimals_that_are_agreed() -> None:
    # Pair 25 differs by 1.2644: inside a limit of 1.26 as laboratories report it, outside one of 1.25.
    _, target, dip, published = PAIRS[24]
    assert published == 1.2644
    assert differences([(target, dip)], limit=1.26)["colorways.dips[D1].verdict"] == "pass"
    assert differences([(target, dip)], limit=1.25)["colorways.dips[D1].verdict"] == "fail"
