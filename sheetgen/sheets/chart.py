"""Size chart: what the customer sees, from the same numbers, with rounding and tolerance stated."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.kinds import choice, length, pick, text, whole
from sheetgen.declare.parts import Form, Section, Sheet, Table

_POINT = "MATCH(point,measurements.points.ref,0)"
_GARMENT = f"INDEX(measurements.points.spec.mine,{_POINT})*times"
_BODY = "INDEX(ease.body.value.mine,MATCH(body_ref,ease.body.ref,0))"

CHART = Sheet("chart", "Chart", seen="wanted", seen_with="chart.lines.line", private=True, main="lines",
              purpose="Brand only: the size chart for customers. Copy it, or print this page.", parts=(
    Table("lines", "Size chart, {unit}", ref="Q", key="line", spare=4, columns=(
        designer("line", "Line", text(26), help="In the customer's words: Chest, Length."),
        designer("point", "Garment point", pick("measurements.points.ref", 9), help="Its ref in Measurements.", blank="a line of the body"),
        designer("body_ref", "Body", pick("ease.body.ref", 7), help="The ref in Ease.", blank="a line of the garment"),
        designer("shown", "Shown", choice("flat", "all round", width=9), help="A half girth flat, as measured, or doubled.", blank="flat"),
        Section("Sizes", (
            per("size", computed("value", "{size}", length(),
                                 f'IF(AND(point="",body_ref=""),"",IFERROR(ROUND(IF(point="",of_body.mine,{_GARMENT})/step,0)*step,""))',
                                 may_be_blank=("of_body.mine",))),
        )),
        computed("allowed", "Tolerance", length(),
                 f'IF(point="","",IFERROR(MAX(N(INDEX(measurements.points.plus,{_POINT})),N(INDEX(measurements.points.minus,{_POINT})))*times,""))'),
        Section("Steps", printed=False, columns=(
            per("size", computed("of_body", "Body: {size}", length(), f'IF(body_ref="","",IFERROR(IF({_BODY}="","",{_BODY}),""))')),
            computed("times", "Times", whole(),
                     f'IF(AND(point<>"",shown&""="all round",IFERROR(INDEX(measurements.points.extent,{_POINT})&"","")="half"),2,1)'),
        )),
    )),
    Form("What the chart says", (
        designer("heading", "Heading", text(60)),
        designer("round_to", "Rounded to, {unit}", length(least=0), blank="1 cm, 10 mm or 1/2 in"),
        computed("step", "So rounded to, {unit}", length(), 'IF(round_to="",IF(style.unit="in",0.5,IF(style.unit="mm",10,1)),round_to)'),
        computed("rounding", "Rounding, in words", text(60),
                 '"All figures in "&style.unit&", rounded to "&TEXT(step,"0.0#")&"."'),
        computed("tolerance", "Tolerance, in words", text(60),
                 'IF(COUNT(lines.allowed)=0,"",'
                 '"A finished garment may differ by up to "&TEXT(MAX(lines.allowed),"0.0#")&" "&style.unit&" from the garment figures.")'),
    )),
))  # fmt: skip
