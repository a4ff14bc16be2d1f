"""Yield: how much fabric a garment takes, from cut pieces whose length and width come from the measurements.

Area of a piece = length x width x count x the share of that box which its outline fills; a side = (point x times +
second point x times + plus) / (1 - shrinkage); metres = area / usable width / marker efficiency (the usual
consumption formula of merchandising courses). The efficiency is that of a marker where one was laid, else a typed one.
"""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.declare.entry import Entry, computed, designer, per, vendor
from sheetgen.declare.kinds import choice, length, number, percent, pick, suggest, text, whole
from sheetgen.declare.parts import Check, Section, Sheet, Table
from sheetgen.sheets.lookups import material

_ONLY_PLUS = "no point: what is added is the whole of it"
_DIFFERS = 0.02
"""What a typed use may differ from that of a marker that was laid before it is asked for (our own limit)."""
NAPS = ("one way", "two ways", "any way")


def _point(side: str) -> str:
    return f"IF({side}_line=0,0,INDEX(measurements.points.spec.mine,{side}_line)*{side}_factor)"


def _side(side: str) -> str:
    """Blank while a point's measurement is: a piece without it would be too small without a word."""
    return f'IFERROR(({_point(side)}+{_point(f"{side}_second")}+N({side}_plus))/(1-{side}_counted),"")'


_ACROSS = f'IFERROR({_point("wide")}+{_point("wide_second")},"")'
_WIDE = 'IF(OR(across.mine="",least.mine=""),"",(MAX(N(across.mine),N(least.mine))+N(wide_plus))/(1-wide_counted))'
"""A box holds its piece at the widest place."""


def _steps(side: str, words: str) -> Iterator[Entry]:
    """Where the points of a side stand among the measurements, how often each is taken, and the shrinkage that counts."""
    for point, which in ((side, "point"), (f"{side}_second", "second point")):
        yield computed(f"{point}_line", f"{words}: line of {which}", whole(width=9),
                       f'IF({point}_point="",0,IFERROR(MATCH({point}_point,measurements.points.ref,0),""))')  # fmt: skip
        yield computed(f"{point}_factor", f"{words}: times {which}", number(2), f'IF({point}_times="",1,{point}_times)')
    of_fabric = f"IFERROR(N(INDEX(yield.fabrics.{side}_shrink,MATCH(material,yield.fabrics.material,0))),0)"
    yield computed(f"{side}_counted", f"{words}: shrinkage", percent(1), f'IF({side}_shrink="",{of_fabric},{side}_shrink)')  # fmt: skip


def _bom(column: str) -> str:
    return material(column, by="material")


def _marker(column: str) -> str:
    return f"INDEX(markers.list.{column},MATCH(material,markers.list.material,0))"


_METERS = 'IF(mix="",IF(sample="","",sample),mix)'
_WIDTH_WEIGHED = 'IF(full="",usable,full)*style.unit_in_meters'

YIELD = Sheet("yield", "Yield", seen="wanted", goes=("quote", "bulk"),
              purpose="Fabric per garment, worked out from the pieces and the marker.", main="pieces", parts=(
    Table("pieces", "Cut pieces", ref="Y", key="piece", columns=(
        designer("material", "Material", pick("materials.bom.ref", 8), need="quote"),
        designer("piece", "Piece", text(16), need="quote"),
        designer("count", "Pieces", whole(least=0), need="quote"),
        designer("fill", "Fills of its box", percent(1, 0.05, 1), help="Area of the outline / length x width; a marker writes it.",
                 blank="as its outline usually does; all of it without one"),
        designer("long_point", "Length of point", pick("measurements.points.ref", 9), blank=_ONLY_PLUS),
        designer("long_times", "Times", number(2, width=6), blank="once"),
        designer("long_second_point", "and point", pick("measurements.points.ref", 9), blank="no second point"),
        designer("long_second_times", "Times", number(2, width=6), help="Below 0 where it is taken off.", blank="once"),
        designer("long_plus", "Plus, {unit}", length(), help="Seams and hem; the whole length where no point fits.", blank="nothing is added"),
        designer("long_shrink", "Own shrinkage", percent(1, 0, 0.5, width=10), blank="the fabric's"),
        designer("wide_point", "Width of point", pick("measurements.points.ref", 9), blank=_ONLY_PLUS),
        designer("wide_times", "Times", number(2, width=6), blank="once"),
        designer("wide_second_point", "and point", pick("measurements.points.ref", 9), blank="no second point"),
        designer("wide_second_times", "Times", number(2, width=6), blank="once"),
        designer("wide_plus", "Plus, {unit}", length(), blank="nothing is added"),
        designer("wide_shrink", "Own shrinkage", percent(1, 0, 0.5, width=10), blank="the fabric's"),
        designer("wide_least_point", "At least point", pick("measurements.points.ref", 9), blank="no other place is wider",
                 help="Where the piece can be wider than its width's point: the hem of a flared leg. Times and plus as of the width."),
        designer("outline", "Outline", suggest("lists.outlines.outline", 10),
                 help="What a marker draws the piece as. Two of a piece are a left and a right.", blank="a rectangle"),
        Section("Cut length by size, {unit}", printed=False, folded=False, columns=(
            per("size", computed("long", "{size}", length(), _side("long"))),
        )),
        Section("Cut width by size, {unit}", printed=False, folded=False, columns=(
            per("size", computed("wide", "{size}", length(), _WIDE)),
        )),
        Section("Area by size, m²", printed=False, folded=False, columns=(
            per("size", computed("area", "{size}", number(4), 'count*long.mine*wide.mine*style.unit_in_meters*style.unit_in_meters*filled')),
        )),
        Section("Steps, and for the markers", printed=False, columns=(
            *_steps("long", "Length"),
            *_steps("wide", "Width"),
            computed("wide_least_line", "Width: line of the point that it must hold", whole(width=9),
                     'IF(wide_least_point="",0,IFERROR(MATCH(wide_least_point,measurements.points.ref,0),""))'),
            per("size", computed("across", "Across by its points: {size}", length(), _ACROSS)),
            per("size", computed("least", "At least: {size}", length(),
                                 'IF(wide_least_line=0,0,IFERROR(INDEX(measurements.points.spec.mine,wide_least_line)*wide_factor,""))')),
            computed("filled", "Share that counts", percent(1),
                     'IF(fill="",IF(outline="",1,IFERROR(INDEX(lists.outlines.fills,MATCH(outline,lists.outlines.outline,0)),1)),fill)',
                     may_be_blank=("fill",)),
            computed("mark", "Mark", number(2, width=12),
                     "ROUND(10000*SUMPRODUCT(workings.size_number.all+1,area.all)+3*SUMPRODUCT(workings.size_number.all+1,long.all)"
                     '+IF(outline="",0,IFERROR(MATCH(outline,lists.outlines.outline,0),0))+0.000001,2)',
                     help="A sum over all that a marker rests on in this piece; a little more, so that all programs round a half alike."),
        )),
    )),
    Table("fabrics", "Fabric per garment", ref="B", key="material", spare=2, columns=(
        designer("material", "Material", pick("materials.bom.ref", 9), help="The ref in Materials, as M1."),
        computed("item", "Item", text(16), f'IFERROR({_bom("item")}&"","")'),
        computed("weight", "Weight, g/m²", number(0), f'IFERROR(IF({_bom("base")}="","",{_bom("base")}),"")'),
        designer("usable", "Usable width, {unit}", length(least=0), need="quote", help="Without the selvedges."),
        designer("full", "Full width, {unit}", length(least=0), help="With the selvedges: for the weight.", blank="the usable width"),
        designer("nap", "Pieces lie", choice(*NAPS, width=9), need="sample", help="One way: nap, pile, one-way prints. Two ways: heads up or down."),
        designer("long_shrink", "Shrinkage, length", percent(1, 0, 0.5, width=10), help="(before - after) / before, in the wash.", blank="none"),
        designer("wide_shrink", "Shrinkage, width", percent(1, 0, 0.5, width=10), blank="none"),
        designer("efficiency", "Efficiency, typed", percent(1, 0.01, 1, width=10), need="quote", unless="from_marker",
                 help="Area of the pieces / area of the marker. A marker's own figure comes first."),
        computed("from_marker", "Efficiency, marker", percent(1, width=10), f'IFERROR(IF(N({_marker("efficiency")})=0,"",{_marker("efficiency")}),"")'),
        computed("counted", "Efficiency counted", percent(1, width=10), 'IF(N(from_marker)>0,N(from_marker),IF(N(efficiency)=0,"",N(efficiency)))'),
        designer("remark", "Remark", text(9)),
        computed("mix", "m, order's mix", number(3),
                 'IF(OR(SUM(order.sizes.total)=0,COUNTIF(meters.all,"")>0),"",SUMPRODUCT(meters.all,workings.size_pieces.all)/SUM(order.sizes.total))'),
        computed("sample", "m, sample size", number(3), "IFERROR(INDEX(meters.all,style.sample_number),\"\")"),
        computed("mix_kg", "kg, order's mix", number(4), f"IF({_METERS}=\"\",\"\",IFERROR(N({_METERS})*{_WIDTH_WEIGHED}*weight/1000,\"\"))"),
        computed("net_area", "m² of pieces", number(4), f'IF({_METERS}="","",N({_METERS})*usable*style.unit_in_meters*N(counted))',
                 help="In one garment, net: what it weighs and is made of."),
        computed("boxes", "Pieces counted as boxes", whole(), 'SUMPRODUCT((pieces.material=material)*(pieces.fill="")*(pieces.outline=""))',
                 help="Without an outline: they are smaller than that. Choose one, or lay a marker."),
        computed("unit", "Unit in Materials", text(6), f'IFERROR({_bom("unit")}&"","")'),
        computed("worked_out", "Net use in that unit", number(4),
                 "INDEX(workings.cloths.net,MATCH(ref,workings.cloths.ref,0))"),
        Section("Against Materials and the vendor", printed=False, folded=False, columns=(
            computed("typed", "Net use typed there", number(4), f'IFERROR(N({_bom("net")}),0)'),
            computed("gap", "Typed, more or less", percent(1, None, None), 'IF(OR(typed=0,N(worked_out)=0),"",typed/N(worked_out)-1)',
                     help="What Materials counts with, against this yield."),
        computed("differs", "Typed for a marker", whole(), f'IF(OR(from_marker="",gap=""),0,IF(ABS(N(gap))>{_DIFFERS},1,0))',
                 may_be_blank=("gap", "from_marker")),
            computed("marker_state", "Marker is", text(16), f'IFERROR({_marker("state")}&"","")'),
            computed("waste", "Waste in Materials", percent(1), f'IFERROR(IF({_bom("waste")}="","",{_bom("waste")}),"")'),
            computed("with_waste", "With waste", number(4), "worked_out*(1+waste)"),
            vendor("stated_net", "Vendor's net use", number(4, 0), help="From the vendor's own marker, in the unit, before waste."),
            vendor("stated_gross", "Vendor's use with waste", number(4, 0)),
            computed("stated_gap", "Vendor, more or less", percent(1, None, None),
                     'IF(OR(stated_net="",N(worked_out)=0),"",IFERROR(stated_net/N(worked_out)-1,""))'),
        )),
        Section("Metres by size", printed=False, folded=False, columns=(
            per("size", computed("meters", "{size}", number(3),
                                 'IF(OR(N(counted)=0,N(usable)=0,SUMPRODUCT((pieces.material=material)*(pieces.area.mine=""))>0),"",'
                                 "SUMPRODUCT((pieces.material=material)*1,pieces.area.mine)/(N(usable)*style.unit_in_meters)/N(counted))")),
        )),
    )),
), checks=(
    Check("typed_use", "A marker was laid, and Materials counts with a use typed by hand", "SUM(yield.fabrics.differs)",
          fix="Clear the net use on Materials: the marker's then counts. Or leave it, if it is meant.",
          where='IFERROR(INDEX(yield.fabrics.material,MATCH(1,yield.fabrics.differs,0))&"","")'),
))  # fmt: skip
