"""Pricing: the brand's own sheet, from the vendor's price to the shop. It is in no vendor copy.

Margin is the share of the selling price, mark-up the share of the cost: both are shown, each under its name.
"""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.kinds import choice, money, number, percent, text, whole
from sheetgen.declare.parts import Check, Form, Sheet, Table

PRICING = Sheet("pricing", "Pricing", private=True, purpose="Brand only: never in a vendor copy. Duty and fees are inputs; the customs office decides.", parts=(
    Form("To the warehouse, {currency} per garment", (
        computed("fob", "Vendor's price", money(4), "quote.fob"),
        designer("freight", "Freight", money(4), need="bulk"),
        designer("insurance", "Insurance", money(4), need="bulk"),
        computed("cif", "Price with freight and insurance", money(4), "fob+freight+insurance"),
        designer("duty_base", "Duty is on", choice("price", "price, freight and insurance", width=24), need="bulk", help="By custom: the US on the price, EU and UK with freight and insurance."),
        designer("duty", "Duty", percent(2, 0, 2), need="bulk"),
        computed("duty_cost", "Duty, amount", money(4), 'IF(duty_base="price",fob,cif)*duty'),
        designer("fees", "Entry fees", money(4), need="bulk"),
        designer("inland", "Clearing and inland transport", money(4), need="bulk"),
        computed("landed", "Landed cost", money(4), "cif+duty_cost+fees+inland"),
        designer("ceiling", "Ceiling for the vendor's price", money(4), help="The most that this style can pay."),
        computed("under_ceiling", "Ceiling less price", money(4), "ceiling-fob"),
    )),
    Form("To the shop, {currency} per garment", (
        designer("overhead", "Own overhead per garment", money(4), need="bulk"),
        computed("full_cost", "Full cost", money(4), "landed+overhead"),
        designer("wholesale_margin", "Margin wanted at wholesale", percent(1, 0, 0.99), need="bulk", help="Share of the wholesale price."),
        computed("wholesale_wanted", "Wholesale from that margin", money(4), "full_cost/(1-wholesale_margin)"),
        designer("wholesale", "Wholesale price chosen", money(2), need="bulk"),
        computed("margin_got", "Margin at wholesale", percent(2), "(wholesale-full_cost)/wholesale"),
        computed("markup_got", "Mark-up at wholesale", percent(2), "(wholesale-full_cost)/full_cost"),
        designer("retail_margin", "Shop's margin wanted", percent(1, 0, 0.99), need="bulk", help="Share of the retail price without tax."),
        computed("retail_wanted", "Retail from that margin, without tax", money(4), "wholesale/(1-retail_margin)"),
        designer("tax", "Sales tax in the retail price", percent(1, 0, 1), need="bulk"),
        computed("retail_with_tax", "Retail with tax", money(2), "retail_wanted*(1+tax)"),
        designer("retail", "Retail price chosen, with tax", money(2), need="bulk"),
        computed("retail_margin_got", "Shop's margin", percent(2), "(retail/(1+tax)-wholesale)/(retail/(1+tax))"),
        computed("retail_markup_got", "Shop's mark-up", percent(2), "(retail/(1+tax)-wholesale)/wholesale"),
        computed("direct_margin", "Margin if sold direct", percent(2), "(retail/(1+tax)-full_cost)/(retail/(1+tax))"),
        designer("fixed", "Development cost of the style", money(2), need="bulk", help="Patterns, samples, photos."),
        computed("break_even", "Pieces to break even at wholesale", whole(), 'IF(wholesale<=full_cost,"",ROUNDUP(fixed/(wholesale-full_cost),0))'),
        designer("note", "Note", text(60)),
    )),
    Form("By colorway, {currency} per garment", (
        per("colorway", computed("landed_in", "Landed: {colorway}", money(4), "landed+materials.cost_in.mine-materials.cost",
                                 help="The landed cost, corrected by what this colorway's materials cost more or less.")),
    )),
    Table("ladder", "By quantity", ref="U", key="from_quantity", mirrors="quote.ladder", columns=(
        computed("from_quantity", "From pieces", number(0, width=26),
                 'IF(IFERROR(N(INDEX(quote.ladder.from_quantity,MATCH(ref,quote.ladder.ref,0))),0)=0,"",INDEX(quote.ladder.from_quantity,MATCH(ref,quote.ladder.ref,0)))'),
        computed("price", "Vendor's price", money(4), 'IF(N(INDEX(quote.ladder.price,MATCH(ref,quote.ladder.ref,0)))=0,"",INDEX(quote.ladder.price,MATCH(ref,quote.ladder.ref,0)))'),
        computed("landed_at", "Landed", money(4),
                 'IF(price="","",price+freight+insurance+IF(duty_base="price",price,price+freight+insurance)*duty+fees+inland)'),
        computed("margin", "Margin at wholesale", percent(2), 'IF(landed_at="","",(wholesale-landed_at-overhead)/wholesale)'),
    )),
), checks=(
    Check("over_ceiling", "The vendor's price is above the brand's ceiling", "IF(N(pricing.under_ceiling)<0,1,0)", private=True, fix="Negotiate, or save on materials and minutes."),
    Check("below_cost", "Wholesale price is below full cost",
          'IF(pricing.margin_got="",0,IF(pricing.margin_got<0,1,0))', private=True, fix="Raise the price or lower the cost."),
))  # fmt: skip
