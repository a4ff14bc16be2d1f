"""Alignment: a sheet on which all words stand as sent is matched as the votes would match it."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.sheets import BOOK
from sheetgen.workbook.model.written import WrittenCell, WrittenSheet
from sheetgen.workbook.read import alignment
from sheetgen.workbook.read.aligning import _votes_of_names
from sheetgen.workbook.read.alignment import aligned, fixed_words, voted
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.loaded import Held, LoadedSheet
from tests.loop import loop

WORDS = st.sampled_from(["A", "B", "C", "same", "Total"])
PLACES = st.tuples(st.integers(1, 9), st.integers(1, 5))
CELLS = st.dictionaries(PLACES, WORDS, min_size=1, max_size=30)


def sheets(sent: dict, typed: dict) -> tuple[WrittenSheet, LoadedSheet]:
    """A sheet with these words, and what came back with others typed where nothing stood."""
    cells = {at: WrittenCell(text, False, 0) for at, text in sent.items()}
    cells |= {at: WrittenCell(None, False, 0) for at in typed if at not in sent}
    held = {at: Held(text) for at, text in {**typed, **sent}.items()}
    return WrittenSheet("S", cells), LoadedSheet("S", held, 9, 5, True, False, ())


@given(CELLS, CELLS)
def test_words_that_stand_where_they_were_sent_are_matched_as_votes_would(sent, typed):
    sheet, held = sheets(sent, typed)
    words = fixed_words(sheet, ())
    names = [(row, row) for row, _ in sent][:3]
    assert alignment._stands_as_sent(words, held)
    assert aligned(sheet, words, held, names, []) == voted(sheet, words, held, names, [])


@given(CELLS, st.data())
def test_one_word_that_is_gone_or_one_name_that_moved_goes_to_the_vote(sent, data):
    sheet, held = sheets(sent, {})
    words = fixed_words(sheet, ())
    at = data.draw(st.sampled_from(sorted(sent)))
    without = LoadedSheet("S", {one: cell for one, cell in held.cells.items() if one != at}, 9, 5, True, False, ())
    assert not alignment._stands_as_sent(words, without)
    formula = LoadedSheet("S", {**held.cells, at: Held(sent[at], "=A1")}, 9, 5, True, False, ())
    assert not alignment._stands_as_sent(words, formula)
    moved = [(at[0], at[0] + 1)] * 40
    assert aligned(sheet, words, held, moved, []) == voted(sheet, words, held, moved, [])


@pytest.mark.parametrize("name", ["a-working.xlsx", "a-returned.xlsx"])
def test_every_sheet_of_a_file_is_matched_as_votes_would(name):
    found = read(BOOK, loop() / name)
    written = found.written
    assert written is not None
    for sheet in written.sheets:
        words = fixed_words(sheet, found.sent_places.get(sheet.title, {}))
        held = found.loaded.sheets[sheet.title]
        rows, columns = _votes_of_names(written, sheet.title, found.loaded, sheet.title)
        assert alignment._stands_as_sent(words, held), sheet.title
        assert aligned(sheet, words, held, rows, columns) == voted(sheet, words, held, rows, columns), sheet.title
