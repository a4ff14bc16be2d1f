"""Samples: what was measured is within tolerance, and looks as if it had been measured."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.audit.units import measured, unit_of
from sheetgen.declare.parts import Place

_ENOUGH = 5
"""So many equal or exact values are no accident any more."""


@rule(
    title="A sample is out of tolerance",
    level="query",
    source="common practice: plus and minus tolerance of the point",
    message="{heading} of {line} is {found}; asked was {expected}.",
    why="The garment fits otherwise than drawn; who knows why decides what to do.",
    fix="Check the pattern and the making at this point, and say in the remark why it is off.",
    bad=(Example("the chest 2.5 cm too wide", {"fit.points[P1].value_r1": 60.5}, ("sample-out-of-tolerance fit.points[P1].value_r1",)),),
    fine=(Example("the chest at the edge of its tolerance", {"fit.points[P1].value_r1": 59.0}),),
)
def sample_out_of_tolerance(case: Case) -> Iterator[Fault]:
    for place, value, spec, _, ref in measured(case):
        minus, plus = case.number("fit.points.minus", ref), case.number("fit.points.plus", ref)
        if minus is None or plus is None or unit_of(case, value, spec):
            continue
        off = value - spec
        if off < -minus - 5e-5 or off > plus + 5e-5:
            yield Fault(place, f"{spec:g} (−{minus:g} / +{plus:g})", f"{value:g} ({off:+g})")


def _by_round(case: Case) -> dict[str, list[tuple[Place, float, float]]]:
    rounds: dict[str, list[tuple[Place, float, float]]] = defaultdict(list)
    for place, value, spec, mark, _ in measured(case):
        rounds[mark].append((place, value, spec))
    return rounds


@rule(
    title="All values exactly as asked",
    level="query",
    source="common practice: cloth is never exact to the last point",
    message="All {found} measured values of this round are exactly what was asked.",
    why="Values copied from the specification say nothing about the sample.",
    fix="Measure the sample and write what it measures.",
    bad=(Example("the asked values copied", {"@copy-spec": "r1"}, ("sample-copied fit.points[P1].value_r1",)),),
    fine=(Example("values as measured"),),
)
def sample_copied(case: Case) -> Iterator[Fault]:
    for values in _by_round(case).values():
        if len(values) >= _ENOUGH and all(abs(value - spec) < 1e-9 for _, value, spec in values):
            yield Fault(values[0][0], "", str(len(values)))


@rule(
    title="One value all the way down",
    level="query",
    source="common practice: a value filled down by mistake",
    message="{found} points of this round all measure {expected}.",
    why="Points of different lengths cannot measure the same.",
    fix="Measure the sample and write what it measures.",
    bad=(
        Example("one value pasted down", {"@fill-down": ("r1", 58.0)}, ("sample-repeated fit.points[P1].value_r1", "...")),
    ),
    fine=(Example("values as measured"),),
)
def sample_repeated(case: Case) -> Iterator[Fault]:
    for values in _by_round(case).values():
        value, count = Counter(value for _, value, _ in values).most_common(1)[0]
        asked = {spec for _, one, spec in values if one == value}
        if count >= _ENOUGH and len(asked) > 1:
            first = next(place for place, one, _ in values if one == value)
            yield Fault(first, f"{value:g}", str(count))


@rule(
    title="A lab dip is outside its limit",
    level="query",
    source="CIEDE2000 (Sharma, Wu & Dalal 2005); the limit is agreed between the parties",
    message="{line} differs by {found} from its target; agreed is {expected}.",
    why="In bulk the difference is seen beside the other parts.",
    fix="Correct the recipe and submit again, or agree another limit.",
    bad=(Example("a dip too light", {"colorways.dips[D1].l": 48.0}, ("dip-outside-limit colorways.dips[D1].difference",)),),
    fine=(Example("dips within their limits"),),
)
def dip_outside_limit(case: Case) -> Iterator[Fault]:
    for ref in case.rows("colorways.dips"):
        difference, limit = case.number("colorways.dips.difference", ref), case.number("colorways.dips.limit", ref)
        if difference is not None and limit is not None and round(difference, 2) > limit:
            yield Fault(Place("colorways.dips.difference", ref), f"at most {limit:g} dE00", f"{difference:.2f} dE00")


RULES = (sample_out_of_tolerance, sample_copied, sample_repeated, dip_outside_limit)
