"""The audit with all its rules, by the limits of the brand."""

from __future__ import annotations

from pathlib import Path

from sheetgen.api.brands import limits_for
from sheetgen.audit import RULES
from sheetgen.audit.run import Audit
from sheetgen.audit.run import audit as run_audit
from sheetgen.sheets import BOOK


def audit(path: Path, receipt: Path | None = None, purpose: str | None = None, brand: Path | None = None) -> Audit:
    """Audit a returned file against its receipt, or a working file by itself: for a purpose, that of the file if not given.

    The limits are those of the brand file: the one named, else one beside the file, else the usual ones.
    """
    return run_audit(BOOK, RULES, path, receipt, purpose, limits_for(path, brand))
