"""Small first: which tabs a file shows at its start, for each purpose and in each copy; what is put away stays and counts."""

from __future__ import annotations

import datetime
import io
import zipfile
from functools import cache
from xml.etree import ElementTree

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import STAGES, Place, place_of
from sheetgen.declare.kinds import Kind, Value
from sheetgen.errors import UserError
from sheetgen.garments import GARMENTS
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit, edited, typed_in
from sheetgen.workbook.model.asked import is_asked
from tests.loop import ISSUED, SAMPLES, loop

FIRST = ["Guide", "Style", "Colorways", "Construction", "Artwork", "Labels", "Measurements", "Materials", "Checks"]
"""What somebody who starts thinks in, with where to start and what is missing."""
MAIN = "{http://schemas.openxmlformats.org/spreadsheetml/2006/main}"


def tabs(data: bytes) -> list[str]:
    """The sheets that are seen, as the file itself says."""
    root = ElementTree.fromstring(zipfile.ZipFile(io.BytesIO(data)).read("xl/workbook.xml"))
    return [str(one.get("name")) for one in root.iter(f"{MAIN}sheet") if one.get("state", "visible") == "visible"]


@cache
def started(garment: str) -> api.Built:
    return api.start(garment)


@pytest.mark.parametrize("garment", [one.word for one in GARMENTS])
def test_a_started_style_shows_the_pages_that_it_is_begun_with(garment):
    assert tabs(started(garment).data) == FIRST


def test_a_first_quote_takes_45_typed_cells_at_most(tmp_path):
    """From `start` to a copy that a factory can quote from, by what the tool itself says is missing."""
    path, values, typed = tmp_path / "a.xlsx", dict(api.start("sweatshirt", hood=True).values), 0
    picture = api.build(SAMPLES / "overshirt" / "brief.toml").values[Place("style.front")]
    while True:
        path.write_bytes(api.from_values(values).data)
        judged = api.audit(path, purpose="quote")
        missing = [
            place_of(one.place) for one in judged.findings if one.rule == "entry-missing" and one.owner == "designer"
        ]
        if not missing:
            break
        for place in missing:
            values[place] = _typed(judged.got.ready.book.entries[place.entry].entry.kind, picture)
            typed += 1
    assert 20 <= typed <= 45
    assert set(tabs(path.read_bytes())) == set(FIRST)
    copy = api.issue(path, purpose="quote", issued=ISSUED)
    assert tabs(copy.data) == [*FIRST[:-1], "Yield", "Quote", "Quality", "Questions", "Checks"]


def _typed(kind: Kind, picture: Value) -> Value:
    if kind.choices:
        return kind.choices[0]
    if kind.name == "picture":
        return picture
    if kind.name == "date":
        return datetime.date(2027, 3, 1)
    return 1 if kind.is_number else "said by the test"


@pytest.mark.parametrize("style", ["overshirt", "sweatshirt", "jacket"])
def test_a_full_file_shows_sixteen_tabs_at_most(style):
    assert len(tabs((loop(style) / "a-working.xlsx").read_bytes())) <= 16


@pytest.mark.parametrize("purpose, most", [("quote", 15), ("sample", 17), ("bulk", 17)])
def test_a_copy_shows_what_its_purpose_needs_and_all_that_must_be_filled(purpose, most, tmp_path):
    issued = api.issue(loop() / "a-working.xlsx", purpose=purpose, issued=ISSUED, anyway="to look at it")
    seen = tabs(issued.data)
    assert len(seen) <= most
    (tmp_path / "c.xlsx").write_bytes(issued.data)
    copy = api.read(tmp_path / "c.xlsx")

    def value(address: str, row: str) -> Value:
        return copy.typed.get(Place(address, row), copy.shown.get(Place(address, row), copy.typed.get(Place(address))))

    asked = {
        copy.ready.book.entries[address].sheet.title
        for address in copy.ready.needed for place, _ in copy.where.places(address)
        if is_asked(copy.ready, place, value, STAGES[purpose], "vendor")
    }  # fmt: skip
    assert asked <= set(seen)
    assert "Questions" in seen


def test_what_is_put_away_keeps_its_data_and_counts(tmp_path):
    whole = api.build(SAMPLES / "overshirt" / "brief.toml", shows=["yield", "Thread", "pricing", "cutting"])
    assert {"Yield", "Thread", "Pricing", "Cutting"} <= set(tabs(whole.data))
    small = api.from_values(
        {**whole.values, **{Place(f"guide.show_{name}"): "no" for name in ("order", "approvals", "yield")}}
    )
    assert not {"Order", "Approvals", "Yield"} & set(tabs(small.data))
    wishes = {place for place in small.shown if place.entry.startswith("guide.")}
    assert {place: value for place, value in whole.shown.items() if place not in wishes} == {
        place: value for place, value in small.shown.items() if place not in wishes
    }
    (tmp_path / "a.xlsx").write_bytes(small.data)
    again = api.build(tmp_path / "a.xlsx")
    assert again.data == small.data


def test_yes_on_the_guide_shows_a_sheet_at_the_next_build(tmp_path):
    path = tmp_path / "a.xlsx"
    path.write_bytes(started("shirt").data)
    typed_in(BOOK, path, {Place("guide.show_cutting"): "yes", Place("guide.show_labels"): "no"}, tmp_path / "b.xlsx")
    assert tabs(api.build(tmp_path / "b.xlsx").data) == [
        *(title for title in FIRST[:-1] if title != "Labels"), "Cutting", "Checks"
    ]  # fmt: skip


@pytest.mark.parametrize("name, title", [("quality", "Quality"), ("labels", "Labels")])
def test_a_tab_that_was_hidden_in_the_grid_stays_hidden(name, title, tmp_path):
    edited(BOOK, loop() / "a-working.xlsx", [Edit(name, "hide-sheet", None)], tmp_path / "a.xlsx")
    made = api.build(tmp_path / "a.xlsx")
    assert title not in tabs(made.data)
    assert f"{title} stays hidden." in made.notes
    assert api.audit(tmp_path / "a.xlsx").findings == api.audit(loop() / "a-working.xlsx").findings


def test_a_cell_that_must_be_filled_brings_its_sheet_into_sight():
    values = api.build(SAMPLES / "overshirt" / "brief.toml").values
    whole = {
        place: value
        for place, value in values.items()
        if place.entry != "style.purpose" and not place.entry.startswith("guide.")
    }
    first = {**whole, Place("style.purpose"): "quote"}
    assert "Yield" not in tabs(api.from_values(first).data)
    lost = next(place for place in first if place.entry == "yield.pieces.material")
    assert "Yield" in tabs(api.from_values({place: value for place, value in first.items() if place != lost}).data)


def test_a_sheet_of_another_name_is_one_sentence():
    with pytest.raises(UserError, match=r"--with cuting: no sheet of that name .*; is it cutting\\?"):
        api.start("shirt", shows=["cuting"])


@pytest.mark.parametrize("purpose, most", [("quote", 65), ("sample", 110), ("bulk", 110 + 44)])
def test_a_vendor_must_fill_no_more_than_its_answer_needs(purpose, most, tmp_path):
    issued = api.issue(loop() / "a-working.xlsx", purpose=purpose, issued=ISSUED, anyway="to count what is asked")
    (tmp_path / "c.xlsx").write_bytes(issued.data)
    asked = [one for one in api.audit(tmp_path / "c.xlsx").findings if one.rule == "entry-missing"]
    assert 0 < len(asked) <= most


def test_what_is_missing_on_a_sheet_that_is_not_shown_says_how_to_see_it(tmp_path, capsys):
    path = tmp_path / "a.xlsx"
    path.write_bytes(started("shirt").data)
    main(["audit", str(path), "--for", "bulk"])
    said = " ".join(capsys.readouterr().out.split())
    assert "Not shown yet: " in said
    assert "--with quality" in said
    main(["audit", str(path), "--for", "quote"])
    assert "Not shown yet" not in capsys.readouterr().out
