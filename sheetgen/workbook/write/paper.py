"""Paper: page size, scale, margins, header and footer, what repeats on each page and where a page ends."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from sheetgen.declare.about import About
from sheetgen.declare.entry import Place
from sheetgen.workbook.model import look
from sheetgen.workbook.model.page import TOP_ROWS, Page
from sheetgen.workbook.model.values import Values

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

_PAPER = {"A4": (9, 210.0, 297.0), "Letter": (1, 215.9, 279.4)}
_MARGIN_INCH = 0.4
_SAFETY = 0.85
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
    if page.breaks:
        # Programs ignore page breaks where a sheet is fitted to pages: such a sheet takes a scale instead.
        sheet.set_print_scale(max(20, min(100, int(100 * usable / _widest(page)))))
        sheet.set_v_pagebreaks(page.breaks)
        sheet.repeat_columns(0, 1)
    else:
        sheet.fit_to_pages(1, 0)
    if page.row_breaks:
        sheet.set_h_pagebreaks([row - 1 for row in page.row_breaks])
    last = page.last_table
    if last is not None and len(last.refs) > 1:
        sheet.repeat_rows(last.sections - 1, last.headings - 1)
    last_row = (page.printed_rows or page.last_row) if page.sheet.printed else TOP_ROWS
    sheet.print_area(0, 0, last_row - 1, (page.printed_columns or len(page.widths)) - 1)
    _header_and_footer(sheet, page, about, values)
    sheet.freeze_panes(TOP_ROWS, 2 if page.breaks else 0)


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
