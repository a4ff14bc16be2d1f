"""Every starter with every option, and the workbook data that come of it."""

from pathlib import Path

from sheetgen.garments import GARMENTS
from sheetgen.sheets import BOOK
from sheetgen.style.starters import starter
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.model.values import Values

OPTIONS = [
    *((garment.word, {}) for garment in GARMENTS),
    *((garment.word, {"child": True}) for garment in GARMENTS if garment.for_children),
    *((garment.word, {"hood": True}) for garment in GARMENTS if garment.hooded),
    *((garment.word, {"hood": True, "child": True}) for garment in GARMENTS if garment.hooded and garment.for_children),
]
"""Each garment that is declared, with each of the options that it has."""
NAMES = [" ".join([garment, *options]) for garment, options in OPTIONS]


def loaded(garment: str, **options) -> Values:
    """The values of a starter; UserError with all that is wrong in it."""
    return values_of(BOOK, starter(garment, **options), Path("starter.toml"))


def rows(data: dict, address: str) -> list[dict]:
    """The rows of a table, as `materials.bom`."""
    sheet, table = address.split(".")
    return data[sheet][table]
