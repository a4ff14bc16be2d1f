"""Offers: prices against target, build-up and earlier price; minimums against the order; lead times against the dates."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.likeness import meant_word
from sheetgen.audit.placeholders import is_placeholder
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.audit.units import is_dozen
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import DAY_ZERO
from sheetgen.texts import say

_PRICE_JUMP = 0.1


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
    source="common practice: totals re-add (published costings F4 and F5 carry such slips)",
    message="{heading} is {found}; materials, making and additions give {expected}.",
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
    if price and worked and abs(price - worked) > 0.01 * price and all_priced(case) and not is_dozen(case):
        yield Fault(Place("quote.fob"), f"{worked:.2f}", f"{price:.2f}")


def all_priced(case: Case) -> bool:
    """Whether every material has a cost: without one of them the build-up is too low for a reason that is known."""
    rows = [ref for ref in case.rows("materials.bom") if not case.is_new_row(Place("materials.bom.cost", ref))]
    return all(case.number("materials.bom.cost", ref) is not None for ref in rows)


@rule(
    title="A currency without a rate",
    level="fix",
    source="common practice",
    message="{place} is “{found}”; the file has rates for {expected}.",
    why="The line drops out of the cost, and the total is too low.",
    fix="Give the price in one of these currencies.",
    bad=(
        Example(
            "a currency nobody listed",
            {"materials.bom[M2].currency": "SEK"},
            ("currency-without-rate materials.bom[M2].currency",),
        ),
    ),
    fine=(
        Example("a listed currency", {"materials.bom[M5].currency": "EUR", "materials.bom[M5].price": 0.053}),
        Example("a listed currency in small letters", {"materials.bom[M5].currency": "usd"}),
    ),
)
def currency_without_rate(case: Case) -> Iterator[Fault]:
    own = case.value("style.currency")
    listed = [case.value("materials.rates.code", ref) for ref in case.rows("materials.rates")]
    known = [str(code) for code in dict.fromkeys([own, *listed]) if code]
    for ref in case.rows("materials.bom"):
        place = Place("materials.bom.currency", ref)
        code = case.got.typed.get(place)
        if not isinstance(code, str) or is_placeholder(code) or code == "" or meant_word(code, known):
            continue
        if code.upper() not in {one.upper() for one in known}:
            yield Fault(place, ", ".join(known), code)


@rule(
    title="A price jumped since the last issue",
    level="query",
    source="common practice",
    message="{place} went from {expected} to {found}.",
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
    if case.own:
        return
    for place, entry, value in case.typed_by_filler():
        sent = case.sent.get(place)
        if entry.kind.name != "money" or not isinstance(value, int | float) or not isinstance(sent, int | float):
            continue
        currency = Place(f"{place.entry.rpartition('.')[0]}.currency", place.row)
        if case.sent.get(currency) not in (None, case.got.typed.get(currency)):
            continue
        if (
            sent > 0
            and value > 0
            and abs(value / sent - 1) > _PRICE_JUMP
            and not (place.entry == "quote.fob" and is_dozen(case))
        ):
            yield Fault(place, f"{sent:g}", f"{value:g}")


@rule(
    title="The order is below a minimum",
    level="query",
    source="common practice",
    message="{heading} is {found}; the order has {expected}.",
    why="The factory will refuse, or ask for a surcharge later.",
    fix="Agree a surcharge or a larger order now.",
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
        yield Fault(Place("quote.minimum_style"), f"{pieces:g} pieces", f"{minimum:g} pieces")
    least = case.number("quote.minimum_colorway")
    counts = [
        count
        for number in range(1, len(dict(case.got.ready.shape.axes)["colorway"]) + 1)
        if (count := case.number(f"order.pieces_in_c{number}")) is not None
    ]
    if least is not None and any(0 < count < least for count in counts):
        smallest = min(count for count in counts if count > 0)
        yield Fault(
            Place("quote.minimum_colorway"),
            say("{smallest:g} pieces in its smallest colorway", smallest=smallest),
            f"{least:g} pieces",
        )


@rule(
    title="The lead time goes past the delivery date",
    level="query",
    source="common practice",
    message="{place} is {found}: too long for {expected}.",
    why="The goods would come after the season's start.",
    fix="Offer a shorter lead time, or agree a later delivery.",
    bad=(
        Example("a lead time of two years", {"quote.lead_time": 730}, ("lead-time-too-long quote.lead_time",)),
        Example(
            "a mill that takes a year",
            {"materials.bom[M1].lead": 360},
            ("lead-time-too-long materials.bom[M1].lead",),
        ),
    ),
    fine=(Example("a lead time that fits", {"quote.lead_time": 60}),),
)
def lead_time_too_long(case: Case) -> Iterator[Fault]:
    start, delivery = case.day("style.date"), case.day("style.delivery")
    if start is None or delivery is None:
        return
    days = (delivery - start).days
    places = [Place("quote.lead_time"), *(Place("materials.bom.lead", ref) for ref in case.rows("materials.bom"))]
    for place in places:
        value = case.number(*place)
        if value is not None and value > days:
            yield Fault(
                place,
                say(
                    "delivery on {delivery}, {days} days after this revision", delivery=delivery.isoformat(), days=days
                ),
                f"{value:g} days",
            )


@rule(
    title="The quote has run out",
    level="query",
    source="common practice",
    message="{heading} is {found}, before {expected}.",
    why="A price that no longer holds cannot be ordered at.",
    fix="Confirm the price with a new date.",
    bad=(
        Example(
            "valid until a day past",
            {"quote.valid_until": datetime.date(2025, 1, 31)},
            ("answers-contradict checks.wrong_quote_valid_short", "quote-run-out quote.valid_until"),
        ),
    ),
    fine=(Example("valid for a while", {"quote.valid_until": datetime.date(2027, 6, 30)}),),
)
def quote_run_out(case: Case) -> Iterator[Fault]:
    until, date = case.day("quote.valid_until"), case.day("style.date")
    if until is not None and date is not None and until < date:
        yield Fault(
            Place("quote.valid_until"),
            say("the date of this revision, {date}", date=date.isoformat()),
            until.isoformat(),
        )


@rule(
    title="A date is confirmed later than needed",
    level="query",
    source="common practice",
    message="{place} is {found}; needed is {expected}.",
    why="Every step after it moves too.",
    fix="Agree how the days are won back, or another delivery.",
    bad=(
        Example(
            "sewing confirmed for after the delivery",
            {"order.calendar[E6].confirmed": datetime.date(2027, 8, 1)},
            ("date-too-late order.calendar[E6].confirmed",),
        ),
        Example(
            "sewing confirmed for 44 days before delivery, which are fewer than the 38 working days that it takes",
            {"order.calendar[E6].confirmed": datetime.date(2027, 6, 1), "order.week": "Monday to Friday"},
            ("date-too-late order.calendar[E6].confirmed",),
            sent={"order.week": "Monday to Friday"},
        ),
    ),
    fine=(
        Example("sewing confirmed in time", {"order.calendar[E6].confirmed": datetime.date(2027, 5, 1)}),
        Example("the same 44 days counted as days", {"order.calendar[E6].confirmed": datetime.date(2027, 6, 1)}),
    ),
)
def date_too_late(case: Case) -> Iterator[Fault]:
    for ref in case.rows("order.calendar"):
        confirmed, due = case.day("order.calendar.confirmed", ref), case.number("order.calendar.due", ref)
        if confirmed is None or due is None:
            continue
        needed = DAY_ZERO + datetime.timedelta(days=due)
        if confirmed > needed:
            yield Fault(Place("order.calendar.confirmed", ref), needed.isoformat(), confirmed.isoformat())


RULES = (
    price_above_target, price_unexplained, currency_without_rate, price_jumped, minimum_above_order,
    lead_time_too_long, quote_run_out, date_too_late,
)  # fmt: skip
