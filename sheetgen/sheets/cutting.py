"""Cutting: the lays that cut the order, and what they make more than was ordered."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, or_zero, per
from sheetgen.declare.kinds import number, percent, pick, text, whole
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table

_A_MARK = "a mark: what counts is only whether it changes"
CUTTING = Sheet("cutting", "Cutting", seen="wanted",
                purpose="Lays: a marker with so many garments of each size, on so many plies of each color.", main="lays", parts=(
    Table("lays", "Lays", ref="A", key="lay", spare=4, note="Typed by hand, or planned by sheetgen cutplan: fewest lays, then fewest pieces over.", columns=(
        designer("lay", "Lay", text(26)),
        Section("Garments in the marker", (
            per("size", designer("garments", "{size}", whole(least=0))),
        )),
        Section("Plies", (
            per("colorway", designer("plies", "{colorway}", whole(least=0, width=11))),
        )),
        computed("in_marker", "Garments", whole(width=10), "SUM(garments.all)"),
        computed("all_plies", "All plies", whole(), "SUM(plies.all)"),
        computed("cut", "Pieces", whole(), "in_marker*all_plies"),
        designer("laid_long", "As laid, m", number(3, 0), help="Of a marker of this lay's own sizes: sheetgen marker --lays lays it, or type the cutter's.",
                 blank="as long as the usual use of its sizes"),
        computed("state", "State", text(14), 'IF(laid_long="","estimate",IF(laid_stamp="","typed",IF(ABS(laid_stamp-laid_now)<0.05,"as laid","OUT OF DATE")))',
                 may_be_blank=("laid_now",), help="Out of date: sizes, measurements, pieces or width changed since; the estimate counts."),
        computed("marker_long", "Marker, m", number(2), 'IF(OR(state="as laid",state="typed"),N(laid_long),usual_long)',
                 may_be_blank=("usual_long", "laid_long")),
        computed("fabric", "Fabric, m", number(1), 'IF(marker_long="","",N(marker_long)*all_plies)', help="Without end losses."),
        Section("What the marker's length rests on", printed=False, columns=(
            computed("usual_long", "Usual use, m", number(2),
                     'IF(OR(lay_material="",COUNTIF(workings.size_meters.all,"")>0),"",SUMPRODUCT(garments.all,workings.size_meters.all))'),
            designer("laid_stamp", "Inputs then", number(2, width=12), help="A sum over all that the laid marker rests on; written with it."),
            or_zero(_A_MARK, computed("cloth_now", "Pieces and width now", number(2, width=12),
                     "SUMPRODUCT((yield.pieces.material=lay_material)*1,yield.pieces.mark)"
                     "+31*N(INDEX(yield.fabrics.usable,MATCH(lay_material,yield.fabrics.material,0)))")),
            computed("laid_now", "Inputs now", number(2, width=12),
                     "ROUND(cloth_now+SUM(workings.size_squares.all)+SUMPRODUCT(garments.all,workings.size_number.all,workings.size_number.all),2)"),
        )),
    )),
    Form("Cutting", (
        designer("most_plies", "Plies in a lay, at most", whole(least=1), help="What the cutter's knife and the fabric allow."),
        designer("most_garments", "Garments in a marker, at most", whole(least=1), help="What the table's length allows."),
        designer("most_over", "Cut too much, at most", percent(1, 0, 0.2), help="Of each size and colorway, over what the order cuts.", blank="nothing"),
        designer("lay_material", "Material of the lays", pick("materials.bom.ref", 9), help="The ref of the main fabric."),
        computed("lays_least", "Lays in theory, at least", whole(), 'IF(order.pieces=0,"",ROUNDUP(ROUND(order.pieces/(most_plies*most_garments),9),0))'),
        computed("pieces_planned", "Pieces in the lays below", whole(), "SUM(lays.cut)"),
        computed("over_planned", "More than the order cuts", whole(), 'IF(N(pieces_planned)=0,"",pieces_planned-SUM(workings.split.asked.all))'),
        computed("fabric_planned", "Fabric for the lays, m", number(1), 'IF(OR(lay_material="",SUM(lays.fabric)=0),"",SUM(lays.fabric))'),
    )),
    Table("sizes", "Cut by these lays", ref="Z", key="size", mirrors="style.sizes", columns=(
        computed("size", "Size", text(26), 'IFERROR(INDEX(style.sizes.name,MATCH(ref,style.sizes.ref,0))&"","")'),
        Section("Pieces cut", (
            per("colorway", computed("planned", "{colorway}", whole(width=11),
                                     "SUMPRODUCT((workings.size_number.all=MATCH(ref,style.sizes.ref,0))*lays.plies.mine,lays.garments.all)")),
        )),
        Section("More than the order cuts", (
            per("colorway", computed("over", "{colorway}", whole(width=11),
                                     'IF(N(pieces_planned)=0,"",planned.mine-N(INDEX(workings.split.asked.mine,MATCH(ref,workings.split.ref,0))))')),
        )),
        computed("beyond", "Beyond the allowance", whole(width=11), "INDEX(workings.split.all_beyond,MATCH(ref,workings.split.ref,0))",
                 help="Colorways of which more is cut than is allowed."),
    )),
), checks=(
    Check("short", "The lays cut fewer than the order cuts", 'COUNTIF(cutting.sizes.over.all,"<0")', fix="Add plies, or plan the lays anew."),
    Check("beyond", "The lays cut more than is allowed", "SUM(cutting.sizes.beyond)", fix="Plan the lays anew, or allow more over."),
    Check("limits", "Lays higher, or markers with more garments, than is allowed",
          'IF(N(cutting.most_plies)=0,0,IF(MAX(cutting.lays.all_plies)>cutting.most_plies,1,0))'
          '+IF(N(cutting.most_garments)=0,0,IF(MAX(cutting.lays.in_marker)>cutting.most_garments,1,0))',
          fix="Plan the lays anew, or raise the limit."),
    Check("stale", "A lay's own marker is out of date", 'COUNTIF(cutting.lays.state,"OUT OF DATE")', fix="Lay it anew: sheetgen marker --lays."),
))  # fmt: skip
