"""Ledger lines with a cell for each vendor, and the words that name the lowest."""

from __future__ import annotations

from dataclasses import replace

from sheetgen.declare.entry import Entry, computed
from sheetgen.declare.kinds import text
from sheetgen.declare.parts import Ledger, Line, Part

LABEL_WIDTH, VENDOR_WIDTH, LOWEST_WIDTH = 40.0, 28.0, 24.0


def line(entry: Entry, words: str = "") -> Line:
    """One line: its words (the entry's heading if none are given), a cell for each vendor, and who is lowest where that is
    marked.
    """
    said = words or entry.heading
    named = replace(entry, heading=f"{said}: {{vendor}}")
    return Line((said,), (named, lowest_of(entry.name)) if entry.lowest else (named,))


def lowest_of(name: str) -> Entry:
    """Who has the lowest of a family: a word beside the color."""
    return computed(f"lowest_{name}", f"Lowest: {name}", text(18), name_of_lowest(f"{name}.all", f"others_{name}"))


def name_of_lowest(row: str, others: str) -> str:
    """The formula that names the vendor whose cell of a row is the smallest; the entry `others` says +1 if one more has the same."""
    first = f"INDEX(picture.vendors.name,MATCH(MIN({row}),{row},0))"
    return f'IF(COUNT({row})<2,"",IF(MAX({row})-MIN({row})<0.00005,"alike",{first}&{others}&""))'


def others_as_low(row: str) -> str:
    """The formula of a step: ` +1` if one more vendor has the smallest of a row."""
    return f'IF(SUMPRODUCT(({row}=MIN({row}))*1)>1," +"&(SUMPRODUCT(({row}=MIN({row}))*1)-1),"")'


def with_steps(*parts: Part) -> tuple[Part, ...]:
    """The parts of a sheet, and below them, not printed, a step for each line that names its lowest."""
    lines = tuple(
        Line(one.words, (computed(f"others_{entry.name}", f"Others as low: {one.words[0]}", text(9), others_as_low(f"{entry.name}.all")),))
        for part in parts if isinstance(part, Ledger)
        for one in part.lines
        for entry in one.entries if entry.lowest
    )  # fmt: skip
    steps = Ledger(
        "Steps: how many more vendors have the lowest", ("", "More"), (LABEL_WIDTH, VENDOR_WIDTH), lines, printed=False
    )
    return (*parts, steps)


def side_by_side(title: str, *lines: Line, note: str = "", new_page: bool = False) -> Ledger:
    """Lines with one column for each vendor, and one that names the lowest where any line marks it."""
    marked = any(entry.lowest for one in lines for entry in one.entries)
    headings, widths = ("", "{vendor}", "Lowest"), (LABEL_WIDTH, VENDOR_WIDTH, LOWEST_WIDTH)
    return Ledger(title, headings[: 2 + marked], widths[: 2 + marked], lines, note=note, new_page=new_page)
