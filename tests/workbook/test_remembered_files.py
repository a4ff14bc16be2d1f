"""A file that was read before: what is kept of it is all that was found, and whatever is wrong with the store costs time alone."""

import datetime
import json
import os
import subprocess
import sys
import zlib
from dataclasses import MISSING, fields
from pathlib import Path

import openpyxl
import pytest

from sheetgen import store
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.workbook.read import file as reading
from sheetgen.workbook.read import remembered
from sheetgen.workbook.read.loaded import Area, Contents, Drawing, Held, Loaded, LoadedSheet, Mark, Message, Style
from sheetgen.workbook.read.remembered import read_before
from tests.loop import loop

FIELDS = [reading.name_of(address) for address in reading._fields(BOOK)]
MOMENTS = (
    datetime.datetime(2026, 3, 4, 5, 6, 7, 8000), datetime.date(2026, 3, 4), datetime.time(5, 6, 7),
    datetime.timedelta(days=2, seconds=3, microseconds=4), datetime.datetime(2026, 3, 4, tzinfo=datetime.UTC),
)  # fmt: skip


def load(path: Path) -> Loaded:
    return reading._loaded(path, FIELDS)


@pytest.fixture
def folder(tmp_path, monkeypatch):
    monkeypatch.setenv(store.SETTING, str(tmp_path / "kept"))
    return tmp_path / "kept"


class Counting:
    """Loads, and counts how often it had to."""

    def __init__(self) -> None:
        self.times = 0

    def __call__(self, path: Path) -> Loaded:
        self.times += 1
        return load(path)


def same(one: Loaded, other: Loaded) -> bool:
    """Equal, and of the same kinds of values: 1, 1.0 and True are equal."""
    kinds = [[(type(held.value), type(held.shown), type(held.is_error)) for sheet in each.sheets.values() for held in sheet.cells.values()]
             for each in (one, other)]  # fmt: skip
    return one == other and kinds[0] == kinds[1] and list(one.sheets) == list(other.sheets)


@pytest.mark.parametrize("style", ["overshirt", "sweatshirt", "jacket"])
@pytest.mark.parametrize("name", ["a-working.xlsx", "a-issued.xlsx", "a-returned.xlsx"])
def test_the_second_time_it_is_the_same_and_not_taken_apart(folder, style, name):
    path, count = loop(style) / name, Counting()
    first, second = read_before(path, count), read_before(path, count)
    assert count.times == 1
    assert same(first, second)
    assert [sheet.pictures for sheet in first.sheets.values()] == [sheet.pictures for sheet in second.sheets.values()]
    assert any(sheet.pictures for sheet in second.sheets.values())


def test_all_that_a_cell_can_hold_comes_back(folder, tmp_path):
    values = [*MOMENTS, None, "", "=no formula", "1", 1, 1.0, True, 0, -0.5, 2**60, 1e300, "\ud800", "a\nb", {"a": 1}]
    held = [Held(value) for value in values[:-1]]
    held += [Held("=A1", "=A1", shown=value) for value in values[:-1]]
    held += [Held("=A1", "=B1"), Held(None, None, "a remark", True, None, 7), Held(None, None, "", False)]
    cells = {(row, row % 7 + 1): one for row, one in enumerate(held, 1)}
    sheet = LoadedSheet("One", cells, 99, 7, True, False, ())
    path = tmp_path / "a.xlsx"
    path.write_bytes(b"some bytes")
    made = Loaded({"One": sheet}, {})
    read_before(path, lambda _: made)
    assert same(read_before(path, lambda _: pytest.fail("loaded again")), made)
    odd = Loaded({"One": LoadedSheet("One", {(1, 1): Held(values[-1])}, 1, 1, True, False, ())}, {})
    path.write_bytes(b"other bytes")
    assert [read_before(path, lambda _: odd) for _ in range(2)] == [odd, odd], (
        "what has no plain form is read each time"
    )


def test_nothing_that_a_file_can_hold_is_left_out(folder, tmp_path):
    """Every field otherwise than where nobody says it: one that is added later and not kept is found here."""
    style = Style("0.0", False, "112233", "445566", True, 9.0)
    sheet = LoadedSheet(
        "One", {(3, 2): Held("a", None, "b", True, None, 1)}, 9, 8, False, True, (),
        (Drawing("text", (1, 2), (3, 4), "d", "words", True, True),), frozenset({4}), frozenset({5}), "head", "foot",
        (Message("A1", "list", "=B1", "title", "prompt"),), (Mark("A1", "expression", ("C1",), style),), (((1, 1), "#x"),),
    )  # fmt: skip
    made = Loaded(
        {"One": sheet}, {"name": Area("One", 1, 2, 3, 4)}, (style,), Contents(True, True, True, True), ("x",), True
    )
    for whole in (made, sheet, made.contents):
        plain = {one.name: one.default_factory() if one.default is MISSING else one.default for one in fields(whole)
                 if not (one.default is MISSING and one.default_factory is MISSING)}  # fmt: skip
        assert [name for name, usual in plain.items() if getattr(whole, name) == usual] == []
    path = tmp_path / "a.xlsx"
    path.write_bytes(b"some bytes")
    read_before(path, lambda _: made)
    assert same(read_before(path, lambda _: pytest.fail("loaded again")), made)


def test_one_byte_more_and_it_is_read(folder, tmp_path):
    path, count = tmp_path / "a.xlsx", Counting()
    data = (loop() / "a-issued.xlsx").read_bytes()
    path.write_bytes(data)
    read_before(path, count)
    book = openpyxl.load_workbook(path)
    book["Style"]["C5"] = "changed"
    book.save(path)
    assert read_before(path, count).sheets["Style"].value(5, 3) == "changed"
    path.write_bytes(data)
    assert read_before(path, count).sheets["Style"].value(5, 3) != "changed"
    assert count.times == 2


def test_a_file_that_was_refused_is_refused_again(folder, tmp_path):
    path = tmp_path / "a.xlsx"
    book = openpyxl.Workbook()
    book.save(path)
    for _ in range(2):
        with pytest.raises(UserError, match="is no workbook made by sheetgen"):
            read_before(path, load)
    with pytest.raises(UserError, match="there is no such file"):
        read_before(tmp_path / "none.xlsx", load)


@pytest.mark.parametrize("spoilt", ["damaged", "emptied", "another file's", "half written"])
def test_a_store_that_is_wrong_costs_time_alone(folder, tmp_path, spoilt):
    issued, count = loop() / "a-issued.xlsx", Counting()
    right = read_before(issued, count)
    (entry,) = (path for path in folder.iterdir() if path.name != "secret")
    data = entry.read_bytes()
    if spoilt == "another file's":
        read_before(loop() / "a-working.xlsx", load)
        (other,) = (path for path in folder.iterdir() if path.name not in {"secret", entry.name})
        entry.write_bytes(other.read_bytes())
    else:
        entry.write_bytes(
            {"damaged": data[:-9] + bytes(9), "emptied": b"", "half written": data[: len(data) // 2]}[spoilt]
        )
    assert same(read_before(issued, count), right)
    assert count.times == 2


def test_somebody_elses_account_of_a_file_is_not_believed(folder, tmp_path, monkeypatch):
    """A forged account would hide a change: here one in which the price is another."""
    issued = loop() / "a-issued.xlsx"
    monkeypatch.setenv(store.SETTING, str(tmp_path / "theirs"))
    read_before(issued, load)
    (entry,) = (path for path in (tmp_path / "theirs").iterdir() if path.name != "secret")
    data = json.loads(zlib.decompress(entry.read_bytes()[store._SEAL :]))
    data["sheets"][1]["values"][0] = "forged"
    forged = zlib.compress(json.dumps(data).encode())
    folder.mkdir(mode=0o700)
    (folder / entry.name).write_bytes(entry.read_bytes()[: store._SEAL] + forged)
    monkeypatch.setenv(store.SETTING, str(folder))
    count = Counting()
    assert same(read_before(issued, count), load(issued)) and count.times == 1


def test_a_picture_is_taken_from_the_file_itself(folder, monkeypatch):
    """Pictures are not kept: without them in the file, nothing that was kept counts."""
    issued, count = loop() / "a-issued.xlsx", Counting()
    read_before(issued, count)
    monkeypatch.setattr(remembered, "_MEDIA", ("nowhere/",))
    assert same(read_before(issued, count), load(issued)) and count.times == 2


def test_an_audit_says_the_same_the_second_time(tmp_path):
    told = thrice(tmp_path, "audit a-returned.xlsx --json")
    assert told[0] == told[1] == told[2]


def test_an_accept_writes_the_same_the_second_time(tmp_path):
    told = thrice(tmp_path, "accept a-working.xlsx a-returned.xlsx --out n.xlsx")
    assert told[0] == told[1] == told[2] and told[0][-1]


def thrice(folder: Path, command: str) -> list[tuple[object, ...]]:
    """What a command says and writes with an empty store, with what it kept, and without a store."""
    told = []
    for name in ("a-working.xlsx", "a-returned.xlsx", "a-issued.xlsx", "a-issued.receipt.json"):
        (folder / name).write_bytes((loop() / name).read_bytes())
    for setting in (str(folder / "kept"), str(folder / "kept"), "off"):
        done = subprocess.run(
            [sys.executable, "-m", "sheetgen", *command.split()],
            cwd=folder, capture_output=True, env={**os.environ, store.SETTING: setting}, check=False,
        )  # fmt: skip
        written = folder / "n.xlsx"
        told.append((done.returncode, done.stdout, done.stderr, written.read_bytes() if written.exists() else b""))
        written.unlink(missing_ok=True)
    return told
