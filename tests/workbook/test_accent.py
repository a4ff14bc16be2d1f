"""A brand's own color: over every sheet, readable whatever it is (W3C, Web Content Accessibility Guidelines 2.1: 4.5)."""

from __future__ import annotations

import io

import openpyxl
import pytest

from sheetgen.declare.entry import Place
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.trade.contrast import contrast
from sheetgen.workbook.model import look
from sheetgen.workbook.model.values import ready, shape_of
from sheetgen.workbook.write.file import workbook_bytes
from tests.loop import SAMPLES


@pytest.mark.parametrize(
    "color", ["#000000", "#FFFFFF", "#FFE94A", "#7F7F7F", "#E4002B", "#00A0DC", "#2f4b57", "#77AA33"]
)
def test_words_in_and_under_the_band_are_readable(color):
    accent = look.accent_of(color)
    assert accent.band == color.upper()
    assert contrast(accent.words[1:], accent.band[1:]) >= 4.5
    assert contrast(accent.titles[1:], "FFFFFF") >= 4.5


@pytest.mark.parametrize("nothing", [None, "", "green", "#12345", 7])
def test_what_is_no_color_is_the_houses_own(nothing):
    assert look.accent_of(nothing) == look.accent_of(look.BAND)


def test_a_color_that_reads_well_is_not_changed():
    assert look.accent_of("#3B4F42").titles == "#3B4F42"


def test_it_stands_over_every_sheet():
    values = {Place("style.number"): "AB-001", Place("style.accent"): "#8A2BE2"}
    data = workbook_bytes(ready(BOOK, shape_of(BOOK, values)), values, {"kind": "working"})
    for sheet in openpyxl.load_workbook(io.BytesIO(data)).worksheets:
        if sheet.sheet_state == "visible":
            assert sheet["A1"].fill.fgColor.rgb == "FF8A2BE2", sheet.title
            assert sheet["A1"].font.color.rgb == "FFFFFFFF", sheet.title


def test_color_and_mark_come_from_the_brand_file():
    brand = load_brand(SAMPLES / "brand" / "brand.toml")
    values = load_style(BOOK, SAMPLES / "jacket" / "brief.toml", brand)
    assert values[Place("style.accent")] == "#3B4F42"
    assert Place("style.mark") in values
