"""Landed cost: from each vendor's price to the warehouse, by the formulas of the Pricing sheet."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, fixed, per
from sheetgen.declare.kinds import choice, money, number, text
from sheetgen.declare.parts import Sheet, Table
from sheetgen.offers.carry import AXIS, given, heading, worked
from sheetgen.offers.ledgers import LABEL_WIDTH, line, side_by_side


def _of(value: str) -> str:
    """A figure of the vendor whose row it is."""
    return f"EACH({AXIS}, IF(number=mine,{value},0))"


def _in_currency(name: str) -> str:
    return f"N(making.{name}.mine)*N(offers.exchange.mine)"


LANDED = Sheet("landed", "Landed cost", purpose="Freight, insurance, duty and fees begin as on the Pricing sheet, alike for all vendors. Where one ships from elsewhere, change its column.", parts=(
    side_by_side(
        "To the warehouse, {currency} per garment at the order's quantity",
        line(worked("pricing.fob", lowest=True)),
        line(per(AXIS, designer("freight", "Freight", money(4), help="Per garment, as the Pricing sheet counts it."))),
        line(given("pricing.insured", kind=choice("amount per garment", "share of price and freight", "share of price, freight and insurance, plus 10 %", width=18))),
        line(given("pricing.insurance")),
        line(worked("pricing.insurance_cost")),
        line(worked("pricing.cif", lowest=True)),
        line(given("pricing.duty_base", kind=choice("price", "price, freight and insurance", width=18))),
        line(given("pricing.duty")),
        line(given("pricing.other_duty")),
        line(worked("pricing.duty_value")),
        line(worked("pricing.duty_cost")),
        line(given("pricing.fees")),
        line(given("pricing.fee_share")),
        line(given("pricing.fee_least"), f"{heading('pricing.fee_share')}: at least, for the shipment"),
        line(given("pricing.fee_most"), f"{heading('pricing.fee_share')}: at most, for the shipment"),
        line(worked("pricing.fees_each")),
        line(given("pricing.inland")),
        line(worked("pricing.landed", lowest=True)),
        line(per(AXIS, computed("once", "Share of what is charged once", money(4), "offers.once_each.mine"))),
        line(per(AXIS, computed("with_once", "Landed cost with that share", money(4), "offers.total.mine"), lowest=True)),
        line(worked("pricing.order_cost"), "The order, landed"),
        line(per(AXIS, computed("order_once", "Charged once", money(2), "N(offers.one_off.mine)"))),
        line(per(AXIS, computed("order_total", "The order, landed, with what is charged once", money(2), "offers.order_total.mine"), lowest=True)),
    ),
    Table("vendors", "Where the money goes, {currency} per garment", ref="V", key="name", spare=0, least=1,
          note="What the picture on the first sheet draws. The rest of the price holds overhead, profit, and what the vendor's own lines do not explain.", columns=(
        fixed("name", "Vendor", text(LABEL_WIDTH - 6)),
        computed("materials", "Materials", money(4), _of("N(lines.all_lines.mine)")),
        computed("making", "Making", money(4), _of(_in_currency("make_cost"))),
        computed("other", "Process, testing, packing, commercial", money(4), _of("+".join(_in_currency(f"{name}_cost") for name in ("process", "testing", "packing", "commercial")))),
        computed("rest", "Overhead, profit and rest of the price", money(4, None), _of("N(landed.fob.mine)") + "-materials-making-other"),
        computed("transport", "Freight and insurance", money(4), _of("N(landed.freight.mine)+N(landed.insurance_cost.mine)")),
        computed("duty_and_fees", "Duty and entry fees", money(4), _of("N(landed.duty_cost.mine)+N(landed.fees_each.mine)")),
        computed("inland_part", "Clearing and inland", money(4), _of("N(landed.inland.mine)")),
        computed("once_part", "Share of what is charged once", money(4), _of("N(landed.once.mine)")),
        computed("together", "Together", money(4), "materials+making+other+rest+transport+duty_and_fees+inland_part+once_part"),
        computed("number", "Number", number(0, width=8), "MATCH(ref,vendors.ref,0)"),
    )),
))  # fmt: skip
