"""Pricing: the brand's own sheet, from the vendor's price to the shop. It is in no vendor copy.

Margin is the share of the selling price, mark-up the share of the cost: both are shown, each under its name.
Insured value: the price with freight and insurance plus 10 % is the customary cover (Incoterms 2020, CIF A5 and CIP
A5, from memory), so with a rate r the premium is 1.1 x r x (price + freight) / (1 - 1.1 x r).
"""

from __future__ import annotations

from sheetgen.declare.entry import Entry, computed, designer, fixed, per
from sheetgen.declare.kinds import choice, money, number, percent, text, whole
from sheetgen.declare.parts import Chart, Check, Form, Section, Sheet, Table
from sheetgen.sheets.lookups import row_of
from sheetgen.sheets.workings.landed import CHANGES, in_percent

_CHANGED = ("Vendor's price", "Exchange rate of the quote", "Fabric use", "Freight", "Duty")


def _worked_out(table: str, column: str) -> str:
    return f"INDEX(workings.{table}.{column},MATCH(ref,workings.{table}.ref,0))"


def _columns(landed: str) -> tuple[Entry, ...]:
    return (
        computed("landed_at", "Landed", money(4), landed),
        computed(
            "margin", "Margin at wholesale", percent(2, None, width=10), "(wholesale-landed_at-overhead)/wholesale"
        ),
    )


PRICING = Sheet("pricing", "Pricing", seen="bulk", seen_with="quote.fob", private=True,
                purpose="Brand only: never in a vendor copy. Duty and fees are inputs; the customs office decides.", parts=(
    Form("To the warehouse, {currency} per garment", (
        computed("fob", "Vendor's price at the order's quantity", money(4), "quote.price"),
        designer("freight", "Freight", money(4), need="bulk", unless="freight_by_volume", help="Per garment.", blank="from the rate per m³ and the cartons"),
        designer("freight_rate", "Freight, {currency} per m³", money(2)),
        computed("freight_by_volume", "Freight from volume", money(4),
                 'IF(OR(freight_rate="",N(order.volume)=0,N(order.pieces)=0),"",freight_rate*N(order.volume)/order.pieces)'),
        computed("freight_each", "Freight counted", money(4), 'IF(freight<>"",freight,IF(freight_by_volume="","",N(freight_by_volume)))'),
        designer("insured", "Insurance is",
                 choice("amount per garment", "share of price and freight", "share of price with freight and insurance plus 10 %", width=28),
                 blank="an amount"),
        designer("insurance", "Insurance", number(4, 0, width=10), need="bulk", help="The amount, or the share as 0.003 for 0.3 %."),
        computed("insurance_cost", "Insurance, amount", money(4),
                 'IF(insured&""="share of price and freight",insurance*(fob+freight_each),'
                 'IF(insured&""="share of price with freight and insurance plus 10 %",'
                 '1.1*insurance*(fob+freight_each)/(1-1.1*insurance),insurance))'),
        computed("cif", "Price with freight and insurance", money(4), "fob+freight_each+insurance_cost"),
        designer("duty_base", "Duty is on", choice("price", "price with freight and insurance", width=24), need="bulk",
                 help="By custom: the US on the price, EU and UK with freight and insurance."),
        designer("duty", "Duty", percent(2, 0, 2), need="bulk"),
        designer("other_duty", "Further duties on that value", percent(3, 0, 2), help="They add to the duty, each on the same value."),
        computed("duty_value", "Value for duty", money(4), 'IF(duty_base="price",fob,cif)'),
        computed("duty_cost", "Duty, amount", money(4), "duty_value*(duty+N(other_duty))"),
        designer("fees", "Entry fees, amount", money(4), need="bulk"),
        designer("fee_share", "Entry fees, share of the price", percent(4, 0, 0.2), help="Processing and harbor fees that follow the value."),
        designer("fee_least", "At least, for the shipment", money(2), help="Some fees have a smallest amount for each entry,"),
        designer("fee_most", "At most, for the shipment", money(2), help="and a largest; both change, look them up."),
        computed("fee_shipment", "Such fees for the shipment", money(2),
                 'MAX(N(fee_least),IF(fee_most="",fob*N(fee_share)*N(order.pieces),MIN(N(fee_most),fob*N(fee_share)*N(order.pieces))))'),
        computed("fees_each", "Entry fees counted", money(4),
                 "fees+IF(N(fee_share)=0,0,IF(N(order.pieces)=0,fob*N(fee_share),fee_shipment/N(order.pieces)))"),
        designer("inland", "Clearing and inland transport", money(4), need="bulk"),
        computed("landed", "Landed cost", money(4), "cif+duty_cost+fees_each+inland"),
        computed("landed_tax", "Import tax on top, if it is not got back", money(4), "(duty_value+duty_cost)*tax",
                 help="Value for duty and duty, times the sales tax; not in the landed cost."),
        designer("ceiling", "Ceiling for the vendor's price", money(4), help="The most that this style can pay."),
        computed("under_ceiling", "Ceiling less price", money(4), "ceiling-fob"),
    )),
    Form("To the shop, {currency} per garment", new_page=True, entries=(
        designer("overhead", "Own overhead per garment", money(4), need="bulk"),
        computed("full_cost", "Full cost", money(4), "landed+overhead"),
        designer("wholesale_margin", "Margin wanted at wholesale", percent(1, 0, 0.99), need="bulk", help="Share of the wholesale price."),
        computed("wholesale_wanted", "Wholesale from that margin", money(4), "full_cost/(1-wholesale_margin)"),
        designer("wholesale", "Wholesale price chosen", money(2), need="bulk"),
        computed("margin_got", "Margin at wholesale", percent(2, None, width=10), "(wholesale-full_cost)/wholesale"),
        computed("markup_got", "Mark-up at wholesale", percent(2, None, width=10), "(wholesale-full_cost)/full_cost"),
        designer("distributor_discount", "Distributor buys below wholesale by", percent(1, 0, 0.9), help="Share of the wholesale price."),
        computed("distributor", "Distributor's price", money(4), 'IF(distributor_discount="","",IFERROR(wholesale*(1-distributor_discount),""))'),
        computed("distributor_margin", "Margin at the distributor's price", percent(2, None, width=10),
                 'IF(distributor="","",(N(distributor)-full_cost)/N(distributor))'),
        designer("retail_margin", "Shop's margin wanted", percent(1, 0, 0.99), need="bulk", help="Share of the retail price without tax."),
        computed("retail_wanted", "Retail from that margin, without tax", money(4), "wholesale/(1-retail_margin)"),
        designer("tax", "Sales tax in the retail price", percent(1, 0, 1), need="bulk"),
        computed("retail_with_tax", "Retail with tax", money(2), "retail_wanted*(1+tax)"),
        designer("retail", "Retail price chosen, with tax", money(2), need="bulk"),
        computed("retail_margin_got", "Shop's margin", percent(2, None, width=10), 'IF(retail=0,"",(retail/(1+tax)-wholesale)/(retail/(1+tax)))'),
        computed("retail_markup_got", "Shop's mark-up", percent(2, None, width=10), 'IF(wholesale=0,"",(retail/(1+tax)-wholesale)/wholesale)'),
        computed("direct_margin", "Margin if sold direct", percent(2, None, width=10), 'IF(retail=0,"",(retail/(1+tax)-full_cost)/(retail/(1+tax)))'),
        designer("note", "Note", text(60)),
    )),
    Form("Break-even, and the order as a whole, {currency}", (
        designer("fixed", "Own development cost of the style", money(2), need="bulk", help="Patterns, samples, photos."),
        computed("fixed_all", "With what the vendor charges once", money(2), "fixed+N(quote.one_off)"),
        computed("break_even", "Pieces to break even at wholesale", whole(), 'IF(wholesale<=full_cost,"",ROUNDUP(ROUND(fixed_all/(wholesale-full_cost),9),0))'),
        computed("order_cost", "Landed cost of the order", money(2), "ROUND(landed*order.pieces,2)"),
        computed("surplus_each", "Material left over, per garment", money(4), 'IF(N(order.pieces)=0,"",N(order.surplus_cost)/order.pieces)',
                 help="What is bought and not used, if the brand pays for it."),
        computed("earned", "Earned on the order at wholesale", money(2), "ROUND((wholesale-full_cost)*order.pieces-fixed_all,2)"),
    )),
    Form("Where the money goes: shares of the wholesale price, {currency} per garment", new_page=True, entries=(
        computed("part_materials", "Materials", money(4), "materials.cost"),
        computed("part_known", "Materials with a cost", text(), 'materials.priced&""',
                 help="While one is missing, materials are the least and making is the most that they can be."),
        computed("part_making", "Making, overhead and profit of the factory", money(4), "fob-part_materials", help="The vendor's price less the materials."),
        computed("part_transport", "Freight and insurance", money(4), "freight_each+insurance_cost"),
        computed("part_duty", "Duty and entry fees", money(4), "duty_cost+fees_each"),
        computed("part_inland", "Clearing and inland", money(4), "inland"),
        computed("part_overhead", "Own overhead", money(4), "overhead"),
        computed("part_margin", "Margin at wholesale", money(4), "wholesale-full_cost"),
        computed("part_sum", "Wholesale price", money(4), "part_materials+part_making+part_transport+part_duty+part_inland+part_overhead+part_margin"),
    )),
    Chart("Where the money goes", "stacked bars", unit="{currency} per garment", height=160,
          series=("part_materials", "part_making", "part_transport", "part_duty", "part_inland", "part_overhead", "part_margin"),
          description="The wholesale price, part by part"),
    Table("markets", "By market, {currency} per garment", ref="DL", key="to", mirrors="order.deliveries",
          note="The deliveries of the order, each with what it costs to get there and what it is sold for. Blank: as above.", columns=(
        computed("to", "Goes to", text(26), f'IFERROR({row_of("order.deliveries.to")}&"","")'),
        designer("price_there", "Vendor's price", money(4), help="At that delivery's term.", blank="as above"),
        designer("freight_there", "Freight", money(4), blank="as above"),
        designer("insurance_there", "Insurance", money(4), blank="as above"),
        designer("base_there", "Duty is on", choice("price", "price with freight and insurance", width=14), blank="as above"),
        designer("rate_there", "Duty", percent(2, 0, 2), help="With further duties on that value.", blank="as above"),
        designer("fees_there", "Fees and inland", money(4), blank="as above"),
        computed("landed_there", "Landed", money(4), "cif_there+duty_there+IF(fees_there=\"\",fees_each+inland,fees_there)"),
        designer("wholesale_there", "Wholesale", money(2), blank="as above"),
        designer("tax_there", "Sales tax", percent(1, 0, 1), blank="as above"),
        designer("retail_there", "Retail, with tax", money(2), blank="as above"),
        computed("margin_there", "Margin at wholesale", percent(2, None, width=10),
                 'IF(sold_at=0,"",(sold_at-landed_there-overhead)/sold_at)'),
        computed("shop_there", "Shop's margin", percent(2, None, width=10), 'IF(shop_net=0,"",(shop_net-sold_at)/shop_net)'),
        computed("earned_there", "Earned there", money(0, None, width=11), "(sold_at-landed_there-overhead)*pieces_there"),
        Section("Steps", printed=False, columns=(
            computed("pieces_there", "Pieces", whole(), f'IFERROR({row_of("order.deliveries.total")},"")'),
            computed("price_counted", "Price counted", money(4), 'IF(price_there="",fob,price_there)'),
            computed("cif_there", "With freight and insurance", money(4),
                     'price_counted+IF(freight_there="",freight_each,freight_there)+IF(insurance_there="",insurance_cost,insurance_there)'),
            computed("duty_there", "Duty, amount", money(4),
                     'IF(IF(base_there="",duty_base&"",base_there&"")="price",price_counted,cif_there)*IF(rate_there="",duty+N(other_duty),rate_there)'),
            computed("sold_at", "Wholesale counted", money(4), 'IF(wholesale_there="",wholesale,wholesale_there)'),
            computed("shop_net", "Retail without tax", money(4),
                     'IF(retail_there="",retail,retail_there)/(1+IF(tax_there="",tax,tax_there))'),
        )),
    )),
    Form("By colorway, {currency} per garment", (
        per("colorway", computed("landed_in", "Landed: {colorway}", money(4), "landed+materials.cost_in.mine-materials.cost",
                                 help="The landed cost, corrected by what this colorway's materials cost more or less.")),
        per("colorway", computed("margin_in", "Margin at wholesale: {colorway}", percent(2, None, width=10), "(wholesale-landed_in.mine-overhead)/wholesale")),
    )),
    Table("ladder", "By quantity", ref="U", key="from_quantity", mirrors="quote.ladder", new_page=True, columns=(
        computed("from_quantity", "From pieces", number(0, width=26),
                 'IF(IFERROR(N(INDEX(quote.ladder.from_quantity,MATCH(ref,quote.ladder.ref,0))),0)=0,"",'
                 'INDEX(quote.ladder.from_quantity,MATCH(ref,quote.ladder.ref,0)))'),
        computed("price", "Vendor's price", money(4),
                 'IF(N(INDEX(quote.ladder.price,MATCH(ref,quote.ladder.ref,0)))=0,"",INDEX(quote.ladder.price,MATCH(ref,quote.ladder.ref,0))*quote.exchange)'),
        *_columns(_worked_out("ladder", "landed")),
        per("colorway", computed("landed_of", "Landed: {colorway}", money(4), "landed_at+materials.cost_in.mine-materials.cost")),
        per("colorway", computed("margin_of", "Margin: {colorway}", percent(2, None, width=10), "(wholesale-landed_of.mine-overhead)/wholesale")),
        computed("earned_at", "Earned at that quantity", money(0, None, width=12), "(wholesale-landed_at-overhead)*from_quantity-fixed_all"),
    )),
    Table("swings", "If something changes", ref="S", key="what", spare=0, rows=tuple({"what": what} for what in _CHANGED),
          note="Landed cost and margin at wholesale if one thing costs more or less and all else stays. "
               "Fabric use goes into the vendor's price with its overhead and profit.", columns=(
        fixed("what", "What changes", text(26)),
        computed("part", "Share of the price it moves", money(4),
                 'IF(what="Vendor\'s price",fob,IF(what="Exchange rate of the quote",IF(quote.exchange=1,0,fob),'
                 'IF(what="Fabric use",materials.cost_fabric*(1+N(quote.overhead))*(1+N(quote.profit)),0)))'),
        *(Section(in_percent(change), (
            computed(f"landed_{number}", "Landed", money(4), _worked_out("swings", f"landed_{number}")),
            computed(f"margin_{number}", "Margin", percent(2, None, width=10), f"(wholesale-landed_{number}-overhead)/wholesale"),
        )) for number, change in enumerate(CHANGES, 1)),
    )),
), checks=(
    Check("over_ceiling", "The vendor's price is above the brand's ceiling", "IF(N(pricing.under_ceiling)<0,1,0)", private=True,
          fix="Negotiate, or save on materials and minutes."),
    Check("below_cost", "Wholesale price is below full cost",
          'IF(pricing.margin_got="",0,IF(pricing.margin_got<0,1,0))', private=True, fix="Raise the price or lower the cost."),
    Check("quantity_below_break_even", "The order is below the break-even quantity",
          'IF(OR(pricing.break_even="",N(order.pieces)=0),0,IF(order.pieces<pricing.break_even,1,0))', private=True,
          fix="Order more, raise the price, or spread the development cost over a longer life."),
))  # fmt: skip
