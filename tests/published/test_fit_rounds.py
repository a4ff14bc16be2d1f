"""Fit rounds: a base changed in one round, the size set, wash, and what deviations look like together."""

from typing import Any

import pytest

from tests.published.book import Shown

NAMES = ("S", "M", "L")


def rounds(points: list[dict[str, Any]], fit: list[dict[str, Any]], sizes: dict[str, str] | None = None) -> Shown:
    return Shown(
        NAMES,
        style={"sample_size": "M"},
        measurements={"points": points},
        fit={
            "rounds": [
                {"round": name, "size": size}
                for name, size in (sizes or {"Proto": "M", "Fit": "M", "Size set": "M"}).items()
            ],
            "points": fit,
        },
    )


CHEST = {"point": "Chest width", "base": 50, "step": 2, "minus": 1, "plus": 1}


def test_a_base_changed_in_one_round_is_the_base_of_all_sizes_from_the_next_on() -> None:
    book = rounds([CHEST], [{"row": "P1", "own": {"Proto": 52, "Fit": 51}, "revise": {"Proto": 51, "Fit": 51.5}}])
    # The first round is still measured against 50, the second against 51, and all sizes now follow 51.5.
    assert [book.number(f"fit.points[P1].spec_r{number}") for number in (1, 2)] == [50, 51]
    assert [book.number(f"fit.points[P1].deviation_r{number}") for number in (1, 2)] == [2, 0]
    assert [book[f"fit.points[P1].verdict_r{number}"] for number in (1, 2)] == ["out", "in"]
    assert [book.number(f"measurements.points[P1].spec_z{number}") for number in (1, 2, 3)] == [49.5, 51.5, 53.5]
    assert book.number("measurements.points[P1].current") == 51.5
    # Earlier values are kept.
    assert [book.number(f"fit.points[P1].start_r{number}") for number in (1, 2, 3)] == [50, 51, 51.5]


def test_a_sample_in_another_size_is_measured_against_that_size() -> None:
    book = rounds([CHEST], [{"row": "P1", "value": {"Proto": 52.5}}], {"Proto": "L"})
    assert book.number("fit.points[P1].spec_r1") == 52
    assert book.number("fit.points[P1].deviation_r1") == pytest.approx(0.5)


def test_a_minimum_is_one_sided() -> None:
    # Common practice: neck stretch is a minimum, minus 0; more is no fault as far as the plus tolerance allows.
    neck = {"point": "Minimum neck stretch", "base": 31, "step": 0, "minus": 0, "plus": 5}
    assert rounds([neck], [{"row": "P1", "value": {"Proto": 30.9}}])["fit.points[P1].verdict_r1"] == "out"
    assert rounds([neck], [{"row": "P1", "value": {"Proto": 33}}])["fit.points[P1].verdict_r1"] == "in"


def test_the_size_set_names_the_worst_point_and_size() -> None:
    points = [CHEST, {"point": "Body length", "base": 70, "step": 1.5, "minus": 1, "plus": 1}]
    book = rounds(
        points,
        [
            {"row": "P1", "set_value": {"S": 48.5, "M": 50, "L": 52.5}},
            {"row": "P2", "set_value": {"S": 68.5, "M": 70, "L": 68.5}},
        ],
    )
    assert [book.number(f"fit.points[P2].set_deviation_z{number}") for number in (1, 2, 3)] == [0, 0, -3]
    assert book.number("fit.points[P1].set_out") == 0
    assert book.number("fit.points[P2].set_out") == 1
    assert book["fit.set_worst"] == "Body length, size L"


def test_change_in_washing_is_the_one_of_iso_5077() -> None:
    # ISO 5077: change = (after - before) / before x 100; a decrease is negative. Figures by hand.
    book = rounds([CHEST], [{"row": "P1", "before": 50, "after": 48.5, "wash_limit": 0.03}])
    assert book.number("fit.points[P1].wash_change") == pytest.approx(-0.03)
    assert book["fit.points[P1].wash_verdict"] == "in"
    more = rounds([CHEST], [{"row": "P1", "before": 50, "after": 48.4, "wash_limit": 0.03}])
    assert more["fit.points[P1].wash_verdict"] == "out"


def test_all_lengths_short_looks_like_shrinkage() -> None:
    points = [
        {"point": f"Length {number}", "base": base, "step": 1, "minus": 5, "plus": 5, "direction": "length"}
        for number, base in enumerate((100, 50, 60), 1)
    ]
    short = rounds(
        points,
        [
            {"row": "P1", "own": {"Proto": 97}},
            {"row": "P2", "own": {"Proto": 48.5}},
            {"row": "P3", "own": {"Proto": 58.2}},
        ],
    )
    assert short["fit.cause_r1"] == "All points lengthwise are short, by 3.0% on average: shrinkage, or cut too small? "
    mixed = rounds(
        points,
        [
            {"row": "P1", "own": {"Proto": 97}},
            {"row": "P2", "own": {"Proto": 50.5}},
            {"row": "P3", "own": {"Proto": 58.2}},
        ],
    )
    assert mixed["fit.cause_r1"] in {"", None}
