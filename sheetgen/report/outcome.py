"""Outcome: what came of one file: it was audited, or it could not be used."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from sheetgen.audit.run import Audit


@dataclass(frozen=True)
class Unusable:
    """A file that could not be audited, and why, in one sentence."""

    file: Path
    reason: str


Outcome = Audit | Unusable
