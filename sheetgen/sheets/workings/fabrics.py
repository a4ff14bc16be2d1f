"""Steps of fabric and thread: figures by size, the use of a cloth and of a thread in the unit of Materials."""

from __future__ import annotations

from sheetgen.declare.entry import Entry, computed, or_zero, per
from sheetgen.declare.kinds import length, number, text, whole
from sheetgen.declare.parts import Ledger, Line, Section, Table


def _by_size(name: str, words: str, formula: str, digits: int = 0) -> Line:
    return Line((words,), (per("size", computed(name, f"{words}: {{size}}", number(digits), formula)),))


BY_SIZE = Ledger("Size by size", ("Figure", "{size}"), (32, 9), (
    _by_size("size_number", "Number in the size range", "mine"),
    _by_size("size_pieces", "Pieces of the order", "N(INDEX(order.sizes.total,mine))"),
    _by_size("size_meters", "Metres of the lays' material", digits=3,
             formula='IFERROR(INDEX(yield.fabrics.meters.mine,MATCH(cutting.lay_material,yield.fabrics.material,0)),"")'),
    _by_size("size_squares", "Measurements, for the markers", digits=2,
             formula="mine*SUMPRODUCT(measurements.points.spec.mine,measurements.points.spec.mine)"),
))  # fmt: skip


def _unit_of_use() -> tuple[Entry, Entry]:
    """What a unit of use counts, and how much of that it is; blank where `unit` is none of the list."""
    row = "MATCH(unit,lists.units.unit,0)"
    return (
        computed("of", "It counts", text(8), f'IFERROR(INDEX(lists.units.of,{row}),"")'),
        computed("factor", "In m, m², g", number(6, width=12), f'IFERROR(INDEX(lists.units.factor,{row}),"")'),
    )


CLOTHS = Table("cloths", "Fabric in the unit of Materials", ref="B", key="material", mirrors="yield.fabrics", columns=(
    computed("material", "Material", text(26), 'IFERROR(INDEX(yield.fabrics.material,MATCH(ref,yield.fabrics.ref,0))&"","")'),
    computed("line", "Line", whole(), "MATCH(ref,yield.fabrics.ref,0)"),
    computed("unit", "Unit", text(8), "INDEX(yield.fabrics.unit,line)"),
    *_unit_of_use(),
    computed("meters", "m for a garment", number(3), 'IF(INDEX(yield.fabrics.mix,line)="",INDEX(yield.fabrics.sample,line),INDEX(yield.fabrics.mix,line))'),
    computed("usable", "Usable width", number(2), 'IF(INDEX(yield.fabrics.usable,line)="","",INDEX(yield.fabrics.usable,line))'),
    computed("kg", "kg for a garment", number(4), "INDEX(yield.fabrics.mix_kg,line)"),
    computed("net", "Net use in that unit", number(4),
             'IFERROR(IF(of="length",meters,IF(of="area",meters*usable*style.unit_in_meters,IF(of="weight",IF(kg="","",kg*1000),"")))/factor,"")'),
))  # fmt: skip

SIZED = Table("sized", "Lengths of articles that differ by size", ref="M", key="item", mirrors="materials.bom", columns=(
    computed("item", "Item", text(26), 'IFERROR(INDEX(materials.bom.item,MATCH(ref,materials.bom.ref,0))&"","")'),
    computed("line", "Line", whole(), "MATCH(ref,materials.bom.ref,0)"),
    computed("point", "Line of its point", whole(),
             'IF(INDEX(materials.bom.by_size,line)&""<>"yes","",IFERROR(MATCH(INDEX(materials.bom.size_point,line),measurements.points.ref,0),""))'),
    per("size", computed("long", "{size}", length(),
                         'IF(point="","",IFERROR(INDEX(measurements.points.spec.mine,point)+N(INDEX(materials.bom.size_plus,line)),""))')),
))  # fmt: skip

THREADS = Table("threads", "Thread in the unit of Materials", ref="H", key="material", mirrors="thread.articles", columns=(
    computed("material", "Material", text(26), 'IFERROR(INDEX(thread.articles.material,MATCH(ref,thread.articles.ref,0))&"","")'),
    computed("cone", "m on a cone", number(0), "N(INDEX(thread.articles.cone,MATCH(ref,thread.articles.ref,0)))"),
    computed("unit", "Unit", text(8), 'IFERROR(INDEX(materials.bom.unit,MATCH(material,materials.bom.ref,0))&"","")'),
    *_unit_of_use(),
    computed("meters", "m in that unit", number(2), 'IF(unit="cone",IF(cone=0,"",cone),IF(of&""="length",N(factor),""))'),
    Section("Cones of a color", (
        per("colorway", or_zero("a colorway that does without it takes no cone", computed("cones", "{colorway}", whole(),
                                 'IF(OR(cone=0,meters=""),0,ROUNDUP(ROUND(N(INDEX(colors.together.mine,MATCH(material,colors.ref,0)))*N(meters)/cone,6),0))'))),
        computed("all_cones", "All", whole(), "SUM(cones.all)"),
    )),
))  # fmt: skip
