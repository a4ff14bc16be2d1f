"""Receipts: what was sent, as a file and back, found again among others; an issue's id says what it is of."""

from __future__ import annotations

import datetime
import hashlib
import json
from dataclasses import asdict, fields, replace
from pathlib import Path

import pytest

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, PictureMark
from sheetgen.errors import UserError
from sheetgen.workbook.exchange.issue import issue, shared_values
from sheetgen.workbook.exchange.receipts import (
    find_receipt,
    fixed_and_sent,
    heads_in,
    load_receipt,
    receipt_from_json,
)
from sheetgen.workbook.model.values import Values, ready
from sheetgen.workbook.read.file import read
from sheetgen.workbook.write.file import Artist
from tests.workbook.briefs import png
from tests.workbook.exchanged import BOOK, DAY, FILLED

SKETCH = Picture(png())
VALUES: Values = {
    **FILLED,
    Place("style.revision"): 3,
    Place("style.purpose"): "quote",
    Place("style.vendor"): "Vendor One",
    Place("style.due"): datetime.date(2026, 12, 1),
    Place("style.name"): "Été \U0001f9f5",
    Place("goods.sketch"): SKETCH,
    Place("goods.lines.price", "M1"): 4.25,
}
SHARED = {place: value for place, value in VALUES.items() if place.entry != "goods.margin"}
"""All but what is the brand's own."""


def as_json(receipt) -> dict:
    return json.loads(json.dumps(receipt.to_json()))


def test_a_receipt_says_who_what_for_until_when_and_all_that_was_shared() -> None:
    receipt = issue(BOOK, VALUES, {}, DAY).receipt
    assert (receipt.style, receipt.revision, receipt.purpose) == ("AB-001", "3", "quote")
    assert (receipt.vendor, receipt.due, receipt.issued) == ("Vendor One", "2026-12-01", "2026-11-20")
    assert receipt.values == {**SHARED, Place("goods.sketch"): PictureMark(SKETCH.digest)}
    assert receipt.shape.audience == "vendor"
    assert receipt.shape.axes == (("size", ("M",)),)


def test_what_an_issue_sets_stands_before_what_the_style_says() -> None:
    changes: Values = {Place("style.purpose"): "bulk", Place("style.vendor"): "Vendor Two", Place("goods.margin"): 0.9}
    receipt = issue(BOOK, VALUES, changes, DAY).receipt
    assert (receipt.purpose, receipt.vendor) == ("bulk", "Vendor Two")
    assert receipt.values[Place("style.purpose")] == "bulk"
    assert Place("goods.margin") not in receipt.values


def test_an_empty_style_has_a_receipt_of_empty_words() -> None:
    receipt = issue(BOOK, {}, {}, DAY).receipt
    assert (receipt.style, receipt.revision, receipt.purpose, receipt.vendor, receipt.due) == ("", "", "", "", "")
    assert receipt.values == {}


def test_an_issues_id_is_style_revision_purpose_and_a_mark_of_all_that_was_sent() -> None:
    receipt = issue(BOOK, {Place("style.number"): "AB-001"}, {}, DAY).receipt
    # The mark: the first six figures of the SHA-256 of the values as JSON, a bar, and the day.
    mark = hashlib.sha256(b'[["style.number", "", "AB-001"]]|2026-11-20').hexdigest()[:6]
    assert receipt.issue_id == f"AB-001 rev   {mark}"
    mark = hashlib.sha256(b'[["style.name", "", "\\u00c9t\\u00e9"]]|2026-11-20').hexdigest()[:6]
    assert issue(BOOK, {Place("style.name"): "Été"}, {}, DAY).receipt.issue_id == f" rev   {mark}"
    named = issue(BOOK, VALUES, {}, DAY).receipt.issue_id
    assert named[:-6] == "AB-001 rev 3 quote "
    assert issue(BOOK, dict(VALUES), {}, DAY).receipt.issue_id == named


@pytest.mark.parametrize(
    "change",
    [
        {Place("goods.lines.price", "M1"): 4.26},
        {Place("goods.sketch"): Picture(png((1, 2, 3)))},
        {Place("style.due"): datetime.date(2026, 12, 2)},
        {Place("style.name"): "Été"},
    ],
)
def test_another_value_gives_another_id(change: Values) -> None:
    assert issue(BOOK, VALUES, change, DAY).receipt.issue_id != issue(BOOK, VALUES, {}, DAY).receipt.issue_id


def test_a_receipts_text_is_json_that_a_person_can_read() -> None:
    issued = issue(BOOK, VALUES, {}, DAY)
    assert issued.receipt.text.endswith("}\n")
    assert "Été \U0001f9f5" in issued.receipt.text
    assert '\n "style": "AB-001",\n' in issued.receipt.text
    data = json.loads(issued.receipt.text)
    assert data == as_json(issued.receipt)
    assert {key: data[key] for key in data if key not in {"values", "issue_id", "written"}} == {
        "sheetgen_receipt": 3, "style": "AB-001", "revision": "3", "purpose": "quote", "vendor": "Vendor One",
        "due": "2026-12-01", "issued": "2026-11-20", "axes": {"size": ["M"]},
        "words": {"{unit}": "in", "{other}": "cm", "{currency}": "EUR", "{parts}": "16"},
    }  # fmt: skip
    values = {(entry, row): value for entry, row, value in data["values"]}
    assert values["style.due", ""] == {"date": "2026-12-01"}
    assert values["goods.sketch", ""] == {"picture": SKETCH.digest}
    assert values["goods.lines.price", "M1"] == 4.25
    assert values["style.revision", ""] == 3


def test_a_receipt_comes_back_from_json_as_it_was() -> None:
    receipt = issue(BOOK, VALUES, {}, DAY).receipt
    again = receipt_from_json(as_json(receipt))
    assert again == receipt
    assert type(again.values[Place("style.revision")]) is int
    assert again.values[Place("style.due")] == datetime.date(2026, 12, 1)


def test_a_value_that_no_cell_can_hold_counts_as_nothing() -> None:
    data = as_json(issue(BOOK, VALUES, {}, DAY).receipt)
    data["values"] = [["style.name", "", None], ["style.number", "", ["AB"]]]
    assert receipt_from_json(data).values == {Place("style.name"): None, Place("style.number"): None}


@pytest.mark.parametrize(
    ("key", "value"),
    [
        ("axes", None), ("axes", [1]), ("words", 3), ("values", [["a"]]), ("values", None),
        ("values", [["style.due", "", {"date": "soon"}]]), ("values", [["style.due", "", {}]]),
    ],
)  # fmt: skip
def test_what_is_no_receipt_is_refused(key: str, value: object) -> None:
    data = {**as_json(issue(BOOK, VALUES, {}, DAY).receipt), key: value}
    with pytest.raises(ValueError, match=r"^no receipt: "):
        receipt_from_json(data)


@pytest.mark.parametrize("key", ["issue_id", "style", "revision", "purpose", "vendor", "due", "issued"])
def test_a_receipt_lacks_nothing(key: str) -> None:
    data = as_json(issue(BOOK, VALUES, {}, DAY).receipt)
    del data[key]
    with pytest.raises(ValueError, match=key):
        receipt_from_json(data)


def test_a_file_that_is_no_receipt_is_one_sentence(tmp_path: Path) -> None:
    path = tmp_path / "a.receipt.json"
    with pytest.raises(UserError) as missing:
        load_receipt(path)
    assert (str(missing.value), missing.value.status) == (f"{path}: there is no such receipt; check the name.", 2)
    path.mkdir()
    with pytest.raises(UserError) as folder:
        load_receipt(path)
    words = f"{path}: is no receipt of an issue; name the file that sheetgen issue wrote."
    assert (str(folder.value), folder.value.status) == (words, 3)


def three(folder: Path) -> list[str]:
    """Three receipts among other files; their ids in the order of the files' names."""
    ids = []
    for name, vendor in (("b", "Vendor Two"), ("a", "Vendor One"), ("d", "Vendor Three")):
        issued = issue(BOOK, VALUES, {Place("style.vendor"): vendor}, DAY)
        (folder / f"{name}.receipt.json").write_text(issued.receipt.text, "utf-8")
        ids.append(issued.receipt.issue_id)
    (folder / "0.receipt.json").write_text("{", "utf-8")
    (folder / "c.json").write_text("{}", "utf-8")
    return [ids[1], ids[0], ids[2]]


def test_the_receipts_beside_a_workbook_are_those_that_can_be_read(tmp_path: Path) -> None:
    ids = three(tmp_path)
    workbook = tmp_path / "returned.xlsx"
    assert [head.issue_id for head, _ in heads_in(tmp_path)] == ids
    for head, path in heads_in(tmp_path):
        whole = load_receipt(path)
        assert asdict(head) == {one.name: getattr(whole, one.name) for one in fields(head)}
    assert find_receipt(workbook, ids[1]) == tmp_path / "b.receipt.json"
    assert find_receipt(workbook, ids[2]) == tmp_path / "d.receipt.json"
    assert find_receipt(workbook, "AB-001 rev 9 quote 000000") is None


def test_a_receipt_that_is_another_one_now_is_read_anew(tmp_path: Path) -> None:
    ids = three(tmp_path)
    assert [head.issue_id for head, _ in heads_in(tmp_path)] == ids
    (tmp_path / "b.receipt.json").write_bytes((tmp_path / "d.receipt.json").read_bytes())
    assert find_receipt(tmp_path / "returned.xlsx", ids[1]) is None
    (tmp_path / "d.receipt.json").unlink()
    assert find_receipt(tmp_path / "returned.xlsx", ids[2]) == tmp_path / "b.receipt.json"


def test_the_copy_carries_its_id_and_its_receipt(tmp_path: Path) -> None:
    issued = issue(BOOK, VALUES, {}, DAY)
    (tmp_path / "a.xlsx").write_bytes(issued.data)
    record = read(BOOK, tmp_path / "a.xlsx").record
    assert record["issue_id"] == issued.receipt.issue_id
    assert receipt_from_json(record["receipt"]) == issued.receipt


def test_what_is_shared_is_what_the_vendors_book_has_entries_for() -> None:
    receipt = issue(BOOK, VALUES, {}, DAY).receipt
    assert shared_values(ready(BOOK, receipt.shape), {**VALUES, Place("goods.gone"): 1}) == SHARED


def test_what_was_sent_comes_after_what_the_declaration_fills() -> None:
    receipt = issue(BOOK, VALUES, {}, DAY).receipt
    fixed = {Place("goods.grades.grade", "G1"): "A", Place("goods.grades.grade", "G2"): "B"}
    vendors = ready(BOOK, receipt.shape)
    assert fixed_and_sent(vendors, receipt) == {**fixed, **receipt.values}
    changed = replace(receipt, values={Place("goods.grades.grade", "G1"): "C"})
    assert fixed_and_sent(vendors, changed) == {**fixed, Place("goods.grades.grade", "G1"): "C"}


def test_the_artist_is_asked_for_the_vendors_copy_and_what_is_shared() -> None:
    asked = []

    def artist(book, values) -> Artist | None:
        asked.append((book.shape.audience, values))
        return None

    assert issue(BOOK, VALUES, {}, DAY, artist).data == issue(BOOK, VALUES, {}, DAY).data
    assert asked == [("vendor", SHARED)]
