"""Fit: what was measured on each sample, by the vendor and by the brand, against the size it was made in."""

from __future__ import annotations

from sheetgen.declare.kinds import choice, date, length, pick, text, whole
from sheetgen.declare.parts import Form, Section, Sheet, Table, computed, designer, fixed, per, vendor

_ROUNDS = ("Proto", "Fit", "Size set", "Pre-production", "Top of production")

FIT = Sheet("fit", "Fit", purpose="Samples, round after round. Write what was measured, not what was asked.", parts=(
    Form("Now asked for", (
        designer("round_now", "Round", choice(*_ROUNDS), need="sample", help="The vendor fills this round's measurements."),
        per("round", computed("out", "Points out: {round}", whole(), 'COUNTIF(points.verdict.mine,"out")')),
    )),
    Table("rounds", "Rounds", ref="R", key="round", spare=0, rows=tuple({"round": name} for name in _ROUNDS), columns=(
        fixed("round", "Round", text(26)),
        designer("size", "Size", pick("style.sizes.name", 9), help="The size that this sample was made in."),
        designer("asked", "Asked", date()),
        designer("due", "Due", date()),
        vendor("sent", "Sent", date()),
        designer("received", "Received", date()),
        designer("decision", "Decision", choice("approved", "approved with comments", "rejected", width=16)),
        designer("by", "By", text(12)),
        designer("comment", "Comment", text(30)),
    )),
    Table("points", "Measured", ref="P", key="point", mirrors="measurements.points", columns=(
        computed("point", "Point of measure", text(26), 'IFERROR(INDEX(measurements.points.point,MATCH(ref,measurements.points.ref,0))&"","")'),
        computed("minus", "Tol. −", length(width=7), "N(INDEX(measurements.points.minus,MATCH(ref,measurements.points.ref,0)))"),
        computed("plus", "Tol. +", length(width=7), "N(INDEX(measurements.points.plus,MATCH(ref,measurements.points.ref,0)))"),
        Section("{round}", axis="round", new_page=True, columns=(
            computed("spec", "Asked", length(),
                     'IFERROR(INDEX(measurements.points.spec.all,MATCH(ref,measurements.points.ref,0),MATCH(INDEX(rounds.size,mine),style.sizes.name,0)),"")'),
            per("round", vendor("value", "Vendor measured", length(width=10), need="sample"), asked_by="fit.round_now"),
            designer("own", "Brand measured", length(width=10)),
            computed("deviation", "Deviation", length(width=10), 'IF(AND(value.mine="",own.mine=""),"",ROUND(IF(own.mine="",value.mine,own.mine)-spec.mine,4))'),
            computed("verdict", "In or out", text(8), 'IF(deviation.mine<0-minus-0.00005,"out",IF(deviation.mine>plus+0.00005,"out","in"))'),
            vendor("remark", "Vendor's remark", text(18)),
            designer("comment", "Brand's comment", text(22)),
            designer("revise", "Change base to", length()),
            computed("next", "Next base", length(), 'IF(revise.mine="",INDEX(measurements.points.base,MATCH(ref,measurements.points.ref,0)),revise.mine)'),
        )),
    )),
))  # fmt: skip
