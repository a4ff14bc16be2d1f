"""Rows that people put in or paste: one that touches a table belongs to it, in every table that grows."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest

from sheetgen import api
from sheetgen.audit.run import case_of
from sheetgen.declare.entry import Place
from sheetgen.declare.parts import END_OF_TABLE, grows
from sheetgen.sheets import BOOK
from sheetgen.workbook.read.file import read
from tests.loop import loop
from tests.workbook.small import typed_by_people

GROWING = {address: table for address, (_, table) in BOOK.tables.items() if grows(table)}
PASTED = 3
"""Rows from the line that closes a table on: over it and below it."""


def typed(table: object, number: int) -> object:
    """Something that the key's kind could hold, another one in each row."""
    kind = next(entry.kind.name for entry in table.entries if entry.name == table.key)  # type: ignore[attr-defined]
    return (
        46_500 + number
        if kind == "date"
        else 900 + number
        if kind in {"number", "whole", "length", "money"}
        else f"Pasted {number}"
    )


@pytest.fixture(scope="module")
def pasted(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, list[int]]]:
    """The overshirt's working file with rows pasted over the end of every table that grows, and where they stand."""
    path = tmp_path_factory.mktemp("pasted") / "pasted.xlsx"
    before = read(BOOK, loop() / "a-working.xlsx")
    book = openpyxl.load_workbook(loop() / "a-working.xlsx")
    rows: dict[str, list[int]] = {}
    for address, table in GROWING.items():
        place = before.where.tables[address]
        sheet, column = book[place.sheet], place.columns[table.key]
        assert sheet.cell(place.last, place.ref_column).value == END_OF_TABLE
        free = [place.last]
        while len(free) < PASTED and all(cell.value is None for cell in (*sheet[free[-1] + 1], *sheet[free[-1] + 2])):
            free.append(free[-1] + 1)
        for number, row in enumerate(free, 1):
            sheet.cell(row, column).value = typed(table, number)
        rows[address] = free
    book.save(path)
    return path, rows


def test_every_table_that_grows_takes_what_is_pasted_at_its_end(pasted: tuple[Path, dict[str, list[int]]]) -> None:
    path, rows = pasted
    assert len(rows) >= 20
    found = read(BOOK, path)
    assert found.strays == []
    for address, expected in rows.items():
        assert [row for place, row in found.added_rows.items() if place.entry == f"{address}.ref"] == expected, address


def test_building_keeps_all_of_them(pasted: tuple[Path, dict[str, list[int]]]) -> None:
    path, rows = pasted
    before, built = typed_by_people(read(BOOK, loop() / "a-working.xlsx")), api.build(path)
    assert built.not_carried == ()
    assert {place: built.values.get(place) for place in before} == before
    for address, expected in rows.items():
        key = f"{address}.{GROWING[address].key}"
        now = [value for place, value in built.values.items() if place.entry == key and place not in before]
        assert len(now) == len(expected), address


def test_a_live_check_says_so_until_it_is_built(pasted: tuple[Path, dict[str, list[int]]]) -> None:
    path, rows = pasted
    case = case_of(read(BOOK, path), None)
    for address in rows:
        sheet, _, table = address.partition(".")
        assert case.follows[Place(f"checks.wrong_{sheet}_new_{table}")] == 1, address  # its last line is in its ranges


def test_what_stands_apart_is_told_once_a_row(tmp_path: Path) -> None:
    book = openpyxl.load_workbook(loop() / "a-working.xlsx")
    for column, word in enumerate(("a", "b", "c", "d"), 2):
        book["Materials"].cell(90, column).value = word
    book.save(tmp_path / "a.xlsx")
    assert api.build(tmp_path / "a.xlsx").not_carried == (
        "Materials B90:E90: “a”, “b”, “c”, “d” stands outside the tables",
    )
