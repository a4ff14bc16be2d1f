"""Prices: against the target, the build-up, the price before, and those of their like."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from sheetgen.audit.alike_prices import by_quantity, far_off, in_line_if, of_one_kind, other_currencies
from sheetgen.audit.case import Case
from sheetgen.audit.cost_slips import price_slips, quote_currency
from sheetgen.audit.row_off import columns_a_row_off
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.audit.slip_factors import COUNT
from sheetgen.audit.slips import comes_of, factor_slips, recognised, shown
from sheetgen.audit.units import is_dozen
from sheetgen.declare.entry import Place
from sheetgen.texts import say
from sheetgen.workbook.model.compare import same

_PRICES = 3
"""Of two prices nobody knows which one is wrong."""
_ROUNDING = 0.00005


@rule(
    title="The price is above the target",
    level="query",
    source="common practice",
    message="{heading} is {found}; the target is {expected}.",
    why="At that price the style does not earn what it must.",
    fix="Say what would bring the price down, or agree another target.",
    bad=(
        Example(
            "a price above the target, and its build-up with it",
            {"quote.fob": 28.2, "quote.process_cost": 2.52},
            ("price-above-target quote.fob",),
        ),
    ),
    fine=(
        Example("a price at the target", {"quote.fob": 27, "quote.process_cost": 1.47}),
        Example(
            "a price in dollars, below the target in the style's euros", {"quote.currency": "USD", "quote.fob": 27.1}
        ),
    ),
)
def price_above_target(case: Case) -> Iterator[Fault]:
    quoted, exchange, target = (case.number(f"quote.{name}") for name in ("fob", "exchange", "target"))
    if quoted is None or exchange is None or target is None or is_dozen(case):
        return
    # The target is in the style's currency, the price in the quote's.
    price = quoted if exchange == 1 else quoted * exchange
    if price > target + 5e-5:
        yield Fault(Place("quote.fob"), f"{target:g}", f"{price:.6g}")


@rule(
    title="The price does not follow from its build-up",
    level="query",
    limits=("price_built",),
    source="common practice: totals re-add (published costings F4 and F5 carry such slips)",
    message="{heading} is {found}; materials, making and additions give {expected}.{cause}",
    why="Something is counted twice, forgotten, or in another currency.",
    fix="Correct the build-up or the price.",
    bad=(Example("the profit forgotten in the price", {"quote.fob": 24.3}, ("price-unexplained quote.fob",)),),
    fine=(
        Example("a price that its build-up explains"),
        Example(
            "a build-up that lacks a material's price: that comes first",
            {"materials.bom[M1].price": None},
            ("entry-missing materials.bom[M1].price",),
        ),
    ),
)
def price_unexplained(case: Case) -> Iterator[Fault]:
    price, worked = case.number("quote.fob"), case.number("quote.worked_out")
    if not price or not worked or not all_priced(case) or is_dozen(case):
        return
    if abs(price - worked) > case.limits["price_built"] * price:
        cause = comes_of(recognised(price, [worked], price_slips(case, price, worked))).strip()
        yield Fault(Place("quote.fob"), f"{worked:.2f}", f"{price:.2f}", cause=cause)


def all_priced(case: Case) -> bool:
    """Whether every material has a cost: without one of them the build-up is too low for a reason that is known."""
    rows = [ref for ref in case.rows("materials.bom") if not case.is_new_row(Place("materials.bom.cost", ref))]
    return all(case.number("materials.bom.cost", ref) is not None for ref in rows)


@rule(
    title="A price jumped since the last issue",
    level="query",
    limits=("price_jump",),
    source="common practice",
    message="{place} went from {expected} to {found}.{cause}",
    why="A slipped decimal point looks just like this, and so does a real rise: ask.",
    fix="Confirm the new price or correct it.",
    bad=(
        Example(
            "a tenth of it was sent along",
            {},
            ("price-jumped materials.bom[M2].price",),
            sent={"materials.bom[M2].price": 0.235},
        ),
    ),
    fine=(
        Example("no price was sent"),
        Example("a price that rose a little", sent={"materials.bom[M2].price": 2.2}),
        Example(
            "a price in another currency than before",
            sent={"materials.bom[M2].price": 2.7, "materials.bom[M2].currency": "USD"},
        ),
    ),
)
def price_jumped(case: Case) -> Iterator[Fault]:
    for place, (sent, value) in _jumps(case).items():
        cause = comes_of(recognised(value, [sent], factor_slips(sent, COUNT))).strip()
        yield Fault(place, f"{sent:g}", f"{value:g}", cause=cause)


def _jumps(case: Case) -> dict[Place, tuple[float, float]]:
    """Prices in the same currency as before that moved by more than the limit: before, and now."""
    found: dict[Place, tuple[float, float]] = {}
    moved_on = columns_a_row_off(case)
    for place, entry, value in case.typed_by_filler() if not case.own else ():
        sent = case.sent.get(place)
        if entry.kind.name != "money" or not isinstance(value, int | float) or not isinstance(sent, int | float):
            continue
        if place in moved_on:
            continue  # told once, of the whole column
        currency = Place(f"{place.entry.rpartition('.')[0]}.currency", place.row)
        if case.sent.get(currency) not in (None, case.got.typed.get(currency)):
            continue
        moved = sent > 0 and value > 0 and abs(value / sent - 1) > case.limits["price_jump"]
        if moved and not (place.entry == "quote.fob" and is_dozen(case)):
            found[place] = (sent, value)
    return found


@rule(
    title="A price is out of line",
    level="query",
    limits=("alike_lines", "alike_apart", "ladder_apart", "option_share"),
    source="common practice: like articles cost alike, and more pieces cost no more each; the limits are choices of this project",
    message="{place} is {found}; {expected}.{cause}",
    why="A decimal point, a dozen, a hundred or another currency slips in like this, and every total takes it on.",
    fix="Correct the price, its currency or its unit, or say why it is so far from the others.",
    bad=(
        Example(
            "a size label at a hundred times its price: that of a hundred, or in cents",
            {"materials.bom[M9].price": 1.8},
            ("price-out-of-line materials.bom[M9].price", "price-unexplained quote.fob"),
        ),
        Example(
            "more pieces at a dearer price, and one price by quantity of a dozen",
            {"quote.ladder[U1].price": 323.52, "quote.ladder[U3].price": 26.2},
            ("price-out-of-line quote.ladder[U1].price", "price-out-of-line quote.ladder[U3].price"),
        ),
        Example(
            "the whole price where an option only changes it",
            {"quote.fob": 25.8, "quote.options[OP1].option": "With a hood", "quote.options[OP1].more": 28.4},
            ("price-out-of-line quote.options[OP1].more",),
            own=True,
        ),
    ),
    fine=(
        Example("labels from 0.014 to 0.12", {"materials.bom[M8].price": 0.06, "materials.bom[M14].price": 0.016}),
        Example(
            "an option that changes the price",
            {"quote.fob": 25.8, "quote.options[OP1].option": "With a hood", "quote.options[OP1].more": 3.1},
            own=True,
        ),
    ),
)
def price_out_of_line(case: Case) -> Iterator[Fault]:
    jumped = _jumps(case)
    for fault in (*_of_lines(case), *_of_quantities(case), *_of_options(case)):
        known = not case.own and fault.place and same(case.sent.get(fault.place), case.got.typed.get(fault.place))
        if fault.place not in jumped and not known:
            yield fault


def _of_lines(case: Case) -> Iterator[Fault]:
    """Materials: lines of one kind and unit, all in the style's currency."""
    currency = str(case.value("style.currency") or "")
    for kind, unit, prices in of_one_kind(case):
        for off in far_off(prices, case.limits["alike_apart"], case.limits["alike_lines"]):
            low, high = (shown(one, currency) for one in off.range)
            expected = say(
                "{count} other lines of the kind {kind}, priced by the {unit}, are from {low} to {high}",
                count=len(off.others), kind=kind, unit=unit, low=low, high=high,
            )  # fmt: skip
            cause = in_line_if(off, currency, other_currencies(case, off.place.row))
            limits = ("alike_lines", "alike_apart")
            yield Fault(off.place, expected, shown(off.price, currency), cause=cause, limits=limits)


def _of_quantities(case: Case) -> Iterator[Fault]:
    """Prices by quantity: far from the others, or dearer than fewer pieces."""
    currency = quote_currency(case)
    prices = by_quantity(case)
    far = {off.place: off for off in far_off(prices, case.limits["ladder_apart"], _PRICES)}
    for off in far.values():
        if off.place == Place("quote.fob") and is_dozen(case):
            continue
        low, high = (shown(one, currency) for one in off.range)
        expected = say("the other prices by quantity are from {low} to {high}", low=low, high=high)
        cause = in_line_if(off, currency)
        yield Fault(off.place, expected, shown(off.price, currency), cause=cause, limits=("ladder_apart",))
    rungs = sorted(
        (case.number("quote.ladder.from_quantity", at.row) or 0, at) for at in prices if at.row and at not in far
    )
    for (fewer, below), (_, at) in pairwise(rungs):
        if prices[at] > prices[below] + _ROUNDING:
            expected = say(
                "from {pieces:g} pieces on it is {price}", pieces=fewer, price=shown(prices[below], currency)
            )
            yield Fault(at, expected, shown(prices[at], currency), cause=say("More pieces cost more each."), limits=())


def _of_options(case: Case) -> Iterator[Fault]:
    """Options: what changes a price, and not a price."""
    fob, currency = case.number("quote.fob"), quote_currency(case)
    for ref in case.rows("quote.options") if fob else ():
        more = case.number("quote.options.more", ref)
        if fob and more and abs(more) > case.limits["option_share"] * fob:
            whole = abs(more / fob - 1) < case.limits["option_share"]
            cause = (
                say("If that is the whole price with it, the change is {change}.", change=shown(more - fob, currency))
                if whole
                else ""
            )
            expected = say("the price is {fob}", fob=shown(fob, currency))
            yield Fault(
                Place("quote.options.more", ref), expected, shown(more, currency), cause=cause, limits=("option_share",)
            )


RULES = (price_above_target, price_unexplained, price_jumped, price_out_of_line)
