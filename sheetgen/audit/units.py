"""Units: inches for centimetres and the reverse, grams for kilograms, dozens for pieces."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from typing import NamedTuple

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.declare.entry import Place
from sheetgen.texts import say
from sheetgen.trade.lengths import INCH_CM, fraction_text
from sheetgen.workbook.model.compare import same

_IN_CM = {"millimeters": 0.1, "centimeters": 1.0, "inches": INCH_CM}
_NAMES = {"mm": "millimeters", "cm": "centimeters", "in": "inches"}


class Measured(NamedTuple):
    """A value that the vendor measured in this return, what was asked, and the point's tolerance."""

    place: Place
    value: float
    spec: float
    minus: float
    plus: float


def measured(case: Case) -> dict[str, list[Measured]]:
    """What is measured anew in this return, by round; values that were sent along are of an earlier one."""
    rounds: dict[str, list[Measured]] = {}
    entries = [entry for entry in case.book_entries if entry.startswith("fit.points.value_")]
    for entry in entries:
        mark = entry.rpartition("_")[2]
        for ref in case.rows("fit.points"):
            place = Place(entry, ref)
            value, spec = case.number(*place), case.number(f"fit.points.spec_{mark}", ref)
            minus, plus = case.number("fit.points.minus", ref), case.number("fit.points.plus", ref)
            if value is None or spec is None or minus is None or plus is None or place not in case.got.typed:
                continue
            if not case.own and same(case.sent.get(place), value):
                continue
            rounds.setdefault(mark, []).append(Measured(place, value, spec, minus, plus))
    return rounds


def unit_of(case: Case, one: Measured) -> str | None:
    """The unit in which a value was probably measured, if it is not the style's; None if it fits as it is."""
    own = _NAMES[dict(case.got.ready.shape.words)["{unit}"]]
    if one.spec <= 0:
        return None
    ratios = {name: size / _IN_CM[own] for name, size in _IN_CM.items() if name != own}
    return next(
        (name for name, ratio in ratios.items() if abs(one.value * ratio / one.spec - 1) < case.limits["unit_near"]),
        None,
    )


@rule(
    title="Measured in the other unit",
    level="fix",
    limits=("unit_near",),
    source="common practice: inch and centimetre in one pack (ratio 2.54)",
    message="{place} is {found}; {expected} was asked: this looks like another unit.",
    why="One inch read as a centimetre costs a production run.",
    fix="Measure again, or convert: one inch is 2.54 cm.",
    bad=(
        Example("the chest in inches", {"fit.points[P1].value_r1": 22.75}, ("other-unit fit.points[P1].value_r1",)),
        Example("the chest in millimeters", {"fit.points[P1].value_r1": 577}, ("other-unit fit.points[P1].value_r1",)),
    ),
    fine=(Example("the chest in centimeters", {"fit.points[P1].value_r1": 57.3}),),
)
def other_unit(case: Case) -> Iterator[Fault]:
    unit = dict(case.got.ready.shape.words)["{unit}"]
    others = {**pasted_down(case), **a_row_off(case)}
    for one in (one for values in measured(case).values() for one in values if one.place not in others):
        word = unit_of(case, one)
        if word:
            asked = fraction_text(one.spec) if unit == "in" else f"{one.spec:g}"
            yield Fault(
                one.place, f"{asked} {unit}", say("{measured:g}, as if in {unit}", measured=one.value, unit=word)
            )


@rule(
    title="A weight in grams",
    level="fix",
    limits=("heaviest",),
    source="common practice",
    message="{heading} is {found}; {expected}",
    why="A garment of hundreds of kilograms spoils every carton and freight figure.",
    fix="Type the weight in kilograms, as 0.65.",
    bad=(
        Example("650 for 0.65 kg", {"order.piece_weight": 650}, ("weight-in-grams order.piece_weight",)),
        Example("900 for 0.9 kg", {"order.carton_weight": 900}, ("weight-in-grams order.carton_weight",)),
    ),
    fine=(Example("0.65 kg", {"order.piece_weight": 0.65}),),
)
def weight_in_grams(case: Case) -> Iterator[Fault]:
    for address in ("order.piece_weight", "order.carton_weight"):
        value = case.number(address)
        if value is not None and value > case.limits["heaviest"]:
            yield Fault(
                Place(address),
                say("if these are grams, it is {kilograms:g} kg.", kilograms=value / 1000),
                f"{value:g} kg",
            )


@rule(
    title="A price per dozen",
    level="query",
    limits=("dozen_near",),
    source="common practice: dozen for piece (ratio 12)",
    message="{heading} is {found}; {expected}",
    why="A price per dozen in a price per piece is twelve times too high.",
    fix="Give the price of one garment.",
    bad=(Example("the price of a dozen", {"quote.fob": Do("times", 12)}, ("price-per-dozen quote.fob",)),),
    fine=(Example("the price of one"),),
)
def price_per_dozen(case: Case) -> Iterator[Fault]:
    price, worked = case.number("quote.fob"), case.number("quote.worked_out")
    if price and worked and is_dozen(case):
        yield Fault(
            Place("quote.fob"), say("its build-up gives {worked:.2f}, a twelfth of it.", worked=worked), f"{price:.2f}"
        )


def is_dozen(case: Case) -> bool:
    """Whether the price is about twelve times what its build-up gives."""
    price, worked = case.number("quote.fob"), case.number("quote.worked_out")
    return bool(price and worked and abs(price / 12 / worked - 1) < case.limits["dozen_near"])


def pasted_down(case: Case) -> dict[Place, tuple[Place, ...]]:
    """Points under one another that all measure the same though they should not -> all places of that run."""
    found: dict[Place, tuple[Place, ...]] = {}
    for values in measured(case).values():
        for _, group in groupby(values, key=lambda one: one.value):
            run = list(group)
            if len(run) >= case.limits["down_values"] and any(not fits(one) for one in run):
                found.update(dict.fromkeys((one.place for one in run), tuple(one.place for one in run)))
    return found


def a_row_off(case: Case) -> dict[Place, int]:
    """Values of a round that fit the row above (1) or below (-1) and not their own: all of them were put in one row off."""
    found: dict[Place, int] = {}
    rows = case.rows("fit.points")
    for mark, values in measured(case).items():
        few = len(values) < case.limits["row_off_values"]
        if few or sum(map(fits, values)) > case.limits["row_off_own"] * len(values):
            continue
        for by in (1, -1):
            near = [one for one in values if _fits_row(case, mark, rows, one, by)]
            if len(near) >= case.limits["row_off_share"] * len(values):
                found.update(dict.fromkeys((one.place for one in values), by))
    return found


def _fits_row(case: Case, mark: str, rows: list[str], one: Measured, by: int) -> bool:
    at = rows.index(one.place.row) - by
    spec = case.number(f"fit.points.spec_{mark}", rows[at]) if 0 <= at < len(rows) else None
    return spec is not None and fits(one._replace(spec=spec))


def fits(one: Measured) -> bool:
    """Whether a value is within its tolerance; half of the last figure that is shown counts as none."""
    return -one.minus - 5e-5 <= one.value - one.spec <= one.plus + 5e-5


RULES = (other_unit, weight_in_grams, price_per_dozen)
