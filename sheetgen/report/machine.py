"""For machines: one JSON object, in the form that the design promises."""

from __future__ import annotations

import json
from collections.abc import Iterable

from sheetgen.audit.rule import Finding
from sheetgen.report.outcome import Outcome, Unusable


def as_json(results: Iterable[Outcome]) -> str:
    """One JSON object with every file in the order given. ASCII only: nothing in it can steer a terminal."""
    return json.dumps({"files": [_file(result) for result in results]}, indent=1)


def as_json_line(result: Outcome) -> str:
    """One file as a JSON object on one line."""
    return json.dumps(_file(result))


def _file(result: Outcome) -> dict[str, object]:
    if isinstance(result, Unusable):
        return {
            "file": str(result.file),
            "issue_id": "",
            "status": "unusable",
            "reason": result.reason,
            "findings": [],
        }
    return {
        "file": str(result.file),
        "issue_id": result.issue_id,
        "status": "audited",
        "reason": None,
        "findings": [_finding(finding) for finding in result.findings],
    }


def _finding(finding: Finding) -> dict[str, str]:
    return {
        "rule": finding.rule,
        "level": finding.level,
        "owner": finding.owner,
        "sheet": finding.sheet,
        "cell": finding.cell,
        "row": finding.row,
        "column": finding.column,
        "expected": finding.expected,
        "found": finding.found,
        "message": finding.message,
        "action": finding.action,
    }
