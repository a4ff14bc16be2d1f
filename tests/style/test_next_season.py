"""Next season's style from this one: what is the design is kept, what was of the season is not."""

from __future__ import annotations

import datetime

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place, place_of
from sheetgen.workbook.exchange.receipts import RECEIPT_ENDING
from tests.loop import fresh_loop, loop

NUMBER = "HV-28A-OS-021"


def test_the_design_is_kept_and_the_season_is_not(tmp_path):
    folder = fresh_loop(tmp_path)
    accepted = api.accept(folder / "a-working.xlsx", folder / "a-returned.xlsx")
    (folder / "old.xlsx").write_bytes(accepted.built.data)
    old = accepted.built.values
    built = api.start_from(folder / "old.xlsx", NUMBER)
    assert built.text("style.number") == NUMBER
    assert built.text("style.revision") == "1"
    for text in ("measurements.points[P1].base", "materials.bom[M1].composition", "construction.callouts[N1].instruction",
                 "yield.pieces[Y1].long_point", "style.front", "labels.items[L1].label"):  # fmt: skip
        assert built.values[place_of(text)] == old[place_of(text)], text
    entries = api.read(folder / "old.xlsx").ready.book.entries
    assert not [place for place in built.values if entries[place.entry].entry.who == "vendor"]
    assert not [place for place, value in built.values.items() if isinstance(value, datetime.date)]
    for entry in ("style.vendor", "style.season", "quote.fob", "pricing.freight"):
        assert Place(entry) in old
        assert Place(entry) not in built.values, entry
    assert not [place for place in built.values if place.entry.startswith(("fit.", "revisions.", "order."))]
    # Nothing vanishes unsaid: each cell is in the new style, or counted in the note.
    (note,) = built.notes
    counted = sum(int(part.rstrip(".").split()[-1]) for part in note.partition(": ")[2].split(", "))
    assert counted == len(old) - len(built.values.keys() & old.keys())


def test_by_command_and_never_together_with_a_garment(tmp_path, capsys):
    source, out = str(loop() / "a-working.xlsx"), str(tmp_path / "n.xlsx")
    assert main(["start", "--from", source, "--number", NUMBER, "--out", out]) == 0
    assert "Left behind" in capsys.readouterr().out
    assert api.read(tmp_path / "n.xlsx").typed[Place("style.number")] == NUMBER
    for words in (
        ["shirt", "--from", source, "--number", NUMBER],
        ["--from", source],
        ["shirt", "--number", NUMBER],
        [],
    ):
        assert main(["start", *words, "--out", str(tmp_path / "x.xlsx")]) == 2
        said = capsys.readouterr().err
        assert said.count("\n") == 1
        assert "--number" in said
    assert sorted(path.name for path in tmp_path.iterdir() if not path.name.endswith(RECEIPT_ENDING)) == ["n.xlsx"]
