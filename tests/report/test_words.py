"""A summary is one right sentence, in the singular and in the plural."""

import pytest

from sheetgen.audit.rule import Finding
from sheetgen.report.words import summary

from .made import finding


def several(fix: int = 0, query: int = 0, note: int = 0, owner: str = "vendor") -> list[Finding]:
    levels = ["fix"] * fix + ["query"] * query + ["note"] * note
    return [finding(level=level, owner=owner) for level in levels]


@pytest.mark.parametrize(
    ("findings", "sentence"),
    [
        (
            [*several(fix=10), *several(fix=2, query=3, note=1, owner="designer")],
            "12 things to fix, 3 questions, 1 note: 10 for the vendor, 6 for you.",
        ),
        (
            [*several(fix=1), *several(query=1, note=2, owner="designer")],
            "1 thing to fix, 1 question, 2 notes: 1 for the vendor, 3 for you.",
        ),
        (several(fix=1), "1 thing to fix: for the vendor."),
        (several(fix=2, owner="designer"), "2 things to fix: all for you."),
        (several(query=2), "Nothing to fix; 2 questions: all for the vendor."),
        (several(fix=1200), "1,200 things to fix: all for the vendor."),
        ([], "Nothing to fix. Ready to accept."),
    ],
)
def test_summary(findings: list[Finding], sentence: str) -> None:
    assert summary(findings) == sentence
