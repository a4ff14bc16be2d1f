"""Forms for the floor: asked for by name or all together, with room to write, and nothing of the brand's own."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from sheetgen import api
from sheetgen.commands.pack import command
from sheetgen.jobs.packs import content_for
from sheetgen.pack.pages import FORMS, PAGES, Facts, Rows
from sheetgen.pack.typeset import typeset
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.values import ready, shape_of
from tests.loop import loop

FORM = {page.title: page for page in FORMS}


def made(title: str, style: str = "overshirt"):
    content, _ = content_for(api.read(loop(style) / "a-working.xlsx"), None, (title,))
    (page,) = content.document["pages"]
    return [*page["left"], *page["right"]]


def test_no_form_is_called_as_a_page_is():
    assert set(FORM).isdisjoint(page.title for page in PAGES)


def test_forms_name_nothing_of_the_brands_own():
    entries = ready(BOOK, shape_of(BOOK, {}, "vendor")).book.entries
    families = {
        f"{address.rpartition('.')[0]}.{column.entry.family}"
        for address, column in entries.items()
        if column.entry.family
    }
    for page in FORMS:
        for block in (*page.left, *page.right):
            if isinstance(block, Facts):
                assert set(block.entries) <= set(entries), page.title
            if isinstance(block, Rows):
                assert {f"{block.table}.{name}" for name in block.columns} <= {*entries, *families}, page.title


def test_a_size_set_has_room_beside_what_is_asked_in_every_size():
    (table,) = made("Form: size set")
    assert table["headings"][-6:] == ["XS", "S", "M", "L", "XL", "XXL"]
    assert len(table["rows"]) == 20
    assert all(row[-6:] == [None] * 6 for row in table["rows"])


def test_the_quote_form_asks_and_tells_no_price():
    facts, table = made("Form: quote")
    assert len(facts["facts"]) >= 8
    assert {words for _, words in facts["facts"]} == {""}
    assert table["headings"][-4:] == ["Supplier, article", "Price, currency", "Minimum", "Days"]


def test_swatches_have_room_for_what_is_fixed_there():
    (table,) = made("Form: swatches and trims")
    assert table["room"] >= 7
    assert [row[0]["anchor"] for row in table["rows"]] == [f"M{number}" for number in range(1, 17)]


def test_a_carton_list_has_a_column_for_each_size():
    lines = made("Form: carton list", "jacket")[0]
    assert len(lines["rows"]) == 18
    assert len({len(row) for row in (lines["headings"], *lines["rows"])}) == 1
    sizes = [
        value
        for at, value in api.read(loop("jacket") / "a-working.xlsx").typed.items()
        if at.entry == "style.sizes.name"
    ]
    assert [one for one in lines["headings"] if one in sizes] == sizes


@pytest.mark.parametrize("style", ["overshirt", "sweatshirt", "jacket"])
def test_all_forms_are_set_and_every_text_is_on_them(style):
    titles = tuple(FORM)
    content, _ = content_for(api.read(loop(style) / "a-working.xlsx"), None, titles)
    assert [page["title"] for page in content.document["pages"]] == list(titles)
    data = typeset(content)
    assert data.startswith(b"%PDF")
    assert typeset(content) == data


def test_by_command(tmp_path: Path):
    target = tmp_path / "forms.pdf"
    done = CliRunner().invoke(command, [str(loop() / "a-working.xlsx"), "--forms", "--out", str(target)])
    assert done.exit_code == 0, done.output
    assert "Form: cut ticket" in " ".join(done.output.split())
    one = CliRunner().invoke(
        command, [str(loop() / "a-working.xlsx"), "--only", "form: size set", "--out", str(tmp_path / "one.pdf")]
    )
    assert "Pages: Form: size set." in " ".join(one.output.split())
