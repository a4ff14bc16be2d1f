"""Fit: what was measured on each sample, by the vendor and by the brand, against the size it was made in.

A base changed in one round is the base of the next and of all sizes from then on; each round keeps the base that it
was measured against. Change in washing as ISO 5077 defines it: (after - before) / before, negative is shrinkage.
"""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, fixed, per, vendor
from sheetgen.declare.kinds import choice, date, length, percent, pick, text, whole
from sheetgen.declare.parts import Form, Section, Sheet, Table

ROUNDS = ("Proto", "Fit", "Size set", "Pre-production", "Top of production")
_POINT = "MATCH(ref,measurements.points.ref,0)"
_SIZE = "MATCH(INDEX(rounds.size,mine),style.sizes.name,0)"


def _tolerance(side: str) -> str:
    """The tolerance of one side: 0 beside a filled other one, blank where none is typed, and then nothing is in or out."""
    minus, plus = (f"INDEX(measurements.points.{name},{_POINT})" for name in ("minus", "plus"))
    return f'IF(AND({minus}="",{plus}=""),"",N(INDEX(measurements.points.{side},{_POINT})))'


FIT = Sheet("fit", "Fit", purpose="Samples, round after round. Write what was measured, not what was asked.", parts=(
    Form("Now asked for", (
        designer("round_now", "Round", choice(*ROUNDS), need="sample", help="The vendor fills this round's measurements."),
        per("round", computed("out", "Points out: {round}", whole(), 'COUNTIF(points.verdict.mine,"out")')),
        computed("set_worst", "Size set: worst point", text(),
                 'IF(COUNT(points.set_largest)=0,"",'
                 'IFERROR(INDEX(points.point,MATCH(MAX(points.set_largest),points.set_largest,0))&", size "&'
                 'INDEX(points.set_where,MATCH(MAX(points.set_largest),points.set_largest,0)),""))'),
        per("round", computed("cause", "What it looks like: {round}", text(60), 'workings.hint_length.mine&""&workings.hint_width.mine&""',
                              help="A hint, no verdict: all points of one direction lie on one side.")),
    )),
    Table("rounds", "Rounds", ref="R", key="round", spare=0, rows=tuple({"round": name} for name in ROUNDS), columns=(
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
        computed("point", "Point of measure", text(26), f'IFERROR(INDEX(measurements.points.point,{_POINT})&"","")'),
        computed("minus", "Tol. −", length(width=7), _tolerance("minus")),
        computed("plus", "Tol. +", length(width=7), _tolerance("plus")),
        computed("direction", "Runs", text(7), f'INDEX(measurements.points.direction,{_POINT})&""'),
        Section("{round}", axis="round", new_page=True, columns=(
            computed("start", "Base before", length(), 'IF(revise.prev="",start.prev,revise.prev)',
                     first=f'IF(INDEX(measurements.points.base,{_POINT})="","",INDEX(measurements.points.base,{_POINT}))'),
            computed("spec", "Asked", length(),
                     f'IFERROR(INDEX(measurements.points.spec.all,{_POINT},{_SIZE})'
                     f'+IF(start.mine="",0,start.mine-INDEX(measurements.points.current,{_POINT})),"")',
                     help="In the size of this round, from the base before this round's changes."),
            per("round", vendor("value", "Vendor measured", length(width=10), need="sample"), asked_by="fit.round_now"),
            designer("own", "Brand measured", length(width=10)),
            computed("deviation", "Deviation", length(width=10),
                     'IF(AND(value.mine="",own.mine=""),"",ROUND(IF(own.mine="",value.mine,own.mine)-spec.mine,4))'),
            computed("verdict", "In or out", text(8), 'IF(deviation.mine<0-minus-0.00005,"out",IF(deviation.mine>plus+0.00005,"out","in"))'),
            vendor("remark", "Vendor's remark", text(18)),
            designer("comment", "Brand's comment", text(22)),
            designer("revise", "Change base to", length(), help="Becomes the base of all sizes from the next round on."),
            computed("next", "Next base", length(), 'IF(revise.mine="",start.mine,revise.mine)'),
            computed("relative", "Deviation, %", percent(1), "IF(spec.mine=0,\"\",deviation.mine/spec.mine)"),
        )),
        Section("Size set: vendor measured", new_page=True, columns=(
            per("size", vendor("set_value", "{size}", length(), need="sample"), asked_by="fit.round_now", asked_when="Size set"),
        )),
        Section("Size set: deviation", (
            per("size", computed("set_deviation", "{size}", length(),
                                 f'IF(set_value.mine="","",ROUND(set_value.mine-INDEX(measurements.points.spec.mine,{_POINT}),4))')),
            computed("set_out", "Sizes out", whole(),
                     'SUMPRODUCT((set_deviation.all<>"")*(set_deviation.all<0-minus-0.00005))'
                     '+SUMPRODUCT((set_deviation.all<>"")*(set_deviation.all>plus+0.00005))'),
            computed("set_largest", "Largest", length(), 'IF(COUNT(set_deviation.all)=0,"",MAX(MAX(set_deviation.all),0-MIN(set_deviation.all)))'),
            computed("set_where", "In size", text(10),
                     'IF(set_largest="","",INDEX(style.sizes.name,MATCH('
                     'IF(MAX(set_deviation.all)>=0-MIN(set_deviation.all),MAX(set_deviation.all),MIN(set_deviation.all)),set_deviation.all,0))&"")'),
        )),
        Section("Before and after wash (ISO 5077)", new_page=True, columns=(
            vendor("before", "Before wash", length(width=10)),
            vendor("after", "After wash", length(width=10)),
            computed("wash_change", "Change", percent(1), 'IF(before=0,"",(after-before)/before)', help="Negative is shrinkage."),
            designer("wash_limit", "Limit, ±", percent(1)),
            computed("wash_verdict", "In or out", text(8), 'IF(ABS(wash_change)>wash_limit+0.000001,"out","in")'),
        )),
    )),
))  # fmt: skip
