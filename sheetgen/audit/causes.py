"""Causes: what deviations of a sample look like together: shrinkage, one side off, a grade that drifts, a size corrected by hand."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.declare.entry import Place
from sheetgen.texts import say


def measured_place(case: Case, ref: str, number: int) -> Place:
    """The cell whose figure counts for a point in a round: the brand's own where it measured, else the vendor's."""
    own = Place(f"fit.points.own_r{number}", ref)
    return own if own in case.got.typed else Place(f"fit.points.value_r{number}", ref)


@rule(
    title="All points of one direction are short or long",
    level="note",
    limits=("direction_points", "direction"),
    source="common practice; change of dimensions by washing and pressing is defined in ISO 5077",
    message="All {found}, by {expected} on average.",
    why="One cause is likelier than many: shrinkage in washing or pressing, or a marker cut off its scale.",
    fix="Compare before and after wash on the Fit sheet, and look at the fabric's shrinkage before the pattern is changed.",
    owner="designer",
    bad=(
        Example(
            "every length about 3 % short",
            {
                "measurements.points[P3].direction": "length",
                "measurements.points[P4].direction": "length",
                "measurements.points[P8].direction": "length",
                "fit.points[P3].own_r1": 73.7,
                "fit.points[P4].own_r1": 75.2,
                "fit.points[P8].own_r1": 61.6,
            },
            ("direction-off fit.points[P3].own_r1",),
            own=True,
        ),
    ),
    fine=(
        Example(
            "one length short, one long",
            {
                "measurements.points[P3].direction": "length",
                "measurements.points[P4].direction": "length",
                "measurements.points[P8].direction": "length",
                "fit.points[P3].own_r1": 75.5,
                "fit.points[P4].own_r1": 78.0,
                "fit.points[P8].own_r1": 63.0,
            },
            own=True,
        ),
    ),
)
def direction_off(case: Case) -> Iterator[Fault]:
    rounds = len(dict(case.got.ready.shape.axes)["round"])
    for number in range(1, rounds + 1):
        by_direction: dict[str, list[tuple[Place, float]]] = defaultdict(list)
        for ref in case.rows("fit.points"):
            relative = case.number(f"fit.points.relative_r{number}", ref)
            direction = case.value("fit.points.direction", ref)
            if relative is not None and direction in {"length", "width"}:
                by_direction[str(direction)].append((measured_place(case, ref, number), relative))
        for direction, values in by_direction.items():
            yield from _lean(case, direction, values)


def _lean(case: Case, direction: str, values: list[tuple[Place, float]]) -> Iterator[Fault]:
    mean = sum(relative for _, relative in values) / len(values)
    few = len(values) < case.limits["direction_points"]
    if few or abs(mean) < case.limits["direction"] or any(relative * mean <= 0 for _, relative in values):
        return
    where = {"length": "lengthwise", "width": "across"}[direction]
    word = "short" if mean < 0 else "long"
    yield Fault(
        values[0][0],
        f"{abs(mean):.1%}",
        say("{count} points measured {where} are {word}", count=len(values), where=where, word=word),
    )


_SIDES = re.compile(r"\b(left|right)\b", re.IGNORECASE)


@rule(
    title="One side is off",
    level="query",
    limits=("sides",),
    source="common practice",
    message="{line} measures {found} off, its other side {expected}.",
    why="Left and right are cut from one pattern piece: a difference comes from sewing, or from a piece turned over.",
    fix="Measure both sides again; then look at the making, not at the pattern.",
    bad=(
        Example(
            "a right sleeve 2 cm longer than the left",
            {
                "measurements.points[P8].point": "Sleeve length, left",
                "measurements.points[P6].point": "Sleeve length, right",
                "measurements.points[P6].base": 63.5,
                "fit.points[P8].own_r1": 63.0,
                "fit.points[P6].own_r1": 65.0,
            },
            ("one-side-off fit.points[P6].own_r1",),
            own=True,
        ),
    ),
    fine=(
        Example(
            "both sides alike",
            {
                "measurements.points[P8].point": "Sleeve length, left",
                "measurements.points[P6].point": "Sleeve length, right",
                "measurements.points[P6].base": 63.5,
                "fit.points[P8].own_r1": 63.0,
                "fit.points[P6].own_r1": 63.2,
            },
            own=True,
        ),
    ),
)
def one_side_off(case: Case) -> Iterator[Fault]:
    pairs: dict[str, dict[str, str]] = defaultdict(dict)
    for ref in case.rows("fit.points"):
        name = str(case.value("fit.points.point", ref))
        side = _SIDES.search(name)
        if side:
            pairs[_SIDES.sub("", name).strip(" ,").lower()][side.group().lower()] = ref
    rounds = len(dict(case.got.ready.shape.axes)["round"])
    for sides in pairs.values():
        if len(sides) == 2:
            for number in range(1, rounds + 1):
                yield from _sides_differ(case, sides["left"], sides["right"], number)


def _sides_differ(case: Case, left: str, right: str, number: int) -> Iterator[Fault]:
    off = [case.number(f"fit.points.deviation_r{number}", ref) for ref in (left, right)]
    allowed = case.number("fit.points.plus", right)
    if off[0] is None or off[1] is None or allowed is None or abs(off[1] - off[0]) <= case.limits["sides"] * allowed:
        return
    worse, other = (right, off[0]) if abs(off[1]) >= abs(off[0]) else (left, off[1])
    mine = off[1] if worse == right else off[0]
    yield Fault(measured_place(case, worse, number), f"{other:+g}", f"{mine:+g}")


@rule(
    title="A size of the size set is out of tolerance",
    level="query",
    source="common practice: the size set proves the grade at the ends of the range",
    message="{line} in size {found}; {expected}.",
    why="A grade that is right in the middle can be wrong at its ends: those garments would not sell.",
    fix="Check the pattern of that size against the steps, then the making.",
    bad=(
        Example(
            "the largest size 3 cm too narrow",
            {"fit.points[P1].set_value_z6": 63.5},
            ("size-set-out fit.points[P1].set_value_z6",),
        ),
    ),
    fine=(Example("the largest size nearly as asked", {"fit.points[P1].set_value_z6": 66.2}),),
)
def size_set_out(case: Case) -> Iterator[Fault]:
    names = dict(case.got.ready.shape.axes)["size"]
    for ref in case.rows("fit.points"):
        minus, plus = case.number("fit.points.minus", ref), case.number("fit.points.plus", ref)
        out = []
        for number, name in enumerate(names, 1):
            off = case.number(f"fit.points.set_deviation_z{number}", ref)
            if off is not None and minus is not None and plus is not None and not -minus - 5e-5 <= off <= plus + 5e-5:
                out.append((abs(off), off, number, name))
        if out:
            _, off, number, name = max(out)
            others = (
                say("it is the worst of {count} sizes out", count=len(out))
                if len(out) > 1
                else say("the other sizes measured are within tolerance")
            )
            yield Fault(
                Place(f"fit.points.set_value_z{number}", ref), others, say("{name} is {off:+g} off", name=name, off=off)
            )


@rule(
    title="A size was corrected by hand",
    level="note",
    source="common practice: a grader may set a size apart from the rule",
    message="{heading} of {line} was set to {found} by hand; base and steps give {expected}.",
    why="It no longer moves with the base, a changed step or another sample size, and its steps to both neighbors differ.",
    fix="Keep it if it is meant; else clear it, so that the size follows base and steps again.",
    owner="designer",
    bad=(
        Example(
            "a size kept under Corrected by hand",
            {"measurements.points[P1].fix_z5": 64.0},
            ("size-corrected measurements.points[P1].fix_z5",),
            own=True,
        ),
        Example(
            "a graded size typed over in the working file",
            {"measurements.points[P1].spec_z5": 64.0},
            ("size-corrected measurements.points[P1].spec_z5",),
            own=True,
        ),
    ),
    fine=(Example("sizes as graded", own=True),),
)
def size_corrected(case: Case) -> Iterator[Fault]:
    if not case.own:
        return
    for ref in case.rows("measurements.points"):
        sample = case.number("style.sample_number")
        for number in range(1, len(dict(case.got.ready.shape.axes)["size"]) + 1):
            for entry in ("fix", "spec"):
                place = Place(f"measurements.points.{entry}_z{number}", ref)
                value = case.got.typed.get(place)
                if isinstance(value, int | float) and sample is not None:
                    yield Fault(place, _graded(case, ref, number, int(sample)), f"{value:g}")


def _graded(case: Case, ref: str, number: int, sample: int) -> str:
    now = case.number("measurements.points.now", ref)
    here = case.number(f"measurements.points.reach_z{number}", ref)
    there = case.number(f"measurements.points.reach_z{sample}", ref)
    return say("no figure") if now is None or here is None or there is None else f"{now + here - there:g}"


RULES = (direction_off, one_side_off, size_set_out, size_corrected)
