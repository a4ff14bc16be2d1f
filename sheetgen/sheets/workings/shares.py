"""A quantity shared out in whole pieces by largest remainder, colors bought together, and working days counted back."""

from __future__ import annotations

from sheetgen.declare.entry import computed, fixed, or_zero, per
from sheetgen.declare.kinds import number, text, whole
from sheetgen.declare.parts import Ledger, Line, Section, Table
from sheetgen.sheets.lookups import material
from sheetgen.sheets.materials import NOT_USED

_DAYS_BACK = 370
"""Calendar days before the delivery that are looked at: enough for 85 working days of a five-day week."""
_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")

_WANTED = "N(INDEX(order.colors.pieces_wanted,mine))"
_ORDERED = "N(INDEX(order.sizes.ordered.mine,MATCH(ref,order.sizes.ref,0)))"
_PLANNED = "N(INDEX(cutting.sizes.planned.mine,MATCH(ref,cutting.sizes.ref,0)))"
_WHOLE = "ROUNDUP(ROUND({0}*whole_of,6),0)/whole_of"
"""Whole pieces of what is counted: a dozen may be opened, a button not halved."""
_BOUGHT = "IF({0}=0,0,IF(multiple=0,MAX({0},{1}),ROUNDUP(ROUND(MAX({0},{1})/multiple,6),0)*multiple))"
"""At least the minimum, and as it is sold."""


SPLIT = Table("split", "Pieces shared out in whole numbers", ref="Z", key="size", mirrors="style.sizes",
              note="Largest remainder; of equal remainders the smaller size is first.", columns=(
    computed("size", "Size", text(26), 'IFERROR(INDEX(style.sizes.name,MATCH(ref,style.sizes.ref,0))&"","")'),
    computed("number", "Number", whole(), "MATCH(ref,order.sizes.ref,0)"),
    computed("ratio", "Ratio", number(2), "N(INDEX(order.sizes.size_ratio,MATCH(ref,order.sizes.ref,0)))"),
    Section("Whole pieces", (
        per("colorway", computed("whole", "{colorway}", whole(), f"IF(SUM(split.ratio)=0,0,INT(ROUND({_WANTED}*ratio/SUM(split.ratio),9)))")),
    )),
    Section("What is left over, in order", (
        per("colorway", computed("rest", "{colorway}", number(9, width=12),
                                 f"IF(SUM(split.ratio)=0,0,ROUND({_WANTED}*ratio/SUM(split.ratio)-whole.mine,9)"
                                 "-0.000000001*MATCH(ref,order.sizes.ref,0))")),
    )),
    Section("Pieces shared out", (
        per("colorway", computed("shared", "{colorway}", whole(),
                                 f"whole.mine+IF(RANK(rest.mine,split.rest.mine)<={_WANTED}-SUM(split.whole.mine),1,0)")),
    )),
    Section("The order cuts", (
        per("colorway", computed("asked", "{colorway}", whole(), f"ROUNDUP(ROUND({_ORDERED}*(1+N(order.overage)),6),0)")),
    )),
    Section("Pieces to cut", (
        per("colorway", computed("cut", "{colorway}", whole(), f"IF(N(cutting.pieces_planned)>0,{_PLANNED},asked.mine)")),
    )),
    Section("Solid cartons", (
        per("colorway", computed("cartons", "{colorway}", whole(), f'IFERROR(ROUNDUP(ROUND({_ORDERED}/order.carton_pieces,9),0),"")')),
    )),
    Section("Cut beyond", (
        per("colorway", computed("beyond", "{colorway}", whole(),
                                 "IF(N(INDEX(cutting.sizes.over.mine,MATCH(ref,cutting.sizes.ref,0)))"
                                 ">ROUNDUP(ROUND(asked.mine*N(cutting.most_over),9),0),1,0)")),
    )),
    Section("All colorways", (
        computed("to_cut", "To cut", whole(), "SUM(cut.all)"),
        computed("solid", "Solid cartons", whole(), "SUM(cartons.all)"),
        computed("all_beyond", "Beyond the allowance", whole(), "SUM(beyond.all)"),
    )),
))  # fmt: skip

BY_COLORWAY = Ledger("Colorway by colorway", ("Figure", "{colorway}"), (32, 12), (
    Line(("Pieces",), (
        per("colorway", computed("color_pieces", "Pieces: {colorway}", whole(), "N(order.pieces_in.mine)")),
    )),
    Line(("Pieces to cut",), (
        per("colorway", computed("color_cut", "Pieces to cut: {colorway}", whole(), "SUM(split.cut.mine)")),
    )),
    Line(("Cartons of one colorway",), (
        per("colorway", computed("color_cartons", "Cartons: {colorway}", whole(),
                                 'IFERROR(ROUNDUP(ROUND(N(order.pieces_in.mine)/order.carton_pieces,9),0),"")')),
    )),
))  # fmt: skip

COLORS = Table("colors", "Materials by color", ref="M", key="item", mirrors="materials.bom",
               note="One color of a material is bought once, for all colorways that use it.", columns=(
    computed("item", "Item", text(26), f'IFERROR({material("item")}&"","")'),
    computed("least", "Minimum per color", number(0), f'N({material("minimum_color")})'),
    computed("multiple", "Sold by", number(2), "N(INDEX(order.buy.multiple,MATCH(ref,order.buy.ref,0)))"),
    computed("whole_of", "Bought whole, pieces in its unit", whole(),
             f'IF({material("unit")}="cone",1,IF({material("unit_of")}="piece",{material("unit_factor")},0))', help="0: bought in parts of the unit, too."),
    Section("Color typed", (
        per("colorway", computed("color", "{colorway}", text(14), f'{material("color.mine")}&""')),
    )),
    Section("Color that counts", (
        per("colorway", computed("shade", "{colorway}", text(14),
                                 f'IF(OR({material("instead_of")}<>"",color.mine="{NOT_USED}"),"",IF(color.mine="","still open "&mine,color.mine))',
                                 may_be_blank=("color.mine",))),
    )),
    Section("Needed", (
        per("colorway", computed("need_of", "{colorway}", number(2),
                                 f'IF(shade.mine="",0,IF({material("gross_in.mine")}="","",color_cut.mine*{material("gross_in.mine")}))')),
    )),
    Section("Colors taken together", (
        per("colorway", computed("together", "{colorway}", number(2),
                                 'IF(shade.mine="",0,IF(MATCH(shade.mine,shade.all,0)=mine,SUMIF(shade.all,shade.mine,need_of.all),0))')),
    )),
    Section("In whole pieces", (
        per("colorway", computed("needed", "{colorway}", number(2),
                                 f'IF(whole_of=0,together.mine,{_WHOLE.format("together.mine")})')),
    )),
    Section("As it is sold", (
        per("colorway", computed("to_buy", "{colorway}", number(2), _BOUGHT.format("needed.mine", "least"))),
    )),
    Section("All colorways", (
        computed("by_color", "By color", number(2), 'IF(COUNTIF(need_of.all,"")>0,"",SUM(needed.all))'),
        computed("need", "All", number(2), 'IF(by_color="","",MAX(N(by_color),SUM(size_needed.all)))'),
        computed("for_pieces", "For pieces", whole(), 'SUMPRODUCT((shade.all<>"")*1,color_cut.all)'),
    )),
    Section("Of one size", (
        computed("in_sizes", "Bought size by size", text(8), f'{material("by_size")}&""'),
        or_zero("as long as no minimum is named, what is needed is bought", computed("size_least", "Minimum of each", number(0), f'N({material("minimum")})')),
        per("colorway", computed("used", "{colorway}", number(4), f'IF(shade.mine="",0,{material("gross_in.mine")})')),
    )),
    Section("Needed of that size", (
        per("size", computed("of_size", "{size}", number(2),
                             'IF(in_sizes<>"yes",0,IFERROR(SUMPRODUCT((split.number=mine)*split.cut.all*used.all),""))')),
    )),
    Section("In whole pieces of that size", (
        per("size", computed("size_needed", "{size}", number(2), f'IF(whole_of=0,of_size.mine,{_WHOLE.format("of_size.mine")})')),
    )),
    Section("As that size is sold", (
        per("size", computed("size_buy", "{size}", number(2), _BOUGHT.format("size_needed.mine", "size_least"))),
        computed("sized", "All sizes", number(2), "SUM(size_buy.all)"),
    )),
))  # fmt: skip

WEEK = Table("week", "The working week", ref="W", key="day", spare=0, rows=tuple({"day": day} for day in _DAYS), columns=(
    fixed("day", "Day", text(26)),
    computed("number", "Number", whole(), "MATCH(ref,week.ref,0)"),
    computed("works", "Works", whole(),
             'IF(order.week&""="Monday to Friday",IF(number<=5,1,0),IF(order.week&""="Monday to Saturday",IF(number<=6,1,0),'
             'IF(order.week&""="Sunday to Thursday",IF(OR(number<=4,number=7),1,0),1)))'),
))  # fmt: skip

DAYS = Table("days", "Days back from the delivery", ref="D", key="back", spare=0,
             rows=tuple({"back": back} for back in range(_DAYS_BACK + 1)), columns=(
    fixed("back", "Days back", whole(width=26)),
    computed("works", "Works", whole(),
             "IF(OR(back=0,COUNTIF(order.holidays.on,style.delivery-back)>0),0,INDEX(week.works,MOD(style.delivery-back-2,7)+1))"),
    computed("done", "Working days since", whole(), 'SUMIF(days.back,"<="&back,days.works)'),
))  # fmt: skip
