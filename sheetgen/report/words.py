"""Words that all reports share: counts in a sentence, the word for a level, whose turn it is, a rule's name in words."""

from __future__ import annotations

from collections.abc import Sequence

from sheetgen.audit.rule import LEVELS, Finding, Level, Owner
from sheetgen.audit.run import Audit
from sheetgen.texts import marked, say, say_many

OWNERS: tuple[Owner, ...] = ("vendor", "designer")
_LEVEL_WORDS: dict[Level, str] = {"fix": marked("to fix"), "query": marked("question"), "note": marked("note")}
_TURNS: dict[Owner, str] = {"vendor": marked("The vendor's turn"), "designer": marked("Your turn")}
_FOR: dict[Owner, str] = {"vendor": marked("for the vendor"), "designer": marked("for you")}


def level_word(level: Level) -> str:
    """The word for a level: to fix, question, note."""
    return say(_LEVEL_WORDS[level])


def whose_turn(owner: Owner) -> str:
    """Whose turn it is, as a heading."""
    return say(_TURNS[owner])


def no_sheet() -> str:
    """The heading of what belongs to no sheet."""
    return say("The file as a whole")


def _counted(level: Level, count: int) -> str:
    if level == "fix":
        return say_many("{count:,} thing to fix", "{count:,} things to fix", count)
    if level == "query":
        return say_many("{count:,} question", "{count:,} questions", count)
    return say_many("{count:,} note", "{count:,} notes", count)


def summary(findings: Sequence[Finding]) -> str:
    """How many there are of each level and for whom, in one sentence; or that all is ready."""
    if not findings:
        return say("Nothing to fix. Ready to accept.")
    levels = {level: sum(one.level == level for one in findings) for level in LEVELS}
    kinds = ", ".join(_counted(level, number) for level, number in levels.items() if number)
    start = "" if levels["fix"] else say("Nothing to fix; ")
    return f"{start}{kinds}: {_whose(findings)}."


def _whose(findings: Sequence[Finding]) -> str:
    owners = {owner: sum(one.owner == owner for one in findings) for owner in OWNERS}
    turns = {owner: number for owner, number in owners.items() if number}
    if len(turns) > 1:
        return ", ".join(f"{number:,} {say(_FOR[owner])}" for owner, number in turns.items())
    owner, number = next(iter(turns.items()))
    return say(_FOR[owner]) if number == 1 else say("all {for_whom}", for_whom=say(_FOR[owner]))


def facts(audit: Audit) -> list[tuple[str, str]]:
    """Style, revision, purpose, vendor and issue, as far as the file says them."""
    named = {
        say("style"): audit.style,
        say("revision"): audit.revision,
        say("purpose"): audit.purpose,
        say("vendor"): audit.vendor,
        say("issue"): audit.issue_id,
    }
    return [(name, value) for name, value in named.items() if value]


def said(rule: str) -> str:
    """A rule's name as words: entry missing."""
    return say(rule.replace("-", " "))
