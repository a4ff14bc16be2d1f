"""Offers: currencies with their rates, lead times and days against the dates."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.likeness import meant_word
from sheetgen.audit.placeholders import is_placeholder
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import DAY_ZERO
from sheetgen.texts import say


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


RULES = (currency_without_rate, lead_time_too_long, quote_run_out, date_too_late)
