"""Quote: the vendor's price and terms, and how the price comes about.

The quote is in a currency of its own; `price` is what the rest of the book counts with, in the style's currency and
for the quantity that is ordered.
"""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, or_zero, vendor
from sheetgen.declare.kinds import date, money, number, percent, suggest, text, whole
from sheetgen.declare.parts import Check, Form, Sheet, Table

QUOTE = Sheet("quote", "Quote", seen="answers", seen_with="quote.fob", goes=("quote", "bulk"),
              purpose="The vendor's price per garment, its terms, and what it is made of.", parts=(
    Form("Price, in the quote's currency", (
        vendor("currency", "Quote is in", suggest("materials.rates.code", 9),
               help="Another than {currency} stands among the exchange rates in Materials.", blank="{currency}"),
        computed("exchange", "One of it is worth, {currency}", number(6),
                 'IF(OR(currency="",currency&""=style.currency&""),1,IFERROR(INDEX(materials.rates.rate,MATCH(currency,materials.rates.code,0)),""))'),
        computed("rate_on", "Rate of", date(),
                 'IF(OR(currency="",currency&""=style.currency&""),"",'
                 'IFERROR(IF(INDEX(materials.rates.on,MATCH(currency,materials.rates.code,0))="","",'
                 'INDEX(materials.rates.on,MATCH(currency,materials.rates.code,0))),""))'),
        vendor("fob", "Price per garment", money(4), need="quote", help="At the delivery term and place below."),
        vendor("valid_until", "Valid until", date(), need="quote"),
        or_zero("no price by quantity reaches the order: the one per garment holds", computed(
            "tier", "Price by quantity that applies, from pieces", whole(),
            'IF(planned="",0,IFERROR(SUMPRODUCT(MAX((ladder.from_quantity<=planned)*(ladder.price<>"")*ladder.from_quantity)),0))')),
        computed("at_order", "Price at the order's quantity", money(4), 'IF(N(tier)=0,fob,INDEX(ladder.price,MATCH(N(tier),ladder.from_quantity,0)))',
                 help="From the prices by quantity, where they reach it."),
        computed("price", "The same, {currency}", money(4), "at_order*exchange", help="What Pricing and Order count with."),
        designer("target", "Target told to the vendor, {currency}", money(4), help="Leave blank to tell none."),
        designer("asked_quantities", "Prices wanted for", text(60), help="Quantities, as in: 300, 600 and 1,200 pieces."),
        designer("asked_until", "Wanted valid until", date()),
        computed("planned", "Pieces in the order as planned", whole(), 'IF(order.pieces=0,"",order.pieces)'),
        computed("over_target", "Price less target, {currency}", money(4), "price-target"),
        vendor("remark", "Vendor's remark", text(60)),
    )),
    Form("Terms", (
        vendor("term", "Delivery term", suggest("lists.terms.term"), help="Incoterms 2020.", blank="as on the Style sheet"),
        vendor("place", "Named place", text(), blank="as on the Style sheet"),
        vendor("payment", "Payment", text(60), blank="as on the Style sheet"),
        vendor("minimum_style", "Minimum per style, pieces", whole(least=0), need="quote"),
        vendor("minimum_colorway", "Minimum per colorway, pieces", whole(least=0), need="quote"),
        vendor("surcharge", "Surcharge below the minimum, once", money(2), help="What a smaller order costs, in the quote's currency.",
               blank="less is not made"),
        vendor("lead_time", "Lead time after approval, days", whole(least=0), need="quote"),
        vendor("sample_price", "Price of a sample", money(2), need="quote"),
        vendor("development", "Development charge, once", money(2), help="Patterns, grading, samples: blank or 0 if there is none."),
        vendor("tooling", "Tooling, once", money(2), help="Screens, moulds, dies, engraving."),
        vendor("tooling_for", "Tooling is for", text()),
        computed("one_off", "Charged once, {currency}", money(2), "ROUND((N(development)+N(tooling))*exchange,2)"),
    )),
    Form("Making, in the quote's currency", new_page=True, entries=(
        vendor("sew_minutes", "Sewing, standard minutes", number(2, 0), need="quote"),
        vendor("cut_minutes", "Cutting, standard minutes", number(2, 0), need="quote"),
        vendor("finish_minutes", "Finishing and packing, standard minutes", number(2, 0), need="quote"),
        vendor("wages", "Wages of the line per month", money(2), help="To work out the cost of a minute."),
        vendor("operators", "Operators", whole(least=1)),
        vendor("days", "Days per month", number(1, 1)),
        vendor("hours", "Hours per day", number(1, 0.1)),
        computed("minutes_available", "Minutes available per month", number(0), "operators*days*hours*60"),
        computed("minute_cost", "Cost of a minute available", money(6), "wages/minutes_available"),
        vendor("rate", "Cost of a minute", money(6), need="quote", help="At 100 % efficiency. If yours is cost per minute produced, put 100 % below."),
        vendor("efficiency", "Efficiency", percent(1, 0.01, 1.5), need="quote"),
        computed("sew_cost", "Sewing", money(4), "sew_minutes*rate/efficiency"),
        computed("cut_cost", "Cutting", money(4), "cut_minutes*rate/efficiency"),
        computed("finish_cost", "Finishing and packing", money(4), "finish_minutes*rate/efficiency"),
        computed("make_cost", "Make cost", money(4), "sew_cost+cut_cost+finish_cost"),
        vendor("stated_make", "Vendor's make cost", money(4), help="If the vendor's own sheet says one: it is compared."),
    )),
    Form("From cost to price, per garment in the quote's currency", (
        computed("materials_cost", "Materials", money(4), "materials.cost/exchange"),
        vendor("stated_materials", "Vendor's materials total", money(4), help="If the vendor's own sheet says one: it is compared."),
        vendor("process_cost", "Print, embroidery, wash", money(4), need="quote", help="0 if there is none."),
        vendor("testing_cost", "Testing", money(4), need="quote"),
        vendor("packing_cost", "Packing work, not in the materials", money(4), need="quote"),
        vendor("commercial_cost", "Bank, forwarding, commission", money(4), need="quote"),
        computed("direct", "Direct cost", money(4), "materials_cost+make_cost+process_cost+testing_cost+packing_cost+commercial_cost"),
        vendor("stated_direct", "Vendor's direct cost", money(4), help="The sum before overhead and profit, if the vendor's own sheet says one."),
        vendor("overhead", "Overhead, share of direct cost", percent(1, 0, 2), need="quote"),
        vendor("profit", "Profit, share of the cost with overhead", percent(1, 0, 2), need="quote"),
        computed("overhead_cost", "Overhead", money(4), "direct*overhead"),
        computed("profit_cost", "Profit", money(4), "(direct+overhead_cost)*profit"),
        computed("worked_out", "Price worked out", money(4), "direct+overhead_cost+profit_cost"),
        computed("unexplained", "Price less price worked out", money(4), "ROUND(fob-worked_out,4)"),
    )),
    Table("options", "What else could be made, and what it changes", ref="OP", key="option", spare=2, columns=(
        designer("option", "Option", text(26), help="As: without the hood's cord. The price above is for the garment as it is described."),
        vendor("more", "Price changes by", money(4, None, width=12), need="quote", help="Per garment, in the quote's currency; below 0 where it is cheaper."),
        vendor("days", "Lead time by, days", whole(-365, 365), help="0 or blank for nothing."),
        vendor("remark", "Note", text(24)),
        computed("with_it", "Price with it, {currency}", money(4), "(at_order+more)*exchange"),
    )),
    Table("ladder", "Price by quantity, in the quote's currency", ref="U", key="from_quantity", spare=4, columns=(
        vendor("from_quantity", "From pieces", whole(least=1, width=26)),
        vendor("price", "Price", money(4, width=12)),
        vendor("note", "Note", text(24)),
    )),
), checks=(
    Check("over_target", "Price is above the target", "IF(N(quote.over_target)>0.00005,1,0)", fix="Talk about it, or change the target."),
    Check("unexplained", "Price and its build-up differ by more than 1 %",
          'IF(quote.unexplained="",0,IF(ABS(quote.unexplained)>0.01*quote.fob,1,0))', who="vendor", fix="Correct the build-up or the price."),
    Check("valid_short", "The quote ends before the day that was asked for",
          'IF(OR(quote.valid_until="",quote.asked_until=""),0,IF(quote.valid_until<quote.asked_until,1,0))', who="vendor",
          fix="Give a later day, or say what would change after it."),
    Check("no_rate", "The quote's currency has no exchange rate", 'IF(quote.currency="",0,IF(quote.exchange="",1,0))',
          fix="Add it to the exchange rates in Materials."),
    Check("sea_term", "The quote's term needs a vessel, the transport is another",
          'IF(OR(quote.term="",style.transport=""),0,IF(AND(style.transport<>"sea",SUMPRODUCT((lists.terms.term=quote.term)*(lists.terms.mode="sea"))>0),1,0))',
          fix="Incoterms 2020 keep FAS, FOB, CFR and CIF for goods handed over on board a vessel; FCA, CPT or CIP fit other transport."),
))  # fmt: skip
