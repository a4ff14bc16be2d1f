"""Reads the published tables in tests/data.

Used by the tests of the trade facts, so that each test states only what it compares.
"""

import csv
from pathlib import Path

DATA = Path(__file__).parent.parent / "data"


def rows(name: str) -> list[dict[str, str]]:
    """The rows of one table in tests/data, as text, by column heading."""
    with (DATA / name).open(encoding="utf-8", newline="") as lines:
        return list(csv.DictReader(lines))
