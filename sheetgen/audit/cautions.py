"""Cautions and labels: what could hurt someone or break a labelling law, as the usual caution. Law and laboratory decide."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.declare.entry import Place


@rule(
    title="A composition does not add up",
    level="fix",
    source="Regulation (EU) No 1007/2011; 16 CFR 303: shares of fibers by weight",
    message="The composition of {line} adds up to {found}.",
    why="A label that does not add up to 100 % may not be sold under.",
    fix="Correct the shares; the largest comes first.",
    owner="designer",
    bad=(
        Example(
            "a share of the shell changed in the designer's file",
            {"labels.composition[F1].share_1": 0.9},
            ("composition-sum labels.composition[F1].sum",),
            own=True,
        ),
    ),
    fine=(Example("shares that add up"),),
)
def composition_sum(case: Case) -> Iterator[Fault]:
    for ref in case.rows("labels.composition"):
        total = case.number("labels.composition.sum", ref)
        if total is not None and abs(total - 1) > 5e-4:
            yield Fault(Place("labels.composition.sum", ref), "100 %", f"{total * 100:g} %")


@rule(
    title="A caution applies",
    level="note",
    source="the source stands with each caution on the Checks sheet",
    message="{found}",
    why="Something in the data of this style calls for it. It never blocks.",
    fix="Read the caution on the Checks sheet and decide with a qualified person.",
    owner="designer",
    bad=(
        Example(
            "a material with down put in by the vendor",
            {"materials.bom": Do("add-row", {"item": "Padding", "group": "fabric", "kind": "down"})},
            ("caution-raised checks.caution_animal_parts", "row-added materials.bom[M17].ref"),
        ),
    ),
    fine=(Example("cautions that were known when the copy was sent"),),
)
def caution_raised(case: Case) -> Iterator[Fault]:
    for sheet in case.got.ready.book.sheets:
        for caution in sheet.cautions:
            place = Place(f"checks.{caution.counted_as}")
            column = case.book_entries.get(place.entry)
            if column is None or column.entry.who != "computed" or not (case.number(*place) or 0) > 0:
                continue
            before = case.sent_follows.get(place)
            if not (isinstance(before, int | float) and before > 0):
                yield Fault(place, "", caution.sentence)


RULES = (composition_sum, caution_raised)
