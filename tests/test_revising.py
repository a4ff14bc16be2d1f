"""A change after a copy left: the next revision says, cell by cell, what changed; the vendor is asked what it costs."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import typed_in
from sheetgen.workbook.exchange.receipts import load_receipt
from sheetgen.workbook.model.values import Values, refs
from tests.loop import loop

CHANGED: dict[str, Value] = {
    "measurements.points[P1].base": 59.0,
    "materials.bom[M1].composition": "98 % cotton, 2 % elastane",
    "construction.callouts[N2].instruction": "Topstitch twice",
}
DECIDED: dict[str, Value] = {"fit.rounds[R1].decision": "approved", "fit.rounds[R1].comment": "wider next time"}
"""What a brand answers on a sample is no change of the garment."""


@pytest.fixture
def changed(tmp_path: Path) -> Path:
    """The overshirt after its copy left, with three cells of the garment changed, and a round decided."""
    for name in ("a-working.xlsx", "a-issued.receipt.json"):
        shutil.copy(loop() / name, tmp_path / name)
    values = {place_of(place): value for place, value in {**CHANGED, **DECIDED}.items()}
    typed_in(BOOK, loop() / "a-working.xlsx", values, tmp_path / "a-working.xlsx")
    return tmp_path / "a-working.xlsx"


def lines(values: Values) -> dict[Value, tuple[Value, Value, Value]]:
    log = "revisions.log"
    return {
        values[Place(f"{log}.what", row)]: (
            values.get(Place(f"{log}.before", row)), values.get(Place(f"{log}.after", row)), values.get(Place(f"{log}.revision", row)),
        )
        for row in refs(log, values)
    }  # fmt: skip


def test_a_change_as_the_same_revision_is_held_back_and_says_how_to_go_on(changed, capsys):
    assert main(["issue", str(changed), "--out", str(changed.with_name("b.xlsx"))]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert "--revise" in said
    assert not changed.with_name("b.xlsx").exists()


def test_a_revision_lists_what_changed_and_asks_the_vendor_what_it_costs(changed, capsys):
    out = changed.with_name("b.xlsx")
    assert main(["issue", str(changed), "--out", str(out), "--revise", "Tried on: too narrow"]) == 0
    assert re.search(r"Revisions say what changed since issue [^:]+: 3\)", " ".join(capsys.readouterr().out.split()))
    working = api.read(changed).typed
    assert working[Place("style.revision")] == 2
    written = {what: line for what, line in lines(working).items() if line[2] == 2}
    seam = next(what for what in written if str(what).startswith("Instruction of N2 "))
    assert written == {
        "The base of P1 Chest width": ("58", "59", 2),
        "Composition of M1 Shell, cotton twill 3/1, peached": ("100% cotton", "98 % cotton, 2 % elastane", 2),
        seam: (written[seam][0], "Topstitch twice", 2),
    }
    assert written[seam][0] != written[seam][1]
    copy = api.read(out)
    assert {what: line for what, line in lines(copy.typed).items() if line[2] == 2} == written
    assert copy.shown[Place("checks.open_revisions_log_cost")] == 3
    assert load_receipt(out.with_name("b.receipt.json")).revision == "2"


def test_a_revision_raised_by_hand_is_listed_too_and_only_once(changed):
    typed_in(BOOK, changed, {Place("style.revision"): 2}, changed)
    assert main(["issue", str(changed), "--out", str(changed.with_name("b.xlsx"))]) == 0
    once = lines(api.read(changed).typed)
    assert "The base of P1 Chest width" in once
    left = api.leaving(changed)
    assert left.changed == 0
    assert left.working is None


def test_nothing_changed_is_nothing_to_revise(tmp_path, capsys):
    for name in ("a-working.xlsx", "a-issued.receipt.json"):
        shutil.copy(loop() / name, tmp_path / name)
    working = tmp_path / "a-working.xlsx"
    before = working.read_bytes()
    assert main(["issue", str(working), "--out", str(tmp_path / "b.xlsx"), "--revise", "why"]) == 2
    assert "nothing changed since issue" in capsys.readouterr().err
    (tmp_path / "a-issued.receipt.json").unlink()
    assert main(["issue", str(working), "--out", str(tmp_path / "b.xlsx"), "--revise", "why"]) == 2
    assert "no receipt of a copy to this vendor lies beside it" in capsys.readouterr().err
    assert working.read_bytes() == before


def test_a_long_list_is_counted_by_sheet(changed):
    of_points = {Place("measurements.points.how", f"P{n}"): f"Anew {n}" for n in range(1, 21)}
    of_seams = {Place("construction.callouts.density", f"N{n}"): 9.5 for n in range(1, 13)}
    of_labels = {Place("labels.items.colors", f"L{n}"): "Red" for n in range(1, 6)}
    of_materials = {Place("materials.bom.note", f"M{n}"): "Another" for n in range(1, 17)}
    typed_in(BOOK, changed, {**of_points, **of_seams, **of_labels, **of_materials}, changed)
    left = api.leaving(changed, revise="All anew", anyway="a test")
    assert left.working is not None
    changed.write_bytes(left.working)
    written = [what for what, line in lines(api.read(changed).typed).items() if line[2] == 2]
    assert len(written) < 45
    assert any(str(what).endswith("more cells") for what in written)
