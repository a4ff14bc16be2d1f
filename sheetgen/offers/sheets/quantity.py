"""Price by quantity: what each vendor asks at which quantity, and the same at any quantity in one currency."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, fixed, or_zero, per
from sheetgen.declare.kinds import money, number, text, whole
from sheetgen.declare.parts import Chart, Section, Sheet, Table
from sheetgen.offers.sheets.carry import AXIS, answer, carried
from sheetgen.offers.sheets.ledgers import name_of_lowest, others_as_low

_STEP = carried("quote.tier", {"quote.planned": "quantity"})
_PRICE = carried("quote.at_order", {"quote.tier": "step.mine"})
"""The style's own formulas for the order's quantity, about the quantity of the row."""

QUANTITY = Sheet("quantity", "Price by quantity",
                 purpose="What each vendor asks at which quantity. The price per garment of the quote holds below its first step.", parts=(
    Table("ladder", "As each vendor states it, in the currency of its quote", ref="U", key="number", spare=0, columns=(
        fixed("number", "Step", whole(width=16)),
        Section("{vendor}", axis=AXIS, columns=(
            answer("quote.ladder.from_quantity", kind=whole(least=1, width=18)),
            answer("quote.ladder.price", kind=money(4, width=18)),
        )),
    )),
    Chart("Vendor's price by quantity", "line", unit="{currency} per garment", height=200, series=("breaks.price_at.all",), categories="breaks.quantity",
          description="The price per garment of each vendor in the style's currency, by quantity"),
    Table("breaks", "In {currency} per garment", ref="Q", key="quantity", spare=2, new_page=True,
          note="At every quantity that a vendor names, and at the order's. Type any other quantity below. Minimums are not looked at here: see Offers.",
          columns=(
        designer("quantity", "Pieces", whole(least=1, width=16)),
        per(AXIS, computed("price_at", "{vendor}", money(4), f"({_PRICE})*offers.exchange.mine"), lowest=True),
        computed("lowest", "Lowest", text(23), name_of_lowest("price_at.all", "others")),
        Section("The step that applies, from pieces", columns=(
            per(AXIS, or_zero("no price by quantity reaches so few: the one per garment holds", computed("step", "{vendor}", number(0), _STEP))),
        )),
        Section("Worked out", printed=False, columns=(
            computed("others", "Others as low", text(9), others_as_low("price_at.all")),
        )),
    )),
))  # fmt: skip
