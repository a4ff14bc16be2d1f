"""Values in another unit, weights in grams, prices per dozen, one value pasted down: at the edges of each.

One inch is 2.54 cm; the figures are worked out by hand from that.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from sheetgen.audit.rule import Fault, Rule
from sheetgen.audit.units import (
    Measured,
    is_dozen,
    measured,
    other_unit,
    pasted_down,
    price_per_dozen,
    unit_of,
    weight_in_grams,
)
from sheetgen.declare.entry import Place, place_of
from tests.audit.returned import measured_return, returned

CHEST = Place("fit.points.value_r1", "P1")


def faults(rule: Rule, case) -> list[Fault]:
    return list(rule.check(case))


@pytest.mark.parametrize(
    ("unit", "value", "spec", "looks_like"),
    [
        ("cm", 22.83, 58, "inches"),  # 57.99 cm
        ("cm", 24.66, 58, "inches"),  # 62.64 cm, 7.99 % more
        ("cm", 24.67, 58, None),  # 62.66 cm, 8.04 % more
        ("cm", 21.01, 58, "inches"),  # 53.37 cm, 7.99 % less
        ("cm", 21.00, 58, None),  # 53.34 cm, 8.03 % less
        ("cm", 580, 58, "millimeters"),
        ("cm", 626.3, 58, "millimeters"),  # 7.98 % more
        ("cm", 626.5, 58, None),  # 8.02 % more
        ("cm", 533.7, 58, "millimeters"),  # 7.98 % less
        ("cm", 533.5, 58, None),  # 8.02 % less
        ("cm", 58, 58, None),
        ("cm", 5.8, 58, None),  # a slip of the point is no unit
        ("cm", 147.32, 58, None),  # centimeters taken for inches and converted once more: no unit either
        ("in", 58, 22.83, "centimeters"),
        ("in", 580, 22.83, "millimeters"),
        ("in", 22.83, 22.83, None),
        ("mm", 58, 580, "centimeters"),
        ("mm", 22.83, 580, "inches"),
        ("mm", 580, 580, None),
        ("cm", -22.83, -58, None),
        ("cm", 22.83, 0, None),
        ("cm", 0, 58, None),
        ("cm", 0.4, 1, "inches"),  # a length below one is a length
        ("cm", -0.4, 1, None),
        ("cm", 0.4, -1, None),
        ("cm", -0.2, -0.5, None),
    ],
)
def test_the_unit_that_a_value_looks_like(unit: str, value: float, spec: float, looks_like: str | None) -> None:
    case = measured_return({}, unit=unit)
    assert unit_of(case, Measured(CHEST, value, spec, 1, 1)) == looks_like


def test_a_value_in_the_other_unit_is_a_fault_that_says_what_was_asked() -> None:
    case = measured_return({"P1": (22.83, 58, 1, 1), "P2": (70, 70.5, 1, 1)})
    assert faults(other_unit, case) == [Fault(CHEST, "58 cm", "22.83, as if in inches")]


def test_inches_are_asked_in_fractions() -> None:
    case = measured_return({"P1": (58, 22.875, 0.25, 0.25)}, unit="in")
    assert faults(other_unit, case) == [Fault(CHEST, "22 7/8 in", "58, as if in centimeters")]


def test_a_value_that_was_pasted_down_is_no_other_unit() -> None:
    refs = ("P1", "P2", "P3", "P4", "P5")
    case = measured_return(dict.fromkeys(refs, (22.83, 58, 1, 1)))
    assert faults(other_unit, case) == []
    assert list(pasted_down(case)) == [Place("fit.points.value_r1", ref) for ref in refs]


@pytest.mark.parametrize("address", ["order.piece_weight", "order.carton_weight"])
@pytest.mark.parametrize(
    ("kilograms", "fault"),
    [
        (650, ("if these are grams, it is 0.65 kg.", "650 kg")),
        (20.5, ("if these are grams, it is 0.0205 kg.", "20.5 kg")),
        (20, None),  # the heaviest that is believed
        (0.65, None),
        (None, None),
    ],
)
def test_a_weight_above_twenty_kilograms_was_typed_in_grams(address, kilograms, fault) -> None:
    values = {"order.piece_weight": 0.65, "order.carton_weight": 0.9, address: kilograms}
    found = faults(weight_in_grams, returned(values, {}))
    assert found == ([Fault(Place(address), *fault)] if fault else [])


@pytest.mark.parametrize(
    ("price", "worked", "dozen"),
    [
        (291.6, 24.3, True),  # 12 x 24.30
        (314.9, 24.3, True),  # 7.99 % more
        (315.0, 24.3, False),  # 8.02 % more
        (268.3, 24.3, True),  # 7.99 % less
        (268.2, 24.3, False),  # 8.02 % less
        (24.3, 24.3, False),
        (0, 24.3, False),
        (291.6, 0, False),
        (None, 24.3, False),
        (291.6, None, False),
    ],
)
def test_a_price_of_twelve_times_its_build_up_is_a_dozens(price, worked, dozen: bool) -> None:
    case = returned({"quote.fob": price}, {"quote.worked_out": worked if worked is not None else "#N/A"})
    if price is None:
        case = replace(case, got=replace(case.got, typed={}))
    assert is_dozen(case) is dozen
    expected = (
        [Fault(Place("quote.fob"), "its build-up gives 24.30, a twelfth of it.", f"{price:.2f}")] if dozen else []
    )
    assert faults(price_per_dozen, case) == expected


def down(*values: float, spec: float = 58.0) -> dict[Place, tuple[Place, ...]]:
    """What is found pasted down when points under one another measure so; all were asked with tolerances of 1 and 2."""
    return pasted_down(measured_return({f"P{number}": (value, spec, 1, 2) for number, value in enumerate(values, 1)}))


def run(*numbers: int) -> tuple[Place, ...]:
    return tuple(Place("fit.points.value_r1", f"P{number}") for number in numbers)


def test_five_equal_values_of_which_one_does_not_fit_are_pasted_down() -> None:
    assert down(61, 61, 61, 61) == {}
    assert down(61, 61, 61, 61, 61) == dict.fromkeys(run(1, 2, 3, 4, 5), run(1, 2, 3, 4, 5))
    assert down(58, 61, 61, 61, 61, 61) == dict.fromkeys(run(2, 3, 4, 5, 6), run(2, 3, 4, 5, 6))
    assert down(61, 61, 61, 58, 61, 61, 61) == {}  # not under one another
    assert down(61, 61, 61, 61, 61.1) == {}


def test_equal_values_that_all_fit_are_no_paste() -> None:
    assert down(58.5, 58.5, 58.5, 58.5, 58.5) == {}
    points = {f"P{number}": (58.5, 58.0, 1, 2) for number in range(1, 6)}
    assert len(pasted_down(measured_return({**points, "P5": (58.5, 70.0, 1, 2)}))) == 5


@pytest.mark.parametrize(
    ("value", "fits"),
    [
        (57.0, True),  # the tolerance of 1 is used up
        (56.99996, True),  # a rounding more
        (56.9999, False),
        (56.5, False),
        (60.0, True),  # the tolerance of 2 is used up
        (60.00004, True),
        (60.0001, False),
        (60.5, False),
        (58.0, True),
    ],
)
def test_the_edges_of_a_tolerance(value: float, fits: bool) -> None:
    assert (down(*[value] * 5) == {}) is fits


def test_what_was_measured_is_gathered_by_round() -> None:
    case = measured_return({"P1": (57.5, 58, 1, 2), "P3": (75.9, 76, 0.5, 0.7)}, mark="r2")
    assert measured(case) == {
        "r2": [
            Measured(Place("fit.points.value_r2", "P1"), 57.5, 58.0, 1.0, 2.0),
            Measured(Place("fit.points.value_r2", "P3"), 75.9, 76.0, 0.5, 0.7),
        ]
    }


@pytest.mark.parametrize(
    "point", [(None, 58, 1, 2), (57.5, None, 1, 2), (57.5, 58, None, 2), (57.5, 58, 1, None), ("57,5", 58, 1, 2)]
)
@pytest.mark.parametrize("own", [False, True])
def test_a_point_that_lacks_a_figure_is_not_measured(point, own: bool) -> None:
    assert measured(measured_return({"P1": point, "P2": (70, 71, 1, 2)}, own=own)) == {
        "r1": [Measured(Place("fit.points.value_r1", "P2"), 70.0, 71.0, 1.0, 2.0)]
    }


def test_a_value_that_was_sent_along_is_of_an_earlier_return() -> None:
    points = {"P1": (57.5, 58, 1, 2)}
    place = "fit.points[P1].value_r1"
    assert measured(measured_return(points, sent={place: 57.5})) == {}
    assert [one.value for one in measured(measured_return(points, sent={place: 57.6}))["r1"]] == [57.5]
    assert [one.value for one in measured(measured_return(points, sent={place: 57.5}, own=True))["r1"]] == [57.5]


def test_what_the_brand_measured_is_no_answer() -> None:
    worked = {"fit.points[P1].spec_r1": 58, "fit.points[P1].minus": 1, "fit.points[P1].plus": 1}
    assert measured(returned({"fit.points[P1].own_r1": 61}, worked, own=True)) == {}


def test_a_value_that_nobody_typed_was_not_measured() -> None:
    case = measured_return({"P1": (57.5, 58, 1, 2)})
    assert place_of("fit.points[P1].value_r1") in case.got.typed
    gone = replace(case, got=replace(case.got, typed={}))
    assert measured(gone) == {}
