"""Callouts drawn on the flats: from places typed in the grid or the brief; the clean drawing stays for the next build."""

from __future__ import annotations

import io
import zipfile

import pytest
from PIL import Image

from sheetgen import api
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Picture
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import typed_in
from sheetgen.workbook.model.pictures import inked
from tests.loop import ISSUED, SAMPLES, fresh_loop

FLAT = Place("construction.flat_front")


@pytest.fixture
def folder(tmp_path):
    return fresh_loop(tmp_path)


def held(path) -> dict[str, bytes]:
    with zipfile.ZipFile(path) as package:
        return {name: package.read(name) for name in package.namelist() if name.startswith("xl/media/")}


def test_the_drawing_in_the_file_has_marks_and_the_clean_one_counts_at_the_next_build(folder):
    clean = api.build(SAMPLES / "overshirt" / "brief.toml").values[FLAT]
    shown = api.read(folder / "a-working.xlsx").typed[FLAT]
    assert isinstance(shown, Picture)
    assert shown.digest != clean.digest
    again = api.build(folder / "a-working.xlsx")
    assert again.values[FLAT] == clean
    assert again.data == (folder / "a-working.xlsx").read_bytes()


def test_a_mark_that_is_moved_is_drawn_elsewhere_on_the_same_clean_drawing(folder):
    path, moved = folder / "a-working.xlsx", folder / "moved.xlsx"
    typed_in(BOOK, path, {place_of("construction.callouts[N1].across"): 0.9}, moved)
    before, after = api.build(path), api.build(moved)
    (folder / "after.xlsx").write_bytes(after.data)
    assert after.values[FLAT] == before.values[FLAT]
    assert api.read(folder / "after.xlsx").typed[FLAT] != api.read(path).typed[FLAT]


def test_without_a_place_nothing_is_drawn_and_half_a_place_is_counted(folder):
    values = api.build(SAMPLES / "overshirt" / "brief.toml").values
    bare = {place: value for place, value in values.items() if place.entry.rpartition(".")[2] not in {"across", "down"}}
    made = api.from_values(bare)
    (folder / "bare.xlsx").write_bytes(made.data)
    assert api.read(folder / "bare.xlsx").typed[FLAT] == values[FLAT]
    assert made.shown[place_of("checks.wrong_construction_unplaced")] == 0
    half = api.from_values({**bare, place_of("construction.callouts[N1].down"): 0.5})
    assert half.shown[place_of("checks.wrong_construction_half_placed")] == 1
    assert half.shown[place_of("checks.wrong_construction_unplaced")] == 12


def test_another_drawing_put_in_by_hand_takes_the_place_of_both(folder):
    path = folder / "a-working.xlsx"
    buffer = io.BytesIO()
    Image.new("RGB", (400, 300), "gray").save(buffer, "PNG")
    with zipfile.ZipFile(path) as package:
        parts = {name: package.read(name) for name in package.namelist()}
    shown = api.read(path).typed[FLAT]
    changed = [name for name, data in parts.items() if name.startswith("xl/media/") and data == shown.data]
    assert len(changed) == 1
    with zipfile.ZipFile(folder / "other.xlsx", "w") as package:
        for name, data in parts.items():
            package.writestr(name, buffer.getvalue() if name in changed else data)
    assert api.build(folder / "other.xlsx").values[FLAT] == Picture(buffer.getvalue())


def test_a_copy_has_the_marked_drawing_alone_and_nothing_changed_since(folder):
    clean = api.build(SAMPLES / "overshirt" / "brief.toml").values[FLAT]
    assert clean.data not in held(folder / "a-issued.xlsx").values()
    assert clean.data in held(folder / "a-working.xlsx").values()
    shown = api.read(folder / "a-working.xlsx").typed[FLAT]
    assert api.read(folder / "a-issued.xlsx").typed[FLAT] == shown
    assert api.issue(folder / "a-working.xlsx", issued=ISSUED).receipt.revision == "1"


def test_what_is_drawn_is_found_on_white_on_nothing_and_on_gray():
    def png(mode: str, ground: object, ink: object | None) -> bytes:
        image = Image.new(mode, (100, 80), ground)
        if ink is not None:
            image.paste(ink, (20, 10, 61, 51))
        buffer = io.BytesIO()
        image.save(buffer, "PNG")
        return buffer.getvalue()

    assert inked(png("RGB", "white", "black")) == (20, 10, 61, 51)
    assert inked(png("RGBA", (0, 0, 0, 0), (10, 10, 10, 255))) == (20, 10, 61, 51)
    assert inked(png("RGB", "white", None)) == (0, 0, 100, 80)
    assert inked(png("RGB", "gray", None)) == (0, 0, 100, 80)
