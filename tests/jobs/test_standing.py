"""Where styles stand: the few figures of a season's table, read without the rest."""

from __future__ import annotations

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.workbook.read.record import figures_of
from tests.loop import loop


def test_the_three_figures_are_those_that_the_whole_reader_finds():
    for style in ("overshirt", "jacket"):
        path, addresses = loop(style) / "a-returned.xlsx", ("order.pieces", "quote.fob", "style.number", "no.such")
        got = api.read(path)
        known = {**got.typed, **got.shown}
        assert figures_of(path, addresses) == {one: known[Place(one)] for one in addresses[:2]}


@pytest.mark.parametrize("damage", [b"", b"PK\x03\x04 no package", b"x" * 1000])
def test_a_file_that_cannot_be_opened_has_no_figures(tmp_path, damage):
    path = tmp_path / "a.xlsx"
    path.write_bytes(damage)
    assert figures_of(path, ["quote.fob"]) == {}
    whole = (loop() / "a-returned.xlsx").read_bytes()
    path.write_bytes(whole[: len(whole) // 2])
    assert figures_of(path, ["quote.fob"]) == {}
