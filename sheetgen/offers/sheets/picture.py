"""Picture: where the money of each vendor's garment goes, as one chart and in figures."""

from __future__ import annotations

from sheetgen.declare.entry import computed, fixed, or_zero
from sheetgen.declare.kinds import money, number, text
from sheetgen.declare.parts import Chart, Section, Sheet, Table

_OTHER = ("process", "testing", "packing", "commercial")
_PARTS = ("materials", "making", "other", "rest", "transport", "duty", "inland", "once")


def _of(*names: str) -> str:
    """The sum of what these lines say of the vendor whose row it is."""
    return "+".join(f"N(INDEX({name}.all,1,number))" for name in names)


def _in_currency(*names: str) -> str:
    return _of(*(f"making.{name}_cost_here" for name in names))


_IN_THE_REST = "a bar has no part without a length: what is not known is in the rest of the price, as the note says"
_PRICE = _of("landed.fob")

PICTURE = Sheet("picture", "Picture", purpose="What a garment costs in the warehouse, vendor by vendor, and where that money goes.", parts=(
    Chart("Where the money goes: a garment in the warehouse, with its share of what is charged once", "stacked bars", unit="{currency} per garment", height=265,
          series=tuple(f"vendors.{part}" for part in _PARTS), categories="vendors.label",
          description="The landed cost of each vendor's garment with its share of what is charged once, part by part"),
    Table("vendors", "The same in figures, {currency} per garment", ref="V", key="name", spare=0, least=1,
          note="The rest of the price holds overhead, profit, and what the vendor's own lines leave open or do not explain.", columns=(
        fixed("name", "Vendor", text(26)),
        or_zero(_IN_THE_REST, computed("materials", "Materials", money(2, width=11), _of("offers.materials"))),
        or_zero(_IN_THE_REST, computed("making", "Making", money(2, width=11), _in_currency("make"))),
        or_zero(_IN_THE_REST, computed("other", "Process, testing, packing, commercial", money(2, width=15), _in_currency(*_OTHER))),
        or_zero(_IN_THE_REST, computed("rest", "Overhead, profit, rest of the price", money(2, None, width=15),
                                       f"IF({_PRICE}=0,0,{_PRICE}-materials-making-other)")),
        or_zero(_IN_THE_REST, computed("transport", "Freight and insurance", money(2, width=11), _of("landed.freight", "landed.insurance_cost"))),
        or_zero(_IN_THE_REST, computed("duty", "Duty and entry fees", money(2, width=11), _of("landed.duty_cost", "landed.fees_each"))),
        or_zero(_IN_THE_REST, computed("inland", "Clearing and inland", money(2, width=11), _of("landed.inland"))),
        or_zero(_IN_THE_REST, computed("once", "Charged once, share", money(2, width=11), _of("landed.once"))),
        computed("together", "Together", money(2, width=11), "materials+making+other+rest+transport+duty+inland+once"),
        Section("Worked out", printed=False, columns=(
            computed("number", "Number", number(0), "MATCH(ref,vendors.ref,0)"),
            computed("label", "Vendor, and what a garment costs together", text(34), f'name&IF({_PRICE}=0,", no price",", "&TEXT(together,"0.00"))'),
        )),
    )),
))  # fmt: skip
