"""Samples at the edges: of their tolerances, of what is too exact to be measured, of a color's limit."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Fault, Rule
from sheetgen.audit.samples import (
    deviation_repeated,
    dip_outside_limit,
    finer_than_a_tape,
    measured_a_row_off,
    measured_apart,
    sample_copied,
    sample_out_of_tolerance,
    sample_repeated,
)
from sheetgen.declare.entry import Place
from tests.audit.returned import measured_return, returned


def faults(rule: Rule, case: Case) -> list[Fault]:
    return list(rule.check(case))


def value_of(ref: str) -> Place:
    return Place("fit.points.value_r1", ref)


@pytest.mark.parametrize(
    ("value", "found"),
    [
        (58.0, None),
        (57.0, None),  # the tolerance of 1 is used up
        (56.99996, None),  # a rounding more
        (56.9999, "56.9999 (-1.0001)"),
        (56.5, "56.5 (-1.5)"),
        (60.0, None),  # the tolerance of 2 is used up
        (60.00004, None),
        (60.0001, "60.0001 (+2.0001)"),
        (60.5, "60.5 (+2.5)"),
        (22.83, None),  # measured in inches: another rule's
    ],
)
def test_the_edges_of_a_tolerance(value: float, found: str | None) -> None:
    case = measured_return({"P1": (value, 58, 1, 2)})
    assert faults(sample_out_of_tolerance, case) == ([Fault(value_of("P1"), "58 (−1 / +2)", found)] if found else [])


def test_what_was_pasted_down_is_one_finding_and_not_many() -> None:
    case = measured_return({f"P{number}": (61, 58, 1, 2) for number in range(1, 6)} | {"P7": (61, 58, 1, 2)})
    assert [fault.place for fault in faults(sample_out_of_tolerance, case)] == []
    assert faults(sample_repeated, case) == [Fault(value_of("P1"), "61", "6")]
    apart = measured_return({f"P{number}": (61, 58, 1, 2) for number in range(1, 6)} | {"P6": (60.5, 58, 1, 2)})
    assert [fault.place for fault in faults(sample_out_of_tolerance, apart)] == [value_of("P6")]
    assert faults(sample_repeated, apart) == [Fault(value_of("P1"), "61", "5")]


def test_two_pastes_are_two_findings() -> None:
    first = {f"P{number}": (61, 58, 1, 2) for number in range(1, 6)}
    second = {f"P{number}": (62, 58, 1, 2) for number in range(6, 12)}
    found = faults(sample_repeated, measured_return({**first, **second}))
    assert found == [Fault(value_of("P1"), "61", "5"), Fault(value_of("P6"), "62", "6")]


def copied(exact: int, others: int, off: float = 0.3) -> list[Fault]:
    """The rule about a sample of so many values that are exactly as asked, and so many that are off."""
    values = {f"P{number}": (50 + number, 50 + number, 1, 1) for number in range(1, exact + 1)}
    rest = {f"P{number}": (50 + number + off, 50 + number, 1, 1) for number in range(exact + 1, exact + others + 1)}
    return faults(sample_copied, measured_return({**values, **rest}))


@pytest.mark.parametrize(
    ("exact", "others", "found"),
    [
        (4, 0, None),  # four may be an accident
        (5, 0, "5 of 5"),
        (9, 1, "9 of 10"),  # nine in ten
        (8, 1, None),
        (8, 2, None),
        (0, 10, None),
    ],
)
def test_values_that_are_all_exact_were_copied(exact: int, others: int, found: str | None) -> None:
    assert copied(exact, others) == ([Fault(value_of("P1"), "", found)] if found else [])


def test_a_value_a_hair_off_was_measured() -> None:
    assert copied(0, 6, off=0.001) == []
    assert copied(0, 6, off=1e-12) == [Fault(value_of("P1"), "", "6 of 6")]


def dip(difference, limit, *, sent=(), came=(48.0, -12.78, 16.92), own: bool = False) -> list[Fault]:
    """The rule about a lab dip that differs so much: its three values as they came back, and as they were sent."""
    names = ("l", "a", "b")
    answers = {f"colorways.dips[D1].{name}": value for name, value in zip(names, came, strict=True)}
    before = {f"colorways.dips[D1].{name}": value for name, value in zip(names, sent, strict=False)}
    case = returned(
        answers, {"colorways.dips[D1].difference": difference},
        sent={**before, "colorways.dips[D1].limit": limit, "colorways.dips[D2].limit": 1}, own=own,
    )  # fmt: skip
    if own:
        case.got.typed[Place("colorways.dips.limit", "D1")] = limit
    return faults(dip_outside_limit, case)


DIP = Place("colorways.dips.difference", "D1")


@pytest.mark.parametrize(
    ("difference", "limit", "fault"),
    [
        (1.0, 1.0, None),
        (1.004, 1.0, None),  # two figures are read: 1.00
        (1.006, 1.0, ("at most 1 dE00", "1.01 dE00")),
        (1.5, 1.25, ("at most 1.25 dE00", "1.50 dE00")),
        (0.4, 1.25, None),
        (None, 1.0, None),
        (1.5, None, None),
        (1.5, 0, ("at most 0 dE00", "1.50 dE00")),
    ],
)
def test_the_edges_of_a_colors_limit(difference, limit, fault) -> None:
    assert dip(difference, limit) == ([Fault(DIP, *fault)] if fault else [])


@pytest.mark.parametrize(
    ("sent", "judged"),
    [
        ((48.0, -12.78, 16.92), False),  # of an earlier round, sent along and known
        ((48.1, -12.78, 16.92), True),
        ((48.0, -12.7, 16.92), True),
        ((48.0, -12.78, 16.9), True),
        ((), True),
    ],
)
def test_a_dip_is_judged_when_one_of_its_values_is_new(sent: tuple[float, ...], judged: bool) -> None:
    assert (dip(1.5, 1.0, sent=sent) == [Fault(DIP, "at most 1 dE00", "1.50 dE00")]) is judged


def test_the_brand_sees_every_dip_of_its_own_file() -> None:
    known = (48.0, -12.78, 16.92)
    assert dip(1.5, 1.0, sent=known, own=True) == [Fault(DIP, "at most 1 dE00", "1.50 dE00")]


SPECS = (58, 57, 76, 77.5, 48.5, 45, 26.5, 63.5, 22, 25.5, 7, 42.5, 4, 6.5, 3.5, 12.5, 14, 5.8, 22.5, 9.5)
"""Twenty points of a shirt, cm (invented)."""


def a_round(seed: int, *, copied: bool) -> Case:
    """A round measured honestly, with a normal error of half a tolerance and a tape read to 1 mm or 1/16 in; or made up: what
    was asked and one figure, two values in twenty altered so that it looks measured."""
    chance = random.Random(f"{seed} {copied}")
    step = chance.choice((0.1, 2.54 / 16))
    offset = chance.choice((-0.3, -0.2, 0.1, 0.2, 0.5))
    values = {}
    for number, spec in enumerate(SPECS, 1):
        tolerance = 1.0 if spec > 20 else 0.3
        honest = round((spec + chance.gauss(0, tolerance / 2)) / step) * step
        values[f"P{number}"] = (spec + offset if copied else honest, spec, tolerance, tolerance)
    for ref in chance.sample(sorted(values), 2) if copied else ():
        values[ref] = (values[ref][0] + 0.1, *values[ref][1:])
    return measured_return(values)


def test_honest_rounds_raise_no_suspicion_and_made_up_ones_do() -> None:
    """Against simulated measuring: false alarms below 1 in 200 rounds, made-up rounds found above 95 in 100."""
    suspicions = (deviation_repeated, sample_copied, sample_repeated)
    alarms = sum(any(faults(rule, a_round(seed, copied=False)) for rule in suspicions) for seed in range(240))
    assert alarms <= 1
    found = sum(bool(faults(deviation_repeated, a_round(seed, copied=True))) for seed in range(60))
    assert found >= 57


def both_measured(chance: random.Random, constant: float, points: int = 12) -> bool:
    """Whether a round is asked about that vendor and brand measured honestly, each with two millimeters of error and a tape
    read to one; one of them with a constant on top."""
    measured = {}
    mine = {}
    for number in range(1, points + 1):
        spec = chance.uniform(10, 90)
        true = spec + chance.gauss(0, 0.4)
        measured[f"P{number}"] = (round(true + chance.gauss(0, 0.12), 1), round(spec, 1), 1, 1)
        mine[Place("fit.points.own_r1", f"P{number}")] = round(true + chance.gauss(0, 0.12) + constant, 1)
    case = measured_return(measured, own=True)
    typed = {**case.got.typed, **mine}
    return bool(faults(measured_apart, replace(case, got=replace(case.got, typed=typed))))


def test_honest_measuring_twice_is_asked_about_in_less_than_one_round_in_two_hundred() -> None:
    chance = random.Random(11)
    assert sum(both_measured(chance, 0.0, chance.randrange(8, 24)) for _ in range(400)) <= 2


def test_a_tape_that_begins_elsewhere_is_found_in_more_than_nineteen_of_twenty_rounds() -> None:
    chance = random.Random(12)
    assert sum(both_measured(chance, chance.choice([-0.5, 0.5])) for _ in range(100)) >= 95


@pytest.mark.parametrize(("unit", "step"), [("cm", 0.1), ("cm", 0.5), ("mm", 1.0), ("in", 1 / 16), ("in", 1 / 8)])
def test_what_a_tape_shows_is_never_asked_about(unit: str, step: float) -> None:
    chance = random.Random(5)
    for _ in range(200):
        points = {}
        for number in range(1, 21):
            spec = round(chance.uniform(10, 90) / step) * step
            points[f"P{number}"] = (round((spec + chance.gauss(0, 3 * step)) / step) * step, spec, 1, 1)
        assert faults(finer_than_a_tape, measured_return(points, unit=unit)) == []


def test_what_was_worked_out_is_asked_about() -> None:
    """A share of what was asked added to it, or inches turned into centimeters."""
    chance, found = random.Random(6), 0
    for attempt in range(200):
        points = {}
        for number in range(1, 21):
            spec = round(chance.uniform(20, 180)) / 2
            made = (
                round(spec * (1 + chance.choice([0.003, -0.004, 0.006])), 3)
                if attempt % 2
                else round(round(spec / 2.54 * 16) / 16 * 2.54, 2)
            )
            points[f"P{number}"] = (made, spec, 1, 1)
        found += bool(faults(finer_than_a_tape, measured_return(points)))
    assert found >= 190


def test_a_column_put_in_a_row_off_is_told_once_and_honest_rounds_never() -> None:
    chance = random.Random(8)
    for attempt in range(120):
        specs = [round(chance.uniform(5, 90), 1) for _ in range(15)]
        by = (0, 1, -1)[attempt % 3]
        points = {}
        for number, spec in enumerate(specs):
            source = number - by
            if 0 <= source < len(specs):
                points[f"P{number + 1}"] = (round(specs[source] + chance.gauss(0, 0.4), 1), spec, 1.5, 1.5)
            else:
                points[f"P{number + 1}"] = (None, spec, 1.5, 1.5)
        case = measured_return(points)
        found = [fault.expected for fault in faults(measured_a_row_off, case)]
        assert found == {0: [], 1: ["low"], -1: ["high"]}[by], attempt
        if by:
            assert faults(sample_out_of_tolerance, case) == []
