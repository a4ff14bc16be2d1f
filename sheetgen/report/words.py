"""Words that all reports share: counts in a sentence, the word for a level, a rule's name in words."""

from __future__ import annotations

from collections.abc import Sequence

from sheetgen.audit.rule import LEVELS, Finding, Level, Owner
from sheetgen.audit.run import Audit

LEVEL_WORDS: dict[Level, str] = {"fix": "to fix", "query": "question", "note": "note"}
OWNERS: tuple[Owner, ...] = ("vendor", "designer")
TURNS: dict[Owner, str] = {"vendor": "The vendor's turn", "designer": "Your turn"}
NO_SHEET = "The file as a whole"
READY = "Nothing to fix. Ready to accept."

_COUNTED: dict[Level, tuple[str, str]] = {
    "fix": ("thing to fix", "things to fix"),
    "query": ("question", "questions"),
    "note": ("note", "notes"),
}
_FOR: dict[Owner, str] = {"vendor": "for the vendor", "designer": "for you"}


def counted(number: int, one: str, many: str) -> str:
    """The number with its noun: 1 cell, 2 cells."""
    return f"{number:,} {one if number == 1 else many}"


def summary(findings: Sequence[Finding]) -> str:
    """How many there are of each level and for whom, in one sentence; or that all is ready."""
    if not findings:
        return READY
    levels = {level: sum(one.level == level for one in findings) for level in LEVELS}
    kinds = ", ".join(counted(number, *_COUNTED[level]) for level, number in levels.items() if number)
    start = "" if levels["fix"] else "Nothing to fix; "
    return f"{start}{kinds}: {_whose(findings)}."


def _whose(findings: Sequence[Finding]) -> str:
    owners = {owner: sum(one.owner == owner for one in findings) for owner in OWNERS}
    turns = {owner: number for owner, number in owners.items() if number}
    if len(turns) > 1:
        return ", ".join(f"{number:,} {_FOR[owner]}" for owner, number in turns.items())
    owner, number = next(iter(turns.items()))
    return _FOR[owner] if number == 1 else f"all {_FOR[owner]}"


def facts(audit: Audit) -> list[tuple[str, str]]:
    """Style, revision, purpose, vendor and issue, as far as the file says them."""
    named = {
        "style": audit.style,
        "revision": audit.revision,
        "purpose": audit.purpose,
        "vendor": audit.vendor,
        "issue": audit.issue_id,
    }
    return [(name, value) for name, value in named.items() if value]


def said(rule: str) -> str:
    """A rule's name as words: entry missing."""
    return rule.replace("-", " ")
