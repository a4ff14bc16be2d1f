"""Issuing: nothing private leaves, only the vendor's cells are open, and the receipt remembers all that was sent."""

import dataclasses
import datetime
import io
import json
from pathlib import Path

import openpyxl
import pytest

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture, PictureMark
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.workbook.exchange.issue import issue
from sheetgen.workbook.exchange.receipts import find_receipt, load_receipt, receipt_from_json
from sheetgen.workbook.model.calculation import calculated
from sheetgen.workbook.model.geometry import name_of
from sheetgen.workbook.model.layout import plan
from sheetgen.workbook.model.values import ready, shape_of
from sheetgen.workbook.read.file import read
from sheetgen.workbook.write.file import workbook_bytes

from .briefs import png
from .canary import canaries, found_in, is_private, needles, own_words, parts_of
from .small import FILLED, SMALL

SAMPLES = Path(__file__).parents[2] / "sample_inputs"
DAY = datetime.date(2026, 11, 20)


def sample(book):
    if book is SMALL:
        return FILLED
    return load_style(BOOK, SAMPLES / "overshirt" / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))


@pytest.fixture(params=[SMALL, BOOK], ids=["small", "real"], scope="module")
def sent(request):
    """A book, all its private places filled, the working file and the vendor's copy of it."""
    book = request.param
    values = sample(book)
    made = ready(book, shape_of(book, values))
    values = canaries(made, values)
    working = workbook_bytes(made, values, {"kind": "working"})
    return made, values, working, issue(book, values, {}, DAY)


def test_no_private_value_is_in_any_part_of_what_is_sent(sent):
    made, values, working, issued = sent
    parts = {**parts_of(issued.data), "receipt": issued.receipt.text.encode()}
    ours = parts_of(working)
    looked_for = needles(values, made)
    private = [place for place in values if is_private(made.book.entries[place.entry])]
    assert len(looked_for) >= len(private) * 0.8
    for place, forms in looked_for.items():
        assert found_in(ours, forms), f"{place} is not in the working file: the test looks for the wrong thing"
        assert not found_in(parts, forms), f"{place} is in {found_in(parts, forms)}"


def test_no_private_result_is_in_any_part_of_what_is_sent(sent):
    made, values, working, issued = sent
    _, where = plan(made, values)
    results = {
        str(place): [f">{value!r}<".encode()]
        for place, value in calculated(made, values, where)[1].items()
        if is_private(made.book.entries[place.entry]) and isinstance(value, float) and len(f"{value:.16G}") > 7
    }
    assert results
    for place, forms in results.items():
        assert found_in(parts_of(working), forms), place
        assert not found_in(parts_of(issued.data), forms), place


def test_no_private_heading_and_no_private_name_is_in_any_part_of_what_is_sent(sent):
    made, _, working, issued = sent
    parts = {**parts_of(issued.data), "receipt": issued.receipt.text.encode()}
    ours = parts_of(working)
    words = own_words(made)
    assert len(words) >= 5
    for word, forms in words.items():
        assert found_in(ours, forms), word
        assert not found_in(parts, forms), word
    for address, column in made.book.entries.items():
        if is_private(column):
            forms = [name_of(address).encode(), address.encode()]
            assert found_in(ours, forms), address
            assert not found_in(parts, forms), address


def test_only_the_vendors_cells_are_open_and_only_where_an_answer_can_stand(sent):
    _, _, _, issued = sent
    loaded = openpyxl.load_workbook(io.BytesIO(issued.data))
    known = {**issued.laid.typed, **issued.laid.shown}
    of_vendor, waiting = set(), set()
    for address, (sheet, table, entry) in issued.laid.ready.book.entries.items():
        for place, cell in issued.laid.where.places(address) if entry.who == "vendor" else ():
            if cell.sheet not in loaded.sheetnames:
                continue
            of_vendor.add((cell.sheet, cell.row, cell.column))
            beside = f"{sheet.name}.{table.name}" if table else sheet.name
            keyed_by = next((one.who for one in table.entries if one.name == table.key), "") if table else ""
            begun = table is None or known.get(Place(f"{beside}.{table.key}", place.row)) not in (None, "")
            excused = entry.unless and known.get(Place(f"{beside}.{entry.unless}", place.row)) not in (None, "")
            now = known.get(Place(entry.asked_by)) if entry.asked_by else ""
            if (begun or keyed_by == "vendor") and not excused and now in ("", entry.asked_when or entry.member_title):
                waiting.add((cell.sheet, cell.row, cell.column))
    open_cells = {
        (sheet.title, cell.row, cell.column)
        for sheet in loaded.worksheets
        for row in sheet.iter_rows()
        for cell in row
        if type(cell).__name__ != "MergedCell" and not cell.protection.locked
    }
    assert open_cells == waiting <= of_vendor
    assert len(waiting) >= 8
    assert [sheet.title for sheet in loaded.worksheets if not sheet.protection.sheet] == ["Record"]


def made_book(made):
    return SMALL if "goods.total" in made.book.entries else BOOK


def vendor_book(made, issued):
    return ready(made_book(made), issued.receipt.shape).book


def shared(issued):
    return {place: value for place, value in issued.receipt.values.items() if not isinstance(value, PictureMark)}


def test_all_that_is_shared_is_in_the_vendors_copy(tmp_path, sent):
    made, values, _, issued = sent
    path = tmp_path / "a.xlsx"
    path.write_bytes(issued.data)
    got = read(made_book(made), path)
    entries = got.ready.book.entries
    fixed = {place for place in got.typed if entries[place.entry].entry.who == "fixed"}
    typed = {place: value for place, value in got.typed.items() if place not in fixed}
    assert typed == {place: value for place, value in values.items() if not is_private(made.book.entries[place.entry])}
    assert (got.lost, got.strays) == ([], [])


def test_the_receipt_remembers_all_that_was_sent():
    picture = Picture(png())
    values = {**FILLED, Place("style.front"): picture}
    receipt = issue(SMALL, values, {Place("style.purpose"): "sample"}, DAY).receipt
    assert (receipt.style, receipt.revision, receipt.purpose, receipt.vendor) == ("AB-001", "2", "sample", "Vendor One")
    assert (receipt.due, receipt.issued) == ("2026-12-01", "2026-11-20")
    hidden = {"style.secret", "goods.lines.target", "own.margin", "own.plan.step"}
    expected = {place: value for place, value in values.items() if place.entry not in hidden}
    expected |= {Place("style.purpose"): "sample", Place("style.front"): PictureMark(picture.digest)}
    assert receipt.values == expected
    assert receipt.shape.audience == "vendor"


def test_a_receipt_survives_its_file(tmp_path):
    values = {**FILLED, Place("style.front"): Picture(png()), Place("style.name"): 'Été \U0001f9f5\n"x"'}
    issued = issue(SMALL, values, {}, DAY)
    path = tmp_path / "a.receipt.json"
    path.write_text(issued.receipt.text, "utf-8")
    assert load_receipt(path) == issued.receipt
    assert receipt_from_json(json.loads(issued.receipt.text)) == issued.receipt


def test_the_receipt_beside_a_workbook_is_found_by_its_issue(tmp_path):
    one, two = issue(SMALL, FILLED, {}, DAY), issue(SMALL, FILLED, {Place("style.vendor"): "Vendor Two"}, DAY)
    (tmp_path / "a.receipt.json").write_text("{broken")
    (tmp_path / "b.receipt.json").write_text(one.receipt.text, "utf-8")
    (tmp_path / "c.receipt.json").write_text(two.receipt.text, "utf-8")
    workbook = tmp_path / "returned.xlsx"
    assert find_receipt(workbook, two.receipt.issue_id) == tmp_path / "c.receipt.json"
    assert find_receipt(workbook, "AB-001 rev 9 quote 000000") is None


def test_the_copy_carries_its_receipt_without_the_receipt_file(tmp_path):
    issued = issue(SMALL, FILLED, {}, DAY)
    path = tmp_path / "a.xlsx"
    path.write_bytes(issued.data)
    record = read(SMALL, path).record
    assert record["issue_id"] == issued.receipt.issue_id
    assert receipt_from_json(record["receipt"]) == issued.receipt


def test_an_issue_id_says_what_it_is_of_and_stays_the_same():
    first, again = issue(SMALL, FILLED, {}, DAY), issue(SMALL, dict(FILLED), {}, DAY)
    assert first.data == again.data
    assert first.receipt.issue_id == again.receipt.issue_id
    assert first.receipt.issue_id.startswith("AB-001 rev 2 quote ")
    others = [
        issue(SMALL, FILLED, {}, DAY + datetime.timedelta(days=1)),
        issue(SMALL, FILLED, {Place("goods.lines.net", "M1"): 1.6}, DAY),
        issue(SMALL, FILLED, {Place("style.vendor"): "Vendor Two"}, DAY),
    ]
    assert len({one.receipt.issue_id for one in (first, *others)}) == 4


def test_what_is_private_does_not_change_the_copy():
    changed = {
        **FILLED,
        Place("own.margin"): 0.75,
        Place("goods.lines.target", "M1"): 99,
        Place("style.secret"): "else",
    }
    assert issue(SMALL, changed, {}, DAY).data == issue(SMALL, FILLED, {}, DAY).data
    assert issue(SMALL, changed, {}, DAY).receipt.text == issue(SMALL, FILLED, {}, DAY).receipt.text


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", '{"axes": 1}', '{"axes": {}, "words": {}, "values": [1]}'])
def test_a_receipt_that_is_none(tmp_path, text):
    path = tmp_path / "a.receipt.json"
    path.write_text(text)
    with pytest.raises(UserError) as caught:
        load_receipt(path)
    assert (str(caught.value), caught.value.status) == (
        f"{path}: is no receipt of an issue; name the file that sheetgen issue wrote.", 3,
    )  # fmt: skip


def test_a_missing_receipt(tmp_path):
    with pytest.raises(UserError) as caught:
        load_receipt(tmp_path / "no.receipt.json")
    assert (str(caught.value), caught.value.status) == (
        f"{tmp_path / 'no.receipt.json'}: there is no such receipt; check the name.", 2,
    )  # fmt: skip


def test_a_receipt_cannot_be_changed():
    with pytest.raises(dataclasses.FrozenInstanceError):
        issue(SMALL, FILLED, {}, DAY).receipt.purpose = "bulk"  # type: ignore[misc]
