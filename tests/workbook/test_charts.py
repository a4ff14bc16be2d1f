"""Charts: live over the cells that they name, in frames of their own, and told apart without color."""

import io
import re
from itertools import pairwise

import openpyxl
import pytest

from sheetgen.declare.entry import Place
from sheetgen.workbook.model import look
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.page import PlacedCharts, PlacedTable
from sheetgen.workbook.write.chart_space import standing

from .canary import parts_of
from .charted import CHARTED, PARTS, SPACES, TITLES, TYPED, absolute, anchors, drawn, made, names, texts, values_at
from .small import ready_for


def planned(values=TYPED):
    pages, where = plan(ready_for(values, book=CHARTED), values)
    return {page.sheet.name: page for page in pages}, where


def column(where, address: str, first: str, last: str) -> str:
    return ":".join(absolute(where.at(Place(address, ref))) for ref in (first, last))


def test_all_charts_are_native_and_have_their_title():
    assert sorted(drawn(made())) == sorted(TITLES)


def test_each_field_is_a_series_of_one_live_cell():
    _, where = planned()
    bar = drawn(made())["Where the money goes"]
    cells = [absolute(where.fields[f"pricing.{part}"]) for part in PARTS]
    assert texts(bar, ".//c:val//c:f") == [f"Pricing!{cell}" for cell in cells]
    assert names(bar) == [
        "Materials", "Making, overhead and profit of the factory", "Freight and insurance", "Duty and entry fees",
        "Clearing and inland", "Own overhead", "Margin at wholesale",
    ]  # fmt: skip
    # The margin is 39 less 7.31 + 6.19 + 0.62 + 1.64 + 0.25 and 1.1.
    assert [float(text) for text in texts(bar, ".//c:val//c:v")] == [7.31, 6.19, 0.62, 1.64, 0.25, 1.1, 21.89]
    assert values_at(bar, ".//c:barChart/c:grouping") == ["stacked"]


def test_lying_bars_stand_in_their_order_from_above():
    bars = drawn(made())["Side by side"]
    assert names(bars)[0] == "Margin at wholesale"  # the lowest comes first
    assert names(bars)[-1] == "Materials"
    assert (values_at(bars, ".//c:barDir"), values_at(bars, ".//c:grouping")) == (["bar"], ["clustered"])


def test_columns_are_series_over_all_rows_with_their_sheet_quoted():
    _, where = planned()
    root = drawn(made())["Target beside price"]
    prices, targets, pieces = (
        column(where, f"quote.ladder.{name}", "U1", "U7") for name in ("price", "target", "from_quantity")
    )
    assert texts(root, ".//c:val//c:f") == [f"'Vendor''s quote'!{prices}", f"'Vendor''s quote'!{targets}"]
    assert texts(root, ".//c:cat//c:f") == [f"'Vendor''s quote'!{pieces}"] * 2
    assert (values_at(root, ".//c:barDir"), names(root)) == (["col"], ["Price", "Hidden target price"])


def test_a_line_over_typed_cells_takes_all_rows_and_one_over_formulas_those_that_show_something():
    _, where = planned()
    found = drawn(made())
    typed, computed = found["Price by quantity"], found["Landed cost by quantity"]
    assert texts(typed, ".//c:val//c:f") == [f"'Vendor''s quote'!{column(where, 'quote.ladder.price', 'U1', 'U7')}"]
    assert texts(computed, ".//c:val//c:f") == [
        f"Pricing!{column(where, f'pricing.ladder.{name}', 'U1', 'U3')}"
        for name in ("price", "landed_of_c1", "landed_of_c2")
    ]
    assert names(computed) == ["Vendor's price", "Landed: Indigo", "Landed: Stone"]


def test_a_line_over_formulas_that_show_nothing_yet_takes_all_rows():
    values = {place: value for place, value in TYPED.items() if not place.entry.startswith("quote.ladder")}
    _, where = planned(values)
    assert texts(drawn(made(values))["Landed cost by quantity"], ".//c:val//c:f")[0] == (
        f"Pricing!{column(where, 'pricing.ladder.price', 'U1', 'U4')}"
    )


def test_units_are_put_in_and_the_axis_says_what_stands_along_it():
    root = drawn(made({**TYPED, Place("style.currency"): "USD"}))["In parts"]
    assert texts(root, ".//c:valAx/c:title//a:t") == ["USD per garment"]
    assert texts(root, ".//c:catAx/c:title//a:t") == ["From pieces"]


def test_a_name_that_looks_like_an_address_stays_a_name():
    values = {**TYPED, Place("style.colorways.name", "C1"): "Red!A1"}
    root = drawn(made(values))["By colorway"]
    assert sorted(names(root)) == ["Landed: Red! A1", "Landed: Stone"]
    assert texts(root, ".//c:tx//c:f") == []


def test_every_series_is_told_apart_without_color():
    for title, root in drawn(made()).items():
        assert len(set(names(root))) == len(names(root)) == len(root.findall(".//c:ser", SPACES)), title
        assert root.find("c:chart/c:legend", SPACES) is not None, title
        markers = values_at(root, ".//c:lineChart/c:ser/c:marker/c:symbol")
        assert len(set(markers)) == len(markers), title


def test_colors_that_touch_are_one_dark_and_one_light():
    fills = values_at(drawn(made())["Where the money goes"], ".//c:ser/c:spPr/a:solidFill/a:srgbClr")
    assert len(set(fills)) == len(PARTS)
    inks = [look.ink_on(f"#{fill}") for fill in fills]
    assert all(one != other for one, other in pairwise(inks))


def test_where_colors_begin_again_a_pattern_tells_series_apart():
    values = {**TYPED, **{Place("style.colorways.name", f"C{number}"): f"Color {number}" for number in range(1, 11)}}
    root = drawn(made(values))["By colorway"]
    assert len(root.findall(".//c:ser", SPACES)) == 10
    assert len(root.findall(".//c:ser/c:spPr/a:solidFill", SPACES)) == 8
    assert len(root.findall(".//c:ser/c:spPr/a:pattFill", SPACES)) == 2


def test_all_words_are_in_the_houses_font():
    for root in drawn(made()).values():
        faces = [node.get("typeface") for node in root.findall(".//a:latin", SPACES)]
        assert len(faces) >= 5
        assert set(faces) == {look.FONT}


def test_a_segment_too_small_for_its_number_shows_none():
    shown = drawn(made())["Where the money goes"].find(".//c:dLbls/c:numFmt", SPACES).get("formatCode")
    match = re.fullmatch(r"\[>=([\d.]+)\]#,##0\.00;\[<0\]-#,##0\.00;", shown)
    # 1.64 of 39 is a segment of some 36 pixels on a drawing of nearly 900.
    assert 1.64 < float(match.group(1)) < 6.19


def test_bars_of_nearly_one_length_begin_at_zero():
    found = drawn(made())
    least = {title: values_at(root, ".//c:valAx/c:scaling/c:min") for title, root in found.items()}
    assert least["By colorway"] == least["In parts"] == ["0"]
    assert least["Side by side"] == least["Landed cost by quantity"] == []
    loss = {**TYPED, Place("pricing.wholesale"): 10}
    assert values_at(drawn(made(loss))["Where the money goes"], ".//c:valAx/c:scaling/c:min") == []


def test_a_chart_stands_alone_in_its_row_and_within_the_page():
    pages, _ = planned()
    spans = [
        (page, span) for page in pages.values() for part in page.parts if isinstance(part, PlacedCharts)
        for _, span in part.frames
    ]  # fmt: skip
    assert len(spans) == len(TITLES)
    data = made()
    loaded = openpyxl.load_workbook(io.BytesIO(data))
    for page, span in spans:
        assert 1 <= span.first <= span.last <= page.first_page
        assert [cell.value for cell in loaded[page.sheet.title][span.row] if cell.value is not None] == []
        assert not [
            area for area in loaded[page.sheet.title].merged_cells.ranges if area.min_row <= span.row <= area.max_row
        ]
    frames = [(span.row, span.first, span.last) for _, span in spans]
    for anchor, (row, first, last) in zip(anchors(data), frames, strict=True):
        start, end = anchor.find("x:from", SPACES), anchor.find("x:to", SPACES)
        place = [int(node.find(path, SPACES).text) for node in (start, end) for path in ("x:row", "x:col")]
        assert place == [row - 1, first - 1, row - 1, last - 1]


def test_two_of_half_the_width_stand_side_by_side_and_a_large_one_begins_a_page():
    page = planned()[0]["pricing"]
    placed = [part for part in page.parts if isinstance(part, PlacedCharts)]
    assert [[chart.title for chart, _ in part.frames] for part in placed] == [
        ["Where the money goes"], ["Side by side", "Landed cost by quantity"],
        ["By colorway", "If something changes"], ["In parts"],
    ]  # fmt: skip
    whole, pair = placed[0].frames[0][1], [span for _, span in placed[1].frames]
    assert (whole.first, whole.last) == (1, page.first_page)
    assert (pair[0].first, pair[0].last + 1, pair[1].last) == (1, pair[1].first, page.first_page)
    assert pair[0].row == pair[1].row == whole.row + 2
    assert [page.heights[part.frames[0][1].row] for part in placed] == [160, 220, 160, 260]
    assert page.row_breaks == [placed[-1].frames[0][1].row]


def test_a_table_below_a_chart_still_repeats_its_headings():
    page = planned()[0]["pricing"]
    assert isinstance(page.parts[-1], PlacedTable)
    data = parts_of(made())["xl/workbook.xml"].decode()
    assert f"Pricing!${page.last_table.sections}:${page.last_table.headings}" in data


def test_a_chart_says_in_words_what_it_shows():
    told = {
        node.get("name"): node.get("descr")
        for anchor in anchors(made())
        for node in anchor.findall(".//x:cNvPr", SPACES)
    }
    assert sorted(told) == sorted(TITLES)
    assert told["Landed cost by quantity"] == (
        "Landed cost by quantity: line, Vendor's price, Landed: Indigo and Landed: Stone, EUR per garment, by From pieces."
    )
    assert told["Where the money goes"].startswith("The wholesale price, part by part: stacked bars, Materials, Making")


def test_the_vendors_copy_has_the_shared_chart_and_nothing_of_the_others():
    parts = parts_of(made(audience="vendor"))
    assert list(drawn(made(audience="vendor"))) == ["Price by quantity"]
    for word in (b"Target beside price", b"Hidden target", b"Where the money goes", b"12.345", b"21.89"):
        assert [name for name, part in parts.items() if word in part] == []
        assert [name for name, part in parts_of(made()).items() if word in part] != []


def test_the_same_input_gives_the_same_charts():
    assert made() == made(dict(TYPED))


@pytest.mark.parametrize("colors", [1, 2, 30])
def test_what_is_drawn_leaves_room_for_title_axes_and_legend(colors):
    values = {**TYPED, **{Place("style.colorways.name", f"C{number}"): "x" * 40 for number in range(1, colors + 1)}}
    for title, root in drawn(made(values)).items():
        left, top, wide, high = (
            float(node.get("val")) for node in root.find(".//c:plotArea/c:layout/c:manualLayout", SPACES)[-4:]
        )
        assert 0.1 < top < top + high < 1, title
        assert 0 < left < left + wide < 1, title


def test_a_longer_legend_and_wrapped_categories_take_more_room():
    few = standing(500, 300, ["Landed"], "-16.00", ["300", "600"])
    many = standing(500, 300, [f"Landed: color {number}" for number in range(9)], "-16.00", ["300", "600"])
    wrapped = standing(500, 300, ["Landed"], "-16.00", ["Exchange rate of the quote, in the end"] * 3)
    longer = standing(500, 300, ["Landed"], "-16,000,000.00", ["300", "600"])
    assert few.below < many.below
    assert few.below < wrapped.below
    assert few.left < longer.left
    assert few.inner[0] == 500 - few.left - few.right
