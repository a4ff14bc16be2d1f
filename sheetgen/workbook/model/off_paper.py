"""What ends a sheet and holds nothing is on no paper: frames without a picture, tables in which nothing can be typed or shown."""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.declare.parts import Pictures
from sheetgen.workbook.model.page import Page, PlacedFields, PlacedTable


def leave_empty_frames(page: Page, values: Mapping[Place, Value]) -> None:
    """Frames that end a sheet and hold no picture."""
    last = page.parts[-1] if page.parts else None
    if not isinstance(last, PlacedFields) or not isinstance(last.part, Pictures) or page.printed_rows:
        return
    if not any(values.get(Place(f"{page.sheet.name}.{one.entry.name}")) for one in last.fields):
        _end_before(page, last.title)


def leave_empty_tables(page: Page, values: Mapping[Place, Value]) -> None:
    """Tables that end a sheet, have no row of their own, and show nothing; `values` are all that is typed and shown."""
    for part in [one for one in page.parts[1:] if one.title <= page.last_on_paper][::-1]:
        if not isinstance(part, PlacedTable) or not (part.table.mirrors or not part.refs):
            return
        places = (Place(f"{part.address}.{entry.name}", ref) for entry, _ in part.columns for ref in part.refs)
        if any(values.get(place) not in (None, "") for place in places):
            return
        _end_before(page, part.title)


def _end_before(page: Page, row: int) -> None:
    page.printed_rows = row - 2
    page.row_breaks = [one for one in page.row_breaks if one < row]
