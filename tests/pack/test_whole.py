"""A copy's pack is whole: each cell that somebody filled stands in it, or is declared with the reason why not."""

from __future__ import annotations

import datetime
import re
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

from sheetgen import api
from sheetgen.commands.pack import command
from sheetgen.declare.entry import Entry, Place
from sheetgen.declare.kinds import Picture
from sheetgen.declare.parts import Form, Ledger, Section, Table
from sheetgen.jobs.packs import content_for
from sheetgen.pack.content import Content
from sheetgen.pack.left_out import LEFT_OUT, declared
from sheetgen.pack.pages import FORMS, PAGES, Drawings, Facts, FitForm, RowDrawings, Rows, TrueSize
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.visible import hidden_sheets
from sheetgen.workbook.read.found import Returned
from tests.kept import kept
from tests.loop import ISSUED, loop
from tests.pack.test_pack import STYLES
from tests.workbook.briefs import png

PURPOSES = ("quote", "sample", "bulk")


def _addresses(block: object) -> list[str]:
    match block:
        case Drawings() | Facts():
            return list(block.entries)
        case Rows():
            return [f"{block.table}.{name}" for name in block.columns]
        case TrueSize():
            return [f"{block.table}.{name}" for name in (block.name, block.picture, block.width, *block.words)]
        case RowDrawings():
            return [f"{block.table}.{name}" for name in (block.picture, *block.words)]
        case FitForm():
            return [f"{block.table}.{name}" for name in (*block.columns, block.asked)]
    return []


NAMED = {one for page in (*PAGES, *FORMS) for block in (*page.left, *page.right) for one in _addresses(block)}
HEAD = {"style.brand", "style.company", "style.number", "style.name", "style.revision", "style.vendor", "style.date", "style.mark",
        "style.confidentiality"}  # fmt: skip
"""What stands at the head and the foot of each page."""


def _not_for_paper() -> set[str]:
    """Columns and fields that their sheet does not print."""
    found: set[str] = set()
    for sheet in BOOK.sheets:
        for part in sheet.parts:
            sections = [one for one in part.columns if isinstance(one, Section)] if isinstance(part, Table) else []
            found |= {f"{sheet.name}.{part.name}.{one.name}" for section in sections if not section.printed
                      for one in section.columns if isinstance(one, Entry) and isinstance(part, Table)}  # fmt: skip
            if isinstance(part, Form) and not part.printed:
                found |= {f"{sheet.name}.{one.name}" for one in part.entries}
            assert not isinstance(part, Ledger) or part.printed in (True, False)
    return found


UNPRINTED = _not_for_paper()


@cache
def copy(style: str, purpose: str) -> tuple[Returned, Content]:
    def make(folder: Path) -> None:
        made = api.issue(loop(style) / "a-working.xlsx", purpose=purpose, issued=ISSUED, anyway="a try")
        (folder / "a.xlsx").write_bytes(made.data)

    got = api.read(kept(f"copy-{style}-{purpose}", make) / "a.xlsx")
    return got, content_for(got, purpose)[0]


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("purpose", PURPOSES)
def test_each_filled_cell_of_a_copy_is_in_its_pack_or_declared(style, purpose):
    """What pages of other purposes or a form show is declared by these."""
    got, content = copy(style, purpose)
    hidden = hidden_sheets(got.ready, {**got.shown, **got.typed}, got.where)
    lost, there = set(), 0
    for place, value in got.typed.items():
        column = got.ready.book.entries.get(place.entry)
        if value in (None, "") or column is None or column.entry.who not in {"designer", "vendor"}:
            continue
        if column.sheet.name in hidden or not column.sheet.printed:
            continue
        there += place in content.taken
        family = f"{place.entry.rpartition('.')[0]}.{column.entry.family or column.entry.name}"
        if (
            place in content.taken
            or place.entry in HEAD
            or family in UNPRINTED | NAMED - _of(purpose)
            or declared(place.entry, column.entry)
        ):
            continue
        lost.add(place)
    assert lost == set()
    assert there > 300


def _of(purpose: str) -> set[str]:
    """What the pages of a purpose show."""
    return {
        one
        for page in PAGES
        if purpose in page.purposes
        for block in (*page.left, *page.right)
        for one in _addresses(block)
    }


@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("purpose", PURPOSES)
def test_each_ref_of_a_row_that_pages_show_is_in_them(style, purpose):
    got, content = copy(style, purpose)
    tables = {
        one.rpartition(".")[0] for one in _of(purpose) if one.count(".") == 2 and one.rpartition(".")[0] != "fit.points"
    }
    refs = {
        place.row for place, value in got.typed.items()
        if place.entry.rpartition(".")[0] in tables and value not in (None, "") and place in content.taken
    }  # fmt: skip
    assert len(refs) > 40
    assert refs <= set(content.document["refs"])


@pytest.mark.parametrize("address", sorted(LEFT_OUT))
def test_what_is_left_out_is_there_and_stands_on_no_page(address):
    sheets, tables = {sheet.name for sheet in BOOK.sheets}, set(BOOK.tables)
    families = {f"{one.rpartition('.')[0]}.{column.entry.family}" for one, column in BOOK.entries.items()}
    numbered = {re.sub(r"_\d+$", "", one) for one in BOOK.entries}
    assert address in sheets | tables | set(BOOK.entries) | families | numbered
    assert address not in NAMED
    assert len(LEFT_OUT[address]) > 10


def test_a_marker_is_as_wide_as_the_page_with_its_words(tmp_path):
    """Its drawing stands on a page of its own, with length and efficiency beside its name."""
    values = {
        **api.start("shirt").values, Place("markers.list.material", "G1"): "M1", Place("markers.list.sizes", "G1"): "S M L",
        Place("markers.list.garments", "G1"): 3, Place("markers.list.width", "G1"): 146, Place("markers.list.long", "G1"): 4.2,
        Place("markers.list.picture", "G1"): Picture(png()),
    }  # fmt: skip
    path = tmp_path / "a.xlsx"
    path.write_bytes(api.from_values(values).data)
    (page,) = content_for(api.read(path), "bulk", ("Markers",))[0].document["pages"]
    (block,) = page["left"]
    assert block["shown"][0]["words"] == "G1; Material: M1; Garments in it: S M L; Width, cm: 146; Length, m: 4.2"


def test_a_date_that_is_worked_out_is_a_date():
    """A day is a number in a cell; on paper it is one of ISO 8601."""
    _, content = copy("overshirt", "bulk")
    due = [text for text, place in content.texts if place.entry == "order.calendar.due"]
    assert len(due) >= 8
    assert all(datetime.date.fromisoformat(text).year in {2026, 2027} for text in due)


def test_the_command_says_what_is_left_out(tmp_path):
    done = CliRunner().invoke(command, [str(loop() / "a-working.xlsx"), "--left-out", "--out", str(tmp_path / "a.pdf")])
    said = " ".join(done.output.split())
    assert "On no page: Measurements, Step (the size that comes of it stands in the table)." in said
    assert "Pricing" not in said and "arget" not in said
