"""The sample styles as files, with the vendor's answers in them, and what their computed cells show.

Used by the tests that hold our stored values against other engines.
"""

import datetime
from functools import cache, lru_cache
from pathlib import Path

import openpyxl
from openpyxl import Workbook
from openpyxl.utils.datetime import to_excel

from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.exchange.issue import issue
from sheetgen.workbook.exchange.toml import read_toml
from sheetgen.workbook.model.values import Values, ready, shape_of
from sheetgen.workbook.write.file import workbook_bytes

SAMPLES = Path(__file__).parents[2] / "sample_inputs"
ISSUED = datetime.date(2026, 11, 20)
FILES = ("overshirt", "sweatshirt", "jacket", "jacket, vendor's copy")
LEAST_FORMULAS = 1800
"""Each file holds more computed cells than this: a check of fewer has lost some."""
Shown = str | float
CellName = tuple[str, str]


@cache
def brief(style: str) -> Values:
    """What the designer of a sample style wrote."""
    return load_style(BOOK, SAMPLES / style / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))


@cache
def answers(style: str) -> Values:
    """What the vendor of a sample style answers."""
    path = SAMPLES / style / "answers-clean.toml"
    return values_of(BOOK, read_toml(path), path, brief(style))


BULK = {
    "markers": {
        "list": [{"material": "M1", "sizes": "S 1, M 2", "garments": 3, "width": 145, "long": 4.6, "area": 5.6, "end_loss": 0.04, "stamp": 1}],
    },
    "cutting": {
        "most_plies": 60, "most_garments": 6, "most_over": 0.02, "lay_material": "M1",
        "lays": [
            {"lay": "Marker 1", "garments": {"XS": 1, "S": 1, "L": 3, "XXL": 1}, "plies": {"Moss": 60, "Slate": 40}},
            {"lay": "Marker 2", "garments": {"S": 1, "M": 3, "XL": 2}, "plies": {"Moss": 59}},
        ],
    },
}  # fmt: skip
"""A marker and lays for the overshirt (made up), so that their sheets have something to work out too."""


def file_bytes(name: str) -> bytes:
    """One of FILES: all of a style's values in it, so that as many cells as possible have something to work out."""
    style, _, copy = name.partition(", ")
    values = {**brief(style), **answers(style)}
    if style == "overshirt":
        values |= values_of(BOOK, BULK, Path("bulk"), values)
    if copy:
        return issue(BOOK, values, {}, ISSUED).data
    return workbook_bytes(ready(BOOK, shape_of(BOOK, values)), values, {"kind": "working"})


@lru_cache(maxsize=2)
def opened(path: Path, *, shown: bool = False) -> Workbook:
    """A file as the plain library reads it: its formulas, or what they show. Nobody changes it."""
    return openpyxl.load_workbook(path, data_only=shown)


def computed_cells(path: Path) -> list[CellName]:
    """Sheet and address of every cell with a formula."""
    loaded = opened(path)
    return [
        (sheet.title, cell.coordinate)
        for sheet in loaded
        for row in sheet.iter_rows()
        for cell in row
        if cell.data_type == "f"
    ]


def stored(path: Path, cells: list[CellName]) -> dict[CellName, Shown]:
    """What a file says that these cells show; a date as its day number, nothing as an empty text."""
    loaded = opened(path, shown=True)
    return {cell: plain(loaded[cell[0]][cell[1]].value) for cell in cells}


def plain(value: object) -> Shown:
    """A value as number or text."""
    if value is None:
        return ""
    if isinstance(value, datetime.datetime):
        return float(to_excel(value))
    return float(value) if isinstance(value, int | float) else str(value)


def differing(ours: dict[CellName, Shown], theirs: dict[CellName, Shown]) -> list[str]:
    """The cells on which two engines do not agree, in words: text to the letter, numbers to 1e-9 of the larger."""
    return [
        f"{sheet}!{address}: ours {ours[sheet, address]!r}, theirs {theirs.get((sheet, address))!r}"
        for sheet, address in ours
        if not same(ours[sheet, address], theirs.get((sheet, address)))
    ]


def same(one: Shown, other: Shown | None) -> bool:
    """Whether two shown values are one and the same."""
    if isinstance(one, float) and isinstance(other, float):
        return abs(one - other) <= 1e-9 * max(abs(one), abs(other))
    return one == other


def errors(shown: dict[CellName, Shown]) -> list[str]:
    """Cells that show an error."""
    return [f"{sheet}!{address}: {value}" for (sheet, address), value in shown.items() if str(value).startswith("#")]
