"""Identity: is this the copy that was sent? One finding, the gravest: another style, another vendor, another issue."""

from __future__ import annotations

from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.declare.entry import Place
from sheetgen.texts import say


def _typed_number(case: Case) -> str:
    return str(case.got.typed.get(Place("style.number")) or "nothing")


def _style_fits(case: Case) -> bool:
    return case.wanted is None or _typed_number(case) == case.wanted.style


def _carried(case: Case, key: str) -> str:
    receipt = case.got.record.get("receipt")
    return str(receipt.get(key) or "") if isinstance(receipt, dict) else ""


def _vendor_fits(case: Case) -> bool:
    carried = _carried(case, "vendor")
    return case.wanted is None or not carried or carried == case.wanted.vendor


@rule(
    title="Another style came back",
    level="fix",
    source="common practice",
    message="This file is for style {found}; expected was {expected}.",
    why="Prices and measurements of one style must not land in another.",
    fix="Return the workbook of style {expected}.",
    bad=(
        Example(
            "another style's number typed over",
            {"style.number": "HV-27A-OS-015"},
            ("wrong-style style.number",),
        ),
    ),
    fine=(Example("the number that was sent"),),
)
def wrong_style(case: Case) -> Iterator[Fault]:
    if case.wanted is not None and not _style_fits(case):
        yield Fault(Place("style.number"), case.wanted.style, _typed_number(case))


@rule(
    title="Another vendor's copy came back",
    level="fix",
    source="common practice",
    message="This copy was made for {found}; expected was the one for {expected}.",
    why="One vendor's prices would be taken for another's.",
    fix="Return the copy that was issued to {expected}.",
    bad=(
        Example(
            "the copy of another vendor",
            {"the file": Do("record", {"Valmora Confecções": "Serralta Fios"})},
            ("wrong-vendor style.vendor",),
        ),
    ),
    fine=(Example("the vendor that it was sent to"),),
)
def wrong_vendor(case: Case) -> Iterator[Fault]:
    if case.wanted is not None and _style_fits(case) and not _vendor_fits(case):
        yield Fault(Place("style.vendor"), case.wanted.vendor, _carried(case, "vendor"))


@rule(
    title="Another issue came back",
    level="fix",
    source="common practice",
    message="This copy is issue {found}; expected was {expected}.",
    why="Another copy carries other measurements and prices: what is right in it answers other questions.",
    fix="Fill the copy of issue {expected} and return that one.",
    bad=(
        Example(
            "the record of an earlier issue",
            {"the file": Do("record", {"HV-27A-OS-014 rev 1": "HV-27A-OS-014 rev 0"})},
            ("another-issue",),
        ),
    ),
    fine=(Example("the issue that was sent"),),
)
def another_issue(case: Case) -> Iterator[Fault]:
    found = str(case.got.record.get("issue_id") or "")
    if case.wanted is None or not found or found == case.wanted.issue_id:
        return
    if _style_fits(case) and _vendor_fits(case):
        yield Fault(None, case.wanted.issue_id, found)


@rule(
    title="A later issue was sent since",
    level="query",
    source="common practice",
    message="This copy is issue {found}; since then {expected} was sent to the same vendor.",
    why="The answers may be to figures that have changed.",
    fix="Ask for the copy of issue {expected}, or check that nothing in it concerns these answers.",
    owner="designer",
    bad=(
        Example(
            "a receipt of revision 2 lies beside the file",
            {},
            ("older-issue",),
            later={"revision": "2", "issue_id": "HV-27A-OS-014 rev 2 sample 5f0c1d"},
        ),
    ),
    fine=(
        Example(
            "a receipt of another vendor lies beside the file",
            later={"revision": "2", "vendor": "Serralta Fios", "issue_id": "HV-27A-OS-014 rev 2 sample 77aa01"},
        ),
    ),
)
def older_issue(case: Case) -> Iterator[Fault]:
    found = str(case.got.record.get("issue_id") or "")
    if case.later and case.wanted is not None and found == case.wanted.issue_id:
        yield Fault(None, case.later, found)


@rule(
    title="The copy's hidden record was changed or is gone",
    level="fix",
    source="common practice",
    message="The hidden record that says what was sent is {found}; the receipt was used instead.",
    why="No program and nobody who only fills the cells changes it.",
    asked="Put the answers into the copy as we sent it, and return that one.",
    fix="Ask how the file was made; let the answers be put into a fresh copy if in doubt.",
    bad=(
        Example(
            "the brand's name changed in the record",
            {"the file": Do("record", {"Halvorne": "Halvorna"})},
            ("record-altered",),
        ),
        Example("the record's sheet deleted", {"the file": Do("drop-record")}, ("record-altered",)),
    ),
    fine=(Example("the record as it was written"),),
)
def record_altered(case: Case) -> Iterator[Fault]:
    if case.wanted is None or not (_style_fits(case) and _vendor_fits(case)):
        return
    if not case.got.record:
        yield Fault(None, "", say("gone"))
    elif case.record_altered:
        yield Fault(None, "", say("another one"))


RULES = (wrong_style, wrong_vendor, another_issue, older_issue, record_altered)
