"""Buying: what the vendor buys against what the order needs, and minimums that leave much over."""

from __future__ import annotations

import math
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.minimum_choices import need_choices, order_choices
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.audit.slips import Slip, comes_of, percent, recognised, unit_slips
from sheetgen.declare.entry import Place
from sheetgen.texts import say

_SHORT = 0.005
"""Quantities are shown with two decimals: less than half a hundredth is rounding."""


def _quantity(number: float, unit: str) -> str:
    return f"{number:.2f}".rstrip("0").rstrip(".") + f" {unit}".rstrip()


def _below(case: Case, ref: str, need: float) -> Iterator[Slip]:
    """Why less than needed may be bought."""
    multiple = case.number("order.buy.multiple", ref)
    if multiple and multiple != 1:
        down = math.floor(need / multiple) * multiple
        yield Slip(
            say(
                "the need is rounded down to whole units of {multiple:g}, where only rounding up serves",
                multiple=multiple,
            ),
            down,
        )
    yield Slip(say("the need is rounded down, where only rounding up serves"), math.floor(need))
    waste, over = case.number("materials.bom.waste", ref) or 0, case.number("order.overage") or 0
    ups = (1, multiple) if multiple else (1,)
    left_out = (
        (say("the waste of {waste} is left out", waste=percent(waste)), 1 + waste),
        (say("the pieces cut over the order, {over}, are left out", over=percent(over)), 1 + over),
        (say("waste and pieces cut over the order are left out"), (1 + waste) * (1 + over)),
    )
    for words, factor in left_out:
        if factor > 1:
            yield Slip(words, need / factor)
            yield from (Slip(words, math.ceil(need / factor / up - 1e-6) * up) for up in ups)
    names = enumerate(dict(case.got.ready.shape.axes)["colorway"], 1)
    colors = {name: case.number(f"workings.colors.together_c{number}", ref) or 0 for number, name in names}
    for name, one in colors.items():
        if 0 < one < need:
            yield Slip(say("only the color of {name} is bought", name=name), one)
            yield from (
                Slip(say("only the color of {name} is bought", name=name), math.ceil(one / up - 1e-6) * up)
                for up in ups
            )
    yield from (slip for slip in unit_slips(need, str(case.value("order.buy.unit", ref) or "")) if slip.figure < need)


@rule(
    title="Less is bought than needed",
    level="fix",
    source="common practice: a need is rounded up to whole units and to the minimum (a published ordering page rounds down)",
    message="For {line} the vendor buys {found}; it takes at least {expected}.{cause}",
    why="The last garments cannot be made, or the supplier refuses the order.",
    fix="Buy at least that much, or clear the figure if the rest is in stock already, and say so in the quote's remark.",
    bad=(
        Example(
            "rounded down to whole rolls, and less than the mill sells",
            {"order.buy[M1].bought": 2300, "order.buy[M2].bought": 150},
            ("bought-too-little order.buy[M1].bought", "bought-too-little order.buy[M2].bought"),
        ),
    ),
    fine=(
        Example(
            "whole rolls, and the need as it is shown", {"order.buy[M1].bought": 2350, "order.buy[M11].bought": 1280}
        ),
    ),
)
def bought_too_little(case: Case) -> Iterator[Fault]:
    for ref in case.rows("order.buy"):
        bought, need = case.number("order.buy.bought", ref), case.number("order.buy.need", ref)
        unit, place = str(case.value("order.buy.unit", ref) or ""), Place("order.buy.bought", ref)
        if bought is None or not need:
            continue
        if need - bought > _SHORT:
            cause = recognised(bought, [], _below(case, ref, need))
            told = say("That is {quantity} short.", quantity=_quantity(need - bought, unit)) + comes_of(cause)
            yield Fault(place, _quantity(need, unit), _quantity(bought, unit), cause=told)
            continue
        least, colors = case.number("order.buy.minimum", ref) or 0, case.number("order.buy.minimum_color", ref) or 0
        to_buy = case.number("order.buy.buy", ref) or 0
        if bought < least - _SHORT:
            told = say(
                "The need of {need} is covered; the supplier sells no less than that.", need=_quantity(need, unit)
            )
            yield Fault(place, _quantity(least, unit), _quantity(bought, unit), cause=told)
        elif colors and bought < to_buy - _SHORT and not case.number("order.buy.multiple", ref):
            told = say("The supplier sells no less than {colors} of each color.", colors=_quantity(colors, unit))
            yield Fault(place, _quantity(to_buy, unit), _quantity(bought, unit), cause=told)


@rule(
    title="A material's minimum is above the need",
    level="query",
    limits=("surplus",),
    source="common practice; the limit of 2 % of the order's value is a choice of this project",
    message="{place} is {found}; needed are {expected}.{cause}",
    why="What is left over is paid by someone, and often asked for after the order.",
    fix="Choose one of these, or agree a stocked quality or fewer colors, before the price is settled.",
    owner="designer",
    bad=(
        Example(
            "a minimum of the shell that leaves 660 m",
            {"materials.bom[M1].minimum": 3000},
            ("minimum-above-need materials.bom[M1].minimum",),
        ),
        Example(
            "a minimum per color that leaves more than either color takes",
            {"materials.bom[M1].minimum_color": 2000},
            ("minimum-above-need materials.bom[M1].minimum_color",),
        ),
    ),
    fine=(
        Example(
            "a minimum below the need, and one that leaves little money over",
            {"materials.bom[M1].minimum": 2300, "materials.bom[M3].minimum": 400},
        ),
    ),
)
def minimum_above_need(case: Case) -> Iterator[Fault]:
    value, currency = case.number("order.value"), str(case.value("style.currency") or "")
    for ref in case.rows("order.buy"):
        need, left = case.number("order.buy.need", ref), case.number("order.buy.surplus", ref)
        cost = case.number("order.buy.left_cost", ref)
        if not value or not need or not left or not cost or cost <= case.limits["surplus"] * value:
            continue
        unit = str(case.value("order.buy.unit", ref) or "")
        told = say(
            "That leaves {left} over, worth {cost:,.2f} {currency}, {percent} of the order's value.",
            left=_quantity(left, unit),
            cost=cost,
            currency=currency,
            percent=percent(round(cost / value, 3)),
        )
        told += " " + need_choices(case, ref, cost, _quantity(left, unit))
        least, per_color = case.number("order.buy.minimum", ref) or 0, case.number("order.buy.minimum_color", ref) or 0
        if least > need:
            yield Fault(Place("materials.bom.minimum", ref), _quantity(need, unit), _quantity(least, unit), cause=told)
        elif per_color:
            needed = say("{need} in all colors together", need=_quantity(need, unit))
            yield Fault(Place("materials.bom.minimum_color", ref), needed, _quantity(per_color, unit), cause=told)


@rule(
    title="The order is below a minimum",
    level="query",
    source="common practice",
    message="{heading} is {found}; the order has {expected}.{cause}",
    why="The factory will refuse, or ask for a surcharge later.",
    fix="Choose one of these, or agree another minimum, now.",
    owner="designer",
    bad=(
        Example(
            "a minimum above the order", {"quote.minimum_style": 5000}, ("minimum-above-order quote.minimum_style",)
        ),
        Example(
            "a minimum above the smaller colorway",
            {"quote.minimum_colorway": 500},
            ("minimum-above-order quote.minimum_colorway",),
        ),
    ),
    fine=(Example("a minimum as large as the order", {"quote.minimum_style": 1200, "quote.minimum_colorway": 480}),),
)
def minimum_above_order(case: Case) -> Iterator[Fault]:
    minimum, pieces = case.number("quote.minimum_style"), case.number("order.pieces")
    if minimum is not None and pieces and minimum > pieces:
        yield Fault(
            Place("quote.minimum_style"),
            f"{pieces:g} pieces",
            f"{minimum:g} pieces",
            cause=order_choices(case, minimum - pieces),
        )
    least = case.number("quote.minimum_colorway")
    counts = [
        count
        for number in range(1, len(dict(case.got.ready.shape.axes)["colorway"]) + 1)
        if (count := case.number(f"order.pieces_in_c{number}")) is not None
    ]
    if least is not None and any(0 < count < least for count in counts):
        smallest = min(count for count in counts if count > 0)
        more = sum(least - count for count in counts if 0 < count < least)
        yield Fault(
            Place("quote.minimum_colorway"),
            say("{smallest:g} pieces in its smallest colorway", smallest=smallest),
            f"{least:g} pieces",
            cause=order_choices(case, more),
        )


RULES = (bought_too_little, minimum_above_need, minimum_above_order)
