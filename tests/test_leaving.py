"""What leaves is judged: cells that point at nothing, open approvals, rows that would be lost; and nothing is written then."""

from __future__ import annotations

import datetime
import json
import zipfile
from functools import cache
from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place, place_of
from sheetgen.declare.kinds import Value
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.style.figures import figures
from sheetgen.testing.edit import Edit, edited
from sheetgen.workbook.exchange.brief import values_of
from sheetgen.workbook.model.values import Values
from tests.loop import ISSUED, loop

POINTING = [address for address, column in BOOK.entries.items() if column.entry.kind.must_stand]
NOWHERE = "Q98"


@cache
def values() -> Values:
    return api.read(loop() / "a-working.xlsx").typed


def _somewhere(address: str) -> Place:
    """A cell of that entry in a row that is filled."""
    column = BOOK.entries[address]
    if column.table is None:
        return Place(address)
    source = column.table.mirrors or f"{column.sheet.name}.{column.table.name}"
    key = f"{source}.{BOOK.tables[source][1].key}"
    fixed = column.table.rows and f"{column.table.ref}1"
    row = fixed or next((place.row for place, value in values().items() if place.entry == key and value), "")
    return Place(address, row or f"{column.table.ref}1")


def _pointed_away() -> dict[Place, Value]:
    """The overshirt with one cell of every pointing entry at a row that is not there; its row filled where it was spare."""
    changed: dict[Place, Value] = {}
    for address in POINTING:
        place = _somewhere(address)
        if place.row:
            table = address.rpartition(".")[0]
            key = BOOK.entries[f"{table}.{BOOK.tables[table][1].key}"].entry
            if key.who == "designer" and Place(f"{table}.{key.name}", place.row) not in values():
                changed[Place(f"{table}.{key.name}", place.row)] = "Something"
        changed[place] = NOWHERE
    return changed


def test_every_entry_that_points_at_nothing_is_counted_live_with_its_place():
    away = _pointed_away()
    shown = figures({**values(), **away})[1]
    for address in POINTING:
        sheet, _, rest = address.partition(".")
        name = f"{sheet}_astray_{rest.replace('.', '_')}"
        assert (shown[Place(f"checks.wrong_{name}")] or 0) >= 1, address
        if "." in rest:
            assert shown[Place(f"checks.first_{name}")], address


def test_every_entry_that_points_at_nothing_is_refused_in_a_brief():
    with pytest.raises(UserError) as raised:
        values_of(BOOK, {
            "style": {"unit": "cm", "sample_size": "XXXL", "sizes": [{"name": "M"}]},
            "yield": {"pieces": [{"material": "M1", "piece": "Front", "long_point": "P9"}]},
            "materials": {"bom": [{"item": "Twill", "instead_of": "M7"}]},
        }, Path("brief.toml"))  # fmt: skip
    said = str(raised.value)
    assert "no filled row of style.sizes is called 'XXXL' @ style.sample_size" in said
    assert "no filled row of measurements.points is called 'P9' @ yield.pieces[Y1].long_point" in said
    assert "no filled row of materials.bom is called 'M7' @ materials.bom[M1].instead_of" in said
    assert "yield.pieces[Y1].material" not in said


def test_a_fabrics_use_is_not_known_while_a_piece_has_no_length():
    """The case that was met: the front 3 cm long, and a quarter less fabric, without a word."""
    shown = figures({**values(), place_of("yield.pieces[Y1].long_point"): "P98"})[1]
    assert shown[place_of("yield.pieces[Y1].long_z3")] in (None, "")
    for name in ("meters_z3", "mix", "sample", "worked_out"):
        assert shown[place_of(f"yield.fabrics[B1].{name}")] in (None, ""), name
    assert shown[place_of("construction.callouts[N1].seam_length")] not in (None, "")


def test_a_seam_along_a_point_that_is_not_there_has_no_length():
    shown = figures({**values(), place_of("construction.callouts[N1].from_point"): "P98"})[1]
    assert shown[place_of("construction.callouts[N1].seam_length")] in (None, "")


def test_an_approval_that_nobody_decided_is_open():
    shown = figures({place: value for place, value in values().items() if place.entry != "approvals.items.decision"})[1]
    assert shown[place_of("approvals.items[V1].state")] in ("open", "open, late")
    blocking = [
        value for place, value in values().items() if place.entry == "approvals.items.blocks" and value == "yes"
    ]
    assert shown[Place("approvals.blocking")] == len(blocking)


def test_open_approvals_stop_bulk_and_a_reason_is_read_by_the_brand_alone(tmp_path, capsys):
    working = tmp_path / "o-working.xlsx"
    working.write_bytes((loop() / "a-working.xlsx").read_bytes())
    assert main(["issue", str(working), "--purpose", "bulk"]) == 1
    assert "Not issued, nothing was written: 8 to put right first." in " ".join(capsys.readouterr().out.split())
    assert list(tmp_path.iterdir()) == [working]

    assert main(["issue", str(working), "--purpose", "bulk", "--json"]) == 1
    findings = json.loads(capsys.readouterr().out)["files"][0]["findings"]
    assert sum(one["rule"] == "approval-open" for one in findings) == 8
    assert list(tmp_path.iterdir()) == [working]
    assert main(["audit", str(working), "--for", "bulk"]) == 1
    assert main(["audit", str(working), "--for", "quote"]) == 0
    capsys.readouterr()

    reason = "Kestrova holds the loom until Friday"
    assert main(["issue", str(working), "--purpose", "bulk", "--anyway", reason]) == 0
    assert "still says: purpose sample" in " ".join(capsys.readouterr().out.split())
    typed = api.read(working).typed
    assert reason in {value for place, value in typed.items() if place.entry == "revisions.log.anyway"}
    for path in (tmp_path / "o-issued.xlsx", tmp_path / "o-issued.receipt.json"):
        data = path.read_bytes()
        if path.suffix == ".xlsx":
            with zipfile.ZipFile(path) as package:
                data = b"".join(package.read(name) for name in package.namelist())
        assert b"Kestrova holds" not in data
    with pytest.raises(UserError, match="8 to put right"):
        api.issue(working, purpose="bulk", issued=ISSUED)


def test_what_would_be_lost_stops_an_issue(tmp_path, capsys):
    working = tmp_path / "o-working.xlsx"
    edited(
        BOOK, loop() / "a-working.xlsx", [Edit("materials.bom[M1]", "stray", "from the mill: 2 weeks more")], working
    )
    assert main(["issue", str(working)]) == 1
    assert "Would be lost: Materials" in capsys.readouterr().out
    assert list(tmp_path.iterdir()) == [working]


def test_only_a_working_workbook_is_judged_for_a_purpose(tmp_path, capsys):
    assert main(["audit", str(loop() / "a-returned.xlsx"), "--for", "bulk"]) == 2
    assert "is a vendor's copy" in " ".join(capsys.readouterr().err.split())


def test_the_day_of_an_issue_is_written_where_it_left_all_the_same(tmp_path):
    working = tmp_path / "o-working.xlsx"
    working.write_bytes((loop() / "a-working.xlsx").read_bytes())
    left = api.leaving(working, purpose="bulk", anyway="a reason", issued=datetime.date(2026, 11, 23))
    assert left.working is not None
    assert [one.rule for one in left.judged.findings if one.level == "fix"] == ["approval-open"] * 8
    working.write_bytes(left.working)
    typed = api.read(working).typed
    (row,) = {place.row for place, value in typed.items() if place.entry == "revisions.log.anyway" and value}
    assert typed[Place("revisions.log.date", row)] == datetime.date(2026, 11, 23)
    assert typed[Place("revisions.log.what", row)] == "Issued for bulk"
