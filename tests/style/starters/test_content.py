"""What the starters hold: all that a quote needs but what only the designer knows, in the trade's own words and lists."""

import re

import pytest

from sheetgen.declare.entry import Place
from sheetgen.declare.parts import Table
from sheetgen.garments import BY_WORD
from sheetgen.sheets import BOOK
from sheetgen.style.starters import starter
from sheetgen.style.starters.picks import refs_for_names
from tests.lists import offered

from .care import CARE
from .garments import NAMES, OPTIONS, loaded, rows

ALL = pytest.mark.parametrize(("garment", "options"), OPTIONS, ids=NAMES)

# Dated prices: the exchange rates are the designer's own. Fit rounds and lists are filled by the declaration.
_NOT_OURS = {"materials.rates", "lists.terms"}


def _needed_tables() -> list[str]:
    return [
        address
        for address, (_, table) in BOOK.tables.items()
        if address not in _NOT_OURS and isinstance(table, Table) and not table.mirrors and not table.rows
        for entry in table.entries
        if entry.name == table.key and entry.need == "quote" and entry.who == "designer"
    ]


@ALL
@pytest.mark.parametrize("unit", ["cm", "mm", "in"])
def test_each_loads_without_a_problem(garment, options, unit):
    assert loaded(garment, **options, unit=unit)[Place("style.unit")] == unit


def test_the_tables_that_a_quote_needs_are_these():
    assert set(_needed_tables()) == {
        "style.sizes", "colorways.list", "colorways.components", "construction.callouts", "labels.items",
        "measurements.points", "materials.bom", "yield.pieces", "revisions.log",
    }  # fmt: skip


@ALL
def test_every_table_that_a_quote_needs_has_rows(garment, options):
    data = starter(garment, **options)
    assert [address for address in _needed_tables() if not rows(data, address)] == []


@ALL
def test_every_entry_that_a_quote_needs_is_filled_in_its_rows(garment, options):
    values = loaded(garment, **options)
    cut = {str(value) for place, value in values.items() if place.entry == "yield.fabrics.material"}
    blank = [
        f"{address}[{place.row}].{entry.name}"
        for address in _needed_tables()
        if address != "revisions.log"  # its date and name are the designer's
        for entry in BOOK.tables[address][1].entries
        if entry.need == "quote" and entry.who == "designer" and not entry.family
        for place in values
        if place.entry == f"{address}.{BOOK.tables[address][1].key}"
        and Place(f"{address}.{entry.name}", place.row) not in values
        and not (entry.unless == "worked_out" and place.row in cut)  # its cut pieces say it
    ]
    assert blank == []


@ALL
def test_sizes_and_sample_size_fit(garment, options):
    data = starter(garment, **options)
    child = "child" in options
    assert [size["name"] for size in rows(data, "style.sizes")] == (
        ["98", "104", "110", "116", "122", "128"] if child else ["XS", "S", "M", "L", "XL", "XXL"]
    )
    assert data["style"]["sample_size"] == ("116" if child else "M")


@ALL
def test_stitches_seams_fibers_and_care_are_those_of_the_lists(garment, options):
    data = starter(garment, **options)
    for callout in rows(data, "construction.callouts"):
        assert callout["stitch"] in offered("stitches"), callout
        assert callout["seam"] in offered("seams"), callout
    fibers = [part[key] for part in rows(data, "labels.composition") for key in part if key.startswith("fiber")]
    assert set(fibers) <= set(offered("fibers"))
    for step, words in CARE.items():
        assert data["labels"][step] in words, step


@ALL
def test_composition_adds_up_largest_share_first(garment, options):
    for part in rows(starter(garment, **options), "labels.composition"):
        shares = [part[key] for key in part if key.startswith("share")]
        assert sum(shares) == pytest.approx(1)
        assert shares == sorted(shares, reverse=True)


@ALL
def test_every_ref_names_a_row_that_there_is(garment, options):
    data = starter(garment, **options)
    points = {f"P{number}" for number, _ in enumerate(rows(data, "measurements.points"), 1)}
    materials = {f"M{number}": row for number, row in enumerate(rows(data, "materials.bom"), 1)}
    for callout in rows(data, "construction.callouts"):
        assert callout.get("from_point", "P1") in points, callout
    for piece in rows(data, "yield.pieces"):
        assert {piece.get("long_point", "P1"), piece.get("wide_point", "P1")} <= points, piece
        assert piece["material"] in {fabric["material"] for fabric in rows(data, "yield.fabrics")}, piece
    for fabric in rows(data, "yield.fabrics"):
        assert materials[fabric["material"]]["group"] == "fabric", fabric
    for article in rows(data, "thread.articles"):
        assert materials[article["material"]]["kind"] == "thread", article


def test_a_name_becomes_the_ref_of_its_row_in_every_variant():
    shoulder = rows(starter("t-shirt"), "construction.callouts")[0]
    assert (shoulder["area"], shoulder["from_point"]) == ("Shoulder seam", "P5")  # the fifth point: across shoulder
    # Two zips fewer stand before a child's thread, and a zip of its own behind it.
    assert rows(starter("jacket"), "thread.articles") == [{"material": "M7", "cone": 5000}]
    assert rows(starter("jacket", child=True), "thread.articles") == [{"material": "M5", "cone": 5000}]
    # The hood's lining stands behind all that the plain sweatshirt has of its own.
    assert [row["material"] for row in rows(starter("sweatshirt", hood=True), "yield.fabrics")] == ["M1", "M2", "M6"]


@pytest.mark.parametrize(
    ("table", "entry", "word", "sentence"),
    [
        (
            "construction.callouts",
            "from_point",
            "armhole straigt",
            "skirt.toml: construction.callouts, row 'Seam', from_point: "
            "no row is called 'armhole straigt', the nearest is 'armhole straight'",
        ),
        (
            "yield.pieces",
            "long_point",
            "P1",
            "skirt.toml: yield.pieces, row 'Seam', long_point: no row is called 'P1'",
        ),
        (
            "yield.fabrics",
            "material",
            "Linen",
            "skirt.toml: yield.fabrics, row 'Linen', material: no row is called 'Linen', the nearest is 'Lining'",
        ),
    ],
)
def test_a_name_that_no_row_has_is_refused_in_one_sentence(table, entry, word, sentence):
    sheet, name = table.split(".")
    first = {"callouts": "area", "pieces": "piece", "fabrics": "material"}[name]
    data = {"materials": {"bom": [{"item": "Lining"}]}, sheet: {name: [{first: "Seam", entry: word}]}}
    with pytest.raises(ValueError) as refused:
        refs_for_names(data, BY_WORD["t-shirt"].points, "skirt.toml")
    assert str(refused.value) == sentence


@ALL
def test_there_are_as_many_lines_as_is_typical(garment, options):
    data = starter(garment, **options)
    assert 8 <= len(rows(data, "construction.callouts")) <= 13
    assert 8 <= len(rows(data, "materials.bom")) <= 15
    labels = [row["label"] for row in rows(data, "labels.items")]
    assert labels == ["main label", "size label", "care label", "hang tag", "bag sticker", "polybag", "carton mark"]
    assert rows(data, "materials.bom")[0]["kind"] == "fabric"


@ALL
def test_no_row_is_left_that_an_option_drops(garment, options):
    data = starter(garment, **options)
    assert not {"hood", "child", "hood_child"} & set(data)
    tables = [table for sheet in data.values() for table in sheet.values() if isinstance(table, list)]
    assert [row for table in tables for row in table if "drop" in row] == []


@ALL
def test_what_only_the_designer_knows_is_left_out(garment, options):
    values = loaded(garment, **options)
    places = {place.entry for place in values}
    for entry in (
        "number",
        "name",
        "season",
        "company",
        "vendor",
        "date",
        "due",
        "delivery",
        "term",
        "place",
        "payment",
        "currency",
        "paper",
    ):
        assert f"style.{entry}" not in places
    assert not {
        entry for entry in places if entry.startswith(("pricing.", "quote.", "order.sizes.", "materials.bom.target"))
    }


@ALL
def test_suggestions_are_marked_as_such(garment, options):
    data = starter(garment, **options)
    assert data["style"]["description"].startswith("Starter, overtype: ")
    assert "suggestions (common practice)" in rows(data, "revisions.log")[0]["what"]


@ALL
def test_bags_and_labels_are_the_same_size_on_both_sheets(garment, options):
    data = starter(garment, **options)
    widths = {row["label"]: row["width"] for row in rows(data, "labels.items")}
    bom = {row["item"]: row.get("width") for row in rows(data, "materials.bom")}
    assert bom["Bag with warning, self-sealing"] == widths["polybag"]
    assert bom["Main label, woven"] == widths["main label"]


def test_the_hood_comes_with_its_points_its_cord_and_its_lining():
    plain, hooded = starter("sweatshirt"), starter("sweatshirt", hood=True)
    assert len(rows(plain, "measurements.points")) == 13
    assert [row["point"] for row in rows(hooded, "measurements.points")][13:] == [
        "Hood height", "Hood width", "Pocket opening length", "Pocket width at bottom",
    ]  # fmt: skip
    assert rows(hooded, "measurements.points")[:13] == rows(plain, "measurements.points")
    assert [row["item"] for row in rows(hooded, "materials.bom") if row["zone"] == "hood or neck" and row["kind"] in {"cord", "lining"}] == [
        "Single jersey, hood lining", "Hood cord, round, tipped",
    ]  # fmt: skip
    assert "cord" not in {row["kind"] for row in rows(plain, "materials.bom")}
    assert "Neck rib" not in {row["area"] for row in rows(hooded, "construction.callouts")}


@pytest.mark.parametrize(("garment", "options"), [one for one in OPTIONS if "child" in one[1]])
def test_a_child_gets_no_cord_and_every_caution(garment, options):
    data = starter(garment, **options)
    assert data["style"]["age_group"] == "child"
    assert data["style"]["department"] == "children"
    assert data["style"]["height_to"] == 128
    kinds = {row["kind"] for row in rows(data, "materials.bom")}
    assert not kinds & {"cord", "cord stopper", "button"}
    assert not [row for row in rows(data, "materials.bom") if "eyelet" in row["item"].lower()]
    assert not [row for row in rows(data, "colorways.components") if "cord" in row["component"].lower()]
    assert data["quality"]["needle"].startswith("Needle control on every machine")
    assert {"Pull test of attached parts", "Cords and drawstrings"} <= {
        row["test"] for row in rows(data, "quality.tests")
    }
    assert next(row["wording"] for row in rows(data, "labels.items") if row["label"] == "size label").startswith(
        "98 | 104"
    )


@pytest.mark.parametrize(
    ("garment", "options", "words"),
    [
        (
            "kilt",
            {},
            "no starter for 'kilt'; known: t-shirt, sweatshirt, shirt, trousers, skirt, dress, jacket, leggings",
        ),
        ("T-shirt", {}, "no starter for 'T-shirt'; known: t-shirt, "),
        ("common", {}, "no starter for 'common'"),
        ("jacket", {"hood": True}, "no hood for 'jacket'; with a hood: sweatshirt"),
        (
            "trousers",
            {"child": True},
            "no child's variant of 'trousers'; for children: t-shirt, sweatshirt, shirt, jacket",
        ),
        ("shirt", {"unit": "yd"}, "unknown unit of length 'yd'; known: cm, mm, in"),
    ],
)
def test_what_there_is_not_is_refused(garment, options, words):
    with pytest.raises(ValueError, match=re.escape(words)):
        starter(garment, **options)


def test_each_call_gives_data_of_its_own():
    first = starter("shirt", child=True, unit="in")
    first["style"]["garment"] = "changed"
    first["materials"]["bom"].clear()
    again = starter("shirt", child=True, unit="in")
    assert again["style"]["garment"] == "Shirt"
    assert again["materials"]["bom"][0]["item"] == "Poplin"
