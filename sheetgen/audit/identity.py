"""Identity: is this the copy that was sent?"""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.rule import Case, Example, Fault, rule
from sheetgen.declare.parts import Place


@rule(
    title="Another issue came back",
    level="fix",
    source="common practice",
    message="This copy is issue {found}; expected was {expected}.",
    why="An older copy carries older measurements and prices: what is right in it answers questions of yesterday.",
    fix="Fill the copy of issue {expected} and return that one.",
    bad=(
        Example(
            "the record of another issue",
            {"@record": {"issue_id": "HV-26A-OS-014 rev 1 quote 000000"}},
            ("another-issue",),
        ),
    ),
    fine=(Example("the issue that was sent"),),
)
def another_issue(case: Case) -> Iterator[Fault]:
    found = str(case.got.record.get("issue_id") or "")
    if case.sent_id and found and found != case.sent_id:
        yield Fault(None, case.sent_id, found)


@rule(
    title="The style number is another one",
    level="fix",
    source="common practice",
    message="This file is for style {found}; expected was {expected}.",
    why="Prices and measurements of one style must not land in another.",
    fix="Return the workbook of style {expected}.",
    bad=(
        Example(
            "another style's number typed over",
            {"style.number": "HV-26A-OS-015"},
            ("wrong-style style.number",),
        ),
    ),
    fine=(Example("the number that was sent"),),
)
def wrong_style(case: Case) -> Iterator[Fault]:
    found = case.value("style.number")
    if case.sent_style and str(found or "") != case.sent_style:
        yield Fault(Place("style.number"), case.sent_style, str(found or "nothing"))


RULES = (another_issue, wrong_style)
