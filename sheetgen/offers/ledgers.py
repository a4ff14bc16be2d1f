"""Ledger lines with a cell for each vendor, and the words that name the lowest."""

from __future__ import annotations

from dataclasses import replace

from sheetgen.declare.entry import Entry, computed
from sheetgen.declare.kinds import text
from sheetgen.declare.parts import Ledger, Line

LABEL_WIDTH, VENDOR_WIDTH, LOWEST_WIDTH = 40.0, 19.0, 19.0
_HEADINGS = ("", "{vendor}", "Lowest")


def line(entry: Entry, words: str = "") -> Line:
    """One line: its words (the entry's heading if none are given), a cell for each vendor, and who is lowest where that is
    marked.
    """
    said = words or entry.heading
    named = replace(entry, heading=f"{said}: {{vendor}}")
    return Line((said,), (named, lowest_of(entry.name)) if entry.lowest else (named,))


def lowest_of(name: str) -> Entry:
    """Who has the lowest of a family: a word beside the color."""
    return computed(f"lowest_{name}", f"Lowest: {name}", text(18), name_of_lowest(f"{name}.row"))


def name_of_lowest(row: str) -> str:
    """The formula that names the vendor whose cell of a row is the smallest."""
    first = f"INDEX(landed.vendors.name,MATCH(MIN({row}),{row},0))"
    others = f'IF(SUMPRODUCT(({row}=MIN({row}))*1)>1," and others","")'
    return f'IF(COUNT({row})<2,"",IF(MAX({row})-MIN({row})<0.00005,"alike",{first}&{others}))'


def side_by_side(title: str, *lines: Line, note: str = "") -> Ledger:
    """Lines with one column for each vendor."""
    return Ledger(title, _HEADINGS, (LABEL_WIDTH, VENDOR_WIDTH, LOWEST_WIDTH), lines, note=note)
