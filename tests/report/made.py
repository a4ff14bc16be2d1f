"""Findings and audits made by hand, for the tests of the reports."""

from pathlib import Path
from typing import cast

from sheetgen.audit.rule import Finding, Level, Owner
from sheetgen.audit.run import Audit
from sheetgen.workbook.read.found import Returned


def finding(rule: str = "entry-missing", **words: str) -> Finding:
    """A vendor's missing price on Materials, but for what is named."""
    said = {
        "level": "fix",
        "owner": "vendor",
        "sheet": "Materials",
        "cell": "L12",
        "row": "M1",
        "column": "Price per unit",
        "expected": "a price",
        "found": "nothing",
        "message": "Price per unit is empty.",
        "why": "Without it the line has no cost.",
        "action": "Fill in the price.",
        **words,
    }
    said.setdefault("asked", said["action"])
    level, owner = cast("Level", said.pop("level")), cast("Owner", said.pop("owner"))
    return Finding(rule=rule, level=level, owner=owner, **said)


def audited(*findings: Finding, **facts: object) -> Audit:
    """An audit with these findings. The returned file itself is none: no report may look into it."""
    said = {
        "file": Path("answers/field-jacket.xlsx"),
        "issue_id": "FJ-7-a1",
        "style": "FJ-100",
        "revision": "2",
        "purpose": "quote",
        "vendor": "Northwind Sewing",
        "warnings": (),
        **facts,
    }
    return Audit(findings=findings, got=cast("Returned", None), **said)  # type: ignore[arg-type]  # words by hand
