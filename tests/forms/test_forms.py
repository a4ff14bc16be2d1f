"""Files of every released form, audited and built for ever as they were then; and what a changed book makes of them.

A copy is out at a vendor for weeks: the sheets may change in the meantime, the copy does not.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.audit import RULES
from sheetgen.audit.run import Audit, audit
from sheetgen.declare.entry import Entry, Place, designer, place_of, vendor
from sheetgen.declare.kinds import Picture, text
from sheetgen.declare.parts import Book, Form, Section, Sheet, Table
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.workbook.exchange.accept import carried, merge
from sheetgen.workbook.exchange.receipts import load_receipt
from sheetgen.workbook.model import packing
from sheetgen.workbook.model.moving import moves_since
from sheetgen.workbook.model.values import ready, shape_of
from sheetgen.workbook.read.file import read
from tests.forms.make import as_text

FORMS = sorted(path for path in Path(__file__).parent.glob("form_*"))
MOVES = {
    "materials.bom.remark": "materials.bom.note_of_vendor",
    "quote.tooling_for": "quote.tools_for",
    "labels.items.wording": "wordings.items.wording",
    "labels.items.place": "wordings.items.place",
}
"""What the changed book calls otherwise, moves to a table of its own on a new sheet, or both."""


@pytest.fixture(params=FORMS, ids=[path.name for path in FORMS])
def form(request: pytest.FixtureRequest) -> Path:
    path = request.param
    assert isinstance(path, Path)
    return path


def known(form: Path) -> dict[str, list[str]]:
    said: dict[str, list[str]] = json.loads((form / "audited.json").read_text("utf-8"))
    return said


def shorts(result: Audit, rules: list[str], back: Mapping[str, str] | None = None) -> list[str]:
    """What rules of that time say, under the addresses of that time."""
    found = []
    for finding in result.findings:
        if finding.rule in rules:
            place = place_of(finding.place) if finding.place else None
            old = (back or {}).get(place.entry) if place else None
            named = str(Place(old, place.row)) if place and old else finding.place
            found.append(f"{finding.rule} {named}" if named else finding.short)
    return sorted(found)


def test_there_is_a_form() -> None:
    assert f"form_{packing.FORM}" in [path.name for path in FORMS], "run python -m tests.forms.make"


def test_a_return_of_any_form_is_audited_as_it_was_then(form: Path) -> None:
    said = known(form)
    assert shorts(api.audit(form / "returned.xlsx"), said["rules"]) == said["findings"]


def test_a_working_file_of_any_form_is_built_anew_with_nothing_lost(form: Path, tmp_path: Path) -> None:
    before = json.loads((form / "typed.json").read_text("utf-8"))
    built = api.build(form / "working.xlsx")
    assert list(built.not_carried) == []
    moves = moves_since(BOOK, int(form.name.partition("_")[2]))
    after = {str(place): as_text(value) for place, value in built.values.items() if not isinstance(value, Picture)}
    for place, value in before.items():
        now = place_of(place)
        assert after[str(Place(moves.get(now.entry, now.entry), now.row))] == value, place


def test_a_newer_form_is_one_sentence(form: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(packing, "FORM", int(form.name.partition("_")[2]) - 1)
    for path in (form / "returned.xlsx", form / "working.xlsx"):
        with pytest.raises(UserError, match="was written by a newer sheetgen") as caught:
            api.audit(path)
        assert caught.value.status == 3
    with pytest.raises(UserError, match="was written by a newer sheetgen"):
        load_receipt(form / "issued.receipt.json")


# A changed book: columns added and renamed, an entry moved to another sheet, headings and choices other than they were.


def _changed_entry(sheet: Sheet, table: Table | None, entry: Entry) -> Entry:
    start = f"{sheet.name}.{table.name}" if table else sheet.name
    new = MOVES.get(f"{start}.{entry.name}")
    changed = replace(entry, name=new.rpartition(".")[2]) if new else entry
    return replace(changed, heading=f"{changed.heading} (new)") if entry.name in {"item", "price"} else changed


def _changed_part(sheet: Sheet, part: object) -> object:
    if isinstance(part, Table):
        columns: list[Entry | Section] = [
            replace(one, columns=tuple(_changed_entry(sheet, part, entry) for entry in one.columns))
            if isinstance(one, Section) else _changed_entry(sheet, part, one)
            for one in part.columns
        ]  # fmt: skip
        if f"{sheet.name}.{part.name}" == "materials.bom":
            columns[1:1] = [designer("shade", "Shade", text(12)), vendor("batch", "Batch", text(12), need="quote")]
        return replace(part, columns=tuple(columns))
    if isinstance(part, Form):
        return replace(part, entries=tuple(_changed_entry(sheet, None, entry) for entry in part.entries))
    return part


def changed_book() -> Book:
    """Today's book as it could be tomorrow."""
    moved = {int(path.name.partition("_")[2]): MOVES for path in FORMS[-1:]}
    sheets = tuple(
        replace(sheet, title=f"{sheet.title} 2" if sheet.name == "fit" else sheet.title,
                parts=tuple(_changed_part(sheet, part) for part in sheet.parts))  # type: ignore[arg-type]
        for sheet in BOOK.sheets
    )  # fmt: skip
    return replace(BOOK, sheets=sheets, moved={**BOOK.moved, **moved})


CHANGED = changed_book()


LAST = FORMS[-1:]


@pytest.mark.parametrize("form", LAST, ids=["last"])
def test_a_changed_book_audits_yesterdays_return_as_yesterday_did(form: Path) -> None:
    said = known(form)
    result = audit(CHANGED, RULES, form / "returned.xlsx")
    back = {new: old for old, new in MOVES.items()}
    assert shorts(result, said["rules"], back) == said["findings"]


@pytest.mark.parametrize("form", LAST, ids=["last"])
def test_a_changed_book_finds_every_value_under_its_address_of_today(form: Path) -> None:
    before, after = read(BOOK, form / "returned.xlsx"), read(CHANGED, form / "returned.xlsx")
    moved = {Place(MOVES.get(place.entry, place.entry), place.row): value for place, value in before.typed.items()}
    assert after.typed == moved
    assert after.accounts.counts == before.accounts.counts
    assert after.formulas == {
        Place(MOVES.get(place.entry, place.entry), place.row): one for place, one in before.formulas.items()
    }


@pytest.mark.parametrize("form", LAST, ids=["last"])
def test_a_changed_book_accepts_yesterdays_answers(form: Path) -> None:
    result = audit(CHANGED, RULES, form / "returned.xlsx")
    assert result.sent is not None
    working = read(CHANGED, form / "working.xlsx")
    acceptance = merge(working, result.sent, result.got, {})
    taken = {change.place for change in acceptance.of("taken")}
    assert len(taken) > 20 and any(place.entry in MOVES.values() for place in acceptance.values)
    book = ready(CHANGED, shape_of(CHANGED, acceptance.values)).book
    assert {place.entry for place in acceptance.values} <= set(book.entries) | {
        place.entry for place in carried(working)[0]
    }
