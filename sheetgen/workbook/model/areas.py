"""Areas as files write them (`C5:C9 E5`), opened into cells."""

from __future__ import annotations

import re
from collections.abc import Iterator

from sheetgen.workbook.model.geometry import column_number

_AREA = re.compile(r"\$?([A-Z]{1,3})\$?([1-9]\d{0,6})(?::\$?([A-Z]{1,3})\$?([1-9]\d{0,6}))?\Z")
MOST_CELLS = 20_000
"""So many cells of one area are looked at: a rule for a whole column says the same of each of them."""


def cells_of(areas: str) -> Iterator[tuple[int, int]]:
    """Row and column of each cell; what cannot be read is passed over."""
    for area in areas.upper().split():
        match = _AREA.match(area)
        if match is None:
            continue
        left, top, right, bottom = match.groups()
        first, last = int(top), int(bottom or top)
        start, end = column_number(left), column_number(right or left)
        count = 0
        for row in range(first, last + 1):
            for column in range(start, end + 1):
                count += 1
                if count > MOST_CELLS:
                    return
                yield row, column
