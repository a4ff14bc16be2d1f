"""Issuing and accepting, of a small style: what each option does, and what is refused in one sentence."""

from __future__ import annotations

import datetime
import json
from functools import partial
from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place, place_of
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from sheetgen.workbook.exchange.brief import values_of
from tests.edits import edited
from tests.kept import kept

DAY = datetime.date(2026, 11, 20)
SMALL = "a small style, for the tests"
STYLE = {
    "style": {
        "number": "AB-001", "name": "Apron", "unit": "cm", "sample_size": "M", "sizes": [{"name": "M"}], "revision": 4,
        "purpose": "quote", "vendor": "Kestrova Mills", "vendor_contact": "Ola Ber", "vendor_email": "ola@kestrova.example",
        "contact": "Ada Renholm", "place": "Kestrova warehouse, Harbor 3", "due": datetime.date(2026, 12, 1),
    },
    "materials": {"bom": [{"item": "Twill", "net": 1.2, "price": 4.5}, {"item": "Tape", "net": 2, "price": 0.3}]},
    "quote": {"fob": 9.5},
    "pricing": {"freight": 0.4},
}  # fmt: skip


def _make(folder: Path) -> None:
    built = api.from_values(values_of(BOOK, STYLE, folder))
    (folder / "working.xlsx").write_bytes(built.data)
    issued = api.issue(folder / "working.xlsx", anyway=SMALL, issued=DAY)
    (folder / "issued.xlsx").write_bytes(issued.data)
    (folder / "issued.receipt.json").write_text(issued.receipt.text, "utf-8")
    edits = [Edit("quote.fob", "type", 9.25), Edit("materials.bom[M1].price", "type", 4.75)]
    edited(BOOK, folder / "issued.xlsx", edits, folder / "returned.xlsx")


_FILES = partial(_make)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The small style's working file, its issued copy with the receipt, and a return with two other prices."""
    for path in kept("small-style", _FILES).iterdir():
        (tmp_path / path.name).write_bytes(path.read_bytes())
    return tmp_path


def value(issued, entry: str) -> object:
    return issued.receipt.values.get(Place(entry))


def test_the_copy_goes_to_the_files_vendor_as_the_file_says(folder: Path) -> None:
    receipt = api.issue(folder / "working.xlsx", anyway=SMALL, issued=DAY).receipt
    assert (receipt.vendor, receipt.purpose, receipt.due) == ("Kestrova Mills", "quote", "2026-12-01")
    assert receipt.values[Place("quote.fob")] == 9.5
    assert receipt.values[Place("style.place")] == "Kestrova warehouse, Harbor 3"
    assert Place("pricing.freight") not in receipt.values


def test_options_stand_before_what_the_file_says(folder: Path) -> None:
    issued = api.issue(
        folder / "working.xlsx", anyway=SMALL, purpose="sample", due=datetime.date(2027, 1, 8), contact="Ira Sen", email="ira@x.example",
        issued=DAY,
    )  # fmt: skip
    assert (issued.receipt.purpose, issued.receipt.due, issued.receipt.vendor) == (
        "sample",
        "2027-01-08",
        "Kestrova Mills",
    )
    assert (value(issued, "style.vendor_contact"), value(issued, "style.vendor_email")) == ("Ira Sen", "ira@x.example")
    assert value(issued, "quote.fob") == 9.5


def test_the_same_vendor_by_name_keeps_its_answers(folder: Path) -> None:
    issued = api.issue(folder / "working.xlsx", anyway=SMALL, vendor="Kestrova Mills", issued=DAY)
    assert value(issued, "quote.fob") == 9.5
    assert value(issued, "style.vendor_contact") == "Ola Ber"


def test_another_vendor_gets_neither_answers_nor_contact_nor_premises(folder: Path) -> None:
    issued = api.issue(folder / "working.xlsx", anyway=SMALL, vendor="Ambelora Garments", issued=DAY)
    assert issued.receipt.vendor == "Ambelora Garments"
    gone = ("quote.fob", "style.vendor_contact", "style.vendor_email", "style.place")
    assert [value(issued, entry) for entry in gone] == [None] * 4
    assert place_of("materials.bom[M1].price") not in issued.receipt.values
    assert issued.receipt.values[place_of("materials.bom[M1].item")] == "Twill"
    assert value(issued, "style.due") == datetime.date(2026, 12, 1)


@pytest.mark.parametrize(
    ("place", "stays"),
    [
        ("Kestrova warehouse, Harbor 3", False),
        ("at MILLS, Harbor 3", False),
        ("Kestrova,Harbor 3", False),
        ("Port of Lindhavn", True),
        ("the mil at Harbor 3", True),  # a part of a word is no name
    ],
)
def test_a_place_that_speaks_of_the_first_vendor_is_its_premises(folder: Path, place: str, stays: bool) -> None:
    edited(BOOK, folder / "working.xlsx", [Edit("style.place", "type", place)], folder / "b.xlsx")
    issued = api.issue(folder / "b.xlsx", anyway=SMALL, vendor="Ambelora Garments", issued=DAY)
    assert (value(issued, "style.place") == place) is stays


def test_short_words_of_a_name_are_nobodys(folder: Path) -> None:
    edits = [Edit("style.vendor", "type", "Ola & Co"), Edit("style.place", "type", "Co warehouse, Ola quay")]
    edited(BOOK, folder / "working.xlsx", edits, folder / "b.xlsx")
    assert (
        value(api.issue(folder / "b.xlsx", anyway=SMALL, vendor="Ambelora", issued=DAY), "style.place")
        == "Co warehouse, Ola quay"
    )


def test_an_issue_without_a_day_is_of_today(folder: Path) -> None:
    assert api.issue(folder / "working.xlsx", anyway=SMALL).receipt.issued == datetime.date.today().isoformat()


def refused(call) -> str:
    with pytest.raises(UserError) as caught:
        call()
    return str(caught.value)


def test_a_vendors_copy_is_neither_issued_nor_accepted_into(folder: Path) -> None:
    copy, returned = folder / "issued.xlsx", folder / "returned.xlsx"
    assert refused(lambda: api.issue(copy)) == f"{copy}: is a vendor's copy already; issue from the working workbook."
    assert refused(lambda: api.accept(copy, returned)) == (
        f"{copy}: is a vendor's copy; accept into the working workbook."
    )


def log_of(accepted, row: str) -> dict[str, object]:
    return {
        place.entry.rpartition(".")[2]: held
        for place, held in accepted.built.values.items()
        if place.entry.startswith("revisions.log.") and place.row == row
    }


def test_a_return_becomes_the_next_revision(folder: Path) -> None:
    accepted = api.accept(folder / "working.xlsx", folder / "returned.xlsx", date=DAY)
    values = accepted.built.values
    assert values[Place("quote.fob")] == 9.25
    assert values[place_of("materials.bom[M1].price")] == 4.75
    assert values[place_of("materials.bom[M2].price")] == 0.3
    assert values[Place("pricing.freight")] == 0.4
    assert (values[Place("style.revision")], values[Place("style.date")]) == (5, DAY)
    issue_id = json.loads((folder / "issued.receipt.json").read_text("utf-8"))["issue_id"]
    assert log_of(accepted, "W1") == {
        "revision": 5, "date": DAY, "by": "Ada Renholm", "why": f"Return of issue {issue_id}",
        "what": "2 answers of the vendor taken over, 0 left open",
    }  # fmt: skip
    assert [one.outcome for one in accepted.acceptance.changes] == ["taken", "taken"]
    assert accepted.audit.file == folder / "returned.xlsx"
    assert accepted.built.not_carried == ()


def test_the_next_revision_after_a_style_without_one_is_the_first(folder: Path) -> None:
    edits = [
        Edit("style.revision", "type", None),
        Edit("style.contact", "type", None),
        Edit("revisions.log[W1].what", "type", "Begun"),
    ]
    edited(BOOK, folder / "working.xlsx", edits, folder / "b.xlsx")
    accepted = api.accept(folder / "b.xlsx", folder / "returned.xlsx")
    assert accepted.built.values[Place("style.revision")] == 1
    assert accepted.built.values[Place("style.date")] == datetime.date.today()
    log = log_of(accepted, "W2")
    assert (log["revision"], log["by"]) == (1, "designer")
    assert log_of(accepted, "W1") == {"what": "Begun"}


def test_what_the_working_file_cannot_carry_over_is_named(folder: Path) -> None:
    edited(BOOK, folder / "working.xlsx", [Edit("Ideas", "add-sheet", "a bib")], folder / "b.xlsx")
    accepted = api.accept(folder / "b.xlsx", folder / "returned.xlsx", by="Ada", date=DAY)
    assert accepted.built.not_carried == ("Ideas: the whole sheet is not one of ours",)
    assert log_of(accepted, "W1")["by"] == "Ada"


def test_what_is_left_open_is_counted(folder: Path) -> None:
    edits = [
        Edit("materials.bom[M1].net", "type", 9),
        Edit("materials.bom[M2].price", "type", "0,35"),
        Edit("quote.remark", "type", "Later"),
    ]
    edited(BOOK, folder / "returned.xlsx", edits, folder / "back.xlsx")
    edited(BOOK, folder / "working.xlsx", [Edit("quote.remark", "type", "Sooner")], folder / "b.xlsx")
    accepted = api.accept(folder / "b.xlsx", folder / "back.xlsx", date=DAY)
    assert [len(accepted.acceptance.of(outcome)) for outcome in ("taken", "refused", "conflict")] == [2, 2, 1]
    assert log_of(accepted, "W1")["what"] == "2 answers of the vendor taken over, 3 left open"


def test_a_return_of_another_style_is_refused(folder: Path) -> None:
    edited(BOOK, folder / "working.xlsx", [Edit("style.number", "type", "AB-002")], folder / "b.xlsx")
    working, returned = folder / "b.xlsx", folder / "returned.xlsx"
    assert refused(lambda: api.accept(working, returned)) == (
        f"{returned}: answers style AB-001, {working} is style AB-002; name the working workbook of that style."
    )


def test_a_working_file_is_no_return(folder: Path) -> None:
    working = folder / "working.xlsx"
    assert refused(lambda: api.accept(working, working)) == (
        f"{working}: its receipt is not beside it; name it with --receipt."
    )


@pytest.mark.parametrize(
    ("change", "rule"),
    [
        ({"issue_id": "AB-001 rev 4 quote 000000"}, "another issue"),
        ({"style": "AB-009"}, "another style"),
        ({"vendor": "Ambelora Garments"}, "another vendor"),
    ],
)
def test_a_return_of_another_issue_is_refused(folder: Path, change: dict[str, str], rule: str) -> None:
    receipt = folder / "other.json"
    data = json.loads((folder / "issued.receipt.json").read_text("utf-8"))
    receipt.write_text(json.dumps({**data, **change}), "utf-8")
    returned = folder / "returned.xlsx"
    says = refused(lambda: api.accept(folder / "working.xlsx", returned, receipt=receipt))
    assert says.startswith(f"{returned}: cannot be accepted: "), rule


def test_a_return_of_an_older_issue_is_refused(folder: Path) -> None:
    data = json.loads((folder / "issued.receipt.json").read_text("utf-8"))
    later = {**data, "issue_id": "AB-001 rev 5 quote 000000", "revision": "5"}
    (folder / "later.receipt.json").write_text(json.dumps(later), "utf-8")
    says = refused(lambda: api.accept(folder / "working.xlsx", folder / "returned.xlsx"))
    assert "cannot be accepted: " in says


@pytest.mark.parametrize("take", ["quote.nothing", "materials.nothing[M1].price", "nothing", "materials.bom[M1].prize"])
def test_a_place_to_take_that_is_none_is_refused(folder: Path, take: str) -> None:
    says = refused(lambda: api.accept(folder / "working.xlsx", folder / "returned.xlsx", take=["quote.fob", take]))
    assert says == (
        f"--take {take}: there is no such place; write it as materials.bom[M3].price, or name a row (materials.bom[M3]), "
        "a column (materials.bom.price) or a sheet (materials)."
    )


def test_locked_values_are_taken_when_their_row_or_their_place_is_asked_for(folder: Path) -> None:
    edits = [
        Edit("materials.bom[M1].net", "type", 1.3),
        Edit("materials.bom[M2].net", "type", 2.5),
        Edit("style.fit", "type", "roomy"),
        Edit("style.name", "type", "Bib"),
    ]
    edited(BOOK, folder / "returned.xlsx", edits, folder / "back.xlsx")
    accepted = api.accept(folder / "working.xlsx", folder / "back.xlsx", take=["materials.bom[M1]", "style.fit"])
    values = accepted.built.values
    assert (values[place_of("materials.bom[M1].net")], values[Place("style.fit")]) == (1.3, "roomy")
    assert (values[place_of("materials.bom[M2].net")], values[Place("style.name")]) == (2, "Apron")
    reasons = {str(one.place): one.reason for one in accepted.acceptance.of("refused")}
    assert set(reasons) == {"materials.bom[M2].net", "style.name"}
    assert reasons["style.name"].endswith("was sent as Apron and came back as Bib.")


def test_a_value_of_the_wrong_kind_is_not_taken_whoever_asks(folder: Path) -> None:
    edits = [Edit("materials.bom[M1].price", "type", "4,75"), Edit("materials.bom[M1].net", "type", "1,3")]
    edited(BOOK, folder / "returned.xlsx", edits, folder / "back.xlsx")
    accepted = api.accept(folder / "working.xlsx", folder / "back.xlsx", take=["materials.bom[M1].price"])
    refused_ = [str(one.place) for one in accepted.acceptance.of("refused")]
    assert refused_ == ["materials.bom[M1].net", "materials.bom[M1].price"]
