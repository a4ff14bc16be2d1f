"""An answer lands only on what it answered: the working workbook may have gone on while the copy was out."""

from __future__ import annotations

import random
from functools import cache
from pathlib import Path

import pytest

from sheetgen import api
from sheetgen.api.accepting import SAYS
from sheetgen.api.settling import Settle
from sheetgen.audit import RULES
from sheetgen.audit.run import audit
from sheetgen.declare.entry import Place, place_of
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.trade.lengths import convert
from sheetgen.workbook.exchange.accept import Wish, merge
from sheetgen.workbook.exchange.receipts import load_receipt
from sheetgen.workbook.model.values import Values, refs
from sheetgen.workbook.read.file import read
from tests.loop import SAMPLES, loop


@cache
def style() -> Values:
    return load_style(BOOK, SAMPLES / "overshirt" / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))


def accepted(tmp_path: Path, values: Values, settle: Settle | None = None):
    """The overshirt's clean return, accepted into a working workbook of these values."""
    path = tmp_path / "working.xlsx"
    path.write_bytes(api.from_values(values).data)
    if settle is not None:
        path.write_bytes(api.build(path, settle=settle).data)
    return api.accept(path, loop() / "a-returned.xlsx", receipt=loop() / "a-issued.receipt.json")


def changed(**cells: object) -> Values:
    return {**style(), **{place_of(text): value for text, value in cells.items()}}


def test_another_article_in_the_row_takes_no_price_of_the_first(tmp_path):
    done = accepted(tmp_path, changed(**{"materials.bom[M5].item": "Snap, 12 mm"}))
    conflicts = {str(one.place): one.reason for one in done.acceptance.of("conflict")}
    assert "materials.bom[M5].price" in conflicts
    assert "is Snap, 12 mm now" in conflicts["materials.bom[M5].price"]
    assert all(text.startswith("materials.bom[M5]") for text in conflicts)
    assert place_of("materials.bom[M5].price") not in done.built.values
    assert place_of("materials.bom[M4].price") in done.built.values


@pytest.mark.parametrize(("place", "value"), [
    ("materials.bom[M1].composition", "100 % linen"), ("materials.bom[M1].width", 130.0), ("materials.bom[M1].unit", "kg"),
])  # fmt: skip
def test_another_cloth_or_unit_of_use_in_the_row_is_a_conflict_too(tmp_path, place, value):
    done = accepted(tmp_path, changed(**{place: value}))
    assert "materials.bom[M1].price" in {str(one.place) for one in done.acceptance.of("conflict")}


def test_a_note_or_a_tolerance_that_changed_is_no_other_article(tmp_path):
    done = accepted(
        tmp_path, changed(**{"materials.bom[M1].note": "from the new mill", "measurements.points[P1].plus": 1.5})
    )
    assert done.acceptance.of("conflict") == []


def test_a_row_that_is_gone_gets_nothing(tmp_path):
    done = accepted(
        tmp_path, {place: value for place, value in style().items() if place.row != "M5" or "bom" not in place.entry}
    )
    assert {one.place.row for one in done.acceptance.of("conflict")} == {"M5"}
    assert not [place for place in done.built.values if place.row == "M5" and place.entry.startswith("materials.bom.")]


def test_lengths_come_in_the_unit_that_the_style_has_now(tmp_path):
    done = accepted(tmp_path, style(), Settle(unit="mm"))
    assert done.acceptance.of("conflict") == []
    came = read(BOOK, loop() / "a-returned.xlsx").typed
    measured = [place for place in came if place.entry == "fit.points.value_r1"]
    assert len(measured) > 15
    for place in measured:
        assert done.built.values[place] == pytest.approx(10 * float(came[place]))


def test_amounts_that_were_asked_in_another_currency_are_conflicts_but_not_those_that_say_their_own(tmp_path):
    done = accepted(tmp_path, changed(**{"style.currency": "USD"}))
    conflicts = {str(one.place) for one in done.acceptance.of("conflict")}
    assert "quote.fob" in conflicts
    assert "materials.bom[M1].price" not in conflicts
    assert place_of("quote.fob") not in done.built.values


def test_a_sample_that_was_asked_in_another_size_was_not_measured_in_this_one(tmp_path):
    done = accepted(tmp_path, changed(**{"fit.rounds[R1].size": "L"}))
    assert {one.place.entry for one in done.acceptance.of("conflict")} >= {"fit.points.value_r1"}


def moved(values: Values, table: str, row: str) -> Values:
    """The values with a row of a table in front of all its others, as after a row was put in above."""
    first = {
        place: value for place, value in values.items() if place.row == row and place.entry.startswith(f"{table}.")
    }
    rest = {place: value for place, value in values.items() if place not in first}
    return {**first, **rest}


def test_a_size_that_stands_elsewhere_now_takes_its_answers_along(tmp_path):
    made = merge(
        read(BOOK, _written(tmp_path, moved(style(), "colorways.list", "C2"))), load_receipt(loop() / "a-issued.receipt.json"),
        read(BOOK, loop() / "a-returned.xlsx"), {}, Wish(), SAYS,
    )  # fmt: skip
    went = {str(one.place): str(one.to) for one in made.of("taken") if one.to is not None}
    assert all(
        text.replace("_c1", "_cX").replace("_c2", "_c1").replace("_cX", "_c2") == to for text, to in went.items()
    )


def _written(tmp_path: Path, values: Values) -> Path:
    path = tmp_path / "moved.xlsx"
    path.write_bytes(api.from_values(values).data)
    return path


def test_what_is_asked_for_is_taken_all_the_same(tmp_path):
    path = _written(tmp_path, changed(**{"materials.bom[M5].item": "Snap, 12 mm"}))
    done = api.accept(
        path, loop() / "a-returned.xlsx", receipt=loop() / "a-issued.receipt.json", take=["materials.bom[M5].price"]
    )
    assert place_of("materials.bom[M5].price") in done.built.values
    assert place_of("materials.bom[M5].supplier") not in done.built.values


ROWS = ("materials.bom", "measurements.points", "labels.items", "artwork.pieces", "quality.tests")


def edited(seed: int) -> tuple[Values, str]:
    """What a brand may do meanwhile: rows taken out, exchanged, called otherwise; another unit, currency, size of a round."""
    chance = random.Random(seed)
    values = dict(style())
    for table in ROWS:
        key = f"{table}.{BOOK.tables[table][1].key}"
        for row in refs(table, values):
            fate = chance.random()
            if fate < 0.1:
                values = {
                    at: value for at, value in values.items() if at.row != row or not at.entry.startswith(f"{table}.")
                }
            elif fate < 0.25:
                values[Place(key, row)] = f"Another {chance.randint(1, 99)}"
            elif fate < 0.35:
                name = chance.choice((*SAYS[table], BOOK.tables[table][1].key))
                if isinstance(values.get(Place(f"{table}.{name}", row)), str):
                    values[Place(f"{table}.{name}", row)] = "changed meanwhile"
    if chance.random() < 0.3:
        values[Place("style.currency")] = "USD"
    return values, chance.choice(("cm", "mm", "in", "cm"))


def _what(table: str, row: str, values: Values) -> list[object]:
    declared = BOOK.tables[table][1]
    table = declared.mirrors or table
    return [values.get(Place(f"{table}.{name}", row)) for name in (BOOK.tables[table][1].key, *SAYS[table])]


@pytest.mark.parametrize("seed", [0, *(pytest.param(seed, marks=pytest.mark.long) for seed in range(1, 15))])
def test_no_value_lands_on_what_it_did_not_answer_and_nothing_typed_is_lost(seed, tmp_path):
    values, unit = edited(seed)
    path = tmp_path / "working.xlsx"
    path.write_bytes(api.from_values(values).data)
    if unit != "cm":
        path.write_bytes(api.build(path, settle=Settle(unit=unit)).data)
    before = api.build(path).values
    done = api.accept(path, loop() / "a-returned.xlsx", receipt=loop() / "a-issued.receipt.json")
    after, came = done.built.values, read(BOOK, loop() / "a-returned.xlsx")
    taken = {one.to or one.place: one for one in done.acceptance.of("taken")}
    sent = load_receipt(loop() / "a-issued.receipt.json").values
    for place, one in taken.items():
        table = place.entry.rpartition(".")[0]
        if (
            table in BOOK.tables
            and not BOOK.tables[table][1].rows
            and table.partition(".")[0] in {"materials", "fit", "labels", "artwork"}
        ):
            if table != "fit.comments" and BOOK.tables[table][1].mirrors != "":
                table = BOOK.tables[table][1].mirrors
            if table in ROWS and unit == "cm":
                assert _what(table, place.row, before) == _what(table, place.row, dict(sent)), place  # type: ignore[arg-type]
        typed, kind = came.typed[one.place], came.ready.book.entries[one.place.entry].entry.kind
        wanted = (
            convert(float(typed), "cm", unit) if kind.name == "length" and isinstance(typed, int | float) else typed
        )
        assert after[place] == (pytest.approx(wanted) if isinstance(wanted, float) else wanted), place
    untouched = {
        at: value
        for at, value in before.items()
        if at not in taken and not at.entry.startswith(("style.", "revisions."))
    }
    assert {at: after.get(at) for at in untouched} == untouched
    every = {one.place for one in done.acceptance.changes}
    answers = {
        at for at, value in came.typed.items()
        if came.ready.book.entries[at.entry].entry.who == "vendor" and value != sent.get(at)
    }  # fmt: skip
    assert answers <= every, "an answer that was neither taken nor said"


def test_the_return_is_clean_so_that_what_is_left_is_left_for_its_context():
    assert audit(BOOK, RULES, loop() / "a-returned.xlsx", loop() / "a-issued.receipt.json").findings == ()
