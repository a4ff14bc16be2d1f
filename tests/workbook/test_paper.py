"""The grid and its paper: headings in sight, no column or row lost, rows as high as their text."""

from __future__ import annotations

import io
import itertools
import random
from functools import cache
from typing import Any

import openpyxl
import pytest
from openpyxl.utils import range_boundaries

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.declare.parts import Section, Table
from sheetgen.sheets import BOOK
from sheetgen.workbook.model import grid
from sheetgen.workbook.model.heights import INDENT_WIDTH, LINE_HEIGHT, text_height
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.page import Page, PlacedFields, PlacedTable
from sheetgen.workbook.model.values import ready, shape_of
from sheetgen.workbook.write import paper
from sheetgen.workbook.write.file import workbook_bytes
from tests.loop import SAMPLES
from tests.workbook.test_layout import MANY

MAIN = [sheet.name for sheet in BOOK.sheets if sheet.main and not sheet.only_with]
MOST_IN_SIGHT = 768 / 3 * 72 / 96
"""Points: a frozen band takes no more than a third of a small screen's height."""


@cache
def written() -> tuple[list[Page], Any, Any]:
    """A book of which all sheets are shown (what is not has no paper): as planned, as written, and what it shows."""
    made = ready(BOOK, shape_of(BOOK, MANY))
    all_shown = {**MANY, **{Place(f"guide.show_{sheet.name}"): "yes" for sheet in BOOK.sheets if sheet.seen != "never"}}
    data = workbook_bytes(made, all_shown, {"kind": "working"})
    formulas, values = (openpyxl.load_workbook(io.BytesIO(data), data_only=shown) for shown in (False, True))
    return plan(made, all_shown)[0], formulas, values


def page_of(name: str) -> tuple[Page, Any]:
    pages, book, _ = written()
    page = next(page for page in pages if page.sheet.name == name)
    return page, book[page.sheet.title]


@pytest.mark.parametrize("name", MAIN)
def test_the_headings_of_a_main_table_stay_in_sight(name):
    page, sheet = page_of(name)
    table = page.parts[0]
    assert isinstance(table, PlacedTable)
    assert sheet.freeze_panes == f"C{table.headings + 1}"
    assert sheet.cell(table.headings, 1).value == "Ref"
    band = sum(page.heights.get(row, 15.0) for row in range(1, table.headings + 1))
    assert band <= MOST_IN_SIGHT


@pytest.mark.parametrize("name", [sheet.name for sheet in BOOK.sheets if sheet.printed and not sheet.only_with])
def test_every_column_and_row_that_is_meant_for_paper_is_on_it(name):
    """Also where two tables of a sheet end at different columns (one ends before its steps, the other has none)."""
    page, sheet = page_of(name)
    values = written()[2]
    first_column, first_row, last_column, last_row = range_boundaries(
        sheet.print_area.rpartition("!")[2].replace("$", "")
    )
    assert (first_column, first_row) == (1, 1)
    for part in page.parts:
        if not isinstance(part, PlacedTable) or not part.table.printed:
            continue
        if part.last > last_row:  # one without rows of its own that shows nothing
            cells = values[page.sheet.title].iter_rows(part.first, part.last - 1, min_col=2, values_only=True)
            assert part.table.mirrors
            assert {one for row in cells for one in row} <= {None, ""}, part.table.title
            continue
        hidden = {
            entry.name
            for column in part.table.columns
            if isinstance(column, Section) and not column.printed
            for entry in column.columns
        }
        for entry, column in part.columns:
            if entry.name not in hidden:
                assert column <= last_column, f"{part.address}.{entry.name}"


def test_steps_are_on_no_paper_where_a_sheet_has_nothing_else_beside_them():
    page, sheet = page_of("measurements")
    table = page.parts[0]
    assert isinstance(table, PlacedTable)
    grows = next(column for entry, column in table.columns if entry.name == "current")
    assert range_boundaries(sheet.print_area.rpartition("!")[2].replace("$", ""))[2] == grows - 1


@pytest.mark.parametrize(
    ("text", "width", "lines"),
    [
        ("", 10, 1),
        ("short", 10, 1),
        ("edge to edge, straight, 2.5 cm below the armhole seam, buttoned, pleat closed", 33, 3),
        ("two words", 7, 2),  # whole words: nine letters would be one line and a bit
        ("first\nsecond", 30, 2),
        ("襟ぐり幅を平らに置いて測る", 13, 3),  # as wide as high: six in a line
    ],
)
def test_a_row_is_as_high_as_its_text(text, width, lines):
    assert text_height(text, width) == lines * LINE_HEIGHT


def test_no_sheet_is_frozen_at_a_table_that_is_not_its_main_one():
    for sheet in BOOK.sheets:
        if not sheet.main and not sheet.only_with:
            assert page_of(sheet.name)[1].freeze_panes in ("A4", "C4"), sheet.name
        elif sheet.main:
            assert isinstance(sheet.parts[0], Table)


@cache
def made(style: str) -> tuple[Any, Any, list[Page]]:
    built = api.build(SAMPLES / style / "brief.toml")
    book = ready(BOOK, shape_of(BOOK, built.values))
    return openpyxl.load_workbook(io.BytesIO(built.data)), {**built.values, **built.shown}, plan(book, built.values)[0]


@pytest.mark.parametrize("style", ["overshirt", "sweatshirt", "jacket"])
def test_no_text_that_is_worked_out_is_cut_off(style):
    file, known, pages = made(style)
    for page in (page for page in pages if page.sheet.printed):
        sheet = file[page.sheet.title]
        for part in page.parts:
            cells = []
            if isinstance(part, PlacedFields):
                cells = [(one.entry, f"{page.sheet.name}.{one.entry.name}", "", one.value.row, page.width(one.value.first, one.value.last))
                         for one in part.fields]  # fmt: skip
            elif isinstance(part, PlacedTable):
                cells = [(entry, f"{part.address}.{entry.name}", ref, part.first + index, page.widths[column - 1])
                         for entry, column in part.columns for index, ref in enumerate(part.refs)]  # fmt: skip
            for entry, address, ref, row, width in cells:
                text = known.get(Place(address, ref))
                if entry.who == "computed" and entry.kind.name == "text" and isinstance(text, str) and text:
                    assert (sheet.row_dimensions[row].height or 15.0) >= text_height(text, width - INDENT_WIDTH), (
                        address,
                        ref,
                        text,
                    )


def shape_with(sizes: int, colorways: int) -> dict[Place, Any]:
    """The values of the largest test style with so many sizes and colorways."""
    axes = {"style.sizes.name": ("Z", sizes), "colorways.list.name": ("C", colorways)}
    kept = {place: value for place, value in MANY.items() if place.entry not in axes}
    return kept | {
        Place(address, f"{ref}{number}"): f"{ref}{number}"
        for address, (ref, count) in axes.items()
        for number in range(1, count + 1)
    }


@pytest.mark.parametrize(("sizes", "colorways"), [(1, 1), (6, 2), (8, 3), (15, 6)])
@pytest.mark.parametrize("paper_name", ["A4", "Letter"])
def test_ten_points_are_never_printed_as_less_than_seven(sizes, colorways, paper_name):
    """By the widths of columns, in programs that take a digit's 7.41 pixels unrounded (LibreOffice, measured), so that it holds
    where Arial or a font of its widths is there; a wide style takes more pages."""
    values = {**shape_with(sizes, colorways), Place(BOOK.about.paper): paper_name}
    for page in plan(ready(BOOK, shape_of(BOOK, values)), values)[0]:
        if not page.sheet.printed:
            continue
        pixels = [(7 * width + 5) * 7.41 / 7 for width in page.widths[: page.printed_columns or None]]
        short, long_ = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}[paper_name]
        across = ((short if page.sheet.portrait else long_) / 25.4 - 0.5) * 96
        edges = [0, *page.breaks, len(pixels)]
        for start, end in itertools.pairwise(edges):
            shown = sum(pixels[start:end]) + (sum(pixels[:2]) if start else 0)
            assert across / shown >= 0.7, (page.sheet.title, start, end)
        assert paper._laid(page, short, long_).scale >= 70, page.sheet.title
    if (sizes, colorways) == (8, 3):
        broken = [
            page.sheet.name
            for page in plan(ready(BOOK, shape_of(BOOK, values)), values)[0]
            if page.breaks and page.sheet.printed
        ]
        assert len(broken) <= (3 if paper_name == "A4" else 4), broken


def test_no_letters_are_smaller_than_ten_points():
    _, book, _ = written()
    assert {font.sz for font in book._fonts} >= {10.0}
    assert min(font.sz for font in book._fonts) == 10.0


@pytest.mark.parametrize("seed", range(60))
def test_what_a_page_may_begin_with_is_torn_only_where_it_fits_on_none(seed):
    chance = random.Random(seed)
    page = Page(BOOK.sheet("style"), last_row=chance.randrange(5, 90))
    page.heights = {row: chance.choice([16.0, 29.0, 120.0, 400.0]) for row in range(1, page.last_row + 1)}
    page.row_breaks = sorted(chance.sample(range(2, page.last_row + 1), min(4, page.last_row - 1)))
    room = 500 * 0.98 * 100 / 80
    flow = paper._flow(page, 80, 500)
    assert set(flow.breaks) <= set(page.row_breaks)
    starts, used = [1], 0.0
    for row in range(
        1, page.last_row + 1
    ):  # as a program lays them: a page ends at a break, or where the next row does not fit
        if row in flow.breaks or (used and used + page.heights[row] > room):
            starts.append(row)
            used = 0.0
        used += page.heights[row]
    assert len(starts) == flow.pages
    for row, after in itertools.pairwise([*page.row_breaks, page.last_row + 1]):
        whole = sum(page.heights[one] for one in range(row, after))
        if whole <= room:
            assert not any(row < start < after for start in starts), "torn, and it fits on a page"


@pytest.mark.parametrize("paper_name", ["A4", "Letter"])
@pytest.mark.parametrize("name", [sheet.name for sheet in BOOK.sheets if sheet.printed and not sheet.only_with])
def test_no_title_ends_a_page(name, paper_name):
    """A part's title and headings stand on the page of the first row below them, at the breaks that are written."""
    page, _ = page_of(name)
    laid = paper._laid(page, *paper.paper_of(paper_name)[1:])
    starts, used, room = {1}, 0.0, laid.points * 100 / laid.scale
    for row in range(1, page.last_on_paper + 1):
        height = page.heights.get(row, 15.0)
        if row in laid.flow.breaks or used + height > room:
            starts.add(row)
            used = paper._again(page, room)
        used += height
    for part in page.parts[1:]:
        if part.title <= page.last_on_paper:
            assert not starts & set(range(part.title + 1, page.first_content(part) + 1)), part


def test_a_sheet_lies_upright_only_where_that_saves_a_page_and_stays_readable():
    """A4 is 210 by 297 mm: 520 points are high across, 767 upright; at 70 percent 1,078 pixels stand side by side upright."""

    def made(rows: int, wide: float) -> paper.Laid:
        page = Page(BOOK.sheet("quote"), widths=[wide / 7 / 1.06 / 10] * 10, last_row=rows)
        page.heights = dict.fromkeys(range(1, rows + 1), 15.0)
        return paper._laid(page, 210.0, 297.0)

    assert (made(40, 900).upright, made(40, 900).flow.pages) == (False, 1)
    assert (made(60, 950).upright, made(60, 950).flow.pages) == (True, 1)
    assert (made(60, 1300).upright, made(60, 1300).flow.pages) == (False, 2)


@pytest.mark.parametrize("over", [0.9, 1.01, 1.05, 1.3, 2.0])
def test_columns_of_words_give_way_where_that_puts_all_on_one_page(over):
    widths, least = [6.0, 30.0, 20.0, 8.0], [6.0, 22.5, 15.0, 8.0]
    most = sum(map(grid.pixels_of, widths)) / over
    made = list(widths)
    grid._narrow(made, least, 4, most)
    fits = sum(map(grid.pixels_of, made)) <= most
    assert all(floor <= wide <= before for floor, wide, before in zip(least, made, widths, strict=True))
    assert fits == (over <= 1.05)
    assert (made == widths) == (over in {0.9, 1.3, 2.0})
