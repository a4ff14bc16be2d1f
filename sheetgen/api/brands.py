"""Which brand file goes with a file, and the limits by which it is judged."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

from sheetgen.declare.judgment import USUAL, Limits


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
