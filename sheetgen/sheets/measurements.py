"""Measurements: points of measure with their tolerances, the base at the sample size, and every graded size.

A size is base + (sum of steps from the smallest size to it) - (the same sum at the sample size): no cell reads its
neighbor's size, so that the sample size can change in the grid and nothing runs in a circle. Rounding to the shop's grid
rounds that difference, never a rounded neighbor: the base stays the base, and nothing drifts.
"""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, drawn, per
from sheetgen.declare.kinds import choice, length, number, other_length, pick, picture, text, whole, yes_no
from sheetgen.declare.parts import Check, Form, Pictures, Section, Sheet, Table
from sheetgen.garments import BY_WORD, POINTS
from sheetgen.sheets.questions import asked_about

_ROW = "MATCH(follows,points.ref,0)"
_STEP = "IF(mine<INDEX(workings.grading.wider_from,MATCH(ref,workings.grading.ref,0)),step,N(break_step))"
_AWAY = "INDEX(workings.grading.away.mine,MATCH(ref,workings.grading.ref,0))"
_RATIO = 'IF(ratio="",1,ratio)'

_NO_TOLERANCE = "0, where the other side has one"
MEASUREMENTS = Sheet("measurements", "Measurements",
                     purpose="Finished garment, laid flat, closed, smooth and not stretched, unless a point says otherwise.", main="points", parts=(
    Table("points", "Points of measure", ref="P", key="point", spare=4, says=("how", "extent"), columns=(
        designer("point", "Point of measure", text(26), need="quote"),
        designer("how", "How to measure", text(44), need="sample", help="From where to where, in words."),
        designer("extent", "Half or full", choice("half", "full", width=7), need="sample", help="Half: edge to edge, flat. Full: all round, or a length."),
        designer("minus", "Tol. −", length(least=0, width=7), need="sample", blank=_NO_TOLERANCE),
        designer("plus", "Tol. +", length(least=0, width=7), need="sample", blank=_NO_TOLERANCE),
        designer("base", "Base", length(width=8), need="quote", unless="follows",
                 help="At the sample size. What Fit changes later stands under Base now, behind the sizes."),
        designer("step", "Step", length(), need="sample", unless="step_from", help="From each size to the next; 0 where the point holds."),
        designer("critical", "Critical", yes_no(7), help="Yes: measured on every sample and in every inspection.", blank="no"),
        Section("Sizes, {unit}", (
            per("size", computed("spec", "{size}", length(),
                f'IF(fix.mine<>"",fix.mine,IF(OR({_AWAY}="",AND(follows="",step="")),"",now+{_AWAY}))', keeps="fix")),
        )),
        Section("How it grows", printed=False, columns=(
            computed("current", "Base now", length(width=8),
                     'IFERROR(IF(INDEX(fit.points.next.last,MATCH(ref,fit.points.ref,0))="",base,'
                     'INDEX(fit.points.next.last,MATCH(ref,fit.points.ref,0))),base)',
                     help="The base with the changes decided in Fit."),
            designer("break_from", "Wider from size", pick("style.sizes.name", 9),
                     help="From this size on the step is the next column's.", blank="one step throughout"),
            designer("break_step", "Step from there", length()),
            designer("every", "Changes every n sizes", whole(least=2, width=9), help="2: the point holds over pairs of sizes.", blank="with every size"),
            designer("follows", "Follows point", pick("measurements.points.ref", 9),
                     help="The ref of another point: this one is worked out from it.", blank="it has a base of its own"),
            designer("ratio", "Times", number(3), help="Times the other point.", blank="1"),
            designer("extra", "Plus, {unit}", length(), blank="nothing is added"),
            computed("now", "At sample size", length(), f'IF(follows="",IF(current="","",current),IFERROR({_RATIO}*INDEX(points.current,{_ROW})+N(extra),""))'),
            asked_about(),
        )),
        Section("Where a step differs: step up to, {unit}", printed=False, columns=(
            per("size", designer("over", "to {size}", length(), blank="the general step"), skip_first=True),
        )),
        Section("Steps as they apply, {unit}", printed=False, columns=(
            per("size", computed("taken", "to {size}", length(),
                                 f'IF(over.mine<>"",over.mine,IFERROR(IF(IF(every="",0,MOD(mine-1,every))=0,{_STEP},0),""))'), skip_first=True),
        )),
        Section("Corrected by hand, {unit}", printed=False, columns=(
            per("size", designer("fix", "{size}", length(),
                                 help="Takes the place of the graded size. A figure typed over a graded size is moved here.", blank="as graded")),
        )),
        Section("Sum of steps from the smallest size, {unit}", printed=False, columns=(
            per("size", computed("reach", "{size}", length(), "reach.prev+taken.mine", first="0*step")),
        )),
        Section("Sizes, {other}", printed=False, columns=(
            per("size", computed("other", "{size}", other_length(), 'spec.mine*IF(style.unit="in",2.54,IF(style.unit="mm",1/25.4,1/2.54))')),
        )),
        Section("Check", printed=False, columns=(
            computed("grade", "Grade", text(9),
                     'IF(follows<>"","follows",IF(step="","",'
                     'IF(AND(MIN(taken.all,1000000)<0,MAX(taken.all,0-1000000)>0),"turns",'
                     'IF(MAX(taken.all,0-1000000)-MIN(taken.all,1000000)<0.000001,"even","uneven"))))',
                     help="even: one step throughout. uneven: steps differ, often on purpose. turns: it grows and shrinks."),
            designer("graded", "Graded by the vendor as", text(18), private=True, blank="graded by the brand",
                     help="The sizes that were taken from the sheet Grade; clear it to take them again."),
            computed("step_from", "Steps come from", text(10), 'IF(follows<>"","follows",IF(grade_by&""="vendor","vendor",""))', may_be_blank=("follows",)),
            computed("by_hand", "Corrected", whole(), "COUNT(fix.all)", help="How many sizes were corrected by hand."),
            designer("direction", "Runs", choice("length", "width", "other", width=8),
                     help="Along the length or across: lets Fit tell shrinkage from other causes."),
            designer("drawn", "Drawn as", choice(*POINTS, open=True, width=18), help="Which point of the diagram this is.", blank="its name says it"),
        )),
        Section("A starter's suggestion", printed=False, columns=(
            designer("suggested_base", "Base", length(), private=True),
            designer("suggested_step", "Step", length(), private=True),
            designer("suggested_minus", "Tol. −", length(), private=True),
            designer("suggested_plus", "Tol. +", length(), private=True),
            computed("still", "Still the suggestion", text(11),
                     'IF(suggested_base="","",IF(AND(N(base)=N(suggested_base),N(step)=N(suggested_step)),"suggestion","own"))',
                     private=True, help="A suggestion is common practice; it is no standard and not your block."),
        )),
    )),
    Form("How these are meant", (
        computed("sample", "Base is size", text(), "style.sample_size"),
        computed("unit", "Typed in", text(), "style.unit"),
        designer("method", "Measured", text(60), need="sample", help="Who measures, on what, to which precision."),
        designer("after_wash", "Measured before or after wash", choice("before wash", "after one wash", "after garment wash", open=True), need="sample"),
        designer("grid", "Sizes are rounded to, {unit}", length(least=0),
                 help="The shop's grid: 0.5 cm, 1/8 in. Rounded from the exact figure; the base stays as it is.", blank="not rounded"),
        designer("grade_by", "Sizes are graded by", choice("brand", "vendor"), blank="the brand",
                 help="vendor: its copy asks for every size on the sheet Grade; you fill the sample size."),
        designer("garment", "Drawn as",
                 choice(*BY_WORD, open=True, width=16),
                 help="Which outline the diagram draws."),
    )),
    Pictures("Where the points are", (
        drawn("diagram", "Drawn to scale from the figures below", picture()),
        drawn("nested", "All sizes over each other", picture()),
    ), height=395, across=1, note="Drawn anew at every build. Own drawings take their place."),
    Pictures("Own drawings", (
        designer("own_diagram", "Own measurement drawing", picture()),
        designer("own_nested", "Own drawing of the nested sizes", picture()),
    ), height=330),
), checks=(
    Check("grade_turns", "A point grows and then shrinks over the sizes", 'COUNTIF(measurements.points.grade,"turns")',
          fix="Look at that point's steps."),
    Check("no_step", "A size is as large as the one before it", "SUM(0,workings.no_step.all)", private=True,
          fix="Type its steps where a step differs; a size that was put in between begins as the one before it."),
    Check("no_tolerance", "A point has neither tolerance",
          'SUMPRODUCT((measurements.points.point<>"")*(measurements.points.minus="")*(measurements.points.plus=""))',
          fix="Give a tolerance, or 0 on the side that allows none."),
    Check("before_wash", "Sizes are measured before a wash, and pieces are cut larger for what shrinks",
          'IF(measurements.after_wash&""="before wash",COUNTIF(yield.pieces.long_shrink,">0")+COUNTIF(yield.fabrics.long_shrink,">0"),0)',
          fix="Say that it is measured after one wash; or leave it, if steam alone shrinks the cloth so far."),
    Check("by_hand", "Sizes corrected by hand: they no longer follow base and step", "SUM(measurements.points.by_hand)",
          fix="Keep them if they are meant; else clear them under Corrected by hand."),
    Check("follows_follower", "A point follows a point that follows another",
          'SUMPRODUCT((measurements.points.follows<>"")*(measurements.points.now="")*(measurements.points.point<>""))',
          fix="Let it follow the first one: only points with a base of their own can be followed."),
))  # fmt: skip
