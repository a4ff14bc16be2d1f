"""Claims: the use of fabric and thread that a vendor states, against what follows from pieces, seams and waste."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from sheetgen.audit.case import Case
from sheetgen.audit.fabric_slips import fabric_slips
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.audit.slips import (
    Slip,
    apart,
    comes_of,
    decimals,
    digit_slips,
    dozen_waste_slips,
    is_rounded,
    percent,
    recognised,
    scaled,
    shown,
    unit_slips,
    waste_slips,
)
from sheetgen.audit.thread_slips import Part, thread_slips
from sheetgen.declare.entry import Place
from sheetgen.texts import say

_LOOSE = 0.02
"""One of many alike slips lies near any figure: they explain only what is off by more."""
_ROUNDING = 0.01
"""A use typed to the next hundredth of its unit is rounded, however small it is."""


def _judge(
    place: Place, rights: Sequence[float], slips: Iterable[Slip], unit: str, stated: float, limits: tuple[float, float]
) -> Iterator[Fault]:
    """A fault if the stated figure is a recognised slip, or differs by more than the first of the limits (shares).

    It is held against the nearest of the right figures. Loose slips and slips of the pen only explain what is off by more
    than the first limit anyway, and by more than two figures of one garment ever are.
    """
    right = min(rights, key=lambda one: abs(stated - one))
    gap = abs(stated / right - 1)
    if gap <= limits[1]:
        return
    far = gap > limits[0]
    wide = far and gap > _LOOSE
    likely = [*(slip for slip in slips if wide or not slip.loose), *(digit_slips(stated, right) if wide else ())]
    cause = recognised(stated, rights, likely)
    if cause or (far and not is_rounded(stated, right)):
        told = apart(stated, right) + comes_of(cause)
        yield Fault(place, shown(right, unit, stated), f"{stated:.10g}", cause=told)


def _as_stated(gross: float, *nets: float) -> tuple[float, float]:
    """How far a figure may be from what follows exactly from others that were stated: half of their last digits, no more.

    Each net figure has digits of its own: their sum, a number of the machine, shows as many as it likes.
    """
    half = [0.5 * 10.0 ** -decimals(one) for one in (gross, *nets)]
    share = (half[0] / gross + sum(half[1:]) / sum(nets)) * (1 + 1e-6)
    return share, share


def _bases(own: float, right: float, apart: float) -> tuple[float, ...]:
    """Net figures that waste may have been added to: the vendor's own, and the right one where that is another by
    more than the share `apart`."""
    return (own,) if abs(own / right - 1) < apart else (own, right)


def _waste_slips(net: float, waste: float) -> Iterator[Slip]:
    """Those of a fabric, whose use is often worked out for a dozen."""
    yield from waste_slips(net, waste)
    yield from dozen_waste_slips(net, waste)


@rule(
    title="A stated consumption does not follow",
    level="query",
    limits=("fabric_use", "fabric_slip"),
    source="common practice: area / width / efficiency, waste as a share (published examples K4, W3, W10 to W13 fail it)",
    message="{place} is stated as {found}; the sheets give {expected}.{cause}",
    why="The use decides how much fabric is bought and what the garment costs; another marker may be right, a slip is not.",
    fix="Correct it to {expected}, or say which marker, width or waste it comes from.",
    bad=(
        Example(
            "the waste of 5 % added as 0.05; multiplied by the efficiency instead of divided; 6 % more by an own marker",
            {
                "yield.fabrics[B1].stated_net": 1.792,
                "yield.fabrics[B1].stated_gross": 1.842,
                "yield.fabrics[B2].stated_net": 0.0351,
                "yield.fabrics[B3].stated_net": 0.187,
            },
            (
                "consumption-claimed yield.fabrics[B1].stated_gross",
                "consumption-claimed yield.fabrics[B2].stated_net",
                "consumption-claimed yield.fabrics[B3].stated_net",
            ),
        ),
    ),
    fine=(
        Example(
            "rounded, and an own marker that nearly agrees",
            {
                "yield.fabrics[B1].stated_net": 1.79,
                "yield.fabrics[B1].stated_gross": 1.88,
                "yield.fabrics[B3].stated_net": 0.178,
            },
        ),
        Example(
            "a figure as text: that comes first",
            {"yield.fabrics[B1].stated_net": "1.265 m"},
            ("number-as-text yield.fabrics[B1].stated_net",),
        ),
    ),
)
def consumption_claimed(case: Case) -> Iterator[Fault]:
    limits = (case.limits["fabric_use"], case.limits["fabric_slip"])
    for ref in case.rows("yield.fabrics"):
        right, waste = case.number("yield.fabrics.worked_out", ref), case.number("yield.fabrics.waste", ref) or 0
        unit = str(case.value("yield.fabrics.unit", ref) or "")
        net, gross = (case.number(f"yield.fabrics.{name}", ref) for name in ("stated_net", "stated_gross"))
        if not right:
            continue
        if net:
            held = Slip(say("the waste of {waste} is in it already", waste=percent(waste)), right * (1 + waste))
            slips = [*([held] if waste else []), *fabric_slips(case, ref, right)]
            yield from _judge(Place("yield.fabrics.stated_net", ref), [right], slips, unit, net, limits)
        if gross:
            own = net or right
            slips = [slip for base in _bases(own, right, limits[1]) for slip in _waste_slips(base, waste)]
            if not net:
                slips += scaled(fabric_slips(case, ref, right), 1 + waste)
            rights = [own * (1 + waste), right * (1 + waste)]
            exact = _as_stated(gross, net) if net else limits
            for fault in _judge(Place("yield.fabrics.stated_gross", ref), rights, slips, unit, gross, exact):
                yield fault._replace(limits=() if net else None)


@rule(
    title="A stated use of thread does not follow",
    level="query",
    limits=("thread_use", "thread_slip"),
    source="common practice: seam length × ratio of the stitch, split by its threads, waste as a share",
    message="{place} is stated as {found}; the seams give {expected}.{cause}",
    why="Thread of a wrong stitch or a count of stitches in place of a length stops the line, or is paid for nothing.",
    fix="Correct it to {expected}, or say which seams were taken apart and measured.",
    bad=(
        Example(
            "the lockstitch counted by the ratio of the two-thread chainstitch; waste added as 0.15; a looper unexplained",
            {
                "thread.articles[H1].stated_needle": 42.64,
                "thread.articles[H2].stated_gross": 70.19,
                "thread.articles[H2].stated_looper": 75,
            },
            (
                "thread-claimed thread.articles[H1].stated_needle",
                "thread-claimed thread.articles[H2].stated_gross",
                "thread-claimed thread.articles[H2].stated_looper",
            ),
        ),
    ),
    fine=(
        Example(
            "rounded, and a seam taken apart that took a little more",
            {"thread.articles[H1].stated_needle": 20.6, "thread.articles[H2].stated_gross": 80.5},
        ),
    ),
)
def thread_claimed(case: Case) -> Iterator[Fault]:
    limits, waste = (case.limits["thread_use"], case.limits["thread_slip"]), case.number("style.thread_waste") or 0
    for ref in case.rows("thread.articles"):
        right: dict[Part, float | None] = {
            "needle": case.number("thread.articles.needle", ref), "looper": case.number("thread.articles.looper", ref)
        }  # fmt: skip
        stated = {part: case.number(f"thread.articles.stated_{part}", ref) for part in right}
        for part, net in right.items():
            said = stated[part]
            if said and net:
                place = Place(f"thread.articles.stated_{part}", ref)
                yield from _judge(place, [net], thread_slips(case, ref, part), "m", said, limits)
        gross, more = (case.number(f"thread.articles.{name}", ref) or 0 for name in ("stated_gross", "counted"))
        both = (right["needle"] or 0) + (right["looper"] or 0) + more
        if gross and both:
            own = sum(stated[part] or right[part] or 0 for part in right) + more
            slips = [slip for base in _bases(own, both, limits[1]) for slip in waste_slips(base, waste)]
            slips += scaled(thread_slips(case, ref, "both"), 1 + waste)
            rights = [own * (1 + waste), both * (1 + waste)]
            said_all = any(stated.values()) and all(stated[part] or not right[part] for part in right)
            exact = _as_stated(gross, *(one for one in stated.values() if one)) if said_all else limits
            for fault in _judge(Place("thread.articles.stated_gross", ref), rights, slips, "m", gross, exact):
                yield fault._replace(limits=() if said_all else None)


@rule(
    title="Materials count with another use than the pieces or seams give",
    level="query",
    limits=("fabric_typed", "thread_typed"),
    source="common practice",
    message="{place} is {found}; pieces or seams give {expected}.{cause}",
    why="Costs and orders count with the typed use.",
    fix="Clear it, so that the worked-out use counts, or look at pieces, seams and efficiency.",
    owner="designer",
    bad=(
        Example(
            "a use of another marker",
            {"materials.bom[M1].net": 1.55},
            ("consumption-not-yield materials.bom[M1].net",),
            own=True,
        ),
    ),
    fine=(
        Example("a use rounded up", {"materials.bom[M1].net": 1.85}, own=True),
        Example(
            "a use that the vendor changed: the change is the fault",
            {"materials.bom[M1].net": 1.55},
            ("locked-value-changed materials.bom[M1].net",),
        ),
    ),
)
def consumption_not_yield(case: Case) -> Iterator[Fault]:
    for ref in case.rows("materials.bom"):
        typed, right = case.number("materials.bom.net", ref), case.number("materials.bom.worked_out", ref)
        if not typed or not right:
            continue
        limit = "thread_typed" if case.value("materials.bom.group", ref) == "thread" else "fabric_typed"
        if abs(typed - right) > max(case.limits[limit] * right, _ROUNDING):
            unit = str(case.value("materials.bom.unit", ref) or "")
            waste = case.number("materials.bom.waste", ref) or 0
            held = (
                [Slip(say("the waste of {waste} is in it already", waste=percent(waste)), right * (1 + waste))]
                if waste
                else []
            )
            slips = [*held, *unit_slips(right, unit), *digit_slips(typed, right)]
            told = apart(typed, right) + comes_of(recognised(typed, [right], slips))
            yield Fault(
                Place("materials.bom.net", ref),
                shown(right, unit, typed),
                f"{typed:.10g} {unit}".strip(),
                cause=told,
                limits=(limit,),
            )


RULES = (consumption_claimed, thread_claimed, consumption_not_yield)
