"""Paper: page size, scale, margins, header and footer, what repeats on each page and where a page ends."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, NamedTuple

from sheetgen.declare.about import About
from sheetgen.declare.entry import Place
from sheetgen.workbook.model import look
from sheetgen.workbook.model.grid import FULL, LEAST_SCALE, MARGIN_INCH, SAFETY, most_pixels, paper_of, pixels_of
from sheetgen.workbook.model.page import TOP_ROWS, Page, PlacedTable
from sheetgen.workbook.model.values import Values

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

_TOP_INCH, _BOTTOM_INCH = 0.55, 0.5
"""Margins above and below."""
_ROW_POINTS = 15.0
"""A row whose height nobody set."""
_FEW = 2
"""A table of fewer rows fits below its headings: they are not repeated."""
_HAIR = 0.01
"""Of a percent: columns that were narrowed to what a page holds do hold there."""
_ROOM = 0.98
"""Of a page's height: rows are not torn, and headings repeat."""


def set_paper(sheet: Worksheet, page: Page, about: About, values: Values) -> None:
    """Print set-up of one sheet."""
    code, short, long_ = paper_of(values.get(Place(about.paper)))
    laid = _laid(page, short, long_)
    sheet.set_paper(code)
    if laid.upright:
        sheet.set_portrait()
    else:
        sheet.set_landscape()
    sheet.set_margins(MARGIN_INCH, MARGIN_INCH, _TOP_INCH, _BOTTOM_INCH)
    if page.breaks or laid.flow.breaks:
        # Programs ignore page breaks where a sheet is fitted to pages: such a sheet takes a scale instead.
        sheet.set_print_scale(laid.scale)
        sheet.set_h_pagebreaks([row - 1 for row in laid.flow.breaks])
    else:
        sheet.fit_to_pages(1, laid.flow.pages)
    if page.breaks:
        sheet.set_v_pagebreaks(page.breaks)
        sheet.repeat_columns(0, 1)
    repeated = _repeated(page, laid.points * 100 / laid.scale)
    if repeated is not None and len(repeated.refs) >= _FEW:
        sheet.repeat_rows(repeated.sections - 1, repeated.headings - 1)
    if not sheet.hidden:  # one program prints hidden sheets too, if they have an area to print
        sheet.print_area(0, 0, page.last_on_paper - 1, (page.printed_columns or len(page.widths)) - 1)
    _header_and_footer(sheet, page, about, values, upright=laid.upright)
    main = page.main_table
    sheet.freeze_panes(main.headings if main else TOP_ROWS, 2 if main or page.breaks else 0)


class Laid(NamedTuple):
    """How a sheet lies on paper: upright or across, its scale in percent, how high a page is in points, and what is on each."""

    upright: bool
    scale: int
    points: float
    flow: Flow


def _laid(page: Page, short: float, long_: float) -> Laid:
    """Across, but for what is declared upright, or takes fewer pages so and is not printed too small."""
    across = _laid_so(page, short, long_, upright=page.sheet.portrait)
    if page.sheet.portrait or page.breaks or across.flow.pages == 1:
        return across
    upright = _laid_so(page, short, long_, upright=True)
    return upright if upright.scale >= LEAST_SCALE and upright.flow.pages < across.flow.pages else across


def _laid_so(page: Page, short: float, long_: float, *, upright: bool) -> Laid:
    """`short` and `long_` are the paper's sides in millimeters."""
    usable = most_pixels(short if upright else long_, 100) * (SAFETY if page.breaks else FULL)
    scale = max(20, min(100, int(100 * usable / _widest(page) + _HAIR)))
    points = (long_ if upright else short) / 25.4 * 72 - (_TOP_INCH + _BOTTOM_INCH) * 72
    scale, flow = _fewest_pages(page, scale, points)
    return Laid(upright, scale, points, flow)


def _fewest_pages(page: Page, scale: int, paper_points: float) -> tuple[int, Flow]:
    """The largest scale up to this one that takes the fewest pages one below the other, and how they follow each other.

    A few rows alone on a page are lost there; ten points are never printed as less than seven for it. A main table that
    others follow ends on its first page where that costs no page: its headings need not be repeated.
    """
    if scale <= LEAST_SCALE:
        return scale, _flow(page, scale, paper_points)
    fitted = _fitted(page, paper_points)
    flows = {one: _flow(page, one, paper_points) for one in range(LEAST_SCALE, scale + 1)}
    best = min(flows, key=lambda one: (flows[one].pages, one > fitted >= LEAST_SCALE, -one))
    return best, flows[best]


class Flow(NamedTuple):
    """How many pages stand one below the other, and before which rows one begins because what follows would be torn."""

    pages: int
    breaks: tuple[int, ...]


def _flow(page: Page, scale: int, paper_points: float) -> Flow:
    """Goes down the rows at a scale: what a page may begin with stays whole where it fits on one, below repeated headings.

    No part's title and headings end a page: they stay with the first row of what they head.
    """
    points, last = paper_points * 100 / scale, page.last_on_paper
    room, again, first = points * _ROOM, _again(page, points), 0.0
    heights = [page.heights.get(row, _ROW_POINTS) for row in range(1, last + 1)]
    begins = [row for row in page.row_breaks if 1 < row <= last]
    together = [(part.title, page.first_content(part) + 1) for part in page.parts[1:] if part.title <= last]
    whole: dict[int, float] = {}
    for row, after in [*together, *itertools.pairwise([*begins, last + 1])]:
        whole[row] = max(whole.get(row, 0.0), min(room - again, sum(heights[row - 1 : after - 1])))
    pages, used, breaks = 1, 0.0, []
    for row, height in enumerate(heights, 1):
        if used > first and used + whole.get(row, height) > room:
            pages, used, first = pages + 1, again, again
            breaks += [row] if row in whole else []
        used += height
    return Flow(pages, tuple(breaks))


def _again(page: Page, paper_points: float) -> float:
    """Points that repeated headings take on each page after the first."""
    repeated = _repeated(page, paper_points)
    if repeated is None or len(repeated.refs) < _FEW:
        return 0.0
    return sum(page.heights.get(row, _ROW_POINTS) for row in range(repeated.sections, repeated.headings + 1))


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
    pixels = [pixels_of(width) for width in page.widths[: page.printed_columns or None]]
    edges = [0, *page.breaks, len(pixels)]
    repeated = sum(pixels[:2]) if page.breaks else 0
    return max(sum(pixels[start:end]) + (repeated if start else 0) for start, end in itertools.pairwise(edges))


def _header_and_footer(sheet: Worksheet, page: Page, about: About, values: Values, *, upright: bool) -> None:
    def shown(address: str, most: int) -> str:
        value = values.get(Place(address))
        text = "" if value is None else str(value).replace("\n", " ")
        return look.shortened(text, most // 2 if "&" in text else most).replace("&", "&&")

    # The blank after the size of the letters keeps a number that follows from being read as part of it.
    sheet.set_header(
        f"&L&10 {shown(about.company, 40)}&C&10 {shown(about.number, 40)}  {shown(about.name, 50)}&R&10 {page.sheet.title}"
    )
    number = shown(about.number, 30)
    named = f"{number}, revision" if number else "Revision"
    sheet.set_footer(
        f"&L&10 {shown(about.footer, 70 if upright else 120)}&R&10 {named} {shown(about.revision, 8)}, page &P of &N"
    )
