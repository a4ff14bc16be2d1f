"""Where two workbooks differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from sheetgen.api.reading import read
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.workbook.model.compare import same
from sheetgen.workbook.model.values import with_words


@dataclass(frozen=True)
class Difference:
    """One place that two workbooks hold differently; `cell` is its address in the second (or the first)."""

    place: Place
    sheet: str
    cell: str
    heading: str
    before: Value
    after: Value


def compare(before: Path, after: Path) -> Sequence[Difference]:
    """Every place that two workbooks hold differently, in the order of the sheets."""
    first, second = read(before), read(after)
    found = []
    for address, column in {**first.ready.book.entries, **second.ready.book.entries}.items():
        if column.entry.who not in {"designer", "vendor"}:
            continue
        places = dict.fromkeys(place for got in (first, second) for place, _ in got.where.places(address))
        for place in places:
            old, new = first.typed.get(place), second.typed.get(place)
            if not same(old, new):
                cell = second.where.at(place) or first.where.at(place)
                assert cell is not None
                heading = with_words(column.entry.heading, second.ready.shape)
                found.append(Difference(place, cell.sheet, cell.address, heading, old, new))
    return found
