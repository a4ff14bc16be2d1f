"""What may go wrong in a vendor's costing: a line of the bill of materials, the make cost, and the sums above them."""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from itertools import product

from sheetgen.audit.case import Case
from sheetgen.audit.slip_factors import COUNT
from sheetgen.audit.slips import (
    Slip,
    carry_slips,
    decimals,
    digit_slips,
    efficiency_slips,
    factor_slips,
    is_rounded,
    percent,
    rate_slips,
    scaled,
    sum_slips,
    unit_slips,
    waste_slips,
)
from sheetgen.declare.entry import Place
from sheetgen.texts import marked, say

_CLOSE = 0.005
"""A factor that was rounded first moves the product by less than half a percent, or it is not rounding."""
_SAME = 1e-4
"""Amounts that differ by less than a hundredth of a percent are the same, whatever digits they show."""
_PARTS = ("sew_cost", "cut_cost", "finish_cost")
_PART_WORDS = (marked("sewing"), marked("cutting"), marked("finishing and packing"))
_ADDITIONS = {
    "process_cost": marked("print, embroidery and wash"), "testing_cost": marked("testing"), "packing_cost": marked("packing work"),
    "commercial_cost": marked("bank, forwarding and commission"),
}  # fmt: skip
_RATE_NEAR = 1.25
_ONE_OF_MANY = 0.002
"""Of so many lines and slips one lies near any gap: it has to close it but for that share."""
_CHOICES = (("stated_materials", "stated_make"), ("stated_materials",), ("stated_make",), ())
"""Sums of which the vendor's own figure may stand in the direct cost."""


def agrees(stated: float, rights: Sequence[float]) -> bool:
    """Whether an amount is one of the right ones, rounded to two or more digits, or rounded up or cut at its last one."""
    step = max(10.0 ** -decimals(stated), _SAME * abs(stated))
    return any(
        is_rounded(stated, right) or (abs(stated - right) < step * (1 - 1e-6) and abs(stated - right) <= 0.01 * abs(right))
        for right in rights
    )  # fmt: skip


def line_rights(case: Case, ref: str) -> list[float]:
    """What a line may cost: use with waste x price, either one rounded before, or the use that the vendor states."""
    gross, price = case.number("materials.bom.gross", ref), case.number("materials.bom.price_here", ref)
    if not gross or not price:
        return []
    uses = [gross, *(round(gross, digits) for digits in (2, 3, 4))]
    prices = [price, *(round(price, digits) for digits in (2, 3, 4))]
    near = [use * one for use, one in product(uses, prices) if abs(use * one / (gross * price) - 1) < _CLOSE]
    return [gross * price, *near, *(use * price for use in _stated_uses(case, ref))]


def _stated_uses(case: Case, ref: str) -> Iterator[float]:
    """The vendor's own use of a material with waste: another finding says so if that is wrong."""
    waste = case.number("materials.bom.waste", ref) or 0
    for fabric in case.rows("yield.fabrics"):
        if case.value("yield.fabrics.material", fabric) == ref:
            net, gross = (case.number(f"yield.fabrics.{name}", fabric) for name in ("stated_net", "stated_gross"))
            yield from [gross] if gross else [net * (1 + waste)] if net else []
    for article in case.rows("thread.articles"):
        gross = case.number("thread.articles.stated_gross", article)
        if (
            gross
            and case.value("thread.articles.material", article) == ref
            and case.value("materials.bom.unit", ref) == "m"
        ):
            yield gross


def quote_currency(case: Case) -> str:
    """The currency that the price is in: the quote's own, else the style's."""
    return str(case.value("quote.currency") or case.value("style.currency") or "")


def rates(case: Case, own: object = None) -> list[tuple[str, float]]:
    """The currencies of the file with their exchange rates, but for `own`."""
    found = []
    for ref in case.rows("materials.rates"):
        code, rate = case.value("materials.rates.code", ref), case.number("materials.rates.rate", ref)
        if rate and code != own:
            found.append((str(code), rate))
    return found


def line_slips(case: Case, ref: str, stated: float) -> Iterator[Slip]:
    """What a line of the bill of materials would cost if one thing were done otherwise, in the style's currency."""
    use, gross, price = (case.number(f"materials.bom.{name}", ref) for name in ("use", "gross", "price"))
    here, waste = case.number("materials.bom.price_here", ref), case.number("materials.bom.waste", ref) or 0
    if not use or not gross or not price or not here:
        return
    right = gross * here
    yield from scaled(waste_slips(use, waste), here)
    if waste:
        yield Slip(
            say("the waste of {waste} is added to the cost as an amount", waste=percent(waste)), use * here + waste
        )
    yield from rate_slips(gross * price, here / price, rates(case, case.value("materials.bom.currency", ref)))
    yield Slip(say("use and price are added instead of multiplied"), gross + here)
    yield Slip(say("the price alone is taken, without the use"), here)
    yield from unit_slips(right, str(case.value("materials.bom.unit", ref) or ""))
    for other in case.rows("materials.bom"):
        cost = case.number("materials.bom.cost", other)
        if other != ref and cost:
            yield Slip(
                say("the cost of {other} {case} is taken", other=other, case=case.value("materials.bom.item", other)),
                cost,
            )
    yield from digit_slips(stated, right)


def other_rate(case: Case, ref: str, stated: float) -> str:
    """The exchange rate that would explain the stated cost of a line, in words, if it lies near the one in the file."""
    gross, price, here = (case.number(f"materials.bom.{name}", ref) for name in ("gross", "price", "price_here"))
    if not gross or not price or not here or here == price or not 1 / _RATE_NEAR < stated / (gross * here) < _RATE_NEAR:
        return ""
    return say(
        "an exchange rate of {used:.4g} is used instead of {right:.4g}",
        used=stated / (gross * price),
        right=here / price,
    )


def _summed(parts: Mapping[str, float]) -> list[float]:
    """Their sum, and that of the parts rounded, cut or rounded up to cents and to fractions of them."""
    ways: tuple[Callable[[float], float], ...] = (round, lambda x: math.floor(x + 1e-9), lambda x: math.ceil(x - 1e-9))
    found = [sum(parts.values())]
    for digits, way in product((2, 3, 4), ways):
        found.append(sum(way(value * 10**digits) for value in parts.values()) / 10**digits)
    return found


def material_parts(case: Case, stated: bool) -> dict[str, float]:
    """Cost of each line in the quote's currency, by the vendor's own statement where it is `stated` and given."""
    exchange = case.number("quote.exchange") or 1
    found = {}
    for ref in case.rows("materials.bom"):
        cost, own = case.number("materials.bom.counted", ref), case.number("materials.bom.stated_cost", ref)
        if cost is not None:
            name = f"{ref} {case.value('materials.bom.item', ref)}"
            found[name] = (own if stated and own is not None else cost) / exchange
    return found


def material_slips(case: Case, stated: float) -> Iterator[Slip]:
    """What the materials would cost together if one thing were done otherwise, in the quote's currency."""
    exchange = case.number("quote.exchange") or 1
    for own in (True, False):
        parts = material_parts(case, own)
        total = sum(parts.values())
        yield from carry_slips(stated, total)
        yield from sum_slips(parts)
    if exchange != 1:
        yield Slip(
            say("it is not changed into the quote's currency ({exchange:g})", exchange=exchange), total * exchange
        )
        yield Slip(
            say("it is multiplied by the exchange rate of {exchange:g} instead of divided", exchange=exchange),
            total * exchange**2,
        )
    yield Slip(say("the waste of all lines is left out"), _over_lines(case, "use", "price_here") / exchange)
    yield Slip(
        say("prices of all currencies are added without their rates"), _over_lines(case, "gross", "price") / exchange
    )
    for ref in case.rows("materials.bom"):
        cost = case.number("materials.bom.cost", ref)
        if cost and case.value("materials.bom.instead_of", ref):
            yield Slip(say("the alternative {ref} is counted too", ref=ref), total + cost / exchange)
    yield from factor_slips(total, COUNT)
    yield from digit_slips(stated, total)


def _over_lines(case: Case, use: str, price: str) -> float:
    total = 0.0
    for ref in case.rows("materials.bom"):
        if not case.is_new_row(Place("materials.bom.cost", ref)) and not case.value("materials.bom.instead_of", ref):
            total += (case.number(f"materials.bom.{use}", ref) or 0) * (case.number(f"materials.bom.{price}", ref) or 0)
    return total


def make_parts(case: Case) -> dict[str, float]:
    """Sewing, cutting and finishing by their cost."""
    costs = [case.number(f"quote.{part}") for part in _PARTS]
    return {say(name): cost for name, cost in zip(_PART_WORDS, costs, strict=True) if cost is not None}


def make_slips(case: Case, stated: float) -> Iterator[Slip]:
    """What the making would cost if one thing were done otherwise."""
    parts, efficiency = make_parts(case), case.number("quote.efficiency")
    total = sum(parts.values())
    if efficiency:
        yield from efficiency_slips(total, efficiency)
    yield from carry_slips(stated, total)
    yield from sum_slips(parts)
    yield from factor_slips(
        total, COUNT, {60: marked("minutes are taken for hours"), 1 / 60: marked("hours are taken for minutes")}
    )
    yield from digit_slips(stated, total)


def direct_parts(case: Case, stated: Collection[str] = ()) -> dict[str, float]:
    """The parts of the direct cost; of materials and making what the vendor says itself, where that is `stated`."""
    sides = (
        ("materials_cost", "stated_materials", say("the materials")),
        ("make_cost", "stated_make", say("the making")),
    )
    found = {}
    for name, own, words in sides:
        value, said = case.number(f"quote.{name}"), case.number(f"quote.{own}") if own in stated else None
        if value is not None:
            found[words] = value if said is None else said
    for name, words in _ADDITIONS.items():
        value = case.number(f"quote.{name}")
        if value is not None:
            found[say(words)] = value
    return found


def direct_slips(case: Case, stated: float) -> Iterator[Slip]:
    """What the direct cost would be if one thing were done otherwise."""
    efficiency = case.number("quote.efficiency")
    for own in _CHOICES:
        parts = direct_parts(case, own)
        total = sum(parts.values())
        if efficiency:
            rest = total - parts[say("the making")]
            for slip in efficiency_slips(parts[say("the making")], efficiency):
                yield Slip(say("in the making {slip}", slip=slip.words), slip.figure + rest)
        yield from carry_slips(stated, total)
        yield from sum_slips(parts)
        yield from factor_slips(total, COUNT)
        yield from digit_slips(stated, total)


def material_sums(case: Case) -> list[float]:
    """What the materials may cost together: by the sheets or by the vendor's own lines, rounded before or after."""
    return [*_summed(material_parts(case, stated=False)), *_summed(material_parts(case, stated=True))]


def make_sums(case: Case) -> list[float]:
    """What the making may cost, rounded before or after."""
    return _summed(make_parts(case))


def direct_sums(case: Case) -> list[float]:
    """What the direct cost may be: materials and making by the sheets or by the vendor, rounded before or after."""
    return [figure for stated in _CHOICES for figure in _summed(direct_parts(case, stated))]


def price_slips(case: Case, stated: float, worked: float) -> Iterator[Slip]:
    """What the price of a garment would be if one thing were done otherwise, in the quote's currency."""
    direct = case.number("quote.direct") or 0
    overhead, profit = case.number("quote.overhead") or 0, case.number("quote.profit") or 0
    yield Slip(say("the profit of {profit} is left out", profit=percent(profit)), direct * (1 + overhead))
    yield Slip(say("the overhead of {overhead} is left out", overhead=percent(overhead)), direct * (1 + profit))
    yield Slip(say("overhead and profit are left out"), direct)
    on_top = (1 + overhead) * (1 + profit)
    yield from scaled(sum_slips(direct_parts(case)), on_top)
    yield from carry_slips(stated, worked)
    yield from factor_slips(worked, COUNT)
    yield from digit_slips(stated, worked)
    exchange = case.number("quote.exchange") or 1
    for ref in case.rows("materials.bom"):
        cost = (case.number("materials.bom.counted", ref) or 0) / exchange * on_top
        for slip in factor_slips(cost, {1 / factor: words for factor, words in COUNT.items()}) if cost else ():
            told = Slip(say("in the price of {ref} {slip}", ref=ref, slip=slip.words), worked - cost + slip.figure)
            if abs(told.figure - stated) <= _ONE_OF_MANY * abs(worked - stated):
                yield told
