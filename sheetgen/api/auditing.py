"""The audit with all its rules, by the limits of the brand."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

from sheetgen.audit import RULES
from sheetgen.audit.run import Audit
from sheetgen.audit.run import audit as run_audit
from sheetgen.declare.judgment import USUAL, Limits
from sheetgen.sheets import BOOK


def audit(path: Path, receipt: Path | None = None, purpose: str | None = None, brand: Path | None = None) -> Audit:
    """Audit a returned file against its receipt, or a working file by itself: for a purpose, that of the file if not given.

    The limits are those of the brand file: the one named, else one beside the file, else the usual ones.
    """
    return run_audit(BOOK, RULES, path, receipt, purpose, limits_for(path, brand))


def brand_for(path: Path, brand: Path | None = None) -> Path | None:
    """The brand file that goes with a file: the one named, else `brand.toml` beside it; None if there is none."""
    beside = path.with_name("brand.toml")
    return brand or (beside if beside.is_file() else None)


def limits_for(path: Path, brand: Path | None = None) -> Limits:
    """The limits by which a file is judged. UserError for a brand file that cannot be read, or a limit that cannot be."""
    source = brand_for(path, brand)
    if source is None:
        return USUAL
    # Brands are loaded where there is one: most files have none beside them.
    found: Limits = import_module("sheetgen.style.brand").load_brand(source).limits
    return found
