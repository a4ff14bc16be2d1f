"""A portfolio: the garment to show, without vendor, prices, contacts and dates."""

from __future__ import annotations

import re

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture
from sheetgen.jobs.packs import content_for
from sheetgen.pack.pages import PORTFOLIO
from tests.loop import loop
from tests.pack.test_pack import STYLES, content


@pytest.mark.parametrize("style", STYLES)
def test_a_portfolio_shows_the_garment_and_names_nobody(style):
    got = api.read(loop(style) / "a-working.xlsx")
    document = content(style, PORTFOLIO).document
    titles = [page["title"] for page in document["pages"]]
    assert titles[:3] == ["The garment", "In its colors", "Flats"]
    assert not {"Overview", "Colors", "Materials", "Order", "Fit form"} & set(titles)
    places = {place for _, place in content(style, PORTFOLIO).texts}
    kept_back = re.compile("vendor|contact|email|address|price|cost|fob|date|due|delivery|payment|company$")
    assert not [place for place in places if kept_back.search(place.entry) and place.entry != "style.company"]
    assert not [place for place in places if got.ready.book.entries[place.entry].entry.kind.name in {"date", "money"}]
    assert {document[name] for name in ("vendor", "purpose", "date", "revision", "footer")} == {""}


def test_a_portfolio_has_the_flats_without_the_callouts_drawn_on_them():
    got = api.read(loop() / "a-working.xlsx")
    made = content("overshirt", PORTFOLIO)
    (flats,) = [page for page in made.document["pages"] if page["title"] == "Flats"]
    shown = {made.pictures[one["image"]] for one in flats["left"][0]["shown"]}
    drawn_on = {got.typed[Place(f"construction.flat_{side}")] for side in ("front", "back")}
    assert len(shown) == 2
    assert not shown & {one.data for one in drawn_on if isinstance(one, Picture)}


def test_flats_that_the_program_draws_have_no_callouts_there_either(tmp_path):
    path = tmp_path / "a.xlsx"
    path.write_bytes(api.start("shirt").data)
    with_callouts = content_for(api.read(path), "quote")[0].pictures.values()
    assert any(b">N1</text>" in data for data in with_callouts)
    shown = content_for(api.read(path), PORTFOLIO)[0].pictures.values()
    assert shown
    assert not any(b">N1</text>" in data for data in shown)
