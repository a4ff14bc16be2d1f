"""Yield: how much fabric a garment takes, from cut pieces whose length and width come from the measurements.

Area of a piece = (length + allowance) x (width + allowance) x count, each side divided by 1 - shrinkage; metres =
area / usable width / marker efficiency (the usual consumption formula of merchandising courses).
"""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.kinds import length, number, percent, pick, text, whole
from sheetgen.declare.parts import Section, Sheet, Table


def _side(side: str) -> str:
    size = f"INDEX(measurements.points.spec.mine,MATCH({side}_point,measurements.points.ref,0))"
    return f'((IF({side}_point="",0,IFERROR(N({size}),0))*IF({side}_times="",1,{side}_times)+N({side}_plus))*style.unit_in_meters/(1-N({side}_shrink)))'


YIELD = Sheet("yield", "Yield", purpose="Fabric per garment, worked out from the pieces. A marker made by the cutter is better: then type its figure in Materials.", parts=(
    Table("fabrics", "Fabric per garment", ref="B", key="material", spare=2, columns=(
        designer("material", "Material", pick("materials.bom.ref", 9), help="The ref in Materials, as M1."),
        computed("item", "Item", text(32), 'IFERROR(INDEX(materials.bom.item,MATCH(material,materials.bom.ref,0))&"","")'),
        computed("weight", "Weight, g/m²", number(0), "IFERROR(N(INDEX(materials.bom.weight,MATCH(material,materials.bom.ref,0))),0)"),
        designer("usable", "Usable width, {unit}", length(least=0), need="quote", help="Without the selvedges."),
        designer("efficiency", "Marker efficiency", percent(1, 0.01, 1), need="quote", help="Area of the pieces / area of the marker."),
        computed("mix", "m, order's mix", number(3), "IF(SUM(order.sizes.total)=0,\"\",EACH(size, meters.mine*N(INDEX(order.sizes.total,mine)))/SUM(order.sizes.total))"),
        computed("mix_kg", "kg, order's mix", number(4), "IF(mix=\"\",\"\",mix*usable*style.unit_in_meters*weight/1000)"),
        computed("typed", "Net use in Materials", number(4), "IFERROR(N(INDEX(materials.bom.net,MATCH(material,materials.bom.ref,0))),0)"),
        computed("unit", "Unit there", text(6), 'IFERROR(INDEX(materials.bom.unit,MATCH(material,materials.bom.ref,0))&"","")'),
        computed("gap", "Net use against yield", percent(1), 'IF(unit="m",IF(N(mix)=0,"",typed/mix-1),IF(unit="kg",IF(N(mix_kg)=0,"",typed/mix_kg-1),""))',
                 help="What Materials counts with, more or less than this yield."),
        designer("remark", "Remark", text(14)),
        Section("Metres by size", new_page=True, columns=(
            per("size", computed("meters", "{size}", number(3), "SUMPRODUCT((pieces.material=material)*1,pieces.area.mine)/(usable*style.unit_in_meters)/efficiency")),
        )),
    )),
    Table("pieces", "Cut pieces", ref="Y", key="piece", columns=(
        designer("material", "Material", pick("materials.bom.ref", 9), need="quote"),
        designer("piece", "Piece", text(24), need="quote"),
        designer("count", "Pieces", whole(least=0), need="quote"),
        designer("long_point", "Length of point", pick("measurements.points.ref", 9)),
        designer("long_times", "Times", number(2, 0)),
        designer("long_plus", "Plus, {unit}", length(), help="Seams and hem; the whole length where no point fits."),
        designer("long_shrink", "Shrinkage", percent()),
        designer("wide_point", "Width of point", pick("measurements.points.ref", 9)),
        designer("wide_times", "Times", number(2, 0)),
        designer("wide_plus", "Plus, {unit}", length()),
        designer("wide_shrink", "Shrinkage", percent()),
        Section("Area by size, m²", new_page=True, columns=(
            per("size", computed("area", "{size}", number(4), f"count*{_side('long')}*{_side('wide')}")),
        )),
    )),
))  # fmt: skip
