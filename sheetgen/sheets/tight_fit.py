"""Tight fit: children's sleepwear that is to need no flame test in the US, every size against what the rule allows."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, fixed, per
from sheetgen.declare.kinds import length, pick, text, whole
from sheetgen.declare.parts import Check, Section, Table
from sheetgen.sheets.lookups import row_of
from sheetgen.trade.sleepwear import PLACES, SOURCE

_SIZE = 'MATCH(INDEX(style.sizes.name,mine)&"",lists.tight.size,0)'
_BLOCK = "lists.tight.{}:lists.tight.{}".format(*(place.replace(" ", "_") for place in (PLACES[0], PLACES[-1])))
_MEANT = 'IF(quality.tight_fit&""="yes",{},0)'

TIGHT_FIT = Table("tight", f"Tight-fitting children's sleepwear, US ({SOURCE})", ref="I", key="at", spare=0,
                  rows=tuple({"at": place} for place in PLACES),
                  note="Only for sizes over 9 months to 6X. Label and hangtag of the rule are needed, too; an accredited laboratory decides.", columns=(
    fixed("at", "At", text(12)),
    designer("point", "Is point", pick("measurements.points.ref", 9), help="The ref of a point of measure, as P3."),
    computed("too_wide", "Sizes too wide", whole(), "SUM(0,over.all)"),
    Section("At most, all round, {unit}", (
        per("size", computed("most", "{size}", length(), f'IFERROR(INDEX({_BLOCK},{_SIZE},MATCH(ref,tight.ref,0))*0.01/style.unit_in_meters,"")')),
    )),
    Section("Steps", printed=False, columns=(
        computed("times", "Times", whole(), f'IF(point="","",IFERROR(IF({row_of("measurements.points.extent", "point")}="half",2,1),""))'),
        per("size", computed("over", "Too wide: {size}", whole(),
                             f'IFERROR(IF({row_of("measurements.points.spec.mine", "point")}*times>most.mine+0.00005,1,0),"")')),
        computed("judged", "Sizes judged", whole(), "COUNT(over.all)"),
    )),
))  # fmt: skip

TIGHT_CHECKS = (
    Check("too_wide", "Tight-fitting sleepwear that is wider than the rule allows", _MEANT.format("SUM(quality.tight.too_wide)"),
          fix="Narrow it, or have it tested as sleepwear: local law and an accredited laboratory decide."),
    Check("not_judged", "Tight-fitting sleepwear: places without a point, or sizes that the rule does not list",
          _MEANT.format(f"{len(PLACES)}*style.sizes_count-SUM(quality.tight.judged)"),
          fix="Name the point at each place where the garment has one, and call the sizes as the rule does: 2, 3, 4."),
)  # fmt: skip
