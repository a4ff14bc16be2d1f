"""What can be done about a minimum, with what each choice costs in the style's currency; which one is the brand's to decide."""

from __future__ import annotations

import math
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.texts import say

_NEARLY = 1e-6
"""A piece is not ordered for what a division leaves."""


def need_choices(case: Case, ref: str, cost: float, left: str) -> str:
    """The choices where a material's minimum is above the need: `cost` is what is left over, `left` in words."""
    pieces = case.number("order.pieces") or 0
    return _choices(_of_need(case, ref, cost, left, pieces) if pieces else iter(()))


def order_choices(case: Case, more: float) -> str:
    """The choices where so many garments are wanting to the vendor's minimum."""
    pieces = case.number("order.pieces") or 0
    return _choices(_of_order(case, more, pieces))


def _choices(lines: Iterator[str]) -> str:
    listed = "; ".join(lines)
    return say("To choose from: {choices}.", choices=listed) if listed else ""


def _of_need(case: Case, ref: str, cost: float, left: str, pieces: float) -> Iterator[str]:
    yield say(
        "buy the minimum and own {left} ({cost}, {each} a garment)",
        left=left,
        cost=_money(case, cost),
        each=_money(case, cost / pieces),
    )
    enough = math.ceil(pieces * _times(case, ref) - _NEARLY)
    if enough > pieces:
        yield _larger(case, enough - pieces, pieces)
    surcharge, rate = case.number("materials.bom.surcharge", ref), case.number("materials.bom.rate", ref)
    if surcharge is not None and rate:
        yield _paid(case, surcharge * rate, pieces)


def _of_order(case: Case, more: float, pieces: float) -> Iterator[str]:
    if pieces:
        yield _larger(case, more, pieces)
    surcharge, rate = case.number("quote.surcharge"), case.number("quote.exchange")
    if surcharge is not None and rate and pieces:
        yield _paid(case, surcharge * rate, pieces)


def _times(case: Case, ref: str) -> float:
    """How many times the order, in the same colors and sizes, takes all that the minimums make one buy."""
    whole, sized = case.number("order.buy.minimum", ref) or 0, case.value("workings.colors.in_sizes", ref) == "yes"
    colors, sizes = (len(dict(case.got.ready.shape.axes)[axis]) for axis in ("colorway", "size"))
    if sized:
        parts = [(whole, case.number(f"workings.colors.size_needed_z{number}", ref)) for number in range(1, sizes + 1)]
    else:
        each = case.number("order.buy.minimum_color", ref) or 0
        parts = [(each, case.number(f"workings.colors.needed_c{number}", ref)) for number in range(1, colors + 1)]
        parts.append((whole, case.number("order.buy.need", ref)))
    return max((least / need for least, need in parts if need), default=0)


def _larger(case: Case, more: float, pieces: float) -> str:
    """More garments, and what they cost at the quoted price where there is one."""
    price = case.number("quote.price")
    if not price:
        return say("order {more:,.0f} garments more, {all:,.0f} in all", more=more, all=pieces + more)
    return say(
        "order {more:,.0f} garments more, {all:,.0f} in all ({cost} at the quoted price)",
        more=more, all=pieces + more, cost=_money(case, more * price),
    )  # fmt: skip


def _paid(case: Case, surcharge: float, pieces: float) -> str:
    return say(
        "pay the surcharge ({cost}, {each} a garment)",
        cost=_money(case, surcharge),
        each=_money(case, surcharge / pieces),
    )


def _money(case: Case, amount: float) -> str:
    return f"{amount:,.2f} {case.value('style.currency') or ''}".rstrip()
