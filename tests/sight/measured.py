"""What a workbook's sheets are like to look at, to fill and to print, in numbers."""

from __future__ import annotations

import itertools
import re
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import openpyxl

from sheetgen.declare.entry import STAGES, Place
from sheetgen.declare.letters import FONT_POINTS, pixels_wide
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.asked import is_asked
from sheetgen.workbook.model.heights import CELL_EDGES, INDENT_WIDTH, LINE_HEIGHT, text_height
from sheetgen.workbook.model.layout import ROW_HEIGHT, plan
from sheetgen.workbook.model.page import Page, PlacedTable
from sheetgen.workbook.model.values import Ready, with_words
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned

WINDOW_WIDE, WINDOW_HIGH = 1366 - 60, 768 - 250
"""Pixels of cells in a window of 1,366 x 768: without the program's own bars (our measure, in LibreOffice)."""
POINTS = 72 / 96
_PLAIN = re.compile("[acdeghilmnopqsu]{4,}")
"""Words whose width says the size of their letters: none of them is drawn under the letter beside it."""


class Sight(NamedTuple):
    """One sheet: screens wide and high; whether its headings stay; rows of its main table that the first screen shows; pages and
    smallest letters in points as LibreOffice prints them (0 without it); rows a line taller than what stands in them; words of
    headings that break; cells that must be filled, open ones, and stops of the Tab key from the first to the last of the former."""

    title: str
    wide: float
    high: float
    headings_stay: bool
    first_rows: int
    pages: int
    least_points: float
    too_tall: int
    broken: int
    must_fill: int
    open_cells: int
    stops: int


def measured(path: Path, made: Ready) -> list[Sight]:
    """All sheets of a file that are seen, in their order; `made` is the book that it was made of."""
    got = read(BOOK, path)
    file = openpyxl.load_workbook(path)
    pages = plan(made, got.typed)[0]
    printed = printed_pages(path)
    return [
        _sheet(page, file[page.sheet.title], got, *printed.get(page.sheet.title, (0, 0.0)))
        for page in pages
        if file[page.sheet.title].sheet_state == "visible"
    ]


def printed_pages(path: Path) -> dict[str, tuple[int, float]]:
    """Title -> pages that LibreOffice makes of the sheet, and its smallest letters in points; nothing where it is not there.

    The title stands at the right of each page's head. How large a word is set follows from its width: fonts that stand in for
    Arial are as wide, though not as high.
    """
    with tempfile.TemporaryDirectory() as folder:
        command = ["soffice", "--headless", f"-env:UserInstallation=file://{folder}/user", "--convert-to", "pdf"]
        try:
            subprocess.run([*command, "--outdir", folder, str(path)], check=True, capture_output=True, timeout=300)
        except (OSError, subprocess.SubprocessError):
            return {}
        pdf = Path(folder) / f"{path.stem}.pdf"
        text = subprocess.run(["pdftotext", "-bbox", str(pdf), "-"], check=True, capture_output=True, text=True).stdout
    found: dict[str, tuple[int, float]] = {}
    word = re.compile(r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="[\d.]+">([^<]*)<')
    for page in text.split("<page ")[1:]:
        words = [(float(left), float(top), float(right), said) for left, top, right, said in word.findall(page)]
        first = min(words, key=lambda one: one[1])[1]
        title = max((one for one in words if one[1] - first < 4), key=lambda one: one[0])[3]
        least = min(
            (FONT_POINTS * (right - left) / (pixels_wide(said) * POINTS) for left, _, right, said in words if _PLAIN.fullmatch(said)),
            default=99.0,
        )  # fmt: skip
        count, before = found.get(title, (0, 99.0))
        found[title] = (count + 1, round(min(before, least), 1))
    return found


def _sheet(page: Page, sheet: Any, got: Returned, pages: int, least: float) -> Sight:
    copy = got.ready.shape.audience == "vendor"
    shown = page.open_columns if page.open_columns and not copy else len(page.widths)
    away = page.machinery if copy else frozenset()
    pixels = sum(7 * width + 5 for column, width in enumerate(page.widths[:shown], 1) if column not in away)
    heights = {row: sheet.row_dimensions[row].height or 15.0 for row in range(1, page.last_row + 1)}
    high = sum(heights.values()) / POINTS
    main = page.main_table
    must, free = asked_cells(page.sheet.name, got), open_cells(sheet)
    in_must = [number for number, at in enumerate(free) if at in must]
    return Sight(
        page.sheet.title, round(pixels / WINDOW_WIDE, 1), round(high / WINDOW_HIGH, 1), main is not None,
        _first_rows(main, heights) if main else 0, pages, least, _too_tall(page, heights, got), _broken(page, got),
        len(must), len(free), in_must[-1] - in_must[0] + 1 if in_must else 0,
    )  # fmt: skip


def _first_rows(main: PlacedTable, heights: dict[int, float]) -> int:
    tall = itertools.accumulate(heights[row] / POINTS for row in range(1, main.last))
    return max(0, sum(one <= WINDOW_HIGH for one in tall) - main.headings)


def _too_tall(page: Page, heights: dict[int, float], got: Returned) -> int:
    """Rows of tables of words that are a line higher than the words need, and hold no picture."""
    count = 0
    for part in page.parts:
        for row, ref in enumerate(part.refs, part.first) if isinstance(part, PlacedTable) else ():
            needed = ROW_HEIGHT
            for entry, column in part.columns:
                place = Place(f"{part.address}.{entry.name}", ref)
                value = got.typed.get(place, got.shown.get(place))
                if entry.kind.name == "picture" and value is not None:
                    needed = heights[row]
                if isinstance(value, str):
                    needed = max(needed, text_height(value, page.widths[column - 1] - INDENT_WIDTH) + CELL_EDGES)
            count += heights[row] >= needed + LINE_HEIGHT
    return count


def _broken(page: Page, got: Returned) -> int:
    names = {name for _, members in got.ready.shape.axes for name in members}
    return sum(
        pixels_wide(word, bold=True) > 7 * page.widths[column - 1] + 1 and word not in names
        for part in page.parts if isinstance(part, PlacedTable)
        for entry, column in part.columns
        for word in with_words(entry.heading, got.ready.shape).replace("-", "- ").split()
    )  # fmt: skip


def asked_cells(sheet: str, got: Returned) -> set[tuple[int, int]]:
    """Rows and columns of the cells of a sheet that whoever the file is for must fill now."""
    audience = got.ready.shape.audience
    stage = STAGES[str(got.typed.get(Place(BOOK.about.purpose)) or "quote")]

    known = {**got.typed, **got.shown}

    def value(address: str, row: str) -> Any:
        return known.get(Place(address, row), known.get(Place(address)))

    return set(_asked(sheet, got, stage, "vendor" if audience == "vendor" else "designer", value))


def _asked(sheet: str, got: Returned, stage: int, who: Any, value: Any) -> Iterator[tuple[int, int]]:
    for address, (_, _, entry) in got.ready.book.entries.items():
        if address.startswith(f"{sheet}.") and entry.need:
            for place, cell in got.where.places(address):
                blank = who == "vendor" or got.typed.get(place) in (None, "")
                if blank and is_asked(got.ready, place, value, stage, who):
                    yield cell.row, cell.column


def open_cells(sheet: Any) -> list[tuple[int, int]]:
    """Cells that are not locked, in the order in which the Tab key goes over them where the sheet is protected."""
    return [
        (cell.row, cell.column)
        for row in sheet.iter_rows()
        for cell in row
        if cell.has_style and not cell.protection.locked
    ]
