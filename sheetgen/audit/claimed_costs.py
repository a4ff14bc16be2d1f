"""Claimed costs: what a vendor's own sheet says of a line, of the making and of the sums, against the figures of the return."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from sheetgen.audit.case import Case
from sheetgen.audit.cost_slips import (
    agrees,
    direct_slips,
    direct_sums,
    line_rights,
    line_slips,
    make_slips,
    make_sums,
    material_slips,
    material_sums,
    other_rate,
    quote_currency,
)
from sheetgen.audit.prices import all_priced
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.audit.slips import Slip, apart, comes_of, recognised, shown
from sheetgen.declare.entry import Place

_TOTALS: tuple[tuple[str, str, Callable[[Case], list[float]], Callable[[Case, float], Iterator[Slip]]], ...] = (
    ("stated_make", "make_cost", make_sums, make_slips),
    ("stated_materials", "materials_cost", material_sums, material_slips),
    ("stated_direct", "direct", direct_sums, direct_slips),
)
"""Stated total, what the sheet works out, what it may be, what may go wrong in it."""


def _judge(
    place: Place, stated: float, rights: Sequence[float], slips: Iterable[Slip], currency: str, otherwise: str = ""
) -> Iterator[Fault]:
    """A fault if an amount is none of the right ones; the first of them is told, and `otherwise` if no slip is found."""
    if not rights or not rights[0] or agrees(stated, rights):
        return
    told = apart(stated, rights[0], currency) + comes_of(recognised(stated, rights, slips) or otherwise)
    yield Fault(place, shown(rights[0], currency, stated), f"{stated:.10g} {currency}".strip(), cause=told)


@rule(
    title="A stated cost of a line does not follow from its use and price",
    level="fix",
    source="common practice: use with waste × price × exchange rate (published examples F4 and L5 and rejected ones fail it)",
    message="{place} is stated as {found}; use with waste × price gives {expected}.{cause}",
    why="Either the use, the price or the product is wrong, and the price of the garment rests on all three.",
    fix="Correct it to {expected}, or the use or the price that stands in the line.",
    bad=(
        Example(
            "the waste of 5 % left out; an amount that nothing explains; dollars that were not changed into euros",
            {
                "materials.bom[M1].stated_cost": 8.37,
                "materials.bom[M2].stated_cost": 0.24,
                "materials.bom[M5].stated_cost": 0.836,
            },
            (
                "cost-claimed materials.bom[M1].stated_cost",
                "cost-claimed materials.bom[M2].stated_cost",
                "cost-claimed materials.bom[M5].stated_cost",
            ),
        ),
    ),
    fine=(
        Example(
            "rounded to cents; with the vendor's own use, which is close to the pieces",
            {
                "materials.bom[M5].stated_cost": 0.77,
                "yield.fabrics[B1].stated_gross": 1.87,
                "materials.bom[M1].stated_cost": 8.6955,
            },
        ),
    ),
)
def cost_claimed(case: Case) -> Iterator[Fault]:
    currency = str(case.value("style.currency") or "")
    for ref in case.rows("materials.bom"):
        stated = case.number("materials.bom.stated_cost", ref)
        if stated is not None:
            place, rights = Place("materials.bom.stated_cost", ref), line_rights(case, ref)
            slips, rate = line_slips(case, ref, stated), other_rate(case, ref, stated)
            yield from _judge(place, stated, rights, slips, currency, rate)


@rule(
    title="A stated total does not add up",
    level="fix",
    source="common practice: totals re-add (published costings F5 and L5 carry such slips)",
    message="{heading} is stated as {found}; its parts give {expected}.{cause}",
    why="All that follows, overhead, profit and price, carries the same slip.",
    fix="Correct it to {expected}, or the part that is wrong.",
    bad=(
        Example(
            "1.00 lost in adding up the direct cost",
            {"quote.stated_direct": 21.53},
            ("total-claimed quote.stated_direct",),
        ),
        Example(
            "minutes multiplied by the efficiency",
            {"quote.stated_make": 5.525},
            ("total-claimed quote.stated_make",),
        ),
        Example(
            "the shell fabric left out of the materials",
            {"quote.stated_materials": 1.98},
            ("total-claimed quote.stated_materials",),
        ),
        Example(
            "a direct cost that holds the slip in the making: said once",
            {"quote.stated_make": 5.525, "quote.stated_direct": 17.3927},
            ("total-claimed quote.stated_make",),
        ),
    ),
    fine=(
        Example(
            "all three rounded",
            {"quote.stated_direct": 22.53, "quote.stated_make": 10.66, "quote.stated_materials": 10.77},
        ),
        Example("a sum of lines that were rounded to cents first", {"quote.stated_materials": 10.78}),
        Example(
            "a material without a price: that comes first",
            {"materials.bom[M1].price": None, "quote.stated_materials": 10.77},
            ("entry-missing materials.bom[M1].price",),
        ),
    ),
)
def total_claimed(case: Case) -> Iterator[Fault]:
    currency = quote_currency(case)
    for name, of, sums, slips in _TOTALS:
        stated, worked = case.number(f"quote.{name}"), case.number(f"quote.{of}")
        if stated is not None and worked and (of == "make_cost" or all_priced(case)):
            yield from _judge(Place(f"quote.{name}"), stated, [worked, *sums(case)], slips(case, stated), currency)


RULES = (cost_claimed, total_claimed)
