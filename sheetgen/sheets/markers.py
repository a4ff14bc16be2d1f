"""Markers: how the pieces lie on the fabric, how long that is, and whether it still fits the measurements."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, or_zero, per
from sheetgen.declare.kinds import date, length, number, percent, pick, picture, text, whole
from sheetgen.declare.parts import Check, Section, Sheet, Table

MARKERS = Sheet("markers", "Markers", seen="wanted", seen_with="markers.list.material", goes=("bulk",),
                purpose="The pieces of a few garments laid on the fabric: the basis of its use.", main="list", parts=(
    Table("list", "Markers", ref="G", key="material", spare=2, row_height=400,
          note="sheetgen marker lays and draws them. Their efficiency comes before the one typed in Yield: an estimate until the cutter lays it.", columns=(
        designer("material", "Material", pick("materials.bom.ref", 9)),
        computed("state", "State", text(16), 'IF(stamp="","typed",IF(ABS(stamp-stamp_now)<0.05,"as laid","OUT OF DATE"))',
                 help="Out of date: measurements, pieces, width or the order's mix changed since."),
        designer("sizes", "Garments in it", text(16)),
        designer("garments", "Number", whole(least=1)),
        designer("width", "Width, {unit}", length(least=0)),
        designer("long", "Length, m", number(3, 0)),
        designer("area", "Area of pieces, m²", number(4, 0)),
        designer("end_loss", "End loss, m", number(3, 0), help="Of each ply, both ends."),
        computed("efficiency", "Efficiency", percent(2, width=10), "area/(long*width*style.unit_in_meters)"),
        computed("each", "m per garment", number(4), "(long+N(end_loss))/garments"),
        designer("made_on", "Laid on", date()),
        designer("how", "How", text(18)),
        designer("picture", "Marker", picture(57)),
        Section("What it rests on", printed=False, columns=(
            designer("stamp", "Inputs then", number(2, width=12), help="A sum over all that the marker rests on; written with it."),
            computed("lies", "Nap, as a number", whole(),
                     'IFERROR(MATCH(INDEX(yield.fabrics.nap,MATCH(material,yield.fabrics.material,0))&"",{"one way","two ways","any way"},0),0)'),
            per("size", computed("mix", "Garments, {size}", number(0),
                                 "IF(SUM(order.sizes.total)=0,0,"
                                 "mine*mine*ROUND(N(garments)*N(INDEX(order.sizes.total,mine))/SUM(order.sizes.total),0))")),
            or_zero("a mark: what counts is only whether it changes", computed("stamp_now", "Inputs now", number(2, width=12),
                     "ROUND(SUMPRODUCT((yield.pieces.material=material)*1,yield.pieces.mark)"
                     "+31*N(INDEX(yield.fabrics.usable,MATCH(material,yield.fabrics.material,0)))"
                     "+7*lies+SUM(workings.size_squares.all)+SUM(mix.all),2)")),
        )),
    )),
), checks=(
    Check("stale", "A marker is out of date", 'COUNTIF(markers.list.state,"OUT OF DATE")',
          fix="Lay it anew: measurements, pieces, width or the order's mix changed since.", stops="quote"),
))  # fmt: skip
