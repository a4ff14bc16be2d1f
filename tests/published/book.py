"""A small style put into the workbook, and what its live formulas then show.

Used by the checks against published figures: they type the published inputs and read the computed cells.
"""

from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from sheetgen.audit import RULES
from sheetgen.audit.case import Case
from sheetgen.audit.run import audit, case_of
from sheetgen.declare.entry import place_of
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.style.figures import figures
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.model.values import Values, ready, shape_of
from sheetgen.workbook.read.file import read
from sheetgen.workbook.write.file import workbook_bytes
from tests.trade.tables import rows


def typed(sizes: Sequence[str], data: Mapping[str, Mapping[str, Any]]) -> Values:
    """The values of a small style."""
    style = {
        "unit": "cm", "currency": "USD", "sample_size": sizes[0], "sizes": [{"name": size} for size in sizes],
        **data.get("style", {}),
    }  # fmt: skip
    return values_of(BOOK, {**data, "style": style}, Path("published"))


@contextmanager
def file_of(sizes: Sequence[str], data: Mapping[str, Mapping[str, Any]]) -> Iterator[Path]:
    """A small style's workbook, as long as it is asked for."""
    values = typed(sizes, data)
    with TemporaryDirectory() as folder:
        path = Path(folder) / "style.xlsx"
        path.write_bytes(workbook_bytes(ready(BOOK, shape_of(BOOK, values)), values, {"kind": "working"}))
        yield path


def findings(*rules: str, sizes: Sequence[str] = ("M",), **data: Mapping[str, Any]) -> dict[str, str]:
    """What these rules of the audit say of a small style's workbook: place -> message, without the limits that it ends with."""
    asked = [rule for rule in RULES if rule.name in rules]
    assert len(asked) == len(rules)
    with file_of(sizes, data) as path:
        return {finding.place: finding.told for finding in audit(BOOK, asked, path).findings}


def case(sizes: Sequence[str] = ("M",), **data: Mapping[str, Any]) -> Case:
    """A small style's workbook as rules see it."""
    with file_of(sizes, data) as path:
        return case_of(read(BOOK, path), None)


NO_CHARGES = {
    "freight": 0,
    "insurance": 0,
    "duty_base": "price",
    "duty": 0,
    "fees": 0,
    "inland": 0,
    "overhead": 0,
    "tax": 0,
}
"""A pricing in which nothing is added to the vendor's price."""


class Shown:
    """The computed cells of a workbook, by name: `order.cartons`, `order.buy[M1].need`."""

    def __init__(self, sizes: Sequence[str] = ("M",), **data: Mapping[str, Any]) -> None:
        self.values = typed(sizes, data)
        self._shown = figures(self.values)[1]

    def __getitem__(self, place: str) -> Value:
        return self._shown[place_of(place)]

    def number(self, place: str) -> float:
        """A computed number; fails on text or blank."""
        value = self[place]
        assert isinstance(value, int | float), f"{place} shows {value!r}"
        return value


@cache
def published(table: str, key: str = "id") -> Mapping[str, Mapping[str, str]]:
    """The rows of a table in tests/data by their key."""
    return {row[key]: row for row in rows(table)}


def in_source(table: str, case: str, column: str, *figures: str) -> None:
    """Fails unless the published row holds these figures, so that what a test asserts is what the source says."""
    cell = published(table)[case][column]
    missing = [figure for figure in figures if figure not in cell]
    assert not missing, f"{table} {case}: {missing} not in {cell!r}"
