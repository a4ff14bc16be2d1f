"""A workbook of the open standard as plain records: one hardened pass over the package, then one load by openpyxl.

openpyxl is the reader of cells, formulas, comments and pictures; what it does not give comes from the pass: stored
results, looks, drawings of every kind, headers, messages. Nothing behind this door knows the library, and its private
members are touched here alone.
"""

from __future__ import annotations

import sys
import warnings
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sheetgen.declare.kinds import Picture
from sheetgen.texts import say
from sheetgen.workbook.read.hardened import UnsafeError
from sheetgen.workbook.read.lightening import lightened
from sheetgen.workbook.read.loaded import Area, Drawing, Held, Loaded, LoadedSheet
from sheetgen.workbook.read.package import unusable
from sheetgen.workbook.read.safety import Pass, passed
from sheetgen.workbook.read.scanning import Scanned


@contextmanager
def _unseen(module: str) -> Iterator[None]:
    """As if a module were not installed, if nobody has loaded it yet."""
    if module in sys.modules:
        yield
        return
    modules: dict[str, Any] = sys.modules
    modules[module] = None  # how the language says that it is not there
    try:
        yield
    finally:
        del sys.modules[module]


with _unseen("numpy"):  # openpyxl loads it to know its kinds of numbers, which no file holds: a third of its start
    import openpyxl
    from openpyxl.styles.numbers import is_date_format, is_timedelta_format
    from openpyxl.utils.cell import range_boundaries

_LONGEST_WHOLE = 2**53
"""Beyond it a whole number is not held to its last digit (IEEE 754 double precision, as in ECMA-376 and OpenFormula)."""


def load(path: Path, is_ours: Callable[[Pass], bool] | None = None) -> Loaded:
    """Load a workbook. UserError (status 3) if it is damaged, unsafe to open, or (by `is_ours`) nobody's business."""
    first = passed(path)
    if is_ours is not None and not is_ours(first):
        raise unusable(path, say("is no workbook made by sheetgen; nothing in it can be found"))
    book = _opened(first)
    sheets = {sheet.title: _sheet(sheet, first) for sheet in book.worksheets}
    return Loaded(sheets, dict(_names(first, sheets)), tuple(first.styles.cells), first.package.contents)


def _opened(first: Pass) -> Any:
    path = first.package.path
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # openpyxl warns of print areas and extensions that do not concern us
        try:
            return openpyxl.load_workbook(lightened(first, is_date_format, is_timedelta_format), keep_links=False)
        except MemoryError:
            raise
        except UnsafeError as error:
            raise unusable(path, str(error)) from None
        except Exception as error:  # whatever a damaged file makes of a library that trusts it
            trouble = f"{type(error).__name__}{_raised_in(error)}"
    raise unusable(path, say("is damaged ({trouble}); ask for it to be sent again", trouble=trouble))


def _raised_in(error: BaseException) -> str:
    """Where in the library it went wrong, for whoever mends it; never what the cell held, which may be private."""
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    if trace is None:
        return ""
    return say(
        " in {name} line {tb_lineno}", name=Path(trace.tb_frame.f_code.co_filename).name, tb_lineno=trace.tb_lineno
    )


def _sheet(sheet: Any, first: Pass) -> LoadedSheet:
    found = first.sheet(sheet.title)
    covered = {
        (row, column)
        for top, left, bottom, right in found.merged
        for row in range(top, bottom + 1)
        for column in range(left, right + 1)
        if (row, column) != (top, left)
    }
    # The public ways to the cells make every empty one of a sheet: minutes where somebody typed into the last row.
    cells = {place: _held(cell, place, found, first) for place, cell in sheet._cells.items() if place not in covered}
    drawings = first.drawings(sheet.title)
    return LoadedSheet(
        sheet.title,
        cells,
        sheet.max_row,
        sheet.max_column,
        sheet.sheet_state == "visible",
        found.is_protected,
        tuple(_pictures(drawings, found, first)),
        drawings,
        frozenset(found.hidden_rows),
        frozenset(found.hidden_columns),
        found.header,
        found.footer,
        tuple(found.messages),
        found.marks_with(first.styles.marks),
        first.links(sheet.title),
    )


def _held(cell: Any, place: tuple[int, int], found: Scanned, first: Pass) -> Held:
    comment = None if cell.comment is None else cell.comment.text.strip()
    style = found.styles.get(place, 0)
    if cell.data_type != "f":
        return Held(_number(cell.value), None, comment, cell.data_type == "e", None, style)
    text = cell.value if isinstance(cell.value, str) else getattr(cell.value, "text", "") or ""
    kind, stored = found.stored.get(place, ("n", ""))
    shown = first.stored(kind, stored)
    return Held(cell.value, text if text.startswith("=") else f"={text}", comment, kind == "e", shown, style)


def _number(value: Any) -> Any:
    """A whole number too long for a spreadsheet as every program holds it: a float; beyond that, its digits as a text."""
    if not isinstance(value, int) or abs(value) <= _LONGEST_WHOLE:
        return value
    try:
        return float(value)
    except OverflowError:
        return str(value)


def _pictures(drawings: tuple[Drawing, ...], found: Scanned, first: Pass) -> Iterator[tuple[tuple[int, int], Picture]]:
    """Pictures by the first cell of the frame that they begin in: a centered one begins in the middle of it."""
    for drawing in drawings:
        data = first.picture(drawing.digest) if drawing.kind == "picture" else None
        if data is not None:
            row, column = drawing.first
            frame = next(
                (area for area in found.merged if area[0] <= row <= area[2] and area[1] <= column <= area[3]), None
            )
            yield (frame[0], frame[1]) if frame else (row, column), Picture(data)


def _names(found: Pass, sheets: Mapping[str, LoadedSheet]) -> Iterator[tuple[str, Area]]:
    """Workbook names that point at one area of a sheet that is there."""
    for name, text in found.names.items():
        title, mark, area = text.rpartition("!")
        if not mark or "#REF" in text or "," in text:
            continue
        title = title.strip("'").replace("''", "'")
        try:
            left, first, right, last = range_boundaries(area)
        except (ValueError, TypeError):
            continue
        if title in sheets and left and first and right and last:
            yield name, Area(title, int(first), int(left), int(last), int(right))
