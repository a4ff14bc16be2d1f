"""What is remembered of a proof: that nothing was wrong, for a book that is declared alike and has as many members."""

from dataclasses import fields, replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen import store
from sheetgen.declare import proof, remembered
from sheetgen.declare.entry import Entry
from sheetgen.declare.expansion import expand
from sheetgen.declare.mistakes import DeclarationError
from sheetgen.declare.parts import Book, Form
from sheetgen.declare.proof import proven
from sheetgen.declare.remembered import declared_as, proven_once
from sheetgen.sheets import BOOK
from sheetgen.workbook.model import values
from sheetgen.workbook.model.values import Shape, ready, words_for

FORMS = [
    (number, at) for number, sheet in enumerate(BOOK.sheets) for at, part in enumerate(sheet.parts)
    if isinstance(part, Form)
]  # fmt: skip
WORDS = words_for("cm", "EUR", "")


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv(store.SETTING, str(tmp_path / "kept"))
    ready.cache_clear()
    yield tmp_path / "kept"
    ready.cache_clear()


def with_entry(where: tuple[int, int], index: int, change) -> tuple[Book, Entry]:
    """The book with one of its fields declared otherwise, and what that was."""
    sheet = BOOK.sheets[where[0]]
    form = sheet.parts[where[1]]
    assert isinstance(form, Form)
    index %= len(form.entries)
    entries = [*form.entries[:index], change(form.entries[index]), *form.entries[index + 1 :]]
    parts = [*sheet.parts[: where[1]], replace(form, entries=tuple(entries)), *sheet.parts[where[1] + 1 :]]
    sheets = [*BOOK.sheets[: where[0]], replace(sheet, parts=tuple(parts)), *BOOK.sheets[where[0] + 1 :]]
    return replace(BOOK, sheets=tuple(sheets)), form.entries[index]


@given(st.sampled_from(FORMS), st.integers(0, 40), st.sampled_from([field.name for field in fields(Entry)]))
def test_a_book_of_which_anything_is_declared_otherwise_is_known_by_something_else(where, index, name):
    def otherwise(entry: Entry) -> Entry:
        old = getattr(entry, name)
        if name == "kind":
            return replace(entry, kind=replace(old, name=f"{old.name}x"))
        new = not old if isinstance(old, bool) else old + 1 if isinstance(old, int | float) else None
        return replace(entry, **{name: new if new is not None else f"{old}x"})

    changed, _ = with_entry(where, index, otherwise)
    assert declared_as(changed) not in {declared_as(BOOK), b""}
    same, _ = with_entry(where, index, replace)
    assert declared_as(same) == declared_as(BOOK)


def test_what_was_worked_out_of_a_book_is_not_declared_in_it():
    fresh = replace(BOOK)
    before = declared_as(fresh)
    assert fresh.entries
    assert fresh.tables
    declared_as.cache_clear()
    assert declared_as(fresh) == before != b""


def test_a_book_with_a_function_inside_is_proven_each_time(folder, monkeypatch):
    asked = []
    monkeypatch.setattr(proof, "refuse_unsound", lambda *_: asked.append(1))
    book = replace(BOOK, derived=(lambda plain: plain.sheets[0],))
    assert declared_as(book) == b""
    for _ in range(2):
        proven_once(expand(BOOK, dict.fromkeys(BOOK.axes, ("A", "B"))), declared_as(book))
    assert len(asked) == 2
    assert not folder.exists()


def shape(*names: str) -> Shape:
    return Shape(tuple((axis, names) for axis in BOOK.axes), WORDS)


def test_a_sound_book_is_proven_once_and_one_with_another_number_of_members_again(folder, monkeypatch):
    asked = []
    refuse = remembered.refuse_unsound
    monkeypatch.setattr(remembered, "refuse_unsound", lambda *of: (asked.append(1), refuse(*of)))
    seen = []
    for names in (("A", "B"), ("A", "B"), ("Ä, “b”", "=1+1"), ("A", "B", "C")):
        ready.cache_clear()
        made = ready(BOOK, shape(*names))
        seen.append(len(asked))
        assert made.formulas == proven(made.book)
    assert seen == [1, 1, 1, 2], "names are not in formulas, so they are not asked about"


@pytest.mark.parametrize("formula", ["nowhere*2", "style.number+materials.bom.price", "NOW()"])
def test_a_wrong_book_is_refused_however_often_it_is_asked_for_and_beside_a_sound_one(folder, formula):
    ready(BOOK, shape("A", "B"))
    where = next(at for at in FORMS if any(one.who == "computed" for one in BOOK.sheets[at[0]].parts[at[1]].entries))
    form = BOOK.sheets[where[0]].parts[where[1]]
    index = next(number for number, one in enumerate(form.entries) if one.who == "computed")
    wrong, _ = with_entry(where, index, lambda entry: replace(entry, formula=formula))
    for _ in range(2):
        with pytest.raises(DeclarationError):
            ready(wrong, shape("A", "B"))


def test_a_private_entry_that_is_wrong_is_refused_in_the_vendors_book_too(folder):
    """The vendor's book does not hold it, and is known by the whole book all the same."""
    for_vendor = replace(shape("A", "B"), audience="vendor")
    ready(BOOK, for_vendor)
    where, index = next(
        (at, number) for at in FORMS for number, one in enumerate(BOOK.sheets[at[0]].parts[at[1]].entries)
        if one.private and one.who == "computed" and not BOOK.sheets[at[0]].private
    )  # fmt: skip
    wrong, _ = with_entry(where, index, lambda entry: replace(entry, formula='IF(style.purpose="nowhere",1,0)'))
    for _ in range(2):
        with pytest.raises(DeclarationError):
            ready(wrong, for_vendor)


def test_what_is_wrong_whatever_the_shape_is_refused_each_time(folder, monkeypatch):
    def refuse(book: Book) -> None:
        raise DeclarationError("always")

    monkeypatch.setattr(values, "refuse_wrong_words", refuse)
    for _ in range(2):
        with pytest.raises(DeclarationError):
            ready(BOOK, shape("A", "B"))
