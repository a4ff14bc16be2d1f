"""Markers of whole styles: laid from what the workbook works out, looked at, written back, and stale when it changes."""

import datetime
import json
from pathlib import Path

import pytest
from shapely import Polygon

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place
from sheetgen.errors import UserError
from sheetgen.jobs.marker_tasks import Request
from sheetgen.jobs.markers import lay, lay_markers
from sheetgen.sheets import BOOK
from sheetgen.style.brand import load_brand, load_style, starter_style
from sheetgen.style.figures import figures
from sheetgen.style.starters import starter
from sheetgen.testing.edit import Edit
from sheetgen.workbook.model.values import refs
from tests.edits import edited
from tests.loop import SAMPLES, fresh_loop
from tests.nesting.test_nest import nearest, overlap
from tests.published.book import Shown
from tests.style.starters.garments import NAMES, OPTIONS

ON = datetime.date(2026, 11, 25)
QUICK = Request(garments=2, effort=0.02)
"""Two garments of each fabric, and the first marker that the search finds."""


def values_of_sample(style: str):
    return load_style(BOOK, SAMPLES / style / "brief.toml", load_brand(SAMPLES / "brand" / "brand.toml"))


def values_of_starter(garment: str, **options):
    return starter_style(BOOK, starter(garment, **options), Path(garment), None)


@pytest.mark.parametrize("style", ["overshirt", "sweatshirt", "jacket"])
def test_markers_of_all_fabrics_of_a_sample(style):
    values, markers = lay(values_of_sample(style), QUICK, ON)
    shown = figures(values)[1]
    for one in markers:
        nothing_overlaps_and_width_gap_and_grain_are_kept(one)
        the_sheet_says_what_the_drawing_says(one, values, shown)
        pieces_come_in_the_number_of_the_garments(one, shown)


def nothing_overlaps_and_width_gap_and_grain_are_kept(one):
    marker = one.marker
    assert overlap(marker) < 1e-6, one.material
    assert nearest(marker) >= 0.2 - 1e-9, one.material
    for placed in marker.placed:
        low_x, low_y, high_x, high_y = Polygon(placed.polygon).bounds
        assert low_y >= 0
        assert high_y <= marker.width_cm + 1e-9
        # The length of a piece lies along the fabric: it was turned by nothing, or by half a turn.
        assert (high_x - low_x, high_y - low_y) == pytest.approx((placed.piece.length, placed.piece.width))


def the_sheet_says_what_the_drawing_says(one, values, shown):
    (row,) = [
        ref for ref in ("G1", "G2", "G3", "G4") if values.get(Place("markers.list.material", ref)) == one.material
    ]
    marker = one.marker
    polygons = sum(Polygon(placed.polygon).area for placed in marker.placed)
    efficiency = polygons / (marker.length_cm * marker.width_cm)
    assert shown[Place("markers.list.efficiency", row)] == pytest.approx(efficiency, rel=1e-9)
    count = sum(marker.garments.values())
    assert shown[Place("markers.list.each", row)] == pytest.approx(marker.length_cm / 100 / count, rel=1e-9)
    assert shown[Place("markers.list.state", row)] == "as laid"
    assert f"efficiency {marker.efficiency * 100:.1f} %" in one.svg
    assert values[Place("markers.list.made_on", row)] == ON


def pieces_come_in_the_number_of_the_garments(one, shown):
    rows = [f"Y{n}" for n in range(1, 40) if shown.get(Place("yield.pieces.material", f"Y{n}")) == one.material]
    per_garment = sum(shown[Place("yield.pieces.count", row)] for row in rows)
    assert len(one.marker.placed) == per_garment * sum(one.marker.garments.values()) > 0


def test_use_by_the_yield_is_that_of_the_marker_where_the_mix_is_the_orders():
    """Two sizes ordered 1:1 and laid 1:1: metres by piece and efficiency are the marker's length by garments."""
    values = values_of_sample("overshirt")
    for row in ("Z1", "Z2", "Z3", "Z4", "Z5", "Z6"):
        for colorway in ("c1", "c2"):
            values[Place(f"order.sizes.pieces_{colorway}", row)] = 100 if row in {"Z2", "Z3"} else 0
    values, (one,) = lay(values, Request(["M1"], mix={"S": 1, "M": 1}, effort=0.02), ON)
    shown = figures(values)[1]
    assert shown[Place("yield.fabrics.mix", "B1")] == pytest.approx(one.marker.length_per_garment() / 100, rel=1e-5)


@pytest.mark.parametrize(
    ("place", "value"),
    [
        (Place("measurements.points.base", "P1"), 70.0),
        (Place("yield.pieces.long_plus", "Y1"), 9.0),
        (Place("yield.pieces.outline", "Y1"), "front"),
        (Place("yield.fabrics.usable", "B1"), 150.0),
        (Place("yield.fabrics.nap", "B1"), "two ways"),
        (Place("yield.fabrics.nap", "B1"), "any way"),
    ],
)
def test_what_a_marker_rests_on_makes_it_stale(stale_base, place, value):
    assert figures(stale_base)[1][Place("markers.list.state", "G1")] == "as laid"
    assert figures(stale_base)[1][Place("yield.fabrics.marker_state", "B1")] == "as laid"
    shown = figures({**stale_base, place: value})[1]
    assert shown[Place("markers.list.state", "G1")] == "OUT OF DATE"
    assert shown[Place("checks.wrong_markers_stale")] == 1


def test_a_piece_laid_across_makes_it_stale(stale_base):
    turned = dict(stale_base)
    for name in ("point", "times", "plus", "shrink"):
        long, wide = Place(f"yield.pieces.long_{name}", "Y9"), Place(f"yield.pieces.wide_{name}", "Y9")
        for place, other in ((long, wide), (wide, long)):
            turned.pop(place, None)
            if other in stale_base:
                turned[place] = stale_base[other]
    assert turned != stale_base
    assert figures(turned)[1][Place("markers.list.state", "G1")] == "OUT OF DATE"


@pytest.fixture(scope="module")
def stale_base():
    return lay(values_of_sample("overshirt"), Request(["M1"], garments=2, effort=0.02), ON)[0]


def test_what_a_marker_does_not_rest_on_leaves_it(stale_base):
    shown = figures({**stale_base, Place("materials.bom.price", "M1"): 9.0})[1]
    assert shown[Place("markers.list.state", "G1")] == "as laid"


def test_a_second_marker_of_a_fabric_takes_the_place_of_the_first(stale_base):
    values, (one,) = lay(stale_base, Request(["M1"], garments=1, effort=0.02), ON)
    assert [place.row for place in values if place.entry == "markers.list.material"] == ["G1"]
    assert values[Place("markers.list.garments", "G1")] == 1 == sum(one.marker.garments.values())


def test_the_same_request_gives_the_same_values_pictures_and_all():
    first, second = (lay(values_of_sample("overshirt"), Request(["M2"], garments=3, effort=0.02), ON) for _ in range(2))
    assert first == second


SCARF = {
    "materials": {"bom": [{"item": "Twill", "group": "fabric", "unit": "m"}]},
    "yield": {
        "fabrics": [{"material": "M1", "usable": 100.5}],
        "pieces": [{"material": "M1", "piece": "Scarf", "count": 1, "long_plus": 180, "wide_plus": 50}],
    },
}


def test_a_scarf_by_hand():
    """Two scarves of 180 x 50 cm beside each other on 100.5 cm: 1.8 m, and 100 of 100.5 cm used (made by hand)."""
    values = Shown(**SCARF).values
    values, (one,) = lay(values, Request(mix={"M": 2}, gap=0, effort=0.05), ON)
    assert one.marker.length_cm == pytest.approx(180, abs=0.05)
    assert one.notes == (
        "pieces lie one way, as nothing else is said",
        "Y1 laid as rectangles, as no outline is chosen",
    )
    shown = figures(values)[1]
    assert shown[Place("markers.list.efficiency", "G1")] == pytest.approx(100 / 100.5, abs=1e-3)
    assert shown[Place("yield.fabrics.meters_z1", "B1")] == pytest.approx(0.9, abs=1e-3)
    assert Place("yield.pieces.fill", "Y1") not in values


def with_edits(tmp_path, *edits):
    folder = fresh_loop(tmp_path)
    edited(BOOK, folder / "a-working.xlsx", [Edit(place, "type", value) for place, value in edits], folder / "b.xlsx")
    return folder / "b.xlsx"


@pytest.mark.parametrize(
    ("edits", "options", "words"),
    [
        ((), ["--material", "M9"], "the Yield sheet has no fabric M9 with cut pieces; it has M1, M2, M3, M4."),
        ((), ["--mix", "S=1,5XL=1"], "there is no size 5XL; the style has XS, S, M, L, XL, XXL."),
        ((), ["--mix", "S=1,S=2"], "--mix S=1,S=2: size S stands there twice; give it once."),
        ((), ["--mix", "S=999"], "a marker of more than 40 garments takes too long to lay; give fewer."),
        ((), ["--mix", "S=1", "--garments", "3"], "--mix says how many garments are laid: leave --garments out."),
        ((), ["--mix", "S:1"], "--mix S:1: write each size with its garments, as S=1,M=2,L=1."),
        (
            (("yield.fabrics[B1].usable", None),),
            [],
            "sheet Yield, cell E37: M1 Shell, cotton twill 3/1, peached has no usable width; fill it.",
        ),
        (
            (("yield.fabrics[B1].usable", 30),),
            ["--material", "M1"],
            "cm wide and the fabric only 30 cm: cut the piece in two with a seam, or take a wider fabric.",
        ),
        (
            (("yield.pieces[Y1].wide_point", "P99"), ("yield.pieces[Y1].wide_plus", None)),
            ["--material", "M1"],
            "Y1 Front has no width in size M; give it a point that has a value, or a length of its own.",
        ),
    ],
)
def test_what_keeps_a_marker_from_being_laid_is_one_sentence(tmp_path, capsys, edits, options, words):
    path = with_edits(tmp_path, *edits)
    before = path.read_bytes()
    assert main(["marker", str(path), "--replace", "--effort", "0.05", *options]) == 2
    error = " ".join(capsys.readouterr().err.split())
    assert words in error
    assert "Traceback" not in error
    assert path.read_bytes() == before


def test_a_vendors_copy_and_an_existing_file_are_refused(tmp_path, capsys):
    folder = fresh_loop(tmp_path)
    assert main(["marker", str(folder / "a-issued.xlsx"), "--out", str(folder / "c.xlsx")]) == 2
    assert "is a vendor's copy; lay the markers in the working workbook." in capsys.readouterr().err
    assert main(["marker", str(folder / "a-working.xlsx")]) == 2
    assert "add --replace" in capsys.readouterr().err
    assert not (folder / "c.xlsx").exists()


def test_by_command_with_a_drawing_beside(tmp_path, capsys):
    folder = fresh_loop(tmp_path)
    working, out = folder / "a-working.xlsx", folder / "laid.xlsx"
    options = [
        "--material",
        "M1",
        "--garments",
        "1",
        "--effort",
        "0.02",
        "--out",
        str(out),
        "--svg",
        str(folder / "svg"),
    ]
    assert main(["marker", str(working), *options]) == 0
    shown = " ".join(capsys.readouterr().out.split())
    assert "M1 Shell" in shown
    assert (folder / "svg" / "a-working-marker-M1.svg").read_text("utf-8").startswith("<svg")
    got = api.read(out)
    assert got.typed[Place("markers.list.picture", "G1")]
    assert got.shown[Place("markers.list.state", "G1")] == "as laid"
    assert main(["audit", str(out), "--json"]) in {0, 1}
    findings = json.loads(capsys.readouterr().out)["files"][0]["findings"]
    assert {one["rule"] for one in findings if one["sheet"] in {"Markers", "Yield"}} == {"changed-since-issue"}


def test_a_refused_request_says_which_file(tmp_path):
    folder = fresh_loop(tmp_path)
    with pytest.raises(UserError, match=r"a-working\.xlsx: a seed is a whole number"):
        lay_markers(folder / "a-working.xlsx", Request(["M1"], seed=-1))


@pytest.mark.long
@pytest.mark.parametrize(("garment", "options"), OPTIONS, ids=NAMES)
def test_every_starter_can_be_laid_with_an_outline_for_each_piece(garment, options):
    """What a person begins with needs nothing typed: all its fabrics hold the pieces of its largest sizes."""
    values = values_of_starter(garment, **options)
    largest = [str(values[Place("style.sizes.name", row)]) for row in refs("style.sizes", values)][-2:]
    _, markers = lay(values, Request(mix=dict.fromkeys(largest, 1), effort=0.02), ON)
    for one in markers:
        assert not any("rectangle" in note or "one way" in note for note in one.notes)
        assert 0 < one.marker.efficiency < 1


def test_without_an_order_every_size_is_laid_alike():
    _, (one,) = lay(values_of_starter("t-shirt"), Request(["M1"], effort=0.02), ON)
    assert one.marker.garments == dict.fromkeys(("XS", "S", "M", "L", "XL", "XXL"), 1)


def test_small_pieces_are_laid_for_more_garments():
    """Four inner yokes with stands would fill no width: as many garments as make a metre and a half (our own rule)."""
    _, (one,) = lay(values_of_sample("overshirt"), Request(["M4"], effort=0.02), ON)
    assert sum(one.marker.garments.values()) == 24


def test_a_marker_of_too_few_garments_is_pointed_out():
    _, (one,) = lay(values_of_sample("overshirt"), Request(["M3"], mix={"M": 1}, effort=0.02), ON)
    assert one.notes[-1].startswith(f"an efficiency of {one.marker.efficiency:.1%} is far below the 72% that is typed")


def test_a_style_in_inches_is_told_in_inches_and_yards(tmp_path, capsys):
    folder = fresh_loop(tmp_path, "sweatshirt")
    options = ["--material", "M1", "--garments", "1", "--effort", "0.02", "--out", str(folder / "laid.xlsx")]
    assert main(["marker", str(folder / "a-working.xlsx"), *options]) == 0
    shown = " ".join(capsys.readouterr().out.split())
    assert "70.0 in" in shown  # the fleece's usable width, as its brief says
    assert " yd" in shown
    assert " cm" not in shown


def test_a_file_that_is_open_elsewhere_is_not_written_over(tmp_path, capsys):
    folder = fresh_loop(tmp_path)
    (folder / ".~lock.a-working.xlsx#").write_text("", "utf-8")
    before = (folder / "a-working.xlsx").read_bytes()
    options = ["--material", "M4", "--garments", "1", "--effort", "0.02", "--replace"]
    assert main(["marker", str(folder / "a-working.xlsx"), *options]) == 2
    assert "is open in a spreadsheet program; close it there" in " ".join(capsys.readouterr().err.split())
    assert (folder / "a-working.xlsx").read_bytes() == before
