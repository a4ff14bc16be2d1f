"""A copy without what its purpose does not need says the same as the whole would, whatever the vendor answers."""

from __future__ import annotations

import io
import re
from functools import cache
from typing import NamedTuple

import openpyxl
import pytest

from sheetgen.declare.entry import Place
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.workbook.exchange.issue import going, issue, shared_values
from sheetgen.workbook.model.calculation import shown_by
from sheetgen.workbook.model.compare import same
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.values import Ready, Values, ready, shape_of
from tests.loop import ISSUED, SAMPLES

CASES = [
    ("overshirt", "quote"), ("overshirt", "sample"), ("overshirt", "bulk"),
    ("jacket", "quote"), ("sweatshirt", "bulk"),
]  # fmt: skip


class Copy(NamedTuple):
    """A copy, read; the whole book of that vendor; and all values of the style."""

    data: bytes
    kept: Ready
    sent: Values
    whole: Ready
    values: Values


@cache
def copy_of(style: str, purpose: str) -> Copy:
    values = load_style(BOOK, SAMPLES / style / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))
    values = {**values, Place("style.purpose"): purpose}
    made = issue(BOOK, values, {}, ISSUED)
    kept, sent, *_ = going(BOOK, values)
    return Copy(made.data, kept, sent, ready(BOOK, shape_of(BOOK, values, "vendor")), values)


@pytest.fixture(params=CASES, ids=[" ".join(case) for case in CASES])
def copy(request) -> Copy:
    return copy_of(*request.param)


def test_no_formula_reads_a_sheet_that_is_not_there(copy):
    loaded = openpyxl.load_workbook(io.BytesIO(copy.data))
    named = re.compile(r"(?:'([^']+)'|([A-Za-z]+))!")
    read_from = {
        first or second
        for sheet in loaded.worksheets
        for row in sheet.iter_rows()
        for cell in row
        if isinstance(cell.value, str) and cell.value.startswith("=")
        for first, second in named.findall(re.sub(r'"[^"]*"', "", cell.value))
    }
    assert read_from
    assert read_from <= set(loaded.sheetnames)
    areas = {first or second for one in loaded.defined_names.values() for first, second in named.findall(one.attr_text)}
    assert areas <= set(loaded.sheetnames)


def test_sheets_that_the_purpose_does_not_show_are_not_in_the_file(copy):
    titles = {
        sheet.title
        for sheet in openpyxl.load_workbook(io.BytesIO(copy.data)).worksheets
        if sheet.sheet_state != "visible"
    }
    assert titles == {"Lists", "Workings", "Record"}


def test_a_copy_holds_one_row_at_most_that_nobody_there_can_begin(copy):
    """The brand's own file keeps spare rows; in a copy they would be blank and locked."""
    _, where = plan(copy.kept, copy.sent)
    begun = 0
    for address, (_, table) in copy.kept.book.tables.items():
        key = copy.kept.book.entries[f"{address}.{table.key}"].entry
        if key.who == "designer" and not table.rows:
            filled = {place.row for place in copy.sent if place.entry.rpartition(".")[0] == address}
            assert len(set(where.tables[address].rows) - filled) <= 1, address
            begun += len(filled)
        elif key.who == "vendor" and not table.rows and not table.mirrors:
            assert len(where.tables[address].rows) >= table.spare
    assert begun > 20


def answers(copy: Copy, factor: float) -> Values:
    """A number in every cell of the vendor's that takes one, none like another."""
    found: Values = {}
    cells = [
        place for place in sorted(_vendor_places(copy))
        if copy.kept.book.entries[place.entry].entry.kind.is_number
    ]  # fmt: skip
    for number, place in enumerate(cells):
        kind = copy.kept.book.entries[place.entry].entry.kind
        value = factor * (1 + number % 7)
        found[place] = round(value) if kind.name == "whole" else value / 100 if kind.name == "percent" else value
    return found


def _vendor_places(copy: Copy) -> set[Place]:
    where = plan(copy.kept, copy.sent)[1]
    return {
        place
        for address, column in copy.kept.book.entries.items()
        if column.entry.who == "vendor"
        for place, _ in where.places(address)
    }


@pytest.mark.parametrize("factor", [1.0, 13.7])
def test_whatever_the_vendor_answers_the_copy_works_out_what_the_whole_would(copy, factor):
    """But for what Checks and Guide count, which are made anew from what goes."""
    typed = answers(copy, factor)
    assert len(typed) > 50
    alone = shown_by(copy.kept, {**copy.sent, **typed})
    whole = shown_by(copy.whole, {**shared_values(copy.whole, copy.values), **typed})
    given = {place: value for place, value in copy.sent.items() if place.entry in copy.whole.formulas}
    differing = {
        str(place): (value, whole.get(place))
        for place, value in {**given, **alone}.items()
        if not copy.kept.book.entries[place.entry].sheet.derived
        and not copy.whole.book.entries[place.entry].entry.looks_through
        and place.entry.partition(".")[0] not in {"checks", "guide"}
        and not same(value, whole.get(place))
    }
    assert differing == {}
    assert len(given) > 20


def test_a_wish_brings_a_sheet_into_the_copy_and_a_sheet_put_away_still_goes_where_it_is_asked_for():
    values = copy_of("overshirt", "sample").values
    wished = {**values, Place("guide.show_thread"): "yes", Place("guide.show_fit"): "no"}
    titles = openpyxl.load_workbook(io.BytesIO(issue(BOOK, wished, {}, ISSUED).data)).sheetnames
    assert "Thread" in titles
    assert "Fit" in titles
    assert "Thread" not in openpyxl.load_workbook(io.BytesIO(copy_of("overshirt", "sample").data)).sheetnames


def test_rows_stand_in_the_order_in_which_the_brand_has_them(copy):
    rows = plan(copy.kept, copy.sent)[1].tables
    whole = plan(copy.whole, shared_values(copy.whole, copy.values))[1].tables
    for address, table in rows.items():
        filled = [ref for ref in whole[address].rows if ref in table.rows]
        assert [ref for ref in table.rows if ref in filled] == filled, address


def test_cautions_go_with_every_copy():
    names = {caution.name for sheet in BOOK.sheets for caution in sheet.cautions}
    for case in CASES:
        assert {one.name for sheet in copy_of(*case).kept.book.sheets for one in sheet.cautions} == names


TITLES = {
    "quote": {"Guide", "Style", "Colorways", "Construction", "Artwork", "Labels", "Measurements", "Materials", "Yield",
              "Quote", "Quality", "Questions", "Checks"},
    "sample": {"Guide", "Style", "Colorways", "Construction", "Artwork", "Labels", "Measurements", "Fit", "Materials",
               "Approvals", "Questions", "Checks"},
    "bulk": {"Guide", "Style", "Colorways", "Construction", "Artwork", "Labels", "Measurements", "Fit", "Materials",
             "Yield", "Quote", "Order", "Approvals", "Quality", "Questions", "Checks"},
}  # fmt: skip
"""What a vendor is sent for each purpose of a style whose price is known and whose brand wishes for nothing more."""


def without_wishes():
    """The sample's values without what its designer wished to see on the Guide."""
    values = copy_of("overshirt", "sample").values
    return {place: value for place, value in values.items() if place.entry.partition(".")[0] != "guide"}


@pytest.mark.parametrize("purpose", TITLES)
def test_a_copy_holds_what_its_purpose_needs_and_no_more(purpose):
    style = without_wishes()
    quoted = {
        Place(address): 1
        for address, column in BOOK.entries.items()
        if column.sheet.name == "quote" and column.entry.who == "vendor" and column.entry.need
    }
    for known in (quoted, {}):
        values = {**style, **known, Place("style.purpose"): purpose}
        book = openpyxl.load_workbook(io.BytesIO(issue(BOOK, values, {}, ISSUED).data))
        seen = {sheet.title for sheet in book.worksheets if sheet.sheet_state == "visible"}
        # As long as the price is not known, the sheet on which it is asked goes along.
        assert seen == TITLES[purpose] | (set() if known else {"Quote"})
        assert {sheet.title for sheet in book.worksheets} - seen == {"Lists", "Workings", "Record"}


@pytest.mark.parametrize(("revision", "goes"), [(1, False), (2, True)])
def test_revisions_go_along_once_something_was_changed(revision, goes):
    values = {**without_wishes(), Place("style.revision"): revision}
    titles = openpyxl.load_workbook(io.BytesIO(issue(BOOK, values, {}, ISSUED).data)).sheetnames
    assert ("Revisions" in titles) == goes
