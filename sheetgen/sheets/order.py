"""Order: how many of which size and color, what to buy for it, how it is packed, inspected and delivered."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.declare.entry import Entry, computed, designer, fixed, per, vendor
from sheetgen.declare.kinds import choice, date, length, money, number, percent, suggest, text, whole
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table
from sheetgen.sheets.lists import AQL_COLUMNS, LEVEL_COLUMNS
from sheetgen.sheets.lookups import known_of, row_of

_STEPS = (
    ("Materials and lab dips approved", 75), ("Size set approved", 60), ("Bulk fabric in the factory", 45),
    ("Pre-production sample approved", 42), ("Cutting starts", 38), ("Sewing starts", 35), ("First pieces off the line checked", 33),
    ("Packed", 24), ("Final inspection", 23), ("Out of the factory", 21),
)  # fmt: skip
_DEFECTS = ("critical", "major", "minor")
SOLID, SIZES, ALL = "solid size", "assorted sizes", "assorted colors and sizes"


_LEVELS = ",".join(f'"{level}"' for level in LEVEL_COLUMNS.values())
_LETTERS = "lists.letters.{}:lists.letters.{}".format(*list(LEVEL_COLUMNS)[:: len(LEVEL_COLUMNS) - 1])
_LETTER = (
    f'IF(pieces<2,"",IFERROR(INDEX({_LETTERS},MATCH(pieces,lists.letters.lot_from,1),'
    f'IF(inspection_level="",2,MATCH(inspection_level,{{{_LEVELS}}},0))),""))'
)
_LIMITS = ",".join(f"{limit:g}" for limit in AQL_COLUMNS.values())
_PLANS = "lists.plans.n_{}:lists.plans.ac_{}".format(*list(AQL_COLUMNS)[:: len(AQL_COLUMNS) - 1])


def _plan(defect: str, accept: bool) -> str:
    """Look the code letter up in the plans' list, which has two columns for each AQL: the sample, and what is accepted."""
    column = f"2*MATCH(aql_{defect},{{{_LIMITS}}},0){'' if accept else '-1'}"
    return f"INDEX({_PLANS},MATCH(code_letter,lists.plans.letter,0),{column})"


def _inspected() -> Iterator[Entry]:
    for defect in _DEFECTS:
        largest = "MAX(N(sample_major),N(sample_minor))"
        own_n = f'IFERROR(MIN(pieces,{_plan(defect, accept=False)}),"")'
        own_ac = f'IFERROR({_plan(defect, accept=True)},"")'
        none_allowed = defect == "critical"
        yield computed(
            f"sample_{defect}",
            f"Pieces to inspect, {defect}",
            whole(),
            f"IF(aql_{defect}=0,{largest},{own_n})" if none_allowed else own_n,
        )
        yield computed(
            f"accept_{defect}",
            f"Accept up to, {defect}",
            whole(),
            f"IF(aql_{defect}=0,0,{own_ac})" if none_allowed else own_ac,
        )
        yield computed(
            f"reject_{defect}", f"Reject from, {defect}", whole(), f'IF(accept_{defect}="","",accept_{defect}+1)'
        )


_ALL_COLORS = (
    "IF(SUM(buy_of.all)>=N(minimum),SUM(buy_of.all),"
    "IF(N(multiple)=0,N(minimum),ROUNDUP(ROUND(minimum/multiple,6),0)*multiple))"
)

ORDER = Sheet("order", "Order", seen="bulk", seen_with="order.sizes.pieces", goes=("bulk",),
              purpose="Pieces, what to buy for them, cartons, inspection and dates.", main="sizes", parts=(
    Table("sizes", "Pieces by size and colorway", ref="Z", key="size", mirrors="style.sizes", columns=(
        computed("size", "Size", text(20), 'IFERROR(INDEX(style.sizes.name,MATCH(ref,style.sizes.ref,0))&"","")'),
        designer("size_ratio", "Ratio", number(2, 0), help="1 : 2 : 2 : 1, or shares; the same for all colorways.", blank="none of this size"),
        computed("shared_out", "Shared out", whole(), 'IF(wanted="","",SUM(proposed.all))'),
        Section("Pieces typed", (
            per("colorway", designer("pieces", "{colorway}", whole(least=0, width=11), need="bulk", unless="shared_out")),
        )),
        Section("Shared out", (
            per("colorway", computed("proposed", "{colorway}", whole(width=11), f'IF(wanted="","",{row_of("workings.split.shared.mine")})')),
        )),
        Section("Ordered", (
            per("colorway", computed("ordered", "{colorway}", whole(width=11), "IF(typed>0,N(pieces.mine),N(proposed.mine))")),
        )),
        computed("total", "All", whole(width=9), "SUM(ordered.all)"),
        computed("share", "Share", percent(1), 'IF(SUM(sizes.total)=0,"",total/SUM(sizes.total))'),
        computed("to_cut", "To cut", whole(width=9), row_of("workings.split.to_cut"),
                 help="By the lays on Cutting where there are any; else each size and colorway with what is cut over, rounded up."),
        designer("ratio", "In a carton", whole(least=0, width=9), help="Pieces of this size in an assorted carton.", blank="cartons are solid"),
    )),
    Form("How many", (
        designer("number", "Order's number", text(20)),
        designer("agreed", "Price agreed, {currency}", money(4), help="For the quantity of this order."),
        designer("wanted", "Pieces wanted, all together", whole(least=0),
                 help="To share out by the ratios below.", blank="pieces are typed by size and colorway"),
        computed("typed", "Pieces typed below", whole(), "SUM(sizes.pieces.all)"),
        computed("pieces", "Pieces ordered", whole(), "SUM(sizes.total)"),
        designer("overage", "Cut over the order", percent(1, 0, 0.2), need="bulk", help="2 to 5 % by custom; agree it in the order.", blank="none"),
        designer("tolerance", "Shipment may differ by", percent(1, 0, 0.2), need="bulk"),
        computed("pieces_to_cut", "Pieces to cut", whole(), "SUM(sizes.to_cut)", help="Materials, thread and labels are bought for these."),
        computed("cut_by", "As counted by", text(), 'IF(N(cutting.pieces_planned)>0,"the lays on Cutting","the order, with what is cut over")'),
        computed("value", "Order at the quoted price, {currency}", money(2), "ROUND(pieces*quote.price,2)"),
        per("colorway", computed("pieces_in", "Pieces: {colorway}", whole(), "SUM(sizes.ordered.mine)")),
    )),
    Table("colors", "Colorways in the order", ref="C", key="colorway", mirrors="colorways.list",
          note="Shared out in whole pieces by largest remainder: the parts always add up to the total.", columns=(
        computed("colorway", "Colorway", text(20), 'IFERROR(INDEX(colorways.list.name,MATCH(ref,colorways.list.ref,0))&"","")'),
        designer("ratio", "Ratio", number(2, 0), help="1 : 2 : 1, or pieces, or shares."),
        computed("whole", "Whole pieces", whole(), "IF(OR(wanted=\"\",SUM(colors.ratio)=0),0,INT(ROUND(wanted*N(ratio)/SUM(colors.ratio),9)))"),
        computed("rest", "Left over, in order", number(9, width=12),
                 "IF(OR(wanted=\"\",SUM(colors.ratio)=0),0,ROUND(wanted*N(ratio)/SUM(colors.ratio)-whole,9)-0.000000001*MATCH(ref,colors.ref,0))"),
        computed("pieces_wanted", "Wanted", whole(),
                 "IF(OR(wanted=\"\",SUM(colors.ratio)=0),0,whole+IF(RANK(rest,colors.rest)<=wanted-SUM(colors.whole),1,0))"),
    )),
    Table("deliveries", "Deliveries, where the order goes to several places", ref="DL", key="to", spare=2,
          note="Each with its own pieces; what it costs to get there stands on Pricing.", says=("term", "place"), columns=(
        designer("to", "Goes to", text(20), help="The market, the shop or the warehouse."),
        designer("term", "Term", suggest("lists.terms.term", 9), blank="as on the Style sheet"),
        designer("place", "Named place", text(13), blank="as on the Style sheet"),
        designer("not_before", "Not before", date(), blank="as on the Style sheet"),
        designer("not_after", "Not after", date(), blank="as on the Style sheet"),
        Section("Pieces", (per("colorway", designer("pieces", "{colorway}", whole(least=0, width=11))),)),
        computed("total", "All", whole(width=9), "SUM(pieces.all)"),
        designer("assortment", "Sizes", text(14), help="As 1 : 2 : 2 : 1.", blank="as in the whole order"),
    )),
    Table("buy", "What to buy", ref="M", key="item", mirrors="materials.bom", columns=(
        computed("item", "Item", text(31), f'IFERROR({row_of("materials.bom.item")}&"","")'),
        computed("for_pieces", "For pieces", whole(width=11), row_of("workings.colors.for_pieces")),
        computed("need", "Needed", number(2), row_of("workings.colors.need")),
        computed("unit", "Unit", text(6), f'{row_of("materials.bom.unit")}&""'),
        computed("minimum", "Minimum", number(0), f'IF({row_of("materials.bom.minimum")}="","",{row_of("materials.bom.minimum")})'),
        computed("minimum_color", "Minimum per color", number(0), f'IF({row_of("materials.bom.minimum_color")}="","",{row_of("materials.bom.minimum_color")})'),
        designer("multiple", "Sold by", number(2, 0.0001), help="Length of a roll, pieces in a bag.", blank="any quantity"),
        computed("buy", "To buy", number(2), 'IF(need="","",IF(N(need)=0,0,MAX(N(all_colors),N(all_sizes))))'),
        computed("surplus", "Left over", number(2), 'IF(buy="","",ROUND(N(buy)-N(need),4))'),
        computed("cost", "Cost, {currency}", money(2), f'IF(buy="","",IFERROR(ROUND(N(buy)*{row_of("materials.bom.price_here")},2),""))'),
        computed("left_cost", "Cost of what is left", money(2), f'IF(surplus="","",IFERROR(ROUND(N(surplus)*{row_of("materials.bom.price_here")},2),""))'),
        vendor("bought", "Vendor buys", number(2, 0), help="If the vendor buys it: how much."),
        computed("short", "Short by", number(2), 'IF(OR(bought="",need=""),"",IFERROR(MAX(0,ROUND(N(need)-bought,6)),""))'),
        per("colorway", computed("buy_of", "To buy: {colorway}", number(2), row_of("workings.colors.to_buy.mine"))),
        Section("Steps", printed=False, columns=(
            computed("all_colors", "Color by color, from the minimum", number(2), _ALL_COLORS),
            computed("all_sizes", "Size by size", number(2), row_of("workings.colors.sized")),
        )),
    )),
    Form("What the materials cost, {currency}", (
        computed("materials_bought", "All materials bought", money(2), "SUM(buy.cost)"),
        computed("bought_known", "Lines with a cost", text(), known_of("buy.cost", "buy.item")),
        computed("surplus_cost", "Of it left over", money(2), "SUM(buy.left_cost)", help="Minimums and whole rolls: bought and not used."),
        computed("surplus_each", "Left over, per garment", money(4), 'IF(pieces=0,"",surplus_cost/pieces)'),
        designer("surplus_owner", "What is left over is", text(60), help="Whose it is, what it may be used for, what happens with what is branded."),
    )),
    Form("Packing", (
        designer("carton_limit", "A carton at most", text(60), help="Size and weight that your warehouse takes."),
        designer("carton_pieces", "Pieces per carton", whole(least=1), need="bulk"),
        designer("carton_kind", "Cartons are", choice(SOLID, SIZES, ALL, width=18), need="bulk", blank="counted as with all colors and sizes"),
        vendor("carton_long", "Carton length, cm", number(1, 1), need="bulk"),
        vendor("carton_wide", "Carton width, cm", number(1, 1), need="bulk"),
        vendor("carton_high", "Carton height, cm", number(1, 1), need="bulk"),
        vendor("piece_weight", "Weight of a packed piece, kg", number(3, 0.001), need="bulk"),
        vendor("carton_weight", "Weight of the empty carton, kg", number(2, 0), need="bulk"),
        designer("air_divisor", "Air: cm³ for one kg", number(0, 1), help="By custom 6000 on aircraft, 5000 with couriers."),
        computed("cartons", "Cartons", whole(),
                 f'IF(N(carton_pieces)=0,"",IF(carton_kind&""="{SOLID}",SUM(workings.split.solid),'
                 f'IF(carton_kind&""="{SIZES}",SUM(workings.color_cartons.all),'
                 f'ROUNDUP(ROUND(pieces/N(carton_pieces),9),0))))'),
        computed("last_carton", "Pieces in the last carton", whole(),
                 f'IF(OR(carton_kind&""="{SOLID}",carton_kind&""="{SIZES}"),"",pieces-(cartons-1)*carton_pieces)',
                 help="Cartons with all colors and sizes: the last one is marked short."),
        computed("volume", "Volume, m³", number(3), "cartons*carton_long*carton_wide*carton_high/1000000"),
        computed("full_weight", "Weight of a full carton, kg", number(2), "carton_pieces*piece_weight+carton_weight"),
        computed("all_weight", "Weight of all cartons, kg", number(1), "pieces*piece_weight+cartons*carton_weight"),
        computed("air_weight", "Chargeable by air, kg", number(1), "MAX(all_weight,volume*1000000/air_divisor)", help="The larger of weight and volume."),
    )),
    Form("Inspection of the finished order (ISO 2859-1, single sampling, normal)", (
        designer("inspection_level", "Level", choice(*LEVEL_COLUMNS.values()), help="General levels.", blank="II, the usual one"),
        computed("code_letter", "Code letter", text(6), _LETTER),
        *(designer(f"aql_{defect}", f"AQL, {defect} defects", number(1, 0, 6.5), need="bulk",
                   help="0: none is accepted." if defect == "critical" else "One of 1.0, 1.5, 2.5, 4.0, 6.5.") for defect in _DEFECTS),
        *_inspected(),
        designer("inspector", "Inspected by", text(), need="bulk"),
        designer("measured", "Measured in it", text(60), help="How many pieces of each size and color, and at which points."),
    )),
    Table("calendar", "Dates back from delivery", ref="E", key="step", spare=0, rows=tuple({"step": step} for step, _ in _STEPS), columns=(
        fixed("step", "Step", text(20)),
        designer("before", "Days before delivery", whole(least=0, width=11), need="bulk"),
        computed("due", "Due", date(),
                 'IF(week="",style.delivery-before,IFERROR(style.delivery-INDEX(workings.days.back,MATCH(before,workings.days.done,0)),""))'),
        vendor("confirmed", "Vendor confirms", date(), need="bulk"),
        computed("late", "Days late", whole(), "MAX(0,confirmed-due)"),
        designer("comment", "Comment", text(14)),
    )),
    Table("by_size", "Bought size by size", ref="M", key="item", mirrors="materials.bom",
          note="Articles that differ by size on Materials: a label of each size, a zip of each length. Each size with its own minimum.", columns=(
        computed("item", "Item", text(31), f'IF({row_of("materials.bom.by_size")}&""="yes",{row_of("materials.bom.item")}&"","")'),
        Section("Length, {unit}", (
            per("size", computed("long", "{size}", length(), row_of("workings.sized.long.mine"))),
        )),
        Section("To buy", (
            per("size", computed("size_buy", "{size}", number(0), row_of("workings.colors.size_buy.mine"))),
        )),
    )),
    Form("Days", printed=False, entries=(
        designer("week", "Working week", choice("Monday to Friday", "Monday to Saturday", "Sunday to Thursday", width=18),
                 help="Steps are then counted in working days.", blank="calendar days"),
    )),
    Table("holidays", "Days without work", ref="H", key="on", spare=4, printed=False, note="Public holidays and closing days of the factory.", columns=(
        vendor("on", "Day", date(20)),
        vendor("name", "What", text(12)),
    )),
), checks=(
    Check("deliveries", "The deliveries are not the pieces of the order",
          "IF(SUM(order.deliveries.total)=0,0,IF(SUM(order.deliveries.total)=N(order.pieces),0,1))",
          fix="Share all pieces out, each colorway by itself, or clear the deliveries."),
    Check("agreed", "The price agreed is not the quote's for this quantity",
          'IF(OR(order.agreed="",N(quote.price)=0),0,IF(ABS(order.agreed-quote.price)>0.00005,1,0))',
          fix="Ask for a quote at the price agreed, or correct it: Pricing counts with the quote's."),
    Check("ratio", "Pieces per carton and the sum of an assorted carton differ",
          'IF(OR(SUM(order.sizes.ratio)=0,N(order.carton_pieces)=0),0,IF(MOD(order.carton_pieces,SUM(order.sizes.ratio))=0,0,1))',
          fix="Pieces per carton is a multiple of the assorted carton's sum."),
    Check("no_number", "Pieces of an order that are no number", "COUNTA(order.sizes.pieces.all)-COUNT(order.sizes.pieces.all)",
          fix="Type numbers only, without a unit: others are not counted."),
    Check("typed", "Pieces wanted and pieces typed differ", 'IF(OR(order.wanted="",order.typed=0),0,IF(order.wanted=order.typed,0,1))',
          fix="Typed pieces are what counts: clear them to share the wanted total out, or correct one of the two."),
    Check("shared", "A wanted total cannot be shared out", 'IF(OR(order.wanted="",order.typed>0),0,IF(order.pieces=order.wanted,0,1))',
          fix="Give ratios of colorways and of sizes."),
    Check("minimum_style", "The order is below the vendor's minimum",
          'IF(OR(quote.minimum_style="",order.pieces=0),0,IF(order.pieces<quote.minimum_style,1,0))',
          fix="Order more, or ask for a surcharge instead."),
    Check("bought_short", "The vendor buys less than is needed", 'COUNTIF(order.buy.short,">0")', who="vendor",
          fix="Buy at least what is needed; whole rolls are rounded up."),
    Check("late", "The vendor confirms a date later than needed", 'COUNTIF(order.calendar.late,">0")', fix="Agree new dates or a later delivery."),
))  # fmt: skip
