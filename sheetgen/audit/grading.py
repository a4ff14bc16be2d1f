"""Grading: sizes in order, the base at the sample size."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.declare.parts import Place


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
    message="{heading} of {line} is {found}, out of order beside its neighbors ({expected}).",
    why="Two sizes have changed places: one of them cannot be sold.",
    fix="Look at that size and at the steps of the point.",
    bad=(
        Example(
            "a size typed over with a smaller figure",
            {"measurements.points[P1].spec_z5": 40.0},
            ("formula-replaced measurements.points[P1].spec_z5", "size-out-of-order measurements.points[P1].spec_z5"),
        ),
    ),
    fine=(Example("sizes as graded"),),
)
def size_out_of_order(case: Case) -> Iterator[Fault]:
    for ref in case.rows("measurements.points"):
        sizes = _graded(case, ref)
        if len(sizes) < 3:
            continue
        rising = sizes[-1][1] >= sizes[0][1]
        for (_, before), (place, value), (_, after) in zip(sizes, sizes[1:], sizes[2:], strict=False):
            low, high = (before, after) if rising else (after, before)
            if low <= high and not low - 1e-9 <= value <= high + 1e-9:
                yield Fault(place, f"{before:g} and {after:g}", f"{value:g}")


@rule(
    title="The sample size is not the base",
    level="fix",
    source="common practice: the base is what the sample size measures",
    message="{heading} of {line} is {found}, the base is {expected}.",
    why="The sample would be made to another measure than the pattern.",
    fix="Let the formula work the sample size out.",
    bad=(
        Example(
            "the sample size typed over",
            {"measurements.points[P2].spec_z3": 57.0},
            ("base-not-sample measurements.points[P2].spec_z3", "formula-replaced measurements.points[P2].spec_z3"),
        ),
    ),
    fine=(Example("the sample size as worked out"),),
)
def base_not_sample(case: Case) -> Iterator[Fault]:
    number = case.number("style.sample_number")
    if number is None:
        return
    for ref in case.rows("measurements.points"):
        place = Place(f"measurements.points.spec_z{int(number)}", ref)
        value, base = case.number(*place), case.number("measurements.points.base", ref)
        if value is not None and base is not None and abs(value - base) > 1e-6:
            yield Fault(place, f"{base:g}", f"{value:g}")


RULES = (size_out_of_order, base_not_sample)
