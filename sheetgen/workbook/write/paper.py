"""Paper: page size, scale, margins, header and footer, what repeats on each page and where a page ends."""

from __future__ import annotations

import itertools
import math
from typing import TYPE_CHECKING

from sheetgen.declare.about import About
from sheetgen.declare.entry import Place
from sheetgen.workbook.model import look
from sheetgen.workbook.model.page import TOP_ROWS, Page, PlacedTable
from sheetgen.workbook.model.values import Values

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

_PAPER = {"A4": (9, 210.0, 297.0), "Letter": (1, 215.9, 279.4)}
_MARGIN_INCH = 0.4
_AROUND_POINTS = (0.65 + 0.6) * 72
"""Margins above and below."""
_LEAST_SCALE = 70
"""Ten points are printed as seven."""
_ROW_POINTS = 15.0
"""A row whose height nobody set."""
_ROOM = 0.96
"""Of a page's height: rows are not torn, and headings repeat."""
_SAFETY = 0.8
"""Column widths differ between programs and fonts: leave room so that no column slips to another page."""


def set_paper(sheet: Worksheet, page: Page, about: About, values: Values) -> None:
    """Print set-up of one sheet."""
    paper = str(values.get(Place(about.paper)) or "A4")
    code, short, long_ = _PAPER.get(paper, _PAPER["A4"])
    sheet.set_paper(code)
    if page.sheet.portrait:
        sheet.set_portrait()
    else:
        sheet.set_landscape()
    sheet.set_margins(_MARGIN_INCH, _MARGIN_INCH, 0.65, 0.6)
    usable = ((short if page.sheet.portrait else long_) / 25.4 - 2 * _MARGIN_INCH) * 96 * _SAFETY
    scale = max(20, min(100, int(100 * usable / _widest(page))))
    tall_points = (long_ if page.sheet.portrait else short) / 25.4 * 72 - _AROUND_POINTS
    last_row = page.last_on_paper
    scale, pages = _fewest_pages(page, scale, tall_points)
    if page.breaks:
        fitted = _fitted(page, tall_points)
        scale = fitted if _LEAST_SCALE <= fitted < scale else scale
        # Programs ignore page breaks where a sheet is fitted to pages: such a sheet takes a scale instead.
        sheet.set_print_scale(scale)
        sheet.set_v_pagebreaks(page.breaks)
        sheet.repeat_columns(0, 1)
    else:
        sheet.fit_to_pages(1, pages)
    if page.row_breaks:
        sheet.set_h_pagebreaks([row - 1 for row in page.row_breaks])
    repeated = _repeated(page, tall_points * 100 / scale)
    if repeated is not None and len(repeated.refs) > 1:
        sheet.repeat_rows(repeated.sections - 1, repeated.headings - 1)
    if not sheet.hidden:  # one program prints hidden sheets too, if they have an area to print
        sheet.print_area(0, 0, last_row - 1, (page.printed_columns or len(page.widths)) - 1)
    _header_and_footer(sheet, page, about, values)
    main = page.main_table
    sheet.freeze_panes(main.headings if main else TOP_ROWS, 2 if main or page.breaks else 0)


def _fewest_pages(page: Page, scale: int, paper_points: float) -> tuple[int, int]:
    """The largest scale up to this one that takes the fewest pages one below the other, and how many these are.

    A few rows alone on a page are lost there; ten points are never printed as less than seven for it.
    """
    if scale <= _LEAST_SCALE:
        return scale, _pages(page, scale, paper_points)
    pages, smaller = min((_pages(page, one, paper_points), -one) for one in range(_LEAST_SCALE, scale + 1))
    return -smaller, pages


def _pages(page: Page, scale: int, paper_points: float) -> int:
    """How many pages stand one below the other at a scale; a page begins at each break of rows."""
    room = paper_points * _ROOM * 100 / scale
    starts = [1, *(row for row in page.row_breaks if row <= page.last_on_paper), page.last_on_paper + 1]
    runs = (
        sum(page.heights.get(row, _ROW_POINTS) for row in range(first, after))
        for first, after in itertools.pairwise(starts)
    )
    return sum(max(1, math.ceil(run / room)) for run in runs if run)


def _repeated(page: Page, paper_points: float) -> PlacedTable | None:
    """The table whose headings stand on each page: one that ends the sheet, or a main one that is longer than a page."""
    main = page.main_table
    if main is None or main is page.last_table:
        return page.last_table
    return main if _tall(page, main) > paper_points else None


def _tall(page: Page, main: PlacedTable) -> float:
    """Points from the top of the sheet to the end of its main table."""
    return sum(page.heights.get(row, _ROW_POINTS) for row in range(1, main.last + 1))


def _fitted(page: Page, paper_points: float) -> int:
    """The scale at which a main table that others follow ends on its first page: its headings need not be repeated."""
    main = page.main_table
    return 100 if main is None or main is page.last_table else int(100 * paper_points / _tall(page, main))


def _widest(page: Page) -> float:
    """Pixels of the widest printed page."""
    pixels = [7 * width + 5 for width in page.widths[: page.printed_columns or None]]
    edges = [0, *page.breaks, len(pixels)]
    repeated = sum(pixels[:2]) if page.breaks else 0
    return max(sum(pixels[start:end]) + (repeated if start else 0) for start, end in itertools.pairwise(edges))


def _header_and_footer(sheet: Worksheet, page: Page, about: About, values: Values) -> None:
    def shown(address: str, most: int) -> str:
        value = values.get(Place(address))
        text = "" if value is None else str(value).replace("\n", " ")
        return look.shortened(text, most // 2 if "&" in text else most).replace("&", "&&")

    # The blank after the size of the letters keeps a number that follows from being read as part of it.
    sheet.set_header(
        f"&L&8 {shown(about.company, 40)}&C&8 {shown(about.number, 40)}  {shown(about.name, 50)}&R&8 {page.sheet.title}"
    )
    number = shown(about.number, 30)
    named = f"{number}, revision" if number else "Revision"
    sheet.set_footer(
        f"&L&8 {shown(about.footer, 70 if page.sheet.portrait else 120)}"
        f"&R&8 {named} {shown(about.revision, 8)}, page &P of &N"
    )
