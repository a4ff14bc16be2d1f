"""Thread: what each seam takes, by a published table or by the stitch's geometry, and what that is of each article.

Thread of a seam = its length x metres of thread per metre of seam: by a published ratio table, by the stitch's
geometry (base + density x (thickness and width with their factors)), or by a figure of one's own.
"""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, or_zero, vendor
from sheetgen.declare.kinds import choice, length, number, percent, pick, text, whole
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table
from sheetgen.sheets.lookups import at_least, material
from sheetgen.trade.stitches import DEFAULT_TABLE, TABLES

GEOMETRY = "geometry"
_STITCH = "MATCH(stitch,lists.stitches.stitch,0)"


def _stitch(column: str) -> str:
    return f"IFERROR(N(INDEX(lists.stitches.{column},{_STITCH})),0)"


def _bom(column: str) -> str:
    return material(column, by="material")


_IN_UNIT = "INDEX(workings.threads.meters,MATCH(ref,workings.threads.ref,0))"
_WORDS = ",".join(f'"{table}"' for table in TABLES)
_RATIOS = f"lists.stitches.ratio_{next(iter(TABLES)).lower()}:lists.stitches.ratio_{list(TABLES)[-1].lower()}"
_GEOMETRY_WORDS = "the geometry of the stitch, a machine maker's formulas"


def _callout(column: str) -> str:
    return f"INDEX(construction.callouts.{column},MATCH(ref,construction.callouts.ref,0))"


USUAL_EACH = {"buttonhole": 1.2, "bartack": 0.6, "button sewn on": 0.5}
"""Metres of thread of one, both threads together: common practice, from memory."""
_ANY_QUANTITY = "it is sold in any quantity, or its unit counts no metres: the check of cones asks for more than 0"
_ITS_SEAMS = "((seams.needle_ref=material)+(seams.looper_ref=material)>0)"

THREAD = Sheet("thread", "Thread", seen="wanted",
               purpose="Thread of each seam and of each article, in metres per garment. Estimates: a seam taken apart and measured is better.",
               main="seams", parts=(
    Table("seams", "Seams", ref="N", key="area", mirrors="construction.callouts", columns=(
        computed("area", "Area", text(17), f'IFERROR({_callout("area")}&"","")'),
        computed("stitch", "Stitch", text(22), f'{_callout("stitch")}&""'),
        computed("length", "Seam length, {unit}", length(), f'IF({_callout("seam_length")}="","",{_callout("seam_length")})'),
        computed("density", "Density", number(1), f'IF({_callout("density")}="","",{_callout("density")})'),
        designer("needle_thread", "Needle thread", pick("materials.bom.ref", 9), help="The ref in Materials, as M9.", blank="the first article below"),
        designer("looper_thread", "Bobbin or looper", pick("materials.bom.ref", 9), blank="as the needle"),
        designer("thick", "Seam thickness, mm", number(2, 0), help="For the geometry: of all plies together."),
        designer("bight", "Stitch width, mm", number(2, 0), help="For the geometry: overedge and cover stitches."),
        designer("own_ratio", "Own ratio", number(2, 0), help="Metres of thread per metre of seam, if you measured it.", blank="by the table or the geometry"),
        designer("own_needle", "Own share of needles", percent(1), blank="by the table; half where none splits it"),
        computed("by_table", "By the table", number(2), 'IF(published>0,published,IF(any_published>0,any_published,""))'),
        computed("by_geometry", "By geometry", number(2),
                 'IF(OR(base=0,density="",thick=""),"",base+N(density)*density_cm*(per_thickness*N(thick)+per_width*N(bight))/10)',
                 help="m per m; only where density and thickness are given."),
        computed("ratio", "Ratio counted", number(2),
                 f'IF(own_ratio<>"",own_ratio,IF(AND(table="{GEOMETRY}",by_geometry<>""),N(by_geometry),'
                 'IF(by_table<>"",by_table,IF(by_geometry="","",N(by_geometry)))))',
                 help="Yours, else that of the table in use, else the geometry's."),
        computed("against", "Geometry, more or less", percent(0, None, None, width=11), 'IF(OR(by_geometry="",N(ratio)=0),"",N(by_geometry)/N(ratio)-1)',
                 help="A cross-check: tables bury a thickness."),
        computed("needle_share", "Needles' share", percent(0), f'IF(own_needle<>"",own_needle,IF({_stitch("needle")}>0,{_stitch("needle")},0.5))'),
        computed("needle_meters", "Needle, m", number(2), "length*needle_share*ratio*style.unit_in_meters"),
        computed("looper_meters", "Bobbin or looper, m", number(2), "length*ratio*style.unit_in_meters-needle_meters"),
        Section("Counted to which article", printed=False, folded=False, columns=(
            computed("needle_ref", "Needle counted to", text(8), 'IF(area="","",IF(needle_thread="",IFERROR(INDEX(articles.material,1)&"",""),needle_thread))'),
            computed("looper_ref", "Bobbin counted to", text(8), 'IF(looper_thread="",needle_ref&"",looper_thread)'),
            computed("in_table", "In the table", whole(),
                     'IF(needle_ref="","",MIN(1,SUMPRODUCT((articles.material=needle_ref&"")*1)*SUMPRODUCT((articles.material=looper_ref&"")*1)))',
                     help="1 where both threads stand in the table below."),
        )),
        Section("Steps: the stitch in Lists", printed=False, columns=(
            computed("published", "In the table in use", number(2), f"IFERROR(N(INDEX({_RATIOS},{_STITCH},MATCH(table,{{{_WORDS}}},0))),0)"),
            computed("any_published", "In the first that has it", number(2), _stitch("ratio")),
            computed("base", "Base", number(2), _stitch("base")),
            computed("per_thickness", "Thickness", number(2), _stitch("per_thickness")),
            computed("per_width", "Width", number(2), _stitch("per_width")),
        )),
    )),
    Table("articles", "Thread per garment, by article", ref="H", key="material", spare=2, columns=(
        designer("material", "Material", pick("materials.bom.ref", 17), help="The ref of a thread in Materials, as M9."),
        computed("item", "Item", text(22), f'IFERROR({_bom("item")}&"","")'),
        computed("needle", "Needle, m", number(2), "SUMPRODUCT((seams.needle_ref=material)*1,seams.needle_meters)"),
        computed("looper", "Bobbin or looper, m", number(2), "SUMPRODUCT((seams.looper_ref=material)*1,seams.looper_meters)"),
        computed("counted", "Buttonholes and the like, m", number(2), "SUMPRODUCT((counted.article=material)*1,counted.meters)"),
        computed("known", "Seams counted", text(13), at_least("known_seams", "its_seams"), help="At least, where a seam has no length or no ratio yet."),
        computed("waste", "Waste", percent(0), f'IFERROR(IF({_bom("waste")}="",style.thread_waste,{_bom("waste")}),style.thread_waste)',
                 help="That of its line in Materials, which is bought; else the style's."),
        computed("with_waste", "With waste, m", number(2), "(needle+looper+counted)*(1+waste)"),
        designer("cone", "Cone, m", number(0, 1), help="Metres on one cone.", blank="cones are not counted"),
        computed("worked_out", "Net use, its unit", number(4),
                 f'IF({_IN_UNIT}="","",(needle+looper+counted)/{_IN_UNIT})', help="Before waste, in the unit of Materials."),
        computed("cones", "Cones for the order", whole(), 'IF(N(cone)=0,"",INDEX(workings.threads.all_cones,MATCH(ref,workings.threads.ref,0)))',
                 help="As much as Order needs of it, in whole cones of each color, for all pieces that are cut."),
        or_zero(_ANY_QUANTITY, computed("sold_by", "Sold by, m", number(0),
                                        f'IFERROR(N(INDEX(order.buy.multiple,MATCH(material,order.buy.ref,0)))*N({_IN_UNIT}),0)',
                                        help="What Order says that it is sold by, in metres.")),
        Section("Against the vendor", printed=False, folded=False, columns=(
            vendor("stated_needle", "Vendor's needle, m", number(2, 0, width=10)),
            vendor("stated_looper", "Vendor's looper, m", number(2, 0, width=10)),
            vendor("stated_gross", "Vendor's total with waste, m", number(2, 0, width=12)),
            computed("stated_gap", "Vendor, more or less", percent(1, None, None),
                     'IF(OR(stated_gross="",with_waste=0),"",IFERROR(stated_gross/with_waste-1,""))'),
        )),
        Section("Steps", printed=False, columns=(
            computed("its_seams", "Seams with it", whole(), f"SUMPRODUCT({_ITS_SEAMS}*1)"),
            computed("known_seams", "Of them known", whole(), f'SUMPRODUCT({_ITS_SEAMS}*(seams.looper_meters<>""))'),
        )),
    )),
    Table("counted", "Buttonholes, bartacks, buttons: counted, not measured", ref="TC", key="what", spare=3, columns=(
        designer("what", "What", choice(*USUAL_EACH, open=True, width=17)),
        designer("count", "In a garment", number(0, 0, width=22)),
        designer("each", "Thread each, m", number(2, 0), help="One taken apart and measured is best.", blank="as usual for buttonhole, bartack, button"),
        designer("thread", "Thread", pick("materials.bom.ref", 9), blank="the first article above"),
        computed("each_counted", "Counted each, m", number(2), 'IF(each<>"",each,' + "".join(
            f'IF(what="{what}",{meters:g},' for what, meters in USUAL_EACH.items()) + '""' + ")" * (len(USUAL_EACH) + 1)),
        computed("meters", "Thread, m", number(2), "count*each_counted"),
        computed("article", "Counted to", text(9), 'IF(what="","",IF(thread="",IFERROR(INDEX(articles.material,1)&"",""),thread))'),
    )),
    Form("How it is counted", (
        designer("thread_table", "Thread is counted by", choice(*TABLES, GEOMETRY),
                 help="A published table, or the geometry where density and thickness are given.", blank=f"table {DEFAULT_TABLE}"),
        computed("table", "Table in use", text(10), f'IF(thread_table="","{DEFAULT_TABLE}",thread_table)'),
        computed("table_named", "That is", text(60),
                 f'IFERROR(INDEX(lists.ratio_tables.words,MATCH(table,lists.ratio_tables.table,0)),"{_GEOMETRY_WORDS}")'
                 '&". A stitch that it lacks is counted by the first table that has it."'),
        computed("density_cm", "Stitches per cm for one of that unit", number(4),
                 'IF(construction.density_unit="stitches per inch",1/2.54,IF(construction.density_unit="stitches per 3 cm",1/3,1))'),
    )),
), checks=(
    Check("thread_ref", "A seam's thread is no line of the thread table",
          'SUMPRODUCT((thread.seams.needle_ref<>"")*1)-SUM(thread.seams.in_table)', fix="Add that thread to the table below the callouts."),
    Check("cone", "A cone holds other metres than the thread is sold by",
          'SUMPRODUCT((thread.articles.cone<>"")*(thread.articles.material<>"")*(thread.articles.sold_by>0)*(thread.articles.cone<>thread.articles.sold_by))',
          fix="One cone: the same metres on Thread and, as Sold by, on Order."),
))  # fmt: skip
