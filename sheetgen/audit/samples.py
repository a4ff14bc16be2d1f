"""Samples: what was measured is within tolerance, and looks as if it had been measured."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from statistics import fmean, stdev

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.audit.units import a_row_off, fits, measured, pasted_down, unit_of
from sheetgen.declare.entry import Place
from sheetgen.texts import say
from sheetgen.workbook.model.compare import same


@rule(
    title="A sample is out of tolerance",
    level="query",
    source="common practice: plus and minus tolerance of the point",
    message="{place} is {found}; asked was {expected}.",
    why="The garment fits otherwise than drawn; who knows why decides what to do.",
    fix="Check the pattern and the making at this point, and say in the remark why it is off.",
    bad=(
        Example(
            "the chest 2.5 cm too wide",
            {"fit.points[P1].value_r1": 60.5},
            ("sample-out-of-tolerance fit.points[P1].value_r1",),
        ),
    ),
    fine=(
        Example("the chest at the edge of its tolerance", {"fit.points[P1].value_r1": 59.0}),
        Example(
            "a value of an earlier round, sent along and known",
            {"fit.points[P1].value_r1": 60.5},
            sent={"fit.points[P1].value_r1": 60.5},
        ),
    ),
)
def sample_out_of_tolerance(case: Case) -> Iterator[Fault]:
    pasted = {**pasted_down(case), **a_row_off(case)}
    for one in (one for values in measured(case).values() for one in values if one.place not in pasted):
        if fits(one) or unit_of(case, one):
            continue
        off = one.value - one.spec
        yield Fault(one.place, f"{one.spec:g} (−{one.minus:g} / +{one.plus:g})", f"{one.value:g} ({off:+g})")


@rule(
    title="All values exactly as asked",
    level="query",
    limits=("exact_values", "exact_share"),
    source="common practice: cloth is never exact to the last point",
    message="{found} values measured in this round are exactly what was asked.",
    why="Values copied from the specification say nothing about the sample.",
    fix="Measure the sample and write what it measures.",
    bad=(
        Example(
            "the asked values copied",
            {"fit.points.value_r1": Do("copy-from", "fit.points.spec_r1")},
            ("sample-copied fit.points[P1].value_r1",),
        ),
    ),
    fine=(Example("values as measured"),),
)
def sample_copied(case: Case) -> Iterator[Fault]:
    for values in measured(case).values():
        exact = sum(abs(one.value - one.spec) < 1e-9 for one in values)
        if len(values) >= case.limits["exact_values"] and exact >= case.limits["exact_share"] * len(values):
            yield Fault(values[0].place, "", say("{exact} of {count}", exact=exact, count=len(values)))


@rule(
    title="One deviation repeated",
    level="query",
    limits=("repeated_values", "repeated_share"),
    source="common practice: what is measured scatters, what is made up from the specification does not",
    message="{found} values measured in this round are off by {expected}, all of them by the same.",
    why="No garment is off by one figure everywhere: the values were worked out, or the tape begins elsewhere.",
    fix="Measure the sample again from the tape's zero, and write what it measures.",
    bad=(
        Example(
            "what was asked and two millimeters, everywhere",
            {"fit.points.value_r1": Do("copy-from", ("fit.points.spec_r1", 0.2))},
            (
                "deviation-repeated fit.points[P1].value_r1",
                "direction-off fit.points[P1].value_r1",
                "direction-off fit.points[P3].value_r1",
            ),
        ),
    ),
    fine=(Example("values as measured"),),
)
def deviation_repeated(case: Case) -> Iterator[Fault]:
    for values in measured(case).values():
        off = Counter(round(one.value - one.spec, 6) for one in values if abs(one.value - one.spec) > 1e-9)
        if len(values) < case.limits["repeated_values"] or not off:
            continue
        usual, count = off.most_common(1)[0]
        if count >= case.limits["repeated_share"] * len(values):
            yield Fault(values[0].place, f"{usual:+g}", say("{count} of {all}", count=count, all=len(values)))


_BOTH_MEASURED = {
    "P1": (58.2, 58.7), "P2": (56.8, 57.4), "P3": (76.3, 76.7), "P4": (77.2, 77.7),
    "P5": (48.6, 49.2), "P6": (46.4, 46.9), "P7": (26.6, 27.0), "P8": (63.3, 63.9),
}  # fmt: skip


def _both(aside: float = 0.0) -> dict[str, object]:
    """The overshirt's first round measured by the vendor and by the brand, whose figures are moved by so much."""
    return {
        f"fit.points[{ref}].{name}": round(value + (aside if name == "own_r1" else 0), 2)
        for ref, pair in _BOTH_MEASURED.items()
        for name, value in zip(("value_r1", "own_r1"), pair, strict=True)
    }


_FINEST = {"cm": 0.05, "mm": 0.5, "in": 1 / 32}
"""Half a millimeter, or half of a sixteenth: nobody reads a tape finer (common practice)."""
_ROUNDING = 0.02


@rule(
    title="Finer than a tape shows",
    level="query",
    limits=("fine_values", "fine_share"),
    source="common practice: a tape has millimeters or sixteenths of an inch",
    message="{found} values measured in this round are finer than a tape shows; the first is {expected}.",
    why="Such figures were worked out or converted, and may hold another's rounding.",
    fix="Write what the tape shows; where it was converted, say from which unit.",
    bad=(
        Example(
            "three in a thousand added to what was asked",
            {
                f"fit.points[{ref}].value_r1": value
                for ref, value in (("P1", 58.174), ("P2", 57.171), ("P3", 76.228), ("P4", 77.733), ("P5", 48.646))
            },
            ("finer-than-a-tape fit.points[P1].value_r1",),
        ),
    ),
    fine=(Example("values to the millimeter, and one to the half", {"fit.points[P1].value_r1": 58.15}),),
)
def finer_than_a_tape(case: Case) -> Iterator[Fault]:
    finest = _FINEST[dict(case.got.ready.shape.words)["{unit}"]]
    for values in measured(case).values():
        fine = [one for one in values if abs(one.value / finest - round(one.value / finest)) > _ROUNDING]
        if len(fine) >= max(case.limits["fine_values"], case.limits["fine_share"] * len(values)):
            yield Fault(fine[0].place, f"{fine[0].value:g}", say("{count} of {all}", count=len(fine), all=len(values)))


@rule(
    title="Vendor and brand measure apart",
    level="query",
    limits=("apart_values", "apart", "apart_scatter"),
    source="common practice: two who measure alike differ to both sides; a constant is the tape, the table or the way it is laid",
    message="{found} points that both measured differ by {expected} on the whole, nearly all alike.",
    why="The garment is one and the same: until both measure alike, no deviation of it can be judged.",
    fix="Measure one garment together: where the tape begins, how the cloth is laid, from which edge; write it into the method.",
    bad=(
        Example(
            "half a centimeter, everywhere",
            _both(),
            ("measured-apart fit.points[P1].own_r1", "direction-off fit.points[P1].own_r1"),
            own=True,
        ),
    ),
    fine=(Example("differences to both sides", _both(-0.5), own=True), Example("nobody measured twice", own=True)),
    owner="designer",
)
def measured_apart(case: Case) -> Iterator[Fault]:
    for values in measured(case).values():
        apart = [
            (place, mine - one.value)
            for one in values
            if (mine := case.number(*(place := _own(one.place)))) is not None
        ]
        if len(apart) < case.limits["apart_values"]:
            continue
        differences = [difference for _, difference in apart]
        usual, scatter = fmean(differences), stdev(differences)
        least = case.limits["apart"] / 1000 / (case.number("style.unit_in_meters") or 0.01)
        if abs(usual) >= least and scatter <= case.limits["apart_scatter"] * abs(usual):
            yield Fault(apart[0][0], f"{usual:+.2g}", str(len(apart)))


def _own(vendors: Place) -> Place:
    """Where the brand's own measure stands beside the vendor's."""
    return Place(vendors.entry.replace(".value", ".own"), vendors.row)


@rule(
    title="One value all the way down",
    level="query",
    limits=("down_values",),
    source="common practice: a value filled down by mistake",
    message="{found} points under one another all measure {expected}.",
    why="Points of different lengths cannot measure the same.",
    fix="Measure the sample and write what it measures.",
    bad=(
        Example(
            "one value pasted down",
            {"fit.points.value_r1": Do("fill-down", 58.0)},
            ("sample-repeated fit.points[P1].value_r1",),
        ),
    ),
    fine=(Example("values as measured"),),
)
def sample_repeated(case: Case) -> Iterator[Fault]:
    for places in dict.fromkeys(pasted_down(case).values()):
        yield Fault(places[0], f"{case.number(*places[0]):g}", str(len(places)))


_ASKED = (58, 57, 76, 77.5, 48.5, 46.5, 26.5, 63.5, 22, 25.5, 7, 42.5, 8, 3.5, 3.5, 12.5, 14, 5.8, 23, 9.5)
"""What the overshirt's first round asks, from P1 on."""


@rule(
    title="Measured one row off",
    level="fix",
    limits=("row_off_values", "row_off_share", "row_off_own"),
    source="common practice: a column pasted a row too low or too high (copy/paste error: Powell, Baker & Lawson 2009)",
    message="The values measured in this round fit the rows next to theirs: they stand one row too {expected} ({found}).",
    why="Each point would be judged, and the pattern changed, by another point's figure.",
    fix="Put each value into the row of its point.",
    bad=(
        Example(
            "all values a row too low",
            {
                "fit.points[P1].value_r1": None,
                **{f"fit.points[P{row}].value_r1": one for row, one in enumerate(_ASKED[:-1], 2)},
            },
            ("measured-a-row-off fit.points[P2].value_r1", "entry-missing fit.points[P1].value_r1"),
        ),
    ),
    fine=(Example("values as measured"),),
)
def measured_a_row_off(case: Case) -> Iterator[Fault]:
    by_round: dict[str, list[tuple[Place, int]]] = {}
    for place, by in a_row_off(case).items():
        by_round.setdefault(place.entry, []).append((place, by))
    for places in by_round.values():
        first, by = places[0]
        yield Fault(first, say("low") if by > 0 else say("high"), say("{count} values", count=len(places)))


@rule(
    title="A lab dip is outside its limit",
    level="query",
    source="CIEDE2000 (Sharma, Wu & Dalal 2005); the limit is agreed between the parties",
    message="The lab dip {line} differs by {found} from its target; agreed is {expected}.",
    why="In bulk the difference is seen beside the other parts.",
    fix="Correct the recipe and submit again, or agree another limit.",
    bad=(
        Example(
            "a dip too light", {"colorways.dips[D1].l": 48.0}, ("dip-outside-limit colorways.dips[D1].difference",)
        ),
    ),
    fine=(
        Example("dips within their limits"),
        Example(
            "a dip of an earlier round, sent along and known",
            {"colorways.dips[D1].l": 48.0},
            sent={"colorways.dips[D1].l": 48.0, "colorways.dips[D1].a": -12.78, "colorways.dips[D1].b": 16.92},
        ),
    ),
)
def dip_outside_limit(case: Case) -> Iterator[Fault]:
    for ref in case.rows("colorways.dips"):
        difference, limit = case.number("colorways.dips.difference", ref), case.number("colorways.dips.limit", ref)
        places = [Place(f"colorways.dips.{name}", ref) for name in ("l", "a", "b")]
        if not case.own and all(same(case.sent.get(place), case.got.typed.get(place)) for place in places):
            continue
        if difference is not None and limit is not None and round(difference, 2) > limit:
            yield Fault(
                Place("colorways.dips.difference", ref),
                say("at most {limit:g} dE00", limit=limit),
                f"{difference:.2f} dE00",
            )


RULES = (
    sample_out_of_tolerance, sample_copied, deviation_repeated, finer_than_a_tape, measured_apart, measured_a_row_off, sample_repeated,
    dip_outside_limit,
)  # fmt: skip
