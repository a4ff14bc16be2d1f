"""Quote: the vendor's price, and how it comes about."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, vendor
from sheetgen.declare.kinds import date, money, number, percent, text, whole
from sheetgen.declare.parts import Check, Form, Sheet, Table

QUOTE = Sheet("quote", "Quote", purpose="The vendor's price per garment in {currency}, and what it is made of.", parts=(
    Form("Price", (
        vendor("fob", "Price per garment, {currency}", money(4), need="quote", help="At the delivery term and place on the Style sheet."),
        vendor("valid_until", "Valid until", date(), need="quote"),
        vendor("minimum_style", "Minimum per style, pieces", whole(least=0), need="quote"),
        vendor("minimum_colorway", "Minimum per colorway, pieces", whole(least=0), need="quote"),
        vendor("lead_time", "Lead time after approval, days", whole(least=0), need="quote"),
        vendor("sample_price", "Price of a sample, {currency}", money(2), need="quote"),
        vendor("remark", "Vendor's remark", text(60)),
        designer("target", "Target told to the vendor, {currency}", money(4), help="Leave blank to tell none."),
        computed("over_target", "Price less target", money(4), "fob-target"),
    )),
    Form("Making", (
        vendor("sew_minutes", "Sewing, standard minutes", number(2, 0), need="quote"),
        vendor("cut_minutes", "Cutting, standard minutes", number(2, 0), need="quote"),
        vendor("finish_minutes", "Finishing and packing, standard minutes", number(2, 0), need="quote"),
        vendor("wages", "Wages of the line per month", money(2), help="To work out the cost of a minute."),
        vendor("operators", "Operators", whole(least=1)),
        vendor("days", "Days per month", number(1, 1)),
        vendor("hours", "Hours per day", number(1, 0.1)),
        computed("minutes_available", "Minutes available per month", number(0), "operators*days*hours*60"),
        computed("minute_cost", "Cost of a minute available", money(6), "wages/minutes_available"),
        vendor("rate", "Cost of a minute, {currency}", money(6), need="quote", help="At 100 % efficiency. If yours is cost per minute produced, put 100 % below."),
        vendor("efficiency", "Efficiency", percent(1, 0.01, 1.5), need="quote"),
        computed("sew_cost", "Sewing", money(4), "sew_minutes*rate/efficiency"),
        computed("cut_cost", "Cutting", money(4), "cut_minutes*rate/efficiency"),
        computed("finish_cost", "Finishing and packing", money(4), "finish_minutes*rate/efficiency"),
        computed("make_cost", "Make cost", money(4), "sew_cost+cut_cost+finish_cost"),
    )),
    Form("From cost to price, {currency} per garment", (
        computed("materials_cost", "Materials", money(4), "materials.cost"),
        vendor("process_cost", "Print, embroidery, wash", money(4), need="quote", help="0 if there is none."),
        vendor("testing_cost", "Testing", money(4), need="quote"),
        vendor("packing_cost", "Packing work, not in the materials", money(4), need="quote"),
        vendor("commercial_cost", "Bank, forwarding, commission", money(4), need="quote"),
        computed("direct", "Direct cost", money(4), "materials_cost+make_cost+process_cost+testing_cost+packing_cost+commercial_cost"),
        vendor("overhead", "Overhead, share of direct cost", percent(1, 0, 2), need="quote"),
        vendor("profit", "Profit, share of the cost with overhead", percent(1, 0, 2), need="quote"),
        computed("overhead_cost", "Overhead", money(4), "direct*overhead"),
        computed("profit_cost", "Profit", money(4), "(direct+overhead_cost)*profit"),
        computed("worked_out", "Price worked out", money(4), "direct+overhead_cost+profit_cost"),
        computed("unexplained", "Price less price worked out", money(4), "ROUND(fob-worked_out,4)"),
    )),
    Table("ladder", "Price by quantity", ref="U", key="from_quantity", spare=4, columns=(
        vendor("from_quantity", "From pieces", whole(least=1, width=26)),
        vendor("price", "Price, {currency}", money(4, width=12)),
        vendor("note", "Note", text(24)),
    )),
), checks=(
    Check("over_target", "Price is above the target", "IF(N(quote.over_target)>0.00005,1,0)", fix="Talk about it, or change the target."),
    Check("unexplained", "Price and its build-up differ by more than 1 %",
          'IF(quote.unexplained="",0,IF(ABS(quote.unexplained)>0.01*quote.fob,1,0))', who="vendor", fix="Correct the build-up or the price."),
))  # fmt: skip
