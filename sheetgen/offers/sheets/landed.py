"""Landed cost: from each vendor's price to the warehouse, by the formulas of the Pricing sheet."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.kinds import choice, money, text
from sheetgen.declare.parts import Line, Sheet
from sheetgen.offers.sheets.carry import AXIS, given, worked
from sheetgen.offers.sheets.ledgers import line, side_by_side, with_steps

LANDED = Sheet("landed", "Landed cost",
               purpose="Freight, insurance, duty and fees begin as on the Pricing sheet, alike for all vendors. "
                       "Where one ships from elsewhere, change its column.", parts=with_steps(
    side_by_side(
        "To the warehouse, {currency} per garment at the order's quantity",
        line(worked("pricing.fob", lowest=True)),
        line(per(AXIS, computed("term", "Delivery term", text(18), 'offers.term.mine&""'))),
        line(per(AXIS, designer("freight", "Freight", money(4), help="Per garment, as the Pricing sheet counts it."))),
        line(given("pricing.insured",
                   kind=choice("amount per garment", "share of price and freight", "share of price with freight and insurance plus 10 %", width=18))),
        line(given("pricing.insurance")),
        line(worked("pricing.insurance_cost")),
        line(worked("pricing.cif", lowest=True)),
        line(given("pricing.duty_base", kind=choice("price", "price with freight and insurance", width=18))),
        line(given("pricing.duty")),
        line(given("pricing.other_duty")),
        line(worked("pricing.duty_value")),
        line(worked("pricing.duty_cost")),
        line(given("pricing.fees")),
        line(given("pricing.fee_share")),
        line(given("pricing.fee_least"), "Such fees at least, for the shipment"),
        line(given("pricing.fee_most"), "Such fees at most, for the shipment"),
        line(worked("pricing.fee_shipment")),
        line(worked("pricing.fees_each")),
        line(given("pricing.inland")),
        line(worked("pricing.landed", lowest=True)),
        line(per(AXIS, computed("once", "Share of what is charged once", money(4), "offers.once_each.mine"))),
        line(per(AXIS, computed("with_once", "Landed cost with that share", money(4), "offers.total.mine"), lowest=True)),
        note="A vendor with another delivery term or origin needs other freight and duty than the one the Pricing sheet was filled for.",
    ),
    side_by_side(
        "The order as a whole, and what the ranking compares, {currency}",
        line(worked("pricing.order_cost"), "The order, landed"),
        line(per(AXIS, computed("order_once", "Charged once", money(2), "N(offers.one_off.mine)"))),
        line(per(AXIS, computed("order_total", "The order, landed, with all charges", money(2), "offers.order_total.mine"), lowest=True)),
        line(per(AXIS, computed("compared", "Compared, per garment", money(4),
                                'IF(fob.mine="","",IF(by_landed="yes",ROUND(N(with_once.mine),6),ROUND(fob.mine,6)))'))),
        Line(("All landed costs are complete",), (
            computed("by_landed", "Landed cost is complete", text(8), 'IF(AND(COUNT(with_once.all)>0,COUNT(with_once.all)=COUNT(fob.all)),"yes","no")'),
        )),
        new_page=True,
    ),
))  # fmt: skip
