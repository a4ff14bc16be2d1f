"""Steps of the landed cost by quantity, and if something changes. The brand's own: in no vendor copy."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.declare.entry import Entry, computed
from sheetgen.declare.kinds import Kind, money, percent, text, whole
from sheetgen.declare.parts import Section, Table

CHANGES = (-0.1, -0.05, 0.05, 0.1)
"""How much more or less one thing costs."""


def _own(name: str, heading: str, kind: Kind, formula: str) -> Entry:
    return computed(name, heading, kind, formula, private=True)


def _landed(mark: str, price: str, freight: str, duty: str) -> Iterator[Entry]:
    """Landed cost at another price, freight or rate of duty: insurance and shares of the value follow, amounts stay."""
    carried, insured = f"with_freight{mark}", f"insured{mark}"
    yield _own(carried, "Price with freight", money(4), f"{price}+{freight}")
    yield _own(insured, "Insurance", money(4),
               f'IF(pricing.insured&""="share of price and freight",pricing.insurance*{carried},'
               f'IF(pricing.insured&""="share of price with freight and insurance plus 10 %",'
               f"1.1*pricing.insurance*{carried}/(1-1.1*pricing.insurance),pricing.insurance))")  # fmt: skip
    yield _own(
        f"dutiable{mark}", "Value for duty", money(4), f'IF(pricing.duty_base="price",{price},{carried}+{insured})'
    )
    yield _own(f"landed{mark}", "Landed", money(4),
               f"{carried}+{insured}+dutiable{mark}*({duty}+N(pricing.other_duty))+pricing.fees_each+pricing.inland")  # fmt: skip


def _changed(mark: str, change: float) -> Iterator[Entry]:
    yield _own(f"price{mark}", "Price", money(4), f"pricing.fob+part*({change:g})")
    yield _own(f"freight{mark}", "Freight", money(4),
               f'IF(what="Freight",pricing.freight_each*({1 + change:g}),pricing.freight_each)')  # fmt: skip
    yield _own(f"duty{mark}", "Duty", percent(2), f'IF(what="Duty",pricing.duty*({1 + change:g}),pricing.duty)')
    yield from _landed(mark, f"price{mark}", f"freight{mark}", f"duty{mark}")


def in_percent(change: float) -> str:
    """A change as headings name it: +5 %."""
    return f"{'+' if change > 0 else '-'}{abs(change):.0%}".replace("%", " %")


SWINGS = Table("swings", "Landed cost if something changes", ref="S", key="what", mirrors="pricing.swings", columns=(
    _own("what", "What changes", text(26), 'INDEX(pricing.swings.what,MATCH(ref,pricing.swings.ref,0))&""'),
    _own("part", "Share of the price it moves", money(4), "INDEX(pricing.swings.part,MATCH(ref,pricing.swings.ref,0))"),
    *(Section(in_percent(change), tuple(_changed(f"_{number}", change))) for number, change in enumerate(CHANGES, 1)),
))  # fmt: skip

LADDER = Table("ladder", "Landed cost by quantity", ref="U", key="from_quantity", mirrors="pricing.ladder", columns=(
    _own("from_quantity", "From pieces", whole(width=26), "INDEX(pricing.ladder.from_quantity,MATCH(ref,pricing.ladder.ref,0))"),
    _own("price", "Price", money(4), "INDEX(pricing.ladder.price,MATCH(ref,pricing.ladder.ref,0))"),
    *_landed("", "price", "pricing.freight_each", "pricing.duty"),
))  # fmt: skip
