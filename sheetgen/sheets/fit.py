"""Fit: what was measured on each sample, by the vendor and by the brand, against the size it was made in.

A base changed in one round is the base of the next and of all sizes from then on; each round keeps the base that it
was measured against. Change in washing as ISO 5077 defines it: (after - before) / before, negative is shrinkage.
"""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per, vendor
from sheetgen.declare.kinds import choice, date, length, percent, pick, picture, text, whole
from sheetgen.declare.parts import Check, Form, Pictures, Section, Sheet, Table

SAMPLES = ("Proto", "Fit", "Size set", "Pre-production", "Top of production")
_OPEN = "the round is open"
_POINT = "MATCH(ref,measurements.points.ref,0)"
_SIZE = "INDEX(rounds.size_at,mine)"


def _tolerance(side: str) -> str:
    """The tolerance of one side: 0 beside a filled other one, blank where none is typed, and then nothing is in or out."""
    minus, plus = (f"INDEX(measurements.points.{name},{_POINT})" for name in ("minus", "plus"))
    return f'IF(AND({minus}="",{plus}=""),"",N(INDEX(measurements.points.{side},{_POINT})))'


_KEPT = 'IF(kept_{0}.mine="",{1},kept_{0}.mine)'
"""What was asked stays as it was when the round was decided."""

FIT = Sheet("fit", "Fit", seen="sample", purpose="Samples, round after round. Write what was measured, not what was asked.", main="points", parts=(
    Table("points", "Measured", ref="P", key="point", mirrors="measurements.points", columns=(
        computed("point", "Point of measure", text(24), f'IFERROR(INDEX(measurements.points.point,{_POINT})&"","")'),
        computed("minus", "Tol. −", length(width=7), _tolerance("minus")),
        computed("plus", "Tol. +", length(width=7), _tolerance("plus")),
        Section("{round}", axis="round", latest=True, columns=(
            computed("spec", "Asked", length(), _KEPT.format("spec", "asked.mine"),
                     help="In the size of this round, from the base before this round's changes."),
            per("round", vendor("value", "Vendor measured", length(width=10), need="sample"), asked_by="fit.round_now"),
            designer("own", "Brand measured", length(width=10)),
            computed("deviation", "Deviation", length(width=10),
                     'IF(AND(value.mine="",own.mine=""),"",ROUND(IF(own.mine="",value.mine,own.mine)-spec.mine,4))'),
            computed("verdict", "In or out", text(8), f'IF(deviation.mine<0-{_KEPT.format("minus", "minus")}-0.00005,"out",'
                                                      f'IF(deviation.mine>{_KEPT.format("plus", "plus")}+0.00005,"out","in"))',
                     may_be_blank=("kept_minus.mine", "kept_plus.mine")),
            vendor("remark", "Vendor's remark", text(14)),
            designer("comment", "Brand's comment", text(16)),
            designer("revise", "Change base to", length(), help="Becomes the base of all sizes from the next round on."),
        )),
        Section("Size set: vendor measured", printed=False, folded=False, columns=(
            per("size", vendor("set_value", "{size}", length(), need="sample"), asked_by="fit.stage_now", asked_when="Size set"),
        )),
        Section("Size set: deviation", printed=False, folded=False, columns=(
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
        Section("Before and after wash (ISO 5077)", printed=False, folded=False, columns=(
            vendor("before", "Before wash", length(width=10)),
            vendor("after", "After wash", length(width=10)),
            computed("wash_change", "Change", percent(1), 'IF(before=0,"",(after-before)/before)', help="Negative is shrinkage."),
            designer("wash_limit", "Limit, ±", percent(1)),
            computed("wash_verdict", "In or out", text(8), 'IF(ABS(wash_change)>wash_limit+0.000001,"out","in")'),
        )),
        Section("Steps", printed=False, columns=(
            computed("direction", "Runs", text(7), f'INDEX(measurements.points.direction,{_POINT})&""'),
        )),
        Section("Steps: {round}", axis="round", printed=False, columns=(
            computed("start", "Base before", length(), 'IF(revise.prev="",start.prev,revise.prev)',
                     first=f'IF(INDEX(measurements.points.base,{_POINT})="","",INDEX(measurements.points.base,{_POINT}))'),
            computed("asked", "Asked as it stands now", length(width=14),
                     f'IFERROR(INDEX(measurements.points.spec.all,{_POINT},{_SIZE})'
                     f'+IF(start.mine="",0,start.mine-INDEX(measurements.points.current,{_POINT})),"")'),
            computed("next", "Next base", length(), 'IF(revise.mine="",start.mine,revise.mine)'),
            computed("relative", "Deviation, %", percent(1), "IF(spec.mine=0,\"\",deviation.mine/spec.mine)"),
            designer("kept_spec", "Asked when decided", length(width=14), blank=_OPEN, help="Kept with the round's decision, by the next build."),
            designer("kept_minus", "Tol. − when decided", length(least=0, width=14), blank=_OPEN),
            designer("kept_plus", "Tol. + when decided", length(least=0, width=14), blank=_OPEN),
        )),
    )),
    Form("Now asked for", (
        designer("round_now", "Round", pick("fit.rounds.round"), need="sample", help="The vendor fills this round's measurements."),
        computed("stage_now", "Its stage", text(), 'IF(round_now="","",IFERROR(INDEX(rounds.stage_of,MATCH(round_now,rounds.round,0))&"",""))'),
        per("round", computed("out", "Points out: {round}", whole(), 'COUNTIF(points.verdict.mine,"out")')),
        computed("set_worst", "Size set: worst point", text(),
                 'IF(COUNT(points.set_largest)=0,"",'
                 'IFERROR(INDEX(points.point,MATCH(MAX(points.set_largest),points.set_largest,0))&", size "&'
                 'INDEX(points.set_where,MATCH(MAX(points.set_largest),points.set_largest,0)),""))'),
        per("round", computed("cause", "What it looks like: {round}", text(60), 'workings.hint_length.mine&""&workings.hint_width.mine&""',
                              help="A hint, no verdict: all points of one direction lie on one side.")),
    )),
    Table("rounds", "Rounds", ref="R", key="round", spare=2, begins=({"round": SAMPLES[0]},),
          note="A row for each sample as it comes: a second fit is a row of its own. The next build gives it its columns above.", says=("size",), columns=(
        designer("round", "Round", choice(*SAMPLES, open=True, width=24), need="sample"),
        designer("size", "Size", pick("style.sizes.name", 7), help="The size that this sample was made in.", blank="the sample size"),
        computed("open_comments", "Open", whole(width=7), 'COUNTIFS(comments.round,round,comments.state,"open")', help="Comments of this round that are open."),
        designer("asked", "Asked", date(10)),
        designer("due", "Due", date(10)),
        vendor("sent", "Sent", date(10)),
        designer("received", "Received", date(10)),
        designer("tried", "Tried on", date(10), help="The day of the fit."),
        designer("decision", "Decision", choice("approved", "approved with comments", "rejected", width=14),
                 help="The next build keeps what was asked in this round, and its tolerances."),
        designer("comment", "Comment", text(16)),
        designer("by", "By", text(9)),
        Section("How it was made and tried", printed=False, folded=False, columns=(
            designer("tried_by", "On whom", text(14), help="Who or which form wore it, with the measurements that matter."),
            designer("made_of", "Made of", text(16), help="The fabric of this sample, where it is not the right one."),
            designer("pattern", "Pattern", text(12), help="The version of the pattern that it was cut from."),
            designer("stage", "Stage", choice(*SAMPLES, width=16), blank="as its name says"),
        )),
        Section("Steps", printed=False, columns=(
            computed("size_at", "Its size stands at", whole(),
                     'IF(size="",style.sample_number,IFERROR(MATCH(size&"",style.sizes.name,0),IFERROR(MATCH(size,style.sizes.name,0),"")))'),
            computed("approved_open", "Approved, with open ones", whole(), 'IF(AND(decision&""="approved",open_comments>0),1,0)'),
            computed("stage_of", "Stage that counts", text(16), 'IF(stage="",round&"",stage)', may_be_blank=("stage",)),
        )),
    )),
    Table("comments", "What was seen", ref="F", key="seen", spare=6,
          note="At a point, at a callout, or on the garment as a whole. An open one goes with the next copy.", columns=(
        designer("seen", "Seen", text(24), help="As: the collar stands away at the back."),
        designer("point", "At point", pick("measurements.points.ref", 7)),
        designer("callout", "At callout", pick("construction.callouts.ref", 7)),
        designer("round", "In round", pick("fit.rounds.round", 10), need="sample"),
        designer("whose", "Whose", choice("pattern", "sewing", "fabric", "finishing", "measuring", open=True, width=10)),
        designer("closed", "Closed in", pick("fit.rounds.round", 10), help="The round in which it was gone.", blank="it is open"),
        computed("state", "State", text(10), 'IF(seen="","",IF(closed="","open","closed"))', may_be_blank=("closed",)),
        designer("on", "On", date(8)),
        designer("change", "Change asked", text(14)),
        vendor("answer", "Vendor's answer", text(16), need="sample", unless="closed"),
    )),
    Pictures("Photos of the samples", (
        per("round", vendor("photo_front", "{round}, front", picture())),
        per("round", vendor("photo_back", "{round}, back", picture())),
    ), height=240, across=4, note="The vendor puts its photos into the frame of the round; they come along when the return is accepted."),
), checks=(
    Check("open_comments", "A round is approved, and comments of it are open", "SUM(fit.rounds.approved_open)",
          fix="Say in which round each was closed, or approve it with comments.",
          where='IFERROR(INDEX(fit.rounds.ref,MATCH(1,fit.rounds.approved_open,0)),"")'),
))  # fmt: skip
