"""Materials: every line of the bill of materials with each vendor's price, made comparable."""

from __future__ import annotations

from sheetgen.declare.entry import computed, fixed, per
from sheetgen.declare.kinds import money, number, text
from sheetgen.declare.parts import Form, Section, Sheet, Table
from sheetgen.offers.sheets.carry import AXIS, answer, worked
from sheetgen.offers.sheets.ledgers import name_of_lowest, others_as_low

LINES = Sheet("lines", "Materials",
              purpose="Each line as each vendor prices it. Cost is per garment: use with waste times price, at the exchange rates of the first sheet.", parts=(
    Form("In short, {currency} per garment", (
        computed("best", "Each line from its cheapest vendor", money(4), "SUM(bom.best_cost)",
                 help="Lines that nobody prices, and alternatives, are not in it."),
    )),
    Table("uses", "Use that the vendors state from their own markers, with waste", ref="W", key="fabric", spare=0, columns=(
        fixed("fabric", "Fabric", text(38)),
        fixed("unit_of_use", "Unit", text(9)),
        fixed("counted_use", "Counted here", number(4, width=10)),
        per(AXIS, fixed("stated", "{vendor}", number(4, width=10))),
    ), note="Blank: not stated. The costs below count with the brand's own use."),
    Table("bom", "Line by line", ref="M", key="item", spare=0,
          note="Lowest: +1 where one more vendor asks the same. Alternatives are shown and not counted.", columns=(
        fixed("item", "Item", text(38)),
        fixed("unit", "Unit", text(6)),
        fixed("gross", "Use with waste", number(4, width=10)),
        Section("{vendor}", axis=AXIS, columns=(
            answer("materials.bom.price"),
            answer("materials.bom.currency"),
            per(AXIS, computed("shown", "Cost, {currency}", money(4, width=10),
                               'IF(price.mine="","missing",IF(cost.mine="","no rate",N(cost.mine)))'), lowest=True),
        )),
        computed("lowest", "Lowest", text(23), name_of_lowest("cost.all", "others")),
        Section("Worked out", printed=False, columns=(
            fixed("instead_of", "Alternative to", text(9)),
            worked("materials.bom.rate"),
            worked("materials.bom.price_here"),
            worked("materials.bom.cost"),
            worked("materials.bom.counted"),
            computed("others", "Others as low", text(9), others_as_low("cost.all")),
            computed("best_cost", "Lowest cost counted", money(4), 'IF(OR(instead_of<>"",COUNT(cost.all)=0),"",MIN(cost.all))'),
        )),
    )),
))  # fmt: skip
