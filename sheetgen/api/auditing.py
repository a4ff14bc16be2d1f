"""The audit with all its rules."""

from __future__ import annotations

from pathlib import Path

from sheetgen.audit import RULES
from sheetgen.audit.run import Audit
from sheetgen.audit.run import audit as run_audit
from sheetgen.sheets import BOOK


def audit(path: Path, receipt: Path | None = None, purpose: str | None = None) -> Audit:
    """Audit a returned file against its receipt, or a working file by itself: for a purpose, that of the file if not given."""
    return run_audit(BOOK, RULES, path, receipt, purpose)
