"""Two people, one file: what each changed is together, what both changed is said, nothing typed is lost."""

from __future__ import annotations

import random
from functools import cache

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place, place_of
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style
from sheetgen.workbook.exchange.join import joined
from sheetgen.workbook.model.compare import same
from sheetgen.workbook.model.values import Values, ready, refs, shape_of
from tests.loop import SAMPLES, fresh_loop


@cache
def before() -> Values:
    return load_style(BOOK, SAMPLES / "overshirt" / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))


@cache
def book():
    return ready(BOOK, shape_of(BOOK, before())).book


def changed(**cells: object) -> Values:
    made = {**before(), **{place_of(text): value for text, value in cells.items()}}
    return {place: value for place, value in made.items() if value is not None}


def test_what_only_one_changed_is_taken_and_what_both_changed_stands_as_the_first_has_it():
    first = changed(**{"style.name": "Quarry overshirt", "materials.bom[M1].price": 4.4})
    second = changed(
        **{"style.name": "Cliff overshirt", "materials.bom[M2].note": "from the new mill", "style.fit": None}
    )
    done = joined(book(), before(), first, second)
    assert done.values[place_of("materials.bom[M1].price")] == 4.4
    assert done.values[place_of("materials.bom[M2].note")] == "from the new mill"
    assert place_of("style.fit") not in done.values
    assert done.values[place_of("style.name")] == "Quarry overshirt"
    assert [(str(one.place), one.first, one.second) for one in done.conflicts] == [
        ("style.name", "Quarry overshirt", "Cliff overshirt")
    ]


def test_the_same_change_on_both_sides_is_none():
    both = changed(**{"style.name": "Quarry overshirt"})
    done = joined(book(), before(), both, dict(both))
    assert (done.values, done.conflicts, done.taken) == (both, [], 0)


def test_new_rows_of_both_under_one_ref_stand_apart_and_what_points_at_them_follows():
    first = changed(**{"materials.bom[M17].item": "Cord", "materials.bom[M17].unit": "m"})
    second = changed(**{
        "materials.bom[M17].item": "Snap", "materials.bom[M17].unit": "pc", "materials.bom[M3].instead_of": "M17",
        "thread.counted[TC1].thread": "M17",
    })  # fmt: skip
    done = joined(book(), before(), first, second)
    assert done.values[place_of("materials.bom[M17].item")] == "Cord"
    assert done.values[place_of("materials.bom[M18].item")] == "Snap"
    assert done.values[place_of("materials.bom[M18].unit")] == "pc"
    assert done.values[place_of("materials.bom[M3].instead_of")] == "M18"
    assert done.moved == {"materials.bom[M17]": "M18"}
    assert done.conflicts == []


def test_a_row_taken_out_here_and_changed_there_stays_and_is_said():
    first = {
        place: value
        for place, value in before().items()
        if (place.entry.rpartition(".")[0], place.row) != ("materials.bom", "M5")
    }
    second = changed(**{"materials.bom[M5].item": "Snap, 12 mm"})
    done = joined(book(), before(), first, second)
    assert done.values[place_of("materials.bom[M5].item")] == "Snap, 12 mm"
    assert done.values[place_of("materials.bom[M5].unit")] == before()[place_of("materials.bom[M5].unit")]
    assert [str(one.place) for one in done.conflicts] == ["materials.bom[M5].item"]
    untouched = joined(book(), before(), first, dict(before()))
    assert untouched.values == first


TABLES = ("materials.bom", "measurements.points", "construction.callouts", "labels.items")


def edited(seed: str) -> Values:
    """Texts typed over, cells cleared, rows taken out and put in, at random."""
    chance = random.Random(seed)
    values = dict(before())
    for place in chance.sample(sorted(values), 40):
        if isinstance(values[place], str) and place.row:
            values[place] = f"{seed} {chance.randint(1, 3)}"
    for table in TABLES:
        key = f"{table}.{BOOK.tables[table][1].key}"
        if chance.random() < 0.5:
            gone = chance.choice(refs(table, values))
            values = {
                at: value for at, value in values.items() if at.row != gone or not at.entry.startswith(f"{table}.")
            }
        if chance.random() < 0.5:
            values[Place(key, f"{BOOK.tables[table][1].ref}9{chance.randint(1, 2)}")] = f"New of {seed}"
    return values


@pytest.mark.parametrize("seed", range(60))
def test_nothing_typed_on_either_side_is_lost(seed):
    first, second = edited(f"a{seed}"), edited(f"b{seed}")
    done = joined(book(), before(), first, second)
    said = {one.place for one in done.conflicts}
    moved = {(row.partition("[")[0], row.partition("[")[2][:-1]): new for row, new in done.moved.items()}
    for values in (first, second):
        for place, value in values.items():
            home = place.entry.rpartition(".")[0]
            to = Place(place.entry, moved.get((home, place.row), place.row)) if values is second else place
            if not same(value, before().get(place)):
                assert same(done.values.get(to), value) or to in said, (to, value)
    alone = {at for at in before() if same(first.get(at), before()[at]) and same(second.get(at), before()[at])}
    assert all(same(done.values.get(at), before()[at]) for at in alone)


@pytest.mark.long
def test_by_command(tmp_path, capsys):
    fresh_loop(tmp_path)
    start = api.build(tmp_path / "a-working.xlsx").values
    for name, cells in (
        ("ada", {"style.fit": "roomy"}),
        ("ines", {"style.season": "Spring 2028", "style.fit": "slim"}),
    ):
        made = api.from_values({**start, **{place_of(text): value for text, value in cells.items()}})
        (tmp_path / f"{name}.xlsx").write_bytes(made.data)
    words = [str(tmp_path / name) for name in ("a-working.xlsx", "ada.xlsx", "ines.xlsx")]
    assert main(["join", *words, "--out", str(tmp_path / "both.xlsx")]) == 1
    said = " ".join(capsys.readouterr().out.split())
    assert "style.fit: was regular, room for a light layer, ada.xlsx has roomy, ines.xlsx has slim" in said
    got = api.read(tmp_path / "both.xlsx").typed
    assert (got[place_of("style.season")], got[place_of("style.fit")]) == ("Spring 2028", "roomy")
    assert main(["join", words[0], words[1], str(tmp_path / "a-issued.xlsx")]) == 2
    more = api.from_values({**start, Place("style.sizes.name", "Z7"): "3XL"})
    (tmp_path / "more.xlsx").write_bytes(more.data)
    assert main(["join", words[0], str(tmp_path / "more.xlsx"), words[2], "--out", str(tmp_path / "c.xlsx")]) == 0
    fewer = {at: value for at, value in start.items() if at != Place("style.sizes.name", "Z1") and at.row != "Z1"}
    (tmp_path / "fewer.xlsx").write_bytes(api.from_values(fewer).data)
    assert main(["join", words[0], str(tmp_path / "fewer.xlsx"), words[2], "--out", str(tmp_path / "d.xlsx")]) == 2
    assert "a size was put in or taken out there" in capsys.readouterr().err
