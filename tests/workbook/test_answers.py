"""What plays the vendor answers what a file says, and by its kind what the file does not know."""

from __future__ import annotations

import datetime
from dataclasses import replace
from pathlib import Path
from types import MappingProxyType

import pytest

from sheetgen.declare.entry import Entry, Place, computed, designer, per, place_of, vendor
from sheetgen.declare.kinds import choice, color, date, length, money, number, percent, pick, picture, text, whole
from sheetgen.declare.parts import Book, Form, Pictures, Sheet, Table
from sheetgen.errors import UserError
from sheetgen.sheets import ABOUT
from sheetgen.testing.answers import answer, generated
from sheetgen.workbook.exchange.issue import issue
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned
from tests.workbook.small import STYLE

DAY = datetime.date(2026, 11, 20)
FILLED: Values = {
    Place("style.number"): "AB-001",
    Place("style.purpose"): "sample",
    Place("style.sizes.name", "Z1"): "S",
    Place("style.sizes.name", "Z2"): "M",
    Place("goods.size_now"): "M",
    Place("goods.lines.item", "M1"): "Twill",
    Place("goods.lines.item", "M2"): "Button",
    Place("goods.lines.own", "M2"): "ours",
}


def book(*columns: Entry, fields: tuple[Entry, ...] = ()) -> Book:
    lines = Table("lines", "Lines", ref="M", key="item", spare=2, columns=(
        designer("item", "Item", text()), designer("own", "Own", text()), *columns,
    ))  # fmt: skip
    form = Form("In short", (designer("size_now", "Size", pick("style.sizes.name")), *fields))
    pictures = Pictures("Photos", (vendor("photo", "Photo", picture(), need="quote"),))
    goods = Sheet("goods", "Bought goods", parts=(form, lines, pictures))
    return Book((STYLE, goods), axes=MappingProxyType({"size": "style.sizes"}), about=ABOUT)


def copy(made: Book, folder: Path, values: Values | None = None) -> Returned:
    """The vendor's copy of a style in that book, read."""
    path = folder / "issued.xlsx"
    path.write_bytes(issue(made, {**FILLED, **(values or {})}, {}, DAY).data)
    return read(made, path)


def by_kind(folder: Path, kind) -> object:
    made = generated(copy(book(fields=(vendor("x", "X", kind, need="quote"),)), folder), {})
    return made.get(Place("goods.x"))


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        (text(), "generated answer"),
        (number(), 1),
        (number(2, 5), 5),
        (number(2, None, 0.5), 0.5),
        (money(), 1),
        (length(), 1),
        (percent(), 0.05),
        (percent(1, 0.1, 0.9), 0.1),
        (percent(1, 0, 0.01), 0.01),
        (whole(), 1),
        (whole(least=3), 3),
        (choice("yes", "no"), "yes"),
        (pick("style.sizes.name"), "S"),
        (pick("goods.lines.own"), "ours"),
        (color(), "#808080"),
        (date(), DAY),
        (picture(), None),
    ],
)
def test_an_answer_is_one_that_its_kind_allows(tmp_path: Path, kind, value) -> None:
    found = by_kind(tmp_path, kind)
    assert found == value
    assert type(found) is not float or kind.name != "whole"
    assert kind.wrong(found) is None


def test_every_row_that_is_used_is_answered_and_no_spare_one(tmp_path: Path) -> None:
    got = copy(book(vendor("price", "Price", money(), need="quote")), tmp_path)
    assert generated(got, {}) == {place_of("goods.lines[M1].price"): 1, place_of("goods.lines[M2].price"): 1}


def test_an_entry_that_the_file_knows_is_left_as_the_file_has_it(tmp_path: Path) -> None:
    """One answer is open on purpose, or was forgotten: nobody else gives it."""
    got = copy(book(vendor("price", "Price", money(), need="quote")), tmp_path)
    assert generated(got, {place_of("goods.lines[M1].price"): 4}) == {}


@pytest.mark.parametrize(
    "entry",
    [
        vendor("x", "X", money()),  # nobody must fill it
        vendor("x", "X", money(), need="bulk"),  # not yet
        designer("x", "X", money(), need="quote"),  # not the vendor
        computed("x", "X", money(), "1"),
    ],
)
def test_what_need_not_be_filled_is_not_answered(tmp_path: Path, entry: Entry) -> None:
    assert generated(copy(book(entry), tmp_path), {}) == {}


def test_only_the_size_that_is_asked_for_is_answered(tmp_path: Path) -> None:
    entry = per("size", vendor("x", "X {size}", length(), need="sample"), asked_by="goods.size_now")
    assert generated(copy(book(entry), tmp_path), {}) == {
        place_of("goods.lines[M1].x_z2"): 1,
        place_of("goods.lines[M2].x_z2"): 1,
    }


def test_what_stands_in_the_place_of_another_entry_is_enough(tmp_path: Path) -> None:
    entry = replace(vendor("x", "X", money(), need="quote"), unless="own")
    assert generated(copy(book(entry), tmp_path), {}) == {place_of("goods.lines[M1].x"): 1}


def test_what_was_sent_along_is_not_answered_again(tmp_path: Path) -> None:
    sent = {place_of("goods.lines[M1].price"): 4}
    got = copy(book(vendor("price", "Price", money(), need="quote")), tmp_path, sent)
    assert generated(got, {}) == {place_of("goods.lines[M2].price"): 1}


def test_the_copy_holds_the_files_answers_and_those_that_were_generated(tmp_path: Path) -> None:
    made = book(vendor("price", "Price", money(), need="quote"), vendor("says", "Says", text(), need="quote"))
    copy(made, tmp_path)
    answers = tmp_path / "answers.toml"
    answers.write_text('[[goods.lines]]\nrow = "M1"\nprice = 4.5\n', "utf-8")
    added = answer(made, tmp_path / "issued.xlsx", answers, FILLED, tmp_path / "back.xlsx")
    says = {place_of(f"goods.lines[{row}].says"): "generated answer" for row in ("M1", "M2")}
    assert added == says
    typed = read(made, tmp_path / "back.xlsx").typed
    assert {place: value for place, value in typed.items() if place not in FILLED} == {
        place_of("goods.lines[M1].price"): 4.5,
        **says,
    }


def test_a_file_that_cannot_be_used_is_one_sentence(tmp_path: Path) -> None:
    made = book(vendor("price", "Price", money(), need="quote"))
    copy(made, tmp_path)
    answers = tmp_path / "answers.toml"
    answers.write_text("[goods]\nprize = 4.5\n", "utf-8")
    with pytest.raises(UserError, match="prize"):
        answer(made, tmp_path / "issued.xlsx", answers, FILLED, tmp_path / "back.xlsx")
