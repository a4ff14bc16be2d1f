"""Every starter with every option, and the workbook data that come of it."""

from pathlib import Path

from sheetgen.sheets import BOOK
from sheetgen.style.starters import starter
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.model.values import Values

PLAIN = ("t-shirt", "sweatshirt", "shirt", "trousers", "skirt", "dress", "jacket", "leggings")
CHILDREN = ("t-shirt", "sweatshirt", "shirt", "jacket")
OPTIONS = [
    *((garment, {}) for garment in PLAIN),
    *((garment, {"child": True}) for garment in CHILDREN),
    ("sweatshirt", {"hood": True}),
    ("sweatshirt", {"hood": True, "child": True}),
]
"""Garment and options of all fourteen starters."""
NAMES = [" ".join([garment, *options]) for garment, options in OPTIONS]

_KNOWN = {entry.family or entry.name for entry in BOOK.tables["measurements.points"][1].entries}


def told(garment: str, **options) -> dict:
    """A starter without the columns that the book does not have yet."""
    data = starter(garment, **options)
    data["measurements"]["points"] = [
        {key: value for key, value in row.items() if key in _KNOWN} for row in data["measurements"]["points"]
    ]
    return data


def loaded(garment: str, **options) -> Values:
    """The values of a starter; UserError with all that is wrong in it."""
    return values_of(BOOK, told(garment, **options), Path("starter.toml"))


def rows(data: dict, address: str) -> list[dict]:
    """The rows of a table, as `materials.bom`."""
    sheet, table = address.split(".")
    return data[sheet][table]
