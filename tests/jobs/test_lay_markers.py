"""Markers of a cut plan's lays: each of its own sizes, out of date when what it rests on changes."""

import pytest

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place, place_of
from sheetgen.jobs.marker_tasks import MarkerError
from sheetgen.jobs.markers import lay_for_lays
from sheetgen.style.figures import figures
from tests.jobs.test_markers import QUICK, nothing_overlaps_and_width_gap_and_grain_are_kept, values_of_sample
from tests.loop import fresh_loop

LAYS = {
    "cutting.lay_material": "M1", "cutting.lays[A1].lay": "First", "cutting.lays[A1].garments_z2": 1, "cutting.lays[A1].garments_z4": 1,
    "cutting.lays[A1].plies_c1": 10, "cutting.lays[A2].lay": "Second", "cutting.lays[A2].garments_z6": 2,
    "cutting.lays[A2].plies_c1": 5, "cutting.lays[A3].lay": "Third", "cutting.lays[A3].garments_z2": 1,
    "cutting.lays[A3].garments_z4": 1, "cutting.lays[A3].plies_c2": 4,
}  # fmt: skip


def with_lays():
    """The overshirt with three lays, two of them of the same sizes (invented)."""
    planned = {
        place: value
        for place, value in values_of_sample("overshirt").items()
        if not place.entry.startswith("cutting.lays.")
    }
    return {**planned, **{place_of(text): value for text, value in LAYS.items()}}


def test_each_lay_takes_a_marker_of_its_own_sizes_and_the_fabric_follows():
    values, laid = lay_for_lays(with_lays(), QUICK)
    assert [dict(one.marker.garments) for one in laid] == [{"S": 1, "L": 1}, {"XXL": 2}]
    for one in laid:
        nothing_overlaps_and_width_gap_and_grain_are_kept(one)
    shown = figures(values)[1]
    plies = {"A1": 10, "A2": 5, "A3": 4}
    length = {"A1": laid[0], "A2": laid[1], "A3": laid[0]}
    for row, count in plies.items():
        assert shown[Place("cutting.lays.state", row)] == "as laid"
        assert shown[Place("cutting.lays.fabric", row)] == pytest.approx(length[row].marker.length_cm / 100 * count)
    assert shown[Place("cutting.fabric_planned")] == pytest.approx(
        sum(length[row].marker.length_cm / 100 * count for row, count in plies.items())
    )


@pytest.mark.long
@pytest.mark.parametrize(("changed", "stale"), [
    ("cutting.lays[A1].garments_z1", ["A1"]), ("measurements.points[P1].base", ["A1", "A2", "A3"]),
    ("yield.fabrics[B1].usable", ["A1", "A2", "A3"]), ("cutting.lays[A1].plies_c1", []),
])  # fmt: skip
def test_a_lays_marker_is_out_of_date_when_what_it_rests_on_changes_and_the_usual_use_counts_again(changed, stale):
    values, _ = lay_for_lays(with_lays(), QUICK)
    before = figures(with_lays())[1]
    place = place_of(changed)
    after = figures({**values, place: float(values.get(place) or before.get(place) or 0) + 1})[1]
    rows = [row for row in ("A1", "A2", "A3") if after[Place("cutting.lays.state", row)] == "OUT OF DATE"]
    assert rows == stale
    assert after[Place("checks.wrong_cutting_stale")] == len(stale)
    for row in rows:
        assert after[Place("cutting.lays.marker_long", row)] == after[Place("cutting.lays.usual_long", row)]


@pytest.mark.parametrize(
    ("taken", "said"), [("cutting.lay_material", "says no material"), ("cutting.lays", "has no lay")]
)
def test_without_lays_or_their_material_one_sentence_says_what_to_do(taken, said):
    values = {place: value for place, value in with_lays().items() if not place.entry.startswith(taken)}
    with pytest.raises(MarkerError, match=said):
        lay_for_lays(values, QUICK)


def test_a_length_that_the_cutter_says_is_typed_and_counts():
    shown = figures({**with_lays(), Place("cutting.lays.laid_long", "A1"): 3.2})[1]
    assert shown[Place("cutting.lays.state", "A1")] == "typed"
    assert shown[Place("cutting.lays.fabric", "A1")] == pytest.approx(32)


@pytest.mark.long
def test_the_command_lays_them_and_draws_each(tmp_path, capsys):
    fresh_loop(tmp_path)
    made = api.from_values(with_lays())
    (tmp_path / "a.xlsx").write_bytes(made.data)
    words = [
        "marker",
        str(tmp_path / "a.xlsx"),
        "--lays",
        "--effort",
        "0.02",
        "--svg",
        str(tmp_path / "drawn"),
        "--replace",
    ]
    assert main(words) == 0
    assert "First, M1" in capsys.readouterr().out
    assert sorted(path.name for path in (tmp_path / "drawn").iterdir()) == [
        "a-marker-M1-lay-1.svg",
        "a-marker-M1-lay-2.svg",
    ]
    assert api.read(tmp_path / "a.xlsx").shown[Place("cutting.lays.state", "A2")] == "as laid"
    assert main([*words, "--material", "M1"]) == 2
    assert "leave --material" in capsys.readouterr().err
