"""Materials: everything bought for one garment, what it uses of each, and what that costs."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per, vendor
from sheetgen.declare.kinds import choice, date, length, money, number, percent, pick, picture, text, whole
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table

GROUPS = ("fabric", "trim", "label", "packing", "thread")
_RATE = 'IF(currency=style.currency,1,IFERROR(INDEX(rates.rate,MATCH(currency,rates.code,0)),""))'

MATERIALS = Sheet("materials", "Materials", purpose="One line for each article that is bought. Prices per unit, without tax.", parts=(
    Form("In short, {currency} per garment", (
        *(computed(f"cost_{group}", group.capitalize(), money(4), f'SUMIF(bom.group,"{group}",bom.cost)') for group in GROUPS),
        computed("cost", "All materials", money(4), "SUM(bom.cost)", help="Of the lines that have a price, all colorways."),
        computed("priced", "Lines with a cost", text(), 'COUNT(bom.cost)&" of "&SUMPRODUCT((bom.item<>"")*1)'),
        per("colorway", computed("cost_in", "Materials: {colorway}", money(4), 'SUMPRODUCT((bom.color.mine<>"")*1,bom.cost)',
                                 help="Lines with a color in this colorway.")),
    )),
    Table("rates", "Exchange rates", ref="X", key="code", spare=2, note="What one unit of that currency is worth in the style's currency.", columns=(
        designer("code", "Currency", text(26), need="quote"),
        designer("rate", "Rate", number(6, 0.000001, width=9), need="quote"),
        designer("on", "On", date(), need="quote"),
        designer("from_where", "Source", text(14)),
    )),
    Table("bom", "Bill of materials", ref="M", key="item", spare=4, row_height=34, columns=(
        designer("item", "Item", text(26), need="quote", help="One line for each article."),
        designer("group", "Group", choice(*GROUPS, width=9), need="quote"),
        designer("kind", "Kind", choice("fabric", "lining", "rib", "interlining", "filling", "zip", "button", "snap", "cord", "cord stopper", "elastic", "tape", "label", "tag", "thread", "bag", "carton", "print", "leather", "down", "other", open=True, width=10), need="quote"),
        designer("zone", "Where", choice("body", "hood or neck", "waist", "hem", "sleeve", "pocket", "front", "inside", "packing", "all", open=True, width=11), need="quote"),
        designer("composition", "Composition", text(22), need="quote"),
        designer("weight", "Weight, g/m²", number(0, 0), help="Fabrics."),
        designer("width", "Width, {unit}", length(least=0), help="Fabrics: usable width. Trims: size."),
        designer("net", "Net use", number(4, 0), need="quote", help="In one garment, before waste."),
        designer("unit", "Unit", choice("m", "m²", "kg", "g", "pc", "set", "dozen", "cone", open=True, width=6), need="quote", help="Of use and of price."),
        designer("waste", "Waste", percent(1, 0, 0.5), need="quote", help="Added to the net use."),
        vendor("price", "Price per unit", money(4), need="quote", help="A number only; the currency is in the next column."),
        vendor("currency", "Currency", pick("materials.rates.code", 9), need="quote"),
        computed("gross", "Gross use", number(4), "net*(1+waste)"),
        computed("price_here", "Price, {currency}", money(4), f"IF({_RATE}=\"\",\"\",price*{_RATE})"),
        computed("cost", "Cost, {currency}", money(4), "ROUND(gross*price_here,4)", help="Per garment."),
        Section("Where it comes from", new_page=True, columns=(
            vendor("supplier", "Supplier", text(20), need="sample"),
            vendor("supplier_ref", "Supplier's article", text(16), need="sample"),
            vendor("minimum", "Minimum", number(0, 0), need="quote", help="Smallest quantity that the supplier sells, in the unit."),
            vendor("lead", "Lead time, days", whole(least=0), need="quote"),
            designer("picture", "Picture", picture(12)),
            designer("note", "Note", text(24)),
            designer("target", "Target price", money(4), private=True, help="Brand only: never in a vendor copy."),
        )),
        Section("Color in each colorway", (
            per("colorway", designer("color", "{colorway}", text(14), help="Leave blank where this colorway does not use it.")),
        )),
    )),
), checks=(
    Check("no_rate", "A price in a currency without a rate",
          'SUMPRODUCT((materials.bom.item<>"")*(materials.bom.price<>"")*(materials.bom.currency<>""))-COUNT(materials.bom.price_here)',
          fix="Add the currency to the exchange rates."),
))  # fmt: skip
