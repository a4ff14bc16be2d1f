"""Grading: sizes in order, tolerances smaller than the steps. What the brand grades, so asked of the designer's own file."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.declare.entry import Place
from sheetgen.texts import say

_MAIN_GIRTH = re.compile(r"\b(?:chest|bust|waist|hip|seat)\b", re.IGNORECASE)


def _graded(case: Case, ref: str) -> list[tuple[Place, float]]:
    """The sizes of a point as they stand in the file, typed over or worked out."""
    found = []
    for number in range(1, len(dict(case.got.ready.shape.axes)["size"]) + 1):
        place = Place(f"measurements.points.spec_z{number}", ref)
        value = case.number(*place)
        if value is not None:
            found.append((place, value))
    return found


@rule(
    title="A size is out of order",
    level="query",
    source="common practice: a point grows, holds or shrinks over the whole range",
    message="{place} is {found}, out of order beside its neighbors ({expected}).",
    why="Two sizes have changed places: one of them cannot be sold.",
    fix="Look at that size and at the steps of the point.",
    owner="designer",
    bad=(
        Example(
            "a step up to XL with the wrong sign",
            {"measurements.points[P1].over_z5": -3},
            ("size-out-of-order measurements.points[P1].spec_z5", "check-counts checks.wrong_ease_too_small"),
            own=True,
        ),
    ),
    fine=(
        Example("a step that differs", {"measurements.points[P1].over_z5": 3.5}, own=True),
        Example(
            "a size typed over by the vendor: that it was is the fault",
            {"measurements.points[P1].spec_z5": 40.0},
            ("locked-value-changed measurements.points[P1].spec_z5",),
        ),
    ),
)
def size_out_of_order(case: Case) -> Iterator[Fault]:
    if not case.own:
        return
    for ref in case.rows("measurements.points"):
        sizes = _graded(case, ref)
        if len(sizes) < 3:
            continue
        rising = sizes[-1][1] >= sizes[0][1]
        for (_, before), (place, value) in pairwise(sizes):
            if (value < before - 1e-9) if rising else (value > before + 1e-9):
                yield Fault(place, say("after {before:g}", before=before), f"{value:g}")


@rule(
    title="A main girth's tolerance is wider than half a step",
    level="note",
    limits=("tolerance_step",),
    source="common practice: above half the step one garment passes as two sizes; small points often do, on purpose",
    message="The tolerance of {line} is {found}; beside its step to the next size it may be {expected}.",
    why="A garment within tolerance can pass for the next size at this point.",
    fix="Narrow the tolerance, widen the step, or leave it on purpose.",
    owner="designer",
    bad=(
        Example(
            "5 cm either way at the chest",
            {"measurements.points[P1].minus": 5, "measurements.points[P1].plus": 5},
            ("tolerance-over-step measurements.points[P1].plus",),
            own=True,
        ),
    ),
    fine=(
        Example("a point that does not grow", {"measurements.points[P2].step": 0}, own=True),
        Example("a minimum: only the one side is wide", {"measurements.points[P1].plus": 5}, own=True),
    ),
)
def tolerance_over_step(case: Case) -> Iterator[Fault]:
    if not case.own:
        return
    for ref in case.rows("measurements.points"):
        step = abs(case.number("measurements.points.step", ref) or 0)
        sides = [case.number(f"measurements.points.{side}", ref) or 0 for side in ("minus", "plus")]
        main = bool(_MAIN_GIRTH.search(str(case.value("measurements.points.point", ref))))
        if main and step and min(sides) > case.limits["tolerance_step"] * step + 1e-9:
            yield Fault(
                Place("measurements.points.plus", ref),
                f"{case.limits['tolerance_step'] * step:g}",
                f"−{sides[0]:g} / +{sides[1]:g}",
            )


@rule(
    title="A grade of the vendor's looks odd",
    level="query",
    source="common practice: graded from the base that was asked, in one direction, without a jump, wider than the tolerances",
    message="The vendor's sizes of {line}: {found}.",
    why="A size that is off is cut by the hundred before anybody measures it.",
    fix="Look at these sizes with the vendor before you take them.",
    owner="designer",
    bad=(
        Example(
            "sizes that grow and then shrink",
            {
                f"grade.points[P1].value_z{number}": figure
                for number, figure in enumerate((53, 55.5, 58, 57, 60, 63), 1)
            },
            ("grade-odd grade.points[P1].verdict",),
        ),
    ),
    fine=(
        Example(
            "an even grade",
            {
                f"grade.points[P1].value_z{number}": figure
                for number, figure in enumerate((53, 55.5, 58, 60.5, 63, 65.5), 1)
            },
        ),
    ),
)
def grade_odd(case: Case) -> Iterator[Fault]:
    for ref in case.rows("grade.points") if not case.own else ():
        verdict = case.value("grade.points.verdict", ref)
        if verdict not in (None, "", "even"):
            yield Fault(Place("grade.points.verdict", ref), "even", str(verdict))


RULES = (size_out_of_order, tolerance_over_step, grade_odd)
