"""A style edited at random, as people do, build after build: sizes and colorways renamed, put in, taken out and sorted, rows of
materials inserted, deleted and sorted, the unit changed and changed back, another sample size.

Laws: what was typed is in the next file (but for what belonged to a member that was taken out); sizes that nobody touched do not
move; another unit and back is the same style.
"""

from __future__ import annotations

import tempfile
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule, run_state_machine_as_test

from sheetgen import api
from sheetgen.api.settling import Settle, settled
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.style.figures import figures
from sheetgen.workbook.model.values import Values, refs
from sheetgen.workbook.read.found import Returned

SIZES, COLORWAYS, MATERIALS, SAMPLE = "style.sizes", "colorways.list", "materials.bom", Place("style.sample_size")
KEY = {SIZES: "style.sizes.name", COLORWAYS: "colorways.list.name", MATERIALS: "materials.bom.item"}
INCH = 2.54
NAMES = st.text("ABCDEFGHJKLMNPQRSTUVWXYZ", min_size=3, max_size=6)


def sizes_by_name(values: Values) -> dict[tuple[str, str], float]:
    """Each graded size in centimetres, by point and the name of the size."""
    per_cm = 1 / INCH if values[Place("style.unit")] == "in" else 1.0
    names = [str(values[Place(KEY[SIZES], ref)]) for ref in refs(SIZES, values)]
    return {
        (place.row, names[int(place.entry.rpartition("_z")[2]) - 1]): value / per_cm
        for place, value in figures(values)[1].items()
        if place.entry.startswith("measurements.points.spec_z") and isinstance(value, int | float)
    }


def belongs_to_a_member(place: Place) -> bool:
    """Whether a cell goes by the number of a size or color, or stands in a row for one; or is the declaration's own."""
    column = BOOK.entries.get(place.entry)
    table = place.entry.rpartition(".")[0]
    return column is None or column.entry.who == "fixed" or bool(table in BOOK.tables and BOOK.tables[table][1].mirrors)


def as_it_was(value: Value) -> Any:
    """To compare with: a number to 1e-9."""
    return pytest.approx(value, abs=1e-9) if isinstance(value, int | float) else value


def is_length(place: Place) -> bool:
    column = BOOK.entries.get(place.entry)
    return column is None or column.entry.kind.name == "length"


class Edits(RuleBasedStateMachine):
    """One working workbook, edited and built anew again and again."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = tempfile.TemporaryDirectory()
        self.path = Path(self.folder.name) / "a.xlsx"
        self.values: Values = {}
        self.new = 0

    def teardown(self) -> None:
        self.folder.cleanup()

    @initialize(word=st.sampled_from(["t-shirt", "skirt"]))
    def started(self, word: str) -> None:
        made = api.start(word)
        self.values = dict(made.values)
        self.path.write_bytes(made.data)

    def built(self, typed: dict[Place, Value], how: Settle | None = None, *, moved: bool = False) -> None:
        """Read the file as it would be after these edits, build it anew, and hold the next one to the laws."""
        got: Returned = replace(api.read(self.path), typed=typed)
        values, lost, _ = settled(got, how)
        assert lost == []
        before, after = sizes_by_name(self.values), sizes_by_name(values)
        if not moved:
            stayed = before.keys() & after.keys()
            assert stayed
            assert {key: after[key] for key in stayed} == {key: pytest.approx(before[key], abs=1e-9) for key in stayed}
        self.path.write_bytes(api.from_values(values).data)
        self.values = values
        kept = api.read(self.path).typed
        assert {place: kept.get(place) for place in values} == {
            place: pytest.approx(value, abs=1e-9) if isinstance(value, float) else value
            for place, value in values.items()
        }

    def kept(self, typed: dict[Place, Value], changed: set[Place]) -> None:
        """Whatever was typed and belongs to no member stands where it stood."""
        for place, value in typed.items():
            if place not in changed and not belongs_to_a_member(place):
                assert self.values.get(place) == value, place

    def fresh(self, name: str) -> str:
        self.new += 1
        return f"{name}{self.new}"

    @rule(table=st.sampled_from([SIZES, COLORWAYS]), at=st.integers(0, 9), name=NAMES)
    def renames(self, table: str, at: int, name: str) -> None:
        typed = api.read(self.path).typed
        rows = refs(table, typed)
        place = Place(KEY[table], rows[at % len(rows)])
        old, new = str(typed[place]), self.fresh(name)
        before = sizes_by_name(self.values)
        self.built({**typed, place: new})
        after = sizes_by_name(self.values)
        if table == SIZES:
            called = {old: new}
            assert after == {
                (row, called.get(size, size)): pytest.approx(value) for (row, size), value in before.items()
            }
        assert old not in {
            value for one, value in self.values.items() if one == SAMPLE or one.entry == "fit.rounds.size"
        }

    @rule(table=st.sampled_from([SIZES, COLORWAYS, MATERIALS]), at=st.integers(0, 30), name=NAMES)
    def puts_in(self, table: str, at: int, name: str) -> None:
        typed = api.read(self.path).typed
        rows = refs(table, typed)
        if table != MATERIALS and len(rows) > 8:
            return
        new = f"{BOOK.tables[table][1].ref}{90 + self.new}"
        rows.insert(at % (len(rows) + 1), new)
        self.built(in_this_order({**typed, Place(KEY[table], new): self.fresh(name)}, table, rows))
        self.kept(typed, set())

    @rule(table=st.sampled_from([SIZES, COLORWAYS]), at=st.integers(0, 9))
    def takes_out(self, table: str, at: int) -> None:
        typed = api.read(self.path).typed
        rows = refs(table, typed)
        gone = rows[at % len(rows)]
        if len(rows) < 3 or typed[Place(KEY[table], gone)] == typed[SAMPLE]:
            return
        name = str(typed[Place(KEY[table], gone)])
        rest = {place: value for place, value in typed.items()
                if not (place.row == gone and place.entry.startswith(f"{table}.")) and value != name}  # fmt: skip
        self.built(rest)
        self.kept(rest, set())

    @rule(table=st.sampled_from([SIZES, COLORWAYS, MATERIALS]), data=st.data())
    def sorts(self, table: str, data: Any) -> None:
        typed = api.read(self.path).typed
        rows = data.draw(st.permutations(refs(table, typed)))
        self.built(in_this_order(typed, table, rows), moved=table == SIZES)
        self.kept(typed, set())

    @rule()
    def another_unit_and_back(self) -> None:
        before, unit = dict(self.values), str(self.values[Place("style.unit")])
        other = "in" if unit == "cm" else "cm"
        for one in (other, unit):
            self.built(dict(api.read(self.path).typed), Settle(unit=one))
        assert self.values.keys() == before.keys()
        for place, value in before.items():
            assert self.values[place] == as_it_was(value), place

    @rule()
    def to_another_unit(self) -> None:
        typed = dict(api.read(self.path).typed)
        self.built(typed, Settle(unit="in" if self.values[Place("style.unit")] == "cm" else "cm"))
        self.kept({place: value for place, value in typed.items() if not is_length(place)}, {Place("style.unit")})

    @precondition(lambda self: len(refs(SIZES, self.values)) > 1)
    @rule(at=st.integers(0, 9))
    def another_sample_size(self, at: int) -> None:
        typed = api.read(self.path).typed
        names = [str(typed[Place(KEY[SIZES], ref)]) for ref in refs(SIZES, typed)]
        self.built({**typed, SAMPLE: names[at % len(names)]}, Settle(sample_size="moves-base"))


def in_this_order(typed: Values, table: str, rows: list[str]) -> Values:
    """The same cells, the table's rows as they would be read in that order."""
    own = {place: value for place, value in typed.items() if place.entry.rpartition(".")[0] == table}
    rest = {place: value for place, value in typed.items() if place not in own}
    return {**{place: value for ref in rows for place, value in own.items() if place.row == ref}, **rest}


@pytest.mark.story
def test_no_edit_loses_what_was_typed_or_moves_what_was_not_touched():
    run_state_machine_as_test(
        Edits,
        settings=settings(
            max_examples=3, stateful_step_count=6, deadline=None, suppress_health_check=list(HealthCheck),
            phases=(Phase.explicit, Phase.reuse, Phase.generate),  # to shrink would take longer than to read the steps
        ),
    )  # fmt: skip
