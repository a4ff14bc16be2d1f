"""Laws: what is built is read again whole, the same input gives the same bytes, and a changed cell is a finding."""

import datetime
import tempfile
from pathlib import Path

import openpyxl
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from sheetgen.audit.integrity import locked_value_changed
from sheetgen.audit.run import audit
from sheetgen.audit.structure import row_added, row_gone
from sheetgen.declare.entry import Place
from sheetgen.sheets import BOOK
from sheetgen.workbook.exchange.issue import issue
from sheetgen.workbook.exchange.receipts import receipt_from_json
from sheetgen.workbook.read.file import read
from sheetgen.workbook.write.file import workbook_bytes
from tests.workbook.small import FILLED, SMALL, ready_for, round_trip, typed_by_people

from .styles import styles

LAW = settings(
    deadline=None, database=None, derandomize=True, suppress_health_check=list(HealthCheck),
    phases=[Phase.explicit, Phase.generate, Phase.shrink],
)  # fmt: skip
FEW = settings(LAW, max_examples=6, phases=[Phase.generate])
"""The real book takes two seconds an example: no shrinking."""
MANY = settings(LAW, max_examples=20)

REAL = styles(BOOK, {
    "style.sizes": (1, 12), "colorways.list": (1, 6), "materials.bom": (0, 40), "measurements.points": (0, 40),
})  # fmt: skip
LITTLE = styles(SMALL, {"style.sizes": (1, 12), "goods.lines": (0, 40)})


def differences(read_again, values):
    return {
        str(p): (values.get(p), read_again.get(p))
        for p in {**values, **read_again}
        if values.get(p) != read_again.get(p)
    }


@pytest.mark.long
@FEW
@given(REAL)
def test_the_real_book_is_read_again_whole(values):
    with tempfile.TemporaryDirectory() as folder:
        assert differences(round_trip(values, Path(folder, "a.xlsx"), BOOK), values) == {}


@MANY
@given(LITTLE)
def test_a_small_book_is_read_again_whole(values):
    with tempfile.TemporaryDirectory() as folder:
        assert differences(round_trip(values, Path(folder, "a.xlsx")), values) == {}


@MANY
@given(LITTLE)
def test_the_same_input_gives_the_same_bytes_and_survives_a_second_round(values):
    once = workbook_bytes(ready_for(values), values, {"kind": "working"})
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "a.xlsx")
        path.write_bytes(once)
        again = typed_by_people(read(SMALL, path))
    ordered = {place: again[place] for place in values}
    assert workbook_bytes(ready_for(ordered), ordered, {"kind": "working"}) == once


@settings(MANY, max_examples=12)
@given(LITTLE)
def test_a_vendors_copy_shows_all_that_is_shared_and_its_receipt_says_so(values):
    sent = issue(SMALL, values, {}, datetime.date(2026, 5, 1))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "a.xlsx")
        path.write_bytes(sent.data)
        got = read(SMALL, path)
        assert audit(SMALL, (locked_value_changed,), path).findings == ()
    assert differences(typed_by_people(got), dict(sent.receipt.values)) == {}
    assert receipt_from_json(got.record["receipt"]) == sent.receipt


RULES = (locked_value_changed, row_added, row_gone)
SENT = issue(SMALL, FILLED, {}, datetime.date(2026, 5, 1))
LOCKED = [
    place
    for address, column in SENT.laid.ready.book.entries.items()
    if column.entry.who in {"designer", "fixed"} and column.entry.kind.name != "picture" and address != "style.number"
    for place, _ in SENT.laid.where.places(address)
]


@MANY
@given(
    st.sampled_from(LOCKED),
    st.one_of(
        st.integers(-9999, 9999), st.floats(-9999, 9999).map(lambda value: round(value, 3)), st.just("proposed"), st.just("=1+1"),
        st.dates(datetime.date(1990, 1, 1), datetime.date(2100, 1, 1)), st.none(),
    ),
)  # fmt: skip
def test_a_changed_locked_cell_is_found_at_its_place_and_nowhere_else(place, value):
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder, "returned.xlsx")
        path.write_bytes(SENT.data)
        before = read(SMALL, path)
        cell = before.where.at(place)
        loaded = openpyxl.load_workbook(path)
        held = loaded[cell.sheet].cell(cell.row, cell.column)
        held.value = value
        if isinstance(value, str):
            held.data_type = "s"
        loaded.save(path)
        found = [finding.place for finding in audit(SMALL, RULES, path).findings]
    if before.typed.get(place) == value:
        assert found == []
    else:
        assert len(found) == 1
        assert found[0] in {str(place), *whole_row(place, value)}


def whole_row(place, value):
    """The row itself, where the cell was all that a row had or is the first that a spare row gets."""
    others = {other for other in FILLED if other.row == place.row and table_of(other) == table_of(place)} - {place}
    return set() if others or not place.row else {str(Place(f"{table_of(place)}.ref", place.row))}


def table_of(place):
    return place.entry.rpartition(".")[0]


def test_there_are_locked_cells_of_every_sort():
    assert len(LOCKED) > 30
    assert {
        Place("style.due"),
        Place("goods.lines.net", "M2"),
        Place("goods.lines.width_z2", "M3"),
        Place("scale.grades.points", "G1"),
    } <= set(LOCKED)
