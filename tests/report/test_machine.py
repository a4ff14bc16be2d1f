"""The JSON has exactly the form that the design promises."""

import json
from pathlib import Path

from sheetgen.report.machine import as_json
from sheetgen.report.outcome import Unusable

from .made import audited, finding


def test_the_form() -> None:
    replaced = finding(
        "formula-replaced",
        cell="K14",
        row="F1",
        column="Cost per garment",
        expected="=F14*J14",
        found="3.1",
        message="Cost per garment in K14 was a formula and is now 3.1.",
        why="A typed number no longer follows what it was worked out from.",
        action="Put back: =F14*J14",
    )
    text = as_json([audited(replaced), Unusable(Path("broken.xlsx"), "It is protected by a password.")])
    assert json.loads(text) == {
        "files": [
            {
                "file": "answers/field-jacket.xlsx",
                "issue_id": "FJ-7-a1",
                "status": "audited",
                "reason": None,
                "findings": [
                    {
                        "rule": "formula-replaced",
                        "level": "fix",
                        "owner": "vendor",
                        "sheet": "Materials",
                        "cell": "K14",
                        "row": "F1",
                        "column": "Cost per garment",
                        "expected": "=F14*J14",
                        "found": "3.1",
                        "message": "Cost per garment in K14 was a formula and is now 3.1.",
                        "action": "Put back: =F14*J14",
                    }
                ],
            },
            {
                "file": "broken.xlsx",
                "issue_id": "",
                "status": "unusable",
                "reason": "It is protected by a password.",
                "findings": [],
            },
        ]
    }


def test_no_files_is_still_one_object() -> None:
    assert json.loads(as_json([])) == {"files": []}


def test_values_come_through_whole_and_cannot_steer_a_terminal() -> None:
    value = "\x1b[2J \x9b \u202e é \ud800"
    text = as_json([audited(finding(found=value))])
    assert text.isascii()
    assert "\x1b" not in text
    assert json.loads(text)["files"][0]["findings"][0]["found"] == value
