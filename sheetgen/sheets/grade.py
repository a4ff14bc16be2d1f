"""Grade: the brand fills its sample size only, the vendor grades all sizes, and the brand takes them point by point."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per, vendor
from sheetgen.declare.kinds import length, text, yes_no
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table
from sheetgen.sheets.lookups import row_of

_MEASURED = "measurements.points.{}"
OTHER_BASE, TURNS, JUMPS, OVERLAPS = "another base", "turns", "jumps", "overlaps"
"""What can be wrong with a point's grade, the worst first."""

GRADE = Sheet("grade", "Grade", seen="wanted",
              purpose="The sizes as the vendor grades them, where Measurements says so: every point in every size.", main="points", parts=(
    Table("points", "Sizes, {unit}", ref="P", key="point", mirrors="measurements.points", columns=(
        computed("point", "Point of measure", text(26), f'IFERROR({row_of(_MEASURED.format("point"))}&"","")'),
        computed("base", "At the sample size", length(), f'IFERROR(IF({row_of(_MEASURED.format("now"))}="","",{row_of(_MEASURED.format("now"))}),"")'),
        Section("The vendor's sizes", (
            per("size", vendor("value", "{size}", length(least=0), need="sample", unless="not_asked")),
        )),
        computed("verdict", "Looked at", text(14),
                 f'IF(COUNT(value.all)<style.sizes_count,"",IF(ABS(N(at_sample)-base)>0.00005,"{OTHER_BASE}",IF(turning>0,"{TURNS}",'
                 f'IF(jumping>0,"{JUMPS}",IF(overlapping>0,"{OVERLAPS}","even")))))',
                 help="another base: the sample size is not what you asked. turns: it grows and shrinks. jumps: the largest step is more "
                      "than twice the smallest. overlaps: the tolerances reach the next size."),
        vendor("remark", "Vendor's remark", text(22)),
        designer("take", "Take it", yes_no(8), help="Yes: the next build works out its steps and puts them into Measurements.", blank="not decided"),
        Section("Steps", printed=False, columns=(
            computed("not_asked", "Not asked", text(12),
                     f'IF(AND(measurements.grade_by&""="vendor",take&""<>"yes",IFERROR({row_of(_MEASURED.format("follows"))}&"","")=""),"","not asked")',
                     may_be_blank=("take",)),
            computed("at_sample", "The vendor's sample size", length(width=12), 'IF(COUNT(value.all)=0,"",INDEX(value.all,style.sample_number))'),
            computed("reach", "Tolerance, both sides", length(width=11),
                     f'IFERROR({row_of(_MEASURED.format("minus"))}+{row_of(_MEASURED.format("plus"))},"")'),
            per("size", computed("step", "to {size}", length(), "ROUND(value.mine-value.prev,6)"), skip_first=True),
            computed("turning", "Turns", length(), "IF(AND(MIN(0,step.all)<0,MAX(0,step.all)>0),1,0)"),
            computed("smallest", "Smallest step", length(), 'IF(COUNT(value.all)<2,"",MIN(1000000,step.all))'),
            computed("largest", "Largest step", length(), 'IF(COUNT(value.all)<2,"",MAX(0-1000000,step.all))'),
            computed("jumping", "Jumps", length(),
                     "IF(smallest>0,IF(largest>2*smallest+0.00005,1,0),IF(largest<0,IF(smallest<2*largest-0.00005,1,0),0))"),
            computed("overlapping", "Overlaps", length(), "IF(AND(MAX(0,step.all)-MIN(0,step.all)>0,reach>MAX(0,step.all)-MIN(0,step.all)),1,0)"),
        )),
    )),
    Form("In short", (
        computed("looked_at", "Points to look at", text(),
                 f'COUNTIF(points.verdict,"{OTHER_BASE}")+COUNTIF(points.verdict,"{TURNS}")+COUNTIF(points.verdict,"{JUMPS}")'
                 f'+COUNTIF(points.verdict,"{OVERLAPS}")&" of "&SUMPRODUCT((points.verdict<>"")*1)'),
    )),
), checks=(
    Check("other_base", "The vendor graded from another base than was asked", f'COUNTIF(grade.points.verdict,"{OTHER_BASE}")', who="vendor",
          fix="Grade from the base in the second column, or say in the remark why it cannot be.",
          where=f'IFERROR(INDEX(grade.points.ref,MATCH("{OTHER_BASE}",grade.points.verdict,0)),"")'),
    Check("undecided", "Points graded by the vendor that nobody has taken yet",
          'SUMPRODUCT((grade.points.verdict<>"")*(grade.points.take="")*(measurements.grade_by&""="vendor"))', private=True,
          fix="Look at each, then say yes under Take it; the next build works out its steps."),
))  # fmt: skip
