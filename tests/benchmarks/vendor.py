"""Plays the vendor: types answers into an issued copy, and then plants the faults of a careless return.

A program, so that it uses the sheetgen that PYTHONPATH names: BRAND BRIEF COPY ANSWERS TARGET [FAULTS TARGET].
"""

from __future__ import annotations

import sys
from importlib import import_module
from pathlib import Path
from typing import Any

from sheetgen.sheets import BOOK


def room(*names: str) -> Any:
    """The first of these modules that this sheetgen has: an older one has them elsewhere."""
    for name in names[:-1]:
        try:
            return import_module(name)
        except ModuleNotFoundError:
            continue
    return import_module(names[-1])


def main(brand: str, brief: str, copy: str, answers: str, target: str, faults: str = "", faulty: str = "") -> None:
    """Write the vendor's return, and the careless one if faults are given."""
    edit = room("sheetgen.testing.edit", "sheetgen.workbook.edit")
    briefs = room("sheetgen.workbook.exchange.brief", "sheetgen.workbook.brief")
    toml = room("sheetgen.workbook.exchange.toml", "sheetgen.workbook.exchange.brief", "sheetgen.workbook.brief")
    brands = room("sheetgen.style.brand", "sheetgen.brand")
    known = brands.load_style(BOOK, Path(brief), brands.load_brand(Path(brand)))
    given = briefs.values_of(BOOK, toml.read_toml(Path(answers)), Path(answers), known)
    edit.typed_in(BOOK, Path(copy), given, Path(target))
    if faults:
        planted = [fault.edit for fault in edit.load_faults(Path(faults))]
        edit.edited(BOOK, Path(target), planted, Path(faulty))


if __name__ == "__main__":
    main(*sys.argv[1:])
