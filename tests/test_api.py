"""Accepting puts three versions together; comparing names what differs. Expected outcomes are written by hand."""

import datetime
import zipfile

import pytest

from sheetgen import api
from sheetgen.declare.entry import Place, place_of
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit
from sheetgen.workbook.exchange.brief import values_of
from tests.edits import edited
from tests.loop import fresh_loop

ON = datetime.date(2026, 12, 14)


def accept(folder, working="a-working.xlsx", returned="a-returned.xlsx", **options):
    return api.accept(folder / working, folder / returned, by="Ada", date=ON, **options)


@pytest.fixture(scope="module")
def clean(tmp_path_factory):
    """The clean return accepted, and the folder with the next working file beside the others."""
    folder = fresh_loop(tmp_path_factory.mktemp("clean"))
    accepted = accept(folder)
    (folder / "c-working.xlsx").write_bytes(accepted.built.data)
    return folder, accepted


def test_a_clean_return_is_taken_whole(clean):
    folder, accepted = clean
    assert accepted.acceptance.of("refused") == []
    assert accepted.acceptance.of("conflict") == []
    values = accepted.built.values
    returned = api.read(folder / "a-returned.xlsx").typed
    assert values[Place("quote.fob")] == returned[Place("quote.fob")]
    assert values[Place("style.revision")] == 2
    assert values[Place("style.date")] == ON
    # What only the brand has is still there: the vendor never saw it.
    assert values[Place("pricing.freight")] == api.read(folder / "a-working.xlsx").typed[Place("pricing.freight")]


def log_of(accepted, row="W2"):
    return {
        place.entry.rpartition(".")[2]: value
        for place, value in accepted.built.values.items()
        if place.entry.startswith("revisions.log") and place.row == row
    }


def answered(accepted):
    """Cells that the vendor filled in the return; none of them was filled when it was sent."""
    got = accepted.audit.got
    count = sum(got.ready.book.entries[place.entry].entry.who == "vendor" for place in got.typed)
    assert count >= 176  # the sample's file of answers
    return count


def test_the_log_of_revisions_says_what_was_accepted(clean):
    log = log_of(clean[1])
    assert str(log.pop("why")).startswith("Return of issue HV-27A-OS-014 rev 1 sample ")
    assert log == {
        "revision": 2,
        "date": ON,
        "by": "Ada",
        "what": f"{answered(clean[1])} answers of the vendor taken over, 0 left open",
    }


@pytest.fixture(scope="module")
def both(tmp_path_factory):
    """A working file and a return that were changed meanwhile, in many ways at once."""
    folder = fresh_loop(tmp_path_factory.mktemp("both"))
    working = [
        Edit("quote.remark", "type", "Ask for a better price"),
        Edit("quote.payment", "type", "Same words"),
        Edit("style.fit", "type", "roomy"),
    ]
    returned = [
        Edit("quote.remark", "type", "Price holds until June"),
        Edit("quote.payment", "type", "Same words"),
        Edit("measurements.points[P1].plus", "type", 3.0),
        Edit("materials.bom[M2].price", "type", "2,50"),
    ]
    edited(BOOK, folder / "a-working.xlsx", working, folder / "b-working.xlsx")
    edited(BOOK, folder / "a-returned.xlsx", returned, folder / "b-returned.xlsx")
    return folder


@pytest.fixture(scope="module")
def mixed(both):
    """What accepting makes of them."""
    return accept(both, "b-working.xlsx", "b-returned.xlsx")


def test_what_both_sides_changed_is_a_conflict_and_stays(mixed):
    conflicts = mixed.acceptance.of("conflict")
    assert [(str(one.place), one.returned, one.working) for one in conflicts] == [
        ("quote.remark", "Price holds until June", "Ask for a better price")
    ]
    assert mixed.built.values[Place("quote.remark")] == "Ask for a better price"


def test_a_conflict_and_a_locked_cell_are_taken_when_asked_for(both):
    take = ("quote.remark", "measurements.points[P1]")
    taken = accept(both, "b-working.xlsx", "b-returned.xlsx", take=take)
    assert taken.built.values[Place("quote.remark")] == "Price holds until June"
    assert taken.acceptance.of("conflict") == []
    assert taken.built.values[place_of("measurements.points[P1].plus")] == 3.0
    assert [str(one.place) for one in taken.acceptance.of("refused")] == ["materials.bom[M2].price"]


def test_the_same_change_on_both_sides_is_no_conflict(mixed):
    place = Place("quote.payment")
    assert [one.outcome for one in mixed.acceptance.changes if one.place == place] == ["taken"]
    assert mixed.built.values[place] == "Same words"


def test_a_locked_change_and_a_wrong_kind_are_not_taken(mixed):
    assert sorted(str(one.place) for one in mixed.acceptance.of("refused")) == [
        "materials.bom[M2].price",
        "measurements.points[P1].plus",
    ]
    assert place_of("materials.bom[M2].price") not in mixed.built.values
    assert mixed.built.values[place_of("measurements.points[P1].plus")] == 1.0


def test_what_the_designer_changed_meanwhile_is_kept(mixed):
    assert mixed.built.values[Place("style.fit")] == "roomy"


def test_the_log_counts_what_was_left_open(mixed):
    # All but the remark and the price; the tolerance that was not taken either is no answer.
    assert log_of(mixed)["what"] == f"{answered(mixed) - 2} answers of the vendor taken over, 3 left open"


def test_a_return_for_another_style_is_refused_in_one_sentence(tmp_path):
    folder = fresh_loop(tmp_path)
    other = fresh_loop(tmp_path / "other", "jacket")
    with pytest.raises(UserError) as raised:
        api.accept(folder / "a-working.xlsx", other / "a-returned.xlsx")
    assert "answers style HV-27A-KJ-007" in str(raised.value)
    assert "is style HV-27A-OS-014" in str(raised.value)


def test_what_has_no_place_in_the_book_is_named_when_a_workbook_is_built_anew(tmp_path):
    folder = fresh_loop(tmp_path)
    edits = [
        Edit("materials.bom[M1].cost", "type", 3.1),
        Edit("measurements.points[P1].current", "type", 3.1),
        Edit("materials.bom[M1]", "stray", "ask the mill"),
        Edit("Ideas", "add-sheet", "a longer sleeve?"),
    ]
    edited(BOOK, folder / "a-working.xlsx", edits, folder / "b-working.xlsx")
    lost = api.build(folder / "b-working.xlsx").not_carried
    assert len(lost) == 4
    assert any("3.1 was typed over a formula that showed nothing" in line for line in lost)
    assert any("3.1 was typed over a formula that gave 58" in line for line in lost)
    assert any("“ask the mill” stands outside the tables" in line for line in lost)
    assert any(line.startswith("Ideas:") for line in lost)


def test_building_a_workbook_anew_changes_nothing(tmp_path):
    folder = fresh_loop(tmp_path)
    assert api.build(folder / "a-working.xlsx").data == (folder / "a-working.xlsx").read_bytes()


def test_comparing_names_the_one_cell_that_differs(tmp_path):
    folder = fresh_loop(tmp_path)
    edited(BOOK, folder / "a-working.xlsx", [Edit("materials.bom[M2].net", "type", 0.11)], folder / "b-working.xlsx")
    found = api.compare(folder / "a-working.xlsx", folder / "b-working.xlsx")
    assert [(str(one.place), one.before, one.after) for one in found] == [("materials.bom[M2].net", 0.09, 0.11)]


def test_a_difference_stands_under_the_heading_that_the_sheet_shows(tmp_path):
    folder = fresh_loop(tmp_path)
    edited(BOOK, folder / "a-working.xlsx", [Edit("materials.bom[M1].width", "type", 150)], folder / "b-working.xlsx")
    assert [one.heading for one in api.compare(folder / "a-working.xlsx", folder / "b-working.xlsx")] == ["Width, cm"]


def test_a_style_in_several_lengths_is_read_again_whole(tmp_path):
    data = {
        "style": {
            "number": "A-1", "unit": "cm", "sample_size": "M", "base_length": "regular",
            "sizes": [{"name": "S"}, {"name": "M"}], "lengths": [{"name": "short"}, {"name": "regular"}],
        },
        "measurements": {"points": [{"point": "Inside leg length", "base": 80, "step": 1}]},
        "lengths": {"points": [{"row": "P1", "step": 5}]},
    }  # fmt: skip
    values = values_of(BOOK, data, tmp_path)
    (tmp_path / "l.xlsx").write_bytes(api.from_values(values).data)
    got = api.read(tmp_path / "l.xlsx")
    entries = got.ready.book.entries
    assert {
        place: value for place, value in got.typed.items() if entries[place.entry].entry.who == "designer"
    } == values
    assert [got.shown[place_of(f"lengths.points[P1].spec_l{length}_z1")] for length in (1, 2)] == [74, 79]
    assert api.build(tmp_path / "l.xlsx").data == (tmp_path / "l.xlsx").read_bytes()


def test_another_vendor_sees_nothing_of_what_the_first_one_answered(clean):
    folder, accepted = clean
    first = api.issue(folder / "c-working.xlsx", purpose="quote", issued=ON, anyway="the price stands on it")
    assert first.receipt.values[Place("quote.fob")] == accepted.built.values[Place("quote.fob")]

    other = api.issue(folder / "c-working.xlsx", vendor="Ambelora Garments", contact="Ira Sen", issued=ON)
    entries = api.read(folder / "c-working.xlsx").ready.book.entries
    answered = [place for place in other.receipt.values if entries[place.entry].entry.who == "vendor"]
    assert answered == []
    assert other.receipt.values[Place("style.vendor_contact")] == "Ira Sen"
    assert Place("style.vendor_email") not in other.receipt.values
    assert first.receipt.values[Place("style.place")] == "Valmora warehouse, Vila Nova de Famalicão, Portugal"
    assert Place("style.place") not in other.receipt.values
    (folder / "other.xlsx").write_bytes(other.data)
    text = b"".join(
        zipfile.ZipFile(folder / "other.xlsx").read(name) for name in zipfile.ZipFile(folder / "other.xlsx").namelist()
    )
    assert b"ines.calvao" not in text
    assert "Inês".encode() not in text


def test_a_vendor_typed_into_a_new_style_is_no_other_vendor(tmp_path):
    built = api.start("t-shirt")
    (tmp_path / "s-working.xlsx").write_bytes(built.data)
    copy = api.issue(tmp_path / "s-working.xlsx", vendor="Valmora Confecções", issued=ON, anyway="a starter")
    assert copy.receipt.vendor == "Valmora Confecções"


def test_a_renamed_colorway_is_carried_over_without_a_word(tmp_path):
    folder = fresh_loop(tmp_path)
    edits = [Edit("colorways.list[C1].name", "type", "Fern"), Edit("style.sizes[Z1].name", "type", "34")]
    edited(BOOK, folder / "a-working.xlsx", edits, folder / "b-working.xlsx")
    built = api.build(folder / "b-working.xlsx")
    assert built.not_carried == ()
    assert built.values[Place("colorways.list.name", "C1")] == "Fern"
