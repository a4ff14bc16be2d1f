"""Every entry has a name that a sentence can hold: its heading, where that is a noun, or one of its own."""

import re
from functools import cache
from string import Formatter

import pytest

from sheetgen.audit.called import called, heading_of
from sheetgen.audit.spoken import SPOKEN
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.families import families_of
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.workbook.model.values import Ready, ready, shape_of
from tests.loop import SAMPLES

NOUNS = frozenset(
    "Allowance Area Artwork Bobbin Body Callout Code Colorway Colors Comment Component Composition Currency Date Decision Defect Density "
    "Detail Duty Fees Fiber File Fold Freight Full Garment Group Height Instruction Insurance Item Kind Label Lay Length Line Market Marker "
    "Material Method Minimum Named Needle Net Note Option Outline Own Part Pattern Photo Picture Piece Placement Places Point Price Question "
    "Rate Reference Remark Report Retail Revision Right Round Rule Sales Seam Size Sourcing Stage Status Submission Supplier Supplier's "
    "Target Stitch Technique Term Test Thread Unit Usable Vendor's Waste Weight Wholesale Width Wording".split()
)
"""With one of these a heading begins that is a noun: `Price per unit` of M5 Button."""


@cache
def book() -> Ready:
    values = load_style(BOOK, SAMPLES / "overshirt" / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))
    return ready(BOOK, shape_of(BOOK, values))


@pytest.mark.parametrize("sheet", [sheet.name for sheet in BOOK.sheets if not sheet.derived])
def test_what_people_fill_in_a_row_has_a_name_that_a_sentence_can_hold(sheet):
    bare = {
        address: column.entry.heading
        for address, column in BOOK.entries.items()
        if column.sheet.name == sheet and column.table is not None and column.entry.who in {"designer", "vendor"}
        and address not in SPOKEN and re.split(r"[ ,]", column.entry.heading)[0] not in NOUNS
    }  # fmt: skip
    assert bare == {}, "say in audit/spoken.py what each is called in a sentence"


def test_each_name_belongs_to_an_entry_and_says_of_a_family_which_member():
    assert SPOKEN.keys() <= BOOK.entries.keys()
    families = families_of(BOOK)
    for address, words in SPOKEN.items():
        table = BOOK.entries[address].table
        holes = {hole for _, hole, _, _ in Formatter().parse(words) if hole}
        assert holes <= ({"row"} if table else set()) | ({"member"} if address in families else set()), address
        assert ("row" in holes) == (table is not None), address
        assert words[0].islower() or words.startswith("{"), address
        assert len(words) < 90, address
        round_by_round = address in families and families[address].axes == ("round",)
        assert address not in families or round_by_round or "member" in holes, address


@pytest.mark.parametrize(
    ("place", "line", "name"),
    [
        ("colorways.dips[D1].sent", "D1 Shell", "The date when D1 Shell was sent"),
        ("materials.bom[M5].price", "M5 Button", "Price per unit of M5 Button"),
        ("materials.bom[M5].cost", "M5 Button", "Cost of M5 Button"),
        ("materials.bom[M5].color_c1", "M5 Button", "The color of M5 Button in Moss"),
        ("measurements.points[P1].spec_z2", "P1 Chest width", "P1 Chest width in S"),
        ("fit.points[P1].value_r1", "P1 Chest width", "What the vendor measured at P1 Chest width"),
        ("labels.items[L1]", "L1 Main label", "Ref of L1 Main label"),
        ("quote.valid_until", "", "The day until which the price holds"),
        ("quote.lead_time", "", "Lead time after approval"),
        ("order.piece_weight", "", "Weight of a packed piece"),
        ("quote.over_target", "", "Price less target"),
    ],
)
def test_a_place_is_called_as_people_would(place, line, name):
    assert called(book(), place_of(place), line) == name


def test_a_unit_stands_neither_in_names_nor_in_headings_of_sentences():
    for address in book().book.entries:
        heading = heading_of(book(), Place(address))
        assert not re.search(r", (cm|EUR|m|mm|kg|days|pieces)\Z", heading), address
