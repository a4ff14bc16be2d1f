"""A sheet's grid: the widths of its columns, and which of them a form, a frame or the legend takes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import accumulate, chain, pairwise

from sheetgen.declare.entry import Entry
from sheetgen.declare.letters import lines_in, pixels_wide
from sheetgen.declare.parts import Chart, Form, Ledger, Section, Sheet, Table
from sheetgen.workbook.model.page import Page

REF_WIDTH = 6.0
LABEL_WIDTH, VALUE_WIDTH = 26.0, 24.0
PAGE_WIDTH, UPRIGHT_WIDTH = 140.0, 98.0
"""Characters that fit across a landscape page, and across an upright one, at nearly full size."""
LONGEST_WORD = 16.0
"""A word of a heading that takes more characters is somebody's name for a size or a color, and breaks."""
_FOLDED_LINES = 2
FILL_WIDTH, WORDS_WIDTH = 13.0, 13.0
PAPER = {"A4": (9, 210.0, 297.0), "Letter": (1, 215.9, 279.4)}
MARGIN_INCH = 0.25
NARROWEST, _WRAPPED = 0.75, frozenset({"text", "choice"})
"""The share of its width that a column of words keeps at least, where the others would not fit beside it; they wrap."""
FULL = 0.99
"""Of a page's width: what is rounded must not send a column to the next page."""
LEAST_SCALE = 70
"""Ten points are printed as seven."""
SAFETY = 0.85
"""Fonts differ: so much of a page's width is filled where columns follow on the next, that none slips there by itself."""
_WIDEST = 0.556 * 10 / 72 * 96 / 7
"""Some programs take a character as seven pixels, as the file format says; others as the 7.41 that a digit of ten points has."""
PIECE_WIDTH = 22.0
CHIP_WIDTH = 20.0


def grid_of(sheet: Sheet, paper: object = "") -> Page:
    """The page with its column widths in characters, and the columns after which a printed page of that paper ends."""
    page = Page(sheet, [REF_WIDTH])
    widths = page.widths
    least = [REF_WIDTH]
    on_paper, whole = 0, True
    answered: set[int] = set()
    in_sight = _in_sight(sheet)
    for part in sheet.parts:
        if isinstance(part, Table):
            for column, at in columns_of(part, in_sight):
                inner = _inner(column)
                for number, entry in enumerate(inner, at):
                    word = _folded_heading(entry.heading) if _is_folded(column) else _longest_word(entry.heading)
                    _widen(widths, number, max(entry.columns_wide, word))
                    _widen(least, number, max(entry.columns_wide * _least_share(entry), word))
                if not isinstance(column, Section) or column.printed:
                    on_paper = max(on_paper, at + len(inner) - 1)
                else:
                    whole = False
                if _is_folded(column) and any(entry.who != "computed" for entry in inner):
                    answered |= set(range(at, at + len(inner)))
        elif isinstance(part, Ledger):
            if part.printed:
                on_paper = max(on_paper, _ledger_wide(sheet, part))
            else:
                whole = False
            for at, piece in enumerate(chain.from_iterable(ledger_columns(sheet, part)), 1):
                _widen(widths, at, piece)
                _widen(least, at, piece)
    page.printed_columns = 0 if whole else on_paper
    page.open_columns = in_sight if in_sight < len(widths) else 0
    page.machinery = frozenset(range(in_sight + 1, len(widths) + 1)) - answered
    most = most_pixels(paper_of(paper)[2])
    _narrow(widths, least, page.printed_columns or len(widths), most)
    page.breaks = _breaks(widths[: page.printed_columns or None], most)
    wide = any(isinstance(part, Form | Chart) for part in sheet.parts)
    room = UPRIGHT_WIDTH if sheet.portrait else PAGE_WIDTH
    while wide and not page.breaks and len(blocks(page)) < 2 and sum(widths) < room:
        widths.append(FILL_WIDTH)
    return page


def columns_of(table: Table, in_sight: int) -> Iterator[tuple[Entry | Section, int]]:
    """The columns and sections of a table, each with the number of its first column; 1 is the ref's.

    What is folded away stands beyond all that is in sight on the sheet, also where another table is wider.
    """
    at = 2
    for column in table.columns:
        at = max(at, in_sight + 1) if _is_folded(column) else at
        yield column, at
        at += len(_inner(column))


def _inner(column: Entry | Section) -> tuple[Entry, ...]:
    return column.columns if isinstance(column, Section) else (column,)


def _is_folded(column: Entry | Section) -> bool:
    return isinstance(column, Section) and column.folded and not column.printed


def _in_sight(sheet: Sheet) -> int:
    """The last column that is in sight in the brand's own file: of the widest table or ledger."""
    tables = (part for part in sheet.parts if isinstance(part, Table))
    in_tables = (1 + sum(len(_inner(one)) for one in table.columns if not _is_folded(one)) for table in tables)
    in_ledgers = (_ledger_wide(sheet, part) for part in sheet.parts if isinstance(part, Ledger))
    return max(chain(in_tables, in_ledgers), default=0)


def _ledger_wide(sheet: Sheet, part: Ledger) -> int:
    return sum(map(len, ledger_columns(sheet, part)))


def _longest_word(heading: str) -> float:
    """Characters that a heading's longest word takes: it is not to break. What stands in a hole is short."""
    words = [word for word in heading.replace("-", "- ").split() if "{" not in word]
    return min(LONGEST_WORD, max((pixels_wide(word, bold=True) / 7 for word in words), default=0.0))


def _folded_heading(heading: str) -> float:
    """Characters in which a heading takes two lines: what is folded away does not make the headings in sight higher."""
    width = _longest_word(heading)
    while lines_in(heading, 7 * width - 4, bold=True) > _FOLDED_LINES:
        width += 1
    return width


def paper_of(name: object) -> tuple[int, float, float]:
    """The file format's number of a paper, and its sides in millimeters; A4 for what is none."""
    return PAPER.get(str(name), PAPER["A4"])


def most_pixels(millimeters: float, least_scale: float = LEAST_SCALE) -> float:
    """How many pixels of a sheet stand side by side on paper so wide, printed at that scale in percent."""
    return (millimeters / 25.4 - 2 * MARGIN_INCH) * 96 * 100 / least_scale


def _least_share(entry: Entry) -> float:
    return NARROWEST if entry.kind.name in _WRAPPED else 1.0


def _narrow(widths: list[float], least: Sequence[float], count: int, most: float) -> None:
    """Columns of words give way, each by the same share of what it can, where that puts all of them on one page."""
    over = (sum(map(pixels_of, widths[:count])) - most * FULL) / pixels_of_characters(1)
    room = sum(wide - narrow for wide, narrow in zip(widths[:count], least, strict=False))
    if 0 < over <= room:
        for at in range(count):
            widths[at] -= (widths[at] - least[at]) * over / room


def _breaks(widths: Sequence[float], most: float) -> list[int]:
    """After which columns a page ends where all of them side by side would be printed too small: ref and key repeat."""
    pixels = [pixels_of(width) for width in widths]
    if sum(pixels) <= most:
        return []
    ends, repeated = [], sum(pixels[:2])
    taken = repeated
    for number, wide in enumerate(pixels[2:], 2):
        if taken + wide > most * SAFETY and taken > repeated:
            ends.append(number)
            taken = repeated
        taken += wide
    return ends


def pixels_of(width: float) -> float:
    """A column's width from its width in characters (ECMA-376, part 1, 18.3.1.13, for ten points), in the widest program."""
    return pixels_of_characters(width) + 5 * _WIDEST


def pixels_of_characters(count: float) -> float:
    """Of so many characters of a column's width, without its edges."""
    return 7 * count * _WIDEST


def pieces(width: float, piece: float = PIECE_WIDTH) -> list[float]:
    """A ledger's wide column as several grid columns, so that legend and forms above find room."""
    count = max(1, round(width / piece))
    return [width / count] * count


def ledger_columns(sheet: Sheet, part: Ledger) -> list[list[float]]:
    """The grid columns of each of a ledger's columns; over a table its first column spans the table's ref and key.

    Only columns of words are cut fine: members of a family stand side by side, so that their block is one.
    """
    first, *others = part.widths
    over_table = any(isinstance(other, Table) for other in sheet.parts)
    words = min(len(line.words) for line in part.lines)
    sizes = [WORDS_WIDTH if number < words else PIECE_WIDTH for number in range(1, len(part.widths))]
    return [[REF_WIDTH, first - REF_WIDTH] if over_table else pieces(first), *map(pieces, others, sizes)]


def _widen(widths: list[float], at: int, width: float) -> None:
    while len(widths) < at:
        widths.append(0.0)
    widths[at - 1] = max(widths[at - 1], width)


def blocks(page: Page) -> list[tuple[tuple[int, int], tuple[int, int]]]:
    """Label and value blocks side by side, as many as fit on the first page (at most two)."""
    found: list[tuple[tuple[int, int], tuple[int, int]]] = []
    at, last = 1, page.first_page
    while at <= last and len(found) < 2:
        label = _take(page, at, LABEL_WIDTH)
        value = _take(page, label + 1, VALUE_WIDTH)
        if value > last or label + 1 > last:
            break
        found.append(((at, label), (label + 1, value)))
        at = value + 1
    if not found:
        found = [((1, 1), (2, last))]
    return found


def _take(page: Page, first: int, width: float) -> int:
    """The last column of a block that is at least so wide; past the end of the page if it does not fit."""
    reached = 0.0
    for column in range(first, page.first_page + 1):
        reached += page.widths[column - 1]
        if reached >= width:
            return column
    return page.first_page + (0 if reached >= width * 0.6 else 1)


def frames(page: Page, across: int) -> list[tuple[int, int]]:
    """Equal frames over the first page's columns."""
    last = page.first_page
    total = page.width(1, last)
    edges = [0]
    sums = list(accumulate(page.widths[:last]))
    for number in range(1, across):
        wanted = total * number / across
        edges.append(min(range(last), key=lambda index: abs(sums[index] - wanted)) + 1)
    edges.append(last)
    return [(start + 1, end) for start, end in pairwise(edges) if end > start]


def chips(page: Page, count: int) -> list[tuple[int, int]]:
    """Spans for the legend: each wide enough for its words, the last one takes what is left."""
    spans: list[tuple[int, int]] = []
    at, last = 1, page.first_page
    for number in range(count, 0, -1):
        end = at
        while end < last - number + 1 and page.width(at, end) < CHIP_WIDTH:
            end += 1
        spans.append((at, last if number == 1 else end))
        at = end + 1
        if at > last:
            break
    return spans
