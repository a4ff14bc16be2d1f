"""Colorways: which part is what color in which colorway, and the lab dips with their measured difference.

CIEDE2000 as in Sharma, Wu & Dalal (2005), Color Research and Application 30(1):21-30, in plain cells.
"""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per, vendor
from sheetgen.declare.kinds import choice, color, date, number, pick, suggest, text, whole
from sheetgen.declare.parts import Check, Section, Sheet, Table

_ANGLE = "MOD(DEGREES(ATAN2({a},{b}))+360,360)"

_WORKINGS = Section("CIEDE2000, worked out", printed=False, columns=(
    computed("mean_chroma", "Mean C*", number(4), "(SQRT(target_a*target_a+target_b*target_b)+SQRT(a*a+b*b))/2"),
    computed("g", "G", number(4), "0.5*(1-SQRT(POWER(mean_chroma,7)/(POWER(mean_chroma,7)+6103515625)))"),
    computed("a_target", "a' target", number(4), "(1+g)*target_a"),
    computed("a_dip", "a' dip", number(4), "(1+g)*a"),
    computed("c_target", "C' target", number(4), "SQRT(a_target*a_target+target_b*target_b)"),
    computed("c_dip", "C' dip", number(4), "SQRT(a_dip*a_dip+b*b)"),
    computed("h_target", "h' target", number(4), f'IF(c_target=0,0,{_ANGLE.format(a="a_target", b="target_b")})'),
    computed("h_dip", "h' dip", number(4), f'IF(c_dip=0,0,{_ANGLE.format(a="a_dip", b="b")})'),
    computed("dh", "dh'", number(4),
             "IF(c_target*c_dip=0,0,h_dip-h_target-IF(h_dip-h_target>180,360,0)+IF(h_dip-h_target<0-180,360,0))"),
    computed("d_hue", "dH'", number(4), "2*SQRT(c_target*c_dip)*SIN(RADIANS(dh/2))"),
    computed("mean_l", "Mean L'", number(4), "(target_l+l)/2"),
    computed("mean_c", "Mean C'", number(4), "(c_target+c_dip)/2"),
    computed("mean_h", "Mean h'", number(4),
             "IF(c_target*c_dip=0,h_target+h_dip,"
             "IF(ABS(h_target-h_dip)>180,IF(h_target+h_dip<360,(h_target+h_dip+360)/2,(h_target+h_dip-360)/2),(h_target+h_dip)/2))"),
    computed("t", "T", number(4),
             "1-0.17*COS(RADIANS(mean_h-30))+0.24*COS(RADIANS(2*mean_h))+0.32*COS(RADIANS(3*mean_h+6))-0.2*COS(RADIANS(4*mean_h-63))"),
    computed("s_l", "SL", number(4), "1+0.015*POWER(mean_l-50,2)/SQRT(20+POWER(mean_l-50,2))"),
    computed("s_c", "SC", number(4), "1+0.045*mean_c"),
    computed("s_h", "SH", number(4), "1+0.015*mean_c*t"),
    computed("r_t", "RT", number(4),
             "0-SIN(RADIANS(60*EXP(0-POWER((mean_h-275)/25,2))))*2*SQRT(POWER(mean_c,7)/(POWER(mean_c,7)+6103515625))"),
))  # fmt: skip

COLORWAYS = Sheet("colorways", "Colorways",
                  purpose="Which part is what color, in each colorway. The color reference decides; swatches and screens only suggest.",
                  main="components", parts=(
    Table("components", "Color of each component", ref="K", key="component", columns=(
        designer("component", "Component", text(18), need="quote"),
        Section("{colorway}", axis="colorway", columns=(
            designer("color", "Color", text(13), need="sample", help="The color's name in this colorway."),
            designer("system", "Reference system", text(15), help="Whose card or standard: house standard, the mill's card."),
            designer("reference", "Reference", text(10), need="sample"),
            designer("swatch", "Swatch", color(9)),
        )),
        Section("Steps", printed=False, columns=(
            per("colorway", computed("another", "Named twice: {colorway}", whole(width=14), 'IF(color.mine&""="",0,'
                                     'COUNTIFS(components.color.mine,color.mine,components.reference.mine,"<>"&reference.mine))',
                                     may_be_blank=("reference.mine",))),
        )),
    )),
    Table("list", "Colorways", ref="C", key="name", spare=0, least=1, columns=(
        designer("name", "Colorway", text(18), need="quote"),
        designer("code", "Code", text(10)),
        designer("status", "Status", choice("planned", "confirmed", "dropped"), need="quote"),
        designer("note", "Note", text(11)),
    )),
    Table("dips", "Lab dips", ref="D", key="component", spare=2,
          note="Measured under D65, 10 degree observer, unless agreed otherwise; also look at them under a second light.",
          says=("colorway", "target_l", "target_a", "target_b"), columns=(
        designer("component", "Component", suggest("colorways.components.component", 18)),
        designer("colorway", "Colorway", pick("colorways.list.name"), need="sample"),
        designer("target_l", "Target L*", number(2, 0, 100), need="sample"),
        designer("target_a", "Target a*", number(2), need="sample"),
        designer("target_b", "Target b*", number(2), need="sample"),
        designer("limit", "Limit dE00", number(2, 0), need="sample", help="Agreed limit; about 1.0 by custom for solid shades."),
        designer("light", "Judged under", choice("D65", "D65 and A", "D65 and shop light", open=True, width=10), blank="D65"),
        vendor("submission", "Submission", whole(least=1), blank="the first"),
        vendor("sent", "Sent", date()),
        vendor("l", "Measured L*", number(2, 0, 100), need="sample"),
        vendor("a", "Measured a*", number(2), need="sample"),
        vendor("b", "Measured b*", number(2), need="sample"),
        computed("difference", "dE00", number(2),
                 "SQRT(POWER((l-target_l)/s_l,2)+POWER((c_dip-c_target)/s_c,2)+POWER(d_hue/s_h,2)+r_t*((c_dip-c_target)/s_c)*(d_hue/s_h))"),
        computed("verdict", "Within limit", text(10), 'IF(ROUND(difference,2)<=limit,"pass","fail")'),
        designer("decision", "Decision", choice("approved", "resubmit", "approved to try in bulk"), width=11),
        designer("comment", "Comment", text(10)),
        _WORKINGS,
    )),
), checks=(
    Check("another", "Colors of one name that have two references", "SUM(0,colorways.components.another.all)",
          fix="Give one of them another name, or both the same reference."),
))  # fmt: skip
