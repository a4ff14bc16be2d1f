"""Ease: the wearer's body beside the garment, and what the garment is larger (or, in knits, smaller) by, size by size.

Body figures are a size system's or the brand's own; they designate a size and are never derived from the garment's grade.
"""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.kinds import length, pick, text, whole
from sheetgen.declare.parts import Check, Form, Section, Sheet, Table

_POINT = "MATCH(point,measurements.points.ref,0)"
_BODY = "MATCH(body_ref,body.ref,0)"

EASE = Sheet("ease", "Ease", seen="wanted", private=True, main="points",
             purpose="Brand only: never in a vendor copy. Body figures and garment figures are kept apart; ease is their difference.", parts=(
    Table("points", "Ease, {unit}", ref="J", key="point", spare=3, columns=(
        designer("point", "Garment point", pick("measurements.points.ref", 26), help="Its ref in Measurements, as P1."),
        computed("name", "Which is", text(26), f'IFERROR(INDEX(measurements.points.point,{_POINT})&"","")'),
        Section("Ease, by size", (
            per("size", computed("ease", "{size}", length(),
                                 f'IFERROR(INDEX(measurements.points.spec.mine,{_POINT})*times'
                                 f'-IF(INDEX(body.value.mine,{_BODY})="","",INDEX(body.value.mine,{_BODY})),"")')),
        )),
        designer("body_ref", "Body", pick("ease.body.ref", 7), help="The ref of the body measurement, as B1."),
        designer("least", "At least", length(), help="Negative where a knit is meant to stretch."),
        computed("verdict", "Ease is", text(11),
                 'IF(COUNT(ease.all)=0,"",IF(AND(least<>"",IFERROR(MIN(ease.all)<least-0.000001,1=2)),"too small",'
                 'IF(MAX(ease.all)-MIN(ease.all)>limit+0.000001,"uneven","even")))'),
        Section("Steps", printed=False, columns=(
            computed("times", "Times", whole(), f'IFERROR(IF(INDEX(measurements.points.extent,{_POINT})="half",2,1),"")', help="2: a half girth, doubled."),
        )),
    )),
    Form("When ease counts as uneven", (
        designer("uneven_from", "Differs over sizes by more than, {unit}", length(least=0), blank="2.5 cm or 1 in"),
        computed("limit", "So more than, {unit}", length(), 'IF(uneven_from="",IF(style.unit="in",1,IF(style.unit="mm",25,2.5)),uneven_from)'),
    )),
    Table("body", "The body, {unit}", ref="B", key="body", spare=3, note="Girths are all round. Say whose table it is.", columns=(
        designer("body", "Body measurement", text(26)),
        designer("source", "From", text(26), help="The size system or the table, with its edition."),
        Section("Body, by size", (per("size", designer("value", "{size}", length(least=0))),)),
    )),
), checks=(
    Check("uneven", "Ease turns uneven over the sizes", 'COUNTIF(ease.points.verdict,"uneven")', private=True,
          fix="The grade and the body's steps part ways: look at the steps of that point."),
    Check("too_small", "Ease is smaller than wanted", 'COUNTIF(ease.points.verdict,"too small")', private=True,
          fix="Widen the point, or allow less ease."),
))  # fmt: skip
