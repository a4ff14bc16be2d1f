"""Outcome: what came of one file, it was audited or it could not be used; and of several, who owes what."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from sheetgen.audit.run import Audit
from sheetgen.report.words import OWNERS
from sheetgen.texts import say


@dataclass(frozen=True)
class Unusable:
    """A file that could not be audited, and why, in one sentence."""

    file: Path
    reason: str


Outcome = Audit | Unusable


def in_order(outcomes: Iterable[Outcome]) -> list[Outcome]:
    """Those whose answer is due first stand first, then those without a day, last what cannot be used."""
    return sorted(outcomes, key=lambda one: (isinstance(one, Unusable), due(one) or "9", one.file.name))


def due(outcome: Outcome) -> str:
    """The day on which the answer is due, as 2026-12-11; empty where none is known."""
    return outcome.sent.due if not isinstance(outcome, Unusable) and outcome.sent else ""


def turns(outcome: Outcome) -> str:
    """Who has how much to do about a file, in words; notes ask for nothing."""
    if isinstance(outcome, Unusable):
        return say("cannot be used")
    counts = {
        owner: sum(finding.owner == owner and finding.level != "note" for finding in outcome.findings)
        for owner in OWNERS
    }
    return ", ".join(f"{say(owner)} {count}" for owner, count in counts.items() if count) or say("nothing to ask")
