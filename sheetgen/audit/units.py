"""Units: inches for centimetres and the reverse, grams for kilograms, dozens for pieces."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.declare.parts import Place
from sheetgen.trade.lengths import INCH_CM, fraction_text

_RATIOS = {"cm": ("inches", INCH_CM), "mm": ("centimetres or inches", INCH_CM * 10), "in": ("centimetres", 1 / INCH_CM)}
_NEAR = 0.08
"""A value counts as the other unit when it is within 8 % of it: samples are rarely further off than that."""


def measured(case: Case) -> Iterator[tuple[Place, float, float, str, str]]:
    """Measured values of all rounds: place, value, what was asked, the round's number and the point's ref."""
    for ref in case.rows("fit.points"):
        for entry in case.book_entries:
            if entry.startswith("fit.points.value_"):
                mark = entry.rpartition("_")[2]
                value, spec = case.number(entry, ref), case.number(f"fit.points.spec_{mark}", ref)
                if value is not None and spec is not None and Place(entry, ref) in case.got.typed:
                    yield Place(entry, ref), value, spec, mark, ref


def unit_of(case: Case, value: float, spec: float) -> str | None:
    """The unit in which a value was probably measured, if it is not the style's; None if it fits as it is."""
    unit = dict(case.got.ready.shape.words)["{unit}"]
    name, ratio = _RATIOS[unit]
    if spec <= 0 or value <= 0:
        return None
    candidates = ((name, ratio),) if unit != "mm" else (("centimetres", 10.0), ("inches", 25.4))
    for word, factor in candidates:
        if abs(value * factor / spec - 1) < _NEAR and abs(value / spec - 1) > 0.3:
            return word
    return None


@rule(
    title="Measured in the other unit",
    level="fix",
    source="common practice: inch and centimetre in one pack (ratio 2.54)",
    message="{heading} of {line} is {found}; {expected} was asked: this looks like another unit.",
    why="One inch read as a centimetre costs a production run.",
    fix="Measure again, or convert: one inch is 2.54 cm.",
    bad=(Example("the chest in inches", {"fit.points[P1].value_r1": 22.75}, ("other-unit fit.points[P1].value_r1",)),),
    fine=(Example("the chest in centimetres", {"fit.points[P1].value_r1": 58.3}),),
)
def other_unit(case: Case) -> Iterator[Fault]:
    unit = dict(case.got.ready.shape.words)["{unit}"]
    for place, value, spec, _, _ in measured(case):
        word = unit_of(case, value, spec)
        if word:
            asked = fraction_text(spec) if unit == "in" else f"{spec:g}"
            yield Fault(place, f"{asked} {unit}", f"{value:g}, as if in {word}")


@rule(
    title="A weight in grams",
    level="query",
    source="common practice",
    message="{heading} of {line} is {found}: {expected}",
    why="A garment of hundreds of kilograms spoils every carton and freight figure.",
    fix="Type the weight in kilograms: 0.65.",
    bad=(Example("650 for 0.65 kg", {"order.piece_weight": 650}, ("weight-in-grams order.piece_weight",)),),
    fine=(Example("0.65 kg", {"order.piece_weight": 0.65}),),
)
def weight_in_grams(case: Case) -> Iterator[Fault]:
    value = case.number("order.piece_weight")
    if value is not None and value > 20:
        yield Fault(Place("order.piece_weight"), f"in grams it would be {value / 1000:g} kg.", f"{value:g} kg")


@rule(
    title="A price per dozen",
    level="query",
    source="common practice: dozen for piece (ratio 12)",
    message="{heading} is {found}; {expected}",
    why="A price per dozen in a price per piece is twelve times too high.",
    fix="Give the price of one garment.",
    bad=(
        Example("the price of a dozen", {"quote.fob": "times:12"}, ("price-above-target quote.fob", "price-per-dozen quote.fob", "price-unexplained quote.fob")),
    ),
    fine=(Example("the price of one"),),
)
def price_per_dozen(case: Case) -> Iterator[Fault]:
    price, worked = case.number("quote.fob"), case.number("quote.worked_out")
    if price and worked and abs(price / 12 / worked - 1) < _NEAR:
        yield Fault(Place("quote.fob"), f"its build-up gives {worked:.2f}, a twelfth of it.", f"{price:.2f}")


RULES = (other_unit, weight_in_grams, price_per_dozen)
