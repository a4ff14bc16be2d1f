"""Answers of an earlier round that came back one row lower or higher: a column that was pasted beside its rows."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Example, Fault, rule
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.texts import say
from sheetgen.workbook.model.compare import same

_ARTICLES = ("RB-2814 peached", "RB-1203", "EM-W95", "EM-N40", "BU-15", "TT-60", "ST-40", "ML-6", "SL-2")


def columns_a_row_off(case: Case) -> dict[Place, int]:
    """Answers that are those that were sent in the row above (1) or below (-1), in a column of which nearly all are."""
    found: dict[Place, int] = {}
    sent_along = {place.entry for place in case.sent if place.row and place.entry in case.book_entries}
    for address in sorted(sent_along) if not case.own else ():
        if case.entry(Place(address)).who == "vendor":
            rows = case.rows(address.rpartition(".")[0])
            for by in (1, -1):
                found.update(dict.fromkeys(_moved(case, address, rows, by), by))
    return found


def _moved(case: Case, address: str, rows: list[str], by: int) -> list[Place]:
    """The places of a column whose answers stand so many rows too low; rows that were sent alike show nothing."""
    near: list[Place] = []
    asked = own = 0
    for number, ref in enumerate(rows):
        place, at = Place(address, ref), number - by
        before = case.sent.get(Place(address, rows[at])) if 0 <= at < len(rows) else None
        now, sent = case.got.typed.get(place), case.sent.get(place)
        if _blank(before) or _blank(now) or _blank(sent) or same(before, sent):
            continue
        asked += 1
        own += same(now, sent)
        if same(now, before):
            near.append(place)
    limits = case.limits
    enough = asked >= limits["row_off_values"] and own <= limits["row_off_own"] * asked
    return near if enough and len(near) >= limits["row_off_share"] * asked else []


def _blank(value: Value | object) -> bool:
    return value is None or value == ""


@rule(
    title="A column of answers stands one row off",
    level="query",
    limits=("row_off_values", "row_off_share", "row_off_own"),
    source="common practice: a column pasted a row too low or too high (copy/paste error: Powell, Baker & Lawson 2009)",
    message="{heading}: {found} are those of the row {expected}, as they stood in the last round.",
    why="Each article would be ordered, and priced, by another one's answer.",
    fix="Put each answer into the row of its article, or say that they are meant so.",
    bad=(
        Example(
            "the suppliers' articles pasted a row too low",
            {f"materials.bom[M{row}].supplier_ref": words for row, words in enumerate(_ARTICLES[:-1], 2)},
            ("answers-a-row-off materials.bom[M2].supplier_ref",),
            sent={f"materials.bom[M{row}].supplier_ref": words for row, words in enumerate(_ARTICLES, 1)},
        ),
    ),
    fine=(
        Example(
            "the same articles as before",
            {f"materials.bom[M{row}].supplier_ref": words for row, words in enumerate(_ARTICLES, 1)},
            sent={f"materials.bom[M{row}].supplier_ref": words for row, words in enumerate(_ARTICLES, 1)},
        ),
        Example("nothing was sent before"),
    ),
)
def answers_a_row_off(case: Case) -> Iterator[Fault]:
    by_column: dict[str, list[tuple[Place, int]]] = {}
    for place, by in columns_a_row_off(case).items():
        by_column.setdefault(place.entry, []).append((place, by))
    for places in by_column.values():
        first, by = places[0]
        side = say("above") if by > 0 else say("below")
        yield Fault(first, side, say("{count} answers", count=len(places)))


RULES = (answers_a_row_off,)
