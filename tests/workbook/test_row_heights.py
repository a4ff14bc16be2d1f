"""What is folded away does not stretch the rows that people see: its texts have the width that they need."""

import pytest

from sheetgen.declare.entry import Place
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.workbook.model.heights import CELL_EDGES, INDENT_WIDTH, text_height
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.page import PlacedTable
from sheetgen.workbook.model.values import ready, shape_of
from tests.loop import SAMPLES

LINE = 13.0


@pytest.mark.parametrize("style", ["overshirt", "sweatshirt", "jacket"])
def test_no_row_is_more_than_a_line_higher_than_what_is_seen_of_it(style):
    values = load_style(BOOK, SAMPLES / style / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))
    made = ready(BOOK, shape_of(BOOK, values))
    looked_at = 0
    for page in plan(made, values)[0]:
        for part in page.parts if page.open_columns else ():
            for row, ref in (
                enumerate(part.refs, part.first) if isinstance(part, PlacedTable) and not part.table.mirrors else ()
            ):
                seen, pictures = 15.0, 0.0
                for entry, column in part.columns:
                    value = values.get(Place(f"{part.address}.{entry.name}", ref))
                    if entry.kind.name == "picture" and value is not None:
                        pictures = page.heights[row]
                    elif isinstance(value, str) and column <= page.open_columns and entry.kind.name != "color":
                        seen = max(seen, text_height(value, page.widths[column - 1] - INDENT_WIDTH) + CELL_EDGES)
                looked_at += 1
                assert page.heights[row] <= max(seen + LINE, pictures), (part.address, ref)
    assert looked_at > 60
