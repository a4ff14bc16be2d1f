"""Prices that can be compared, which of them are out of line, and what would bring one back into it."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from statistics import median
from typing import NamedTuple

from sheetgen.audit.case import Case
from sheetgen.audit.cost_slips import rates
from sheetgen.audit.slip_factors import COUNT
from sheetgen.audit.slips import shown
from sheetgen.declare.entry import Place
from sheetgen.texts import say

_NO_KIND = {"", "other"}
"""Nobody knows what such lines are: they have nothing to be compared with."""
_IN_LINE = 2
"""What a cause gives is in line from half of the cheapest to twice the dearest."""


class OutOfLine(NamedTuple):
    """A price that is far from most of its like, and these; all in one currency."""

    place: Place
    price: float
    others: tuple[float, ...]

    @property
    def range(self) -> tuple[float, float]:
        """The cheapest and the dearest of the others."""
        return min(self.others), max(self.others)


def far_off(prices: Mapping[Place, float], apart: float, least: float) -> Iterator[OutOfLine]:
    """Prices so many times above most of the others, or below; of fewer than `least` nothing can be said.

    Most is more than half of them, so that two that slipped alike do not hide each other; they have to be nearer to each
    other than that, or the kind is too wide to say anything.
    """
    if len(prices) < least:
        return
    for place, price in prices.items():
        others = tuple(other for at, other in prices.items() if at != place)
        sides = ([one for one in others if price >= apart * one], [one for one in others if price * apart <= one])
        alike = max(sides, key=len)
        if len(alike) > len(others) / 2 and max(alike) < apart * min(alike):
            yield OutOfLine(place, price, tuple(alike))


def of_one_kind(case: Case) -> Iterator[tuple[str, str, dict[Place, float]]]:
    """Kind, unit, and the prices of the lines of that kind that are bought by that unit, in the style's currency."""
    found: dict[tuple[str, str], dict[Place, float]] = defaultdict(dict)
    for ref in case.rows("materials.bom"):
        kind, unit = (str(case.value(f"materials.bom.{name}", ref) or "") for name in ("kind", "unit"))
        price = case.number("materials.bom.price_here", ref)
        if kind not in _NO_KIND and unit and price and price > 0:
            found[kind, unit][Place("materials.bom.price", ref)] = price
    yield from ((kind, unit, prices) for (kind, unit), prices in found.items())


def by_quantity(case: Case) -> dict[Place, float]:
    """The price per garment and those by quantity, in the quote's currency."""
    places = [Place("quote.fob"), *(Place("quote.ladder.price", ref) for ref in case.rows("quote.ladder"))]
    return {place: price for place in places if (price := case.number(*place)) and price > 0}


def in_line_if(off: OutOfLine, currency: str, more: Sequence[tuple[str, float]] = ()) -> str:
    """The sentence that says what the price would be in line with the others, and how it came to be another; or nothing.

    Of the known slips, and of `more` with the prices that they give, those that bring it between the others; the two nearest.
    """
    low, high = off.range
    middle = median(off.others)
    known = [(say(words), off.price / factor) for factor, words in COUNT.items()]
    inside = [(words, price) for words, price in (*known, *more) if low / _IN_LINE <= price <= high * _IN_LINE]
    inside.sort(key=lambda one: abs(math.log(one[1] / middle)))
    cases = [say("{figure} if {cause}", figure=shown(price, currency), cause=words) for words, price in inside[:2]]
    return say("In line it would be {cases}.", cases=say(", or ").join(cases)) if cases else ""


def other_currencies(case: Case, ref: str) -> list[tuple[str, float]]:
    """What a line's price would be in the style's currency if it were in another one of the file, with the words for it."""
    price, own = case.number("materials.bom.price", ref) or 0, str(case.value("style.currency") or "")
    typed = str(case.value("materials.bom.currency", ref) or own).upper()
    return [
        (say("it is in {code}", code=code), price * rate)
        for code, rate in {own: 1.0, **dict(rates(case))}.items()
        if code.upper() != typed
    ]
