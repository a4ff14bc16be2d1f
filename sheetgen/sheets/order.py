"""Order: how many of which size and color, what to buy for it, how it is packed, inspected and delivered."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, fixed, per, vendor
from sheetgen.declare.kinds import choice, date, money, number, percent, text, whole
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table

_STEPS = (
    ("Materials and lab dips approved", 75), ("Size set approved", 60), ("Bulk fabric in the factory", 45),
    ("Pre-production sample approved", 42), ("Cutting starts", 38), ("Sewing starts", 35), ("First pieces off the line checked", 33),
    ("Packed", 24), ("Final inspection", 23), ("Out of the factory", 21),
)  # fmt: skip
_DEFECTS = ("critical", "major", "minor")


def _plan(column: str, defect: str) -> str:
    """Look the lot up in the plans' list, in the column of the AQL."""
    cells = ",".join(
        f"INDEX(lists.plans.{column}_{aql},MATCH(pieces,lists.plans.lot_from,1))"
        for aql in ("10", "15", "25", "40", "65")
    )
    found = f"CHOOSE(MATCH(aql_{defect},{{1,1.5,2.5,4,6.5}},0),{cells})"
    return f'IF(pieces<2,"",IFERROR({"MIN(pieces," + found + ")" if column == "n" else found},""))'


ORDER = Sheet("order", "Order", purpose="Pieces, what to buy for them, cartons, inspection and dates.", parts=(
    Table("sizes", "Pieces by size and colorway", ref="Z", key="size", mirrors="style.sizes", columns=(
        computed("size", "Size", text(26), 'IFERROR(INDEX(style.sizes.name,MATCH(ref,style.sizes.ref,0))&"","")'),
        Section("Pieces", (
            per("colorway", designer("pieces", "{colorway}", whole(least=0, width=11), need="quote")),
        )),
        computed("total", "All", whole(width=9), "SUM(pieces.row)"),
        computed("share", "Share", percent(1), 'IF(SUM(sizes.total)=0,"",total/SUM(sizes.total))'),
        computed("to_cut", "To cut", whole(width=9), "EACH(colorway, ROUNDUP(ROUND(N(pieces.mine)*(1+N(overage)),6),0))",
                 help="Each size and colorway with the overage, rounded up."),
        designer("ratio", "In a carton", whole(least=0, width=9), help="Pieces of this size in an assorted carton; blank for solid cartons."),
    )),
    Form("Totals", (
        computed("pieces", "Pieces ordered", whole(), "SUM(sizes.total)"),
        per("colorway", computed("pieces_in", "Pieces: {colorway}", whole(), "SUM(sizes.pieces.mine)")),
        designer("overage", "Cut over the order", percent(1, 0, 0.2), need="bulk", help="2 to 5 % by custom; agree it in the order."),
        designer("tolerance", "Shipment may differ by", percent(1, 0, 0.2), need="bulk"),
        computed("pieces_to_cut", "Pieces to cut", whole(), "SUM(sizes.to_cut)"),
        computed("value", "Order at the quoted price, {currency}", money(2), "ROUND(pieces*quote.fob,2)"),
    )),
    Form("Packing", (
        designer("carton_pieces", "Pieces per carton", whole(least=1), need="bulk"),
        designer("carton_kind", "Cartons are", choice("solid size", "assorted sizes", "assorted colors and sizes", width=18), need="bulk"),
        vendor("carton_long", "Carton length, cm", number(1, 1), need="bulk"),
        vendor("carton_wide", "Carton width, cm", number(1, 1), need="bulk"),
        vendor("carton_high", "Carton height, cm", number(1, 1), need="bulk"),
        vendor("piece_weight", "Weight of a packed piece, kg", number(3, 0.001), need="bulk"),
        vendor("carton_weight", "Weight of the empty carton, kg", number(2, 0), need="bulk"),
        computed("cartons", "Cartons", whole(), "ROUNDUP(pieces/carton_pieces,0)"),
        computed("last_carton", "Pieces in the last carton", whole(), "pieces-(cartons-1)*carton_pieces"),
        computed("volume", "Volume, m³", number(3), "cartons*carton_long*carton_wide*carton_high/1000000"),
        computed("full_weight", "Weight of a full carton, kg", number(2), "carton_pieces*piece_weight+carton_weight"),
    )),
    Form("Inspection of the finished order (ISO 2859-1, level II, normal)", (
        *(designer(f"aql_{defect}", f"AQL, {defect} defects", number(1, 0, 6.5), need="bulk",
                   help="0: none is accepted." if defect == "critical" else "One of 1.0, 1.5, 2.5, 4.0, 6.5.") for defect in _DEFECTS),
        *(entry for defect in ("major", "minor") for entry in (
            computed(f"sample_{defect}", f"Pieces to inspect, {defect}", whole(), _plan("n", defect)),
            computed(f"accept_{defect}", f"Accept up to, {defect}", whole(), _plan("ac", defect)),
            computed(f"reject_{defect}", f"Reject from, {defect}", whole(), f'IF(accept_{defect}="","",accept_{defect}+1)'),
        )),
        designer("inspector", "Inspected by", text(), need="bulk"),
    )),
    Table("calendar", "Dates back from delivery", ref="E", key="step", spare=0, rows=tuple({"step": step} for step, _ in _STEPS), columns=(
        fixed("step", "Step", text(26)),
        designer("before", "Days before delivery", whole(least=0, width=11), need="bulk"),
        computed("due", "Due", date(), "style.delivery-before"),
        vendor("confirmed", "Vendor confirms", date(), need="bulk"),
        computed("late", "Days late", whole(), "MAX(0,confirmed-due)"),
        designer("comment", "Comment", text(24)),
    )),
    Table("buy", "What to buy", ref="M", key="item", mirrors="materials.bom", columns=(
        computed("item", "Item", text(26), 'IFERROR(INDEX(materials.bom.item,MATCH(ref,materials.bom.ref,0))&"","")'),
        computed("for_pieces", "For pieces", whole(width=11), 'EACH(colorway, IF(INDEX(materials.bom.color.mine,MATCH(ref,materials.bom.ref,0))="",0,N(pieces_in.mine)))'),
        computed("need", "Needed", number(2), 'IFERROR(for_pieces*(1+N(overage))*INDEX(materials.bom.gross,MATCH(ref,materials.bom.ref,0)),"")'),
        computed("unit", "Unit", text(6), 'INDEX(materials.bom.unit,MATCH(ref,materials.bom.ref,0))&""'),
        computed("minimum", "Minimum", number(0), "N(INDEX(materials.bom.minimum,MATCH(ref,materials.bom.ref,0)))"),
        designer("multiple", "Sold by", number(2, 0.0001), help="Length of a roll, pieces in a bag; blank for any quantity."),
        computed("buy", "To buy", number(2), 'IF(need="","",IF(need=0,0,IF(multiple="",MAX(need,minimum),ROUNDUP(ROUND(MAX(need,minimum)/multiple,6),0)*multiple)))'),
        computed("surplus", "Left over", number(2), 'IF(buy="","",ROUND(buy-need,4))'),
        computed("cost", "Cost, {currency}", money(2), 'IF(buy="","",IFERROR(ROUND(buy*INDEX(materials.bom.price_here,MATCH(ref,materials.bom.ref,0)),2),""))'),
    )),
), checks=(
    Check("ratio", "Pieces per carton and the sum of an assorted carton differ",
          'IF(OR(SUM(order.sizes.ratio)=0,order.carton_pieces=""),0,IF(MOD(order.carton_pieces,SUM(order.sizes.ratio))=0,0,1))',
          fix="Pieces per carton is a multiple of the assorted carton's sum."),
    Check("minimum_style", "The order is below the vendor's minimum", 'IF(OR(quote.minimum_style="",order.pieces=0),0,IF(order.pieces<quote.minimum_style,1,0))',
          fix="Order more, or ask for a surcharge instead."),
    Check("late", "The vendor confirms a date later than needed", 'COUNTIF(order.calendar.late,">0")', fix="Agree new dates or a later delivery."),
))  # fmt: skip
