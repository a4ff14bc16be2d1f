"""Lengths: every size in every body length (short, regular, long), for styles that come in both."""

from __future__ import annotations

from sheetgen.declare.entry import computed, designer, per
from sheetgen.declare.kinds import length, text
from sheetgen.declare.parts import Section, Sheet, Table

_POINT = "MATCH(ref,measurements.points.ref,0)"

LENGTHS = Sheet("lengths", "Lengths", main="points",
                purpose="Each size in each length. A point without a step per length is the same in all.", only_with="length", parts=(
    Table("points", "Sizes by length", ref="P", key="point", mirrors="measurements.points", columns=(
        computed("point", "Point of measure", text(26), f'IFERROR(INDEX(measurements.points.point,{_POINT})&"","")'),
        designer("step", "Step per length", length(), help="From each length to the next longer; blank where lengths do not differ."),
        Section("{length}", axis="length", columns=(
            per("size", computed("spec", "{size}", length(),
                                 f"INDEX(measurements.points.spec.mine,{_POINT})+N(step)*(mine.length-style.length_number)")),
        )),
    )),
))  # fmt: skip
