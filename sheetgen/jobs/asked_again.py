"""What the vendor is asked after an audit, and what became of it when the copy with the questions is back."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from sheetgen.audit.rule import Finding
from sheetgen.audit.run import Audit
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.report.folding import Group, folded
from sheetgen.workbook.model.values import refs

QUERIES = "questions.queries"
PARTED = " "


class Became(NamedTuple):
    """What became of the questions of a query copy: by their refs on Questions, and how many findings nobody asked about."""

    resolved: tuple[str, ...]
    answered: tuple[str, ...]
    open: tuple[str, ...]
    new: int


def asked_of(result: Audit) -> list[Group]:
    """What the vendor is asked, as its letter does: its own things to correct and to explain, many alike as one."""
    asked = [one for one in result.findings if one.owner == "vendor" and one.level in {"fix", "query"} and one.place]
    return folded(asked)


def became(result: Audit) -> Became | None:
    """What became of the questions; None for a return of a copy that asked none."""
    values: dict[Place, Value] = {**result.got.shown, **result.got.typed}
    rows = refs(QUERIES, values)
    asked = [(row, *_asked(values, row)) for row in rows if values.get(Place(f"{QUERIES}.rule", row))]
    if not asked:
        return None
    now = {(one.rule, one.place) for one in asked_findings(result)}
    resolved, answered, still = [], [], []
    for row, rule, places in asked:
        if not any((rule, place) in now for place in places):
            resolved.append(row)
        elif values.get(Place(f"{QUERIES}.reply", row)) not in (None, ""):
            answered.append(row)
        else:
            still.append(row)
    known = {(rule, place) for _, rule, places in asked for place in places}
    return Became(tuple(resolved), tuple(answered), tuple(still), len(now - known))


def _asked(values: dict[Place, Value], row: str) -> tuple[str, list[str]]:
    rule, places = (str(values.get(Place(f"{QUERIES}.{name}", row)) or "") for name in ("rule", "places"))
    return rule, places.split(PARTED)


def asked_findings(result: Audit) -> Iterator[Finding]:
    """The findings behind what the vendor is asked."""
    for group in asked_of(result):
        yield from group.findings
