"""Steps of graded sizes, and of the hint that all points of one direction lie on one side."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.declare.entry import computed, or_zero, per
from sheetgen.declare.kinds import Kind, length, number, percent, text, whole
from sheetgen.declare.parts import Ledger, Line, Section, Table

_NEVER = 1000
"""A size number that no range reaches."""
_NO_WAY = "a size to which no step leads is as large as the one before it: a check counts such sizes"
_FOLLOWS = "INDEX(measurements.points.follows,line)"
_AWAY = "times*(N(INDEX(measurements.points.reach.mine,from))-at_sample)"

GRADING = Table("grading", "Sizes away from the sample size", ref="P", key="point", mirrors="measurements.points",
                note="A point that follows another takes the steps of that one.", columns=(
    computed("point", "Point of measure", text(26), 'IFERROR(INDEX(measurements.points.point,MATCH(ref,measurements.points.ref,0))&"","")'),
    computed("line", "Line", whole(), "MATCH(ref,measurements.points.ref,0)"),
    computed("from", "Steps of line", whole(), f'IF({_FOLLOWS}="",line,IFERROR(MATCH({_FOLLOWS},measurements.points.ref,0),""))'),
    computed("times", "Times", number(3), f'IF(OR({_FOLLOWS}="",INDEX(measurements.points.ratio,line)=""),1,INDEX(measurements.points.ratio,line))'),
    or_zero(_NO_WAY, computed("at_sample", "Steps up to the sample size", length(width=11),
                              "N(INDEX(measurements.points.reach.all,from,style.sample_number))")),
    computed("wider_from", "Wider from size number", whole(width=11),
             f'IFERROR(MATCH(INDEX(measurements.points.break_from,line)&"",style.sizes.name,0),{_NEVER})', help=f"{_NEVER}: from none."),
    Section("More than the base, {unit}", (
        per("size", or_zero(_NO_WAY, computed("away", "{size}", length(),
                             f'IF(measurements.grid="",{_AWAY},IFERROR(ROUND({_AWAY}/measurements.grid,0)*measurements.grid,""))'))),
    )),
))  # fmt: skip


NO_STEP = Ledger("Sizes to which no step leads", ("Sizes", "{size}"), (32, 8), (
    Line(("As large as the one before",), (
        per("size", computed("no_step", "As large as the one before", whole(),
                             "IF(COUNT(measurements.points.taken.mine)=0,0,"
                             "IF(COUNTIF(measurements.points.taken.mine,0)=COUNT(measurements.points.taken.mine),1,0))", private=True),
            skip_first=True),
    )),
))  # fmt: skip


def _leaning(direction: str, where: str) -> Iterator[Line]:
    """In words: all points of a direction lie on one side of what was asked (a sign of shrinkage or growth)."""

    def count(sign: str) -> str:
        return f'COUNTIFS(fit.points.direction,"{direction}",fit.points.relative.mine,"{sign}0")'

    def line(what: str, formula: str, kind: Kind) -> Line:
        words = f"{what}, {where}"
        name = f"{what.partition(' ')[0].lower()}_{direction}"
        return Line((words,), (per("round", computed(name, f"{words}: {{round}}", kind, formula)),))

    said, mean = f"side_{direction}.mine", f"mean_{direction}.mine"
    all_measured = f"measured_{direction}.mine"
    yield line("Measured", f"{count('<')}+{count('>=')}", whole())
    yield line("Short", count("<"), whole())
    yield line("Long", count(">"), whole())
    yield line("Mean deviation",
               f'IF({all_measured}=0,0,ABS(SUMIF(fit.points.direction,"{direction}",fit.points.relative.mine)/{all_measured}))',
               percent())  # fmt: skip
    yield line("Side that all lie on",
               f'IF(AND(short_{direction}.mine>=3,short_{direction}.mine={all_measured}),"short",'
               f'IF(AND(long_{direction}.mine>=3,long_{direction}.mine={all_measured}),"long",""))',
               text(10))  # fmt: skip
    yield line("Hint",
               f'IF({said}="","","All points {where} are "&{said}&", by "&TEXT({mean},"0.0%")&" on average: "'
               f'&IF({said}="short","shrinkage, or cut too small? ","stretched, or cut too large? "))',
               text(24))  # fmt: skip


ROUNDS = Ledger("Points measured, round by round", ("Points", "{round}"), (32, 14), (
    *_leaning("length", "lengthwise"), *_leaning("width", "across"),
))  # fmt: skip
