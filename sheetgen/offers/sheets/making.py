"""Making and price: how each vendor's price comes about, in one currency and in its own."""

from __future__ import annotations

from sheetgen.declare.entry import computed, per
from sheetgen.declare.kinds import money, percent, text
from sheetgen.declare.parts import Line, Sheet
from sheetgen.offers.sheets.carry import AXIS, answer, heading, worked
from sheetgen.offers.sheets.ledgers import line, side_by_side, with_steps

_IN_ONE = (
    "materials_cost", "sew_cost", "cut_cost", "finish_cost", "make_cost", "process_cost", "testing_cost", "packing_cost",
    "commercial_cost", "direct", "overhead_cost", "profit_cost", "worked_out",
)  # fmt: skip


_WITH_MATERIALS = frozenset({"materials_cost", "direct", "overhead_cost", "profit_cost", "worked_out"})
"""Sums that look too low while a line of materials has no price: they are not compared then."""


def _converted(name: str) -> str:
    here = f"{name}.mine*offers.exchange.mine"
    return f'IF(offers.unpriced.mine>0,"lines missing",{here})' if name in _WITH_MATERIALS else here


def _in_style_currency(name: str) -> Line:
    entry = computed(f"{name}_here", heading(f"quote.{name}"), money(4), _converted(name))
    return line(per(AXIS, entry, lowest=True))


MAKING = Sheet("making", "Making and price", purpose="What each vendor's price is made of.", parts=with_steps(
    side_by_side(
        "From cost to price, {currency} per garment",
        *map(_in_style_currency, _IN_ONE),
        line(per(AXIS, computed("quoted_here", "Price quoted", money(4), "offers.fob.mine*offers.exchange.mine"), lowest=True)),
        line(per(AXIS, computed("unexplained_here", "Of it not explained by the lines above", money(4, None),
                                'IF(offers.unpriced.mine>0,"lines missing",unexplained.mine*offers.exchange.mine)'))),
        note="Blank where the vendor left open what it is worked out from. Lines missing: a material without a price would make the sum look low.",
    ),
    side_by_side(
        "As each vendor states it, in the currency of its quote",
        line(per(AXIS, computed("in_currency", "Currency", text(18), 'IF(offers.quoted_in.mine="",offers.currency,offers.quoted_in.mine)'))),
        line(answer("quote.sew_minutes", lowest=True)),
        line(answer("quote.cut_minutes", lowest=True)),
        line(answer("quote.finish_minutes", lowest=True)),
        line(answer("quote.rate")),
        line(answer("quote.efficiency")),
        line(worked("quote.sew_cost")),
        line(worked("quote.cut_cost")),
        line(worked("quote.finish_cost")),
        line(worked("quote.make_cost")),
        line(worked("quote.materials_cost")),
        line(answer("quote.process_cost")),
        line(answer("quote.testing_cost")),
        line(answer("quote.packing_cost")),
        line(answer("quote.commercial_cost")),
        line(worked("quote.direct")),
        line(answer("quote.overhead", kind=percent(1, 0, 2), lowest=True)),
        line(worked("quote.overhead_cost")),
        line(answer("quote.profit", kind=percent(1, 0, 2), lowest=True)),
        line(worked("quote.profit_cost")),
        line(worked("quote.worked_out")),
        line(worked("quote.unexplained", kind=money(4, None))),
        new_page=True,
    ),
))  # fmt: skip
