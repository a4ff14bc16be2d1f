"""Measurements: points of measure with their tolerances, the base at the sample size, and every graded size.

A size is base + (sum of steps from the smallest size to it) - (the same sum at the sample size): no cell reads its
neighbor's size, so that the sample size can change in the grid and nothing runs in a circle.
"""

from __future__ import annotations

from sheetgen.declare.kinds import choice, length, text
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table, computed, designer, per

MEASUREMENTS = Sheet("measurements", "Measurements", purpose="Finished garment, laid flat, closed, smooth and not stretched, unless a point says otherwise.", parts=(
    Form("How these are meant", (
        computed("sample", "Base is size", text(), "style.sample_size"),
        computed("unit", "Typed in", text(), "style.unit"),
        designer("method", "Measured", text(60), need="sample", help="Who measures, on what, to which precision."),
        designer("after_wash", "Measured before or after wash", choice("before wash", "after one wash", "after garment wash", open=True), need="sample"),
    )),
    Table("points", "Points of measure", ref="P", key="point", spare=4, columns=(
        designer("point", "Point of measure", text(26), need="quote"),
        designer("how", "How to measure", text(36), need="sample", help="From where to where, in words."),
        designer("extent", "Half or full", choice("half", "full", width=7), need="sample", help="Half: edge to edge, flat. Full: all round, or a length."),
        designer("minus", "Tol. −", length(least=0, width=7), need="sample"),
        designer("plus", "Tol. +", length(least=0, width=7), need="sample"),
        designer("base", "Base", length(), need="quote", help="At the sample size."),
        designer("step", "Step", length(), need="sample", help="From each size to the next; 0 where the point holds."),
        Section("Sizes, {unit}", (
            per("size", computed("spec", "{size}", length(), "base+reach.mine-INDEX(reach.row,1,style.sample_number)")),
        )),
        Section("Where a step differs: step up to, {unit}", new_page=True, columns=(
            per("size", designer("over", "to {size}", length(), help="Leave blank to take the general step."), skip_first=True),
        )),
        Section("Sum of steps from the smallest size, {unit}", (
            per("size", computed("reach", "{size}", length(), 'reach.prev+IF(over.mine="",step,over.mine)', first="0*step")),
        )),
        Section("Check", (
            computed("grade", "Grade", text(9),
                     'IF(AND(MIN(step,over.row)<0,MAX(step,over.row)>0),"turns",IF(ABS(MAX(step,over.row)-MIN(step,over.row))<0.000001,"even","uneven"))',
                     help="even: one step throughout. uneven: steps differ, often on purpose. turns: it grows and shrinks."),
        )),
        Section("The same sizes in {other}", new_page=True, columns=(
            per("size", computed("other", "{size}", length(), 'spec.mine*IF(style.unit="in",2.54,IF(style.unit="mm",1/25.4,1/2.54))')),
        )),
    )),
), checks=(
    Check("grade_turns", "A point grows and then shrinks over the sizes", 'COUNTIF(measurements.points.grade,"turns")',
          fix="Look at that point's steps."),
    Check("no_tolerance", "A point has neither tolerance",
          'SUMPRODUCT((measurements.points.point<>"")*(measurements.points.minus="")*(measurements.points.plus=""))',
          fix="Give a tolerance, or 0 on the side that allows none."),
))  # fmt: skip
