"""Ranges: figures that no garment, carton or price can have, and percentages typed as whole numbers."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.declare.kinds import Kind
from sheetgen.texts import say


def is_outside(kind: Kind, value: float) -> bool:
    """Whether a number lies below the least or above the most that is possible."""
    below = kind.least is not None and value < kind.least
    above = kind.most is not None and value > kind.most
    return below or above


def _is_percent_slip(kind: Kind, value: float) -> bool:
    return kind.name == "percent" and kind.most is not None and max(1, kind.most) < value <= 100


@rule(
    title="A percentage typed as a whole number",
    level="fix",
    source="fault class F08: a percentage used as an absolute number (published consumption examples W11, W12)",
    message="{heading} is {found}, which is {expected}.",
    why="5 in a percentage cell is 500 %: the cost comes out a hundred times too high.",
    fix="Type it with its sign, 5 %, or as 0.05.",
    bad=(
        Example("72 for 72 %", {"quote.efficiency": 72}, ("percent-as-number quote.efficiency",)),
        Example("8 for 8 %", {"quote.overhead": 8}, ("percent-as-number quote.overhead",)),
    ),
    fine=(Example("0.72 for 72 %", {"quote.efficiency": 0.72}),),
)
def percent_as_number(case: Case) -> Iterator[Fault]:
    for place, entry, value in case.typed_by_filler():
        if isinstance(value, int | float) and _is_percent_slip(entry.kind, value):
            yield Fault(place, f"{value * 100:g} %", f"{value:g}")


@rule(
    title="A figure outside what is possible",
    level="fix",
    source="common practice",
    message="{place} is {found}; it {expected}.",
    why="No such garment, carton or price exists.",
    fix="Correct the figure.",
    bad=(
        Example("a negative price", {"materials.bom[M2].price": -2.35}, ("out-of-range materials.bom[M2].price",)),
        Example(
            "a line without operators: the error that follows is no fault of its own",
            {"quote.operators": 0},
            ("out-of-range quote.operators",),
        ),
    ),
    fine=(Example("nothing for testing", {"quote.testing_cost": 0}),),
)
def out_of_range(case: Case) -> Iterator[Fault]:
    for place, entry, value in case.typed_by_filler():
        kind = entry.kind
        if not isinstance(value, int | float) or not kind.is_number or not is_outside(kind, value):
            continue
        if not _is_percent_slip(kind, value):
            yield Fault(place, kind.wrong(value) or say("must be possible"), f"{value:g}")


RULES = (percent_as_number, out_of_range)
