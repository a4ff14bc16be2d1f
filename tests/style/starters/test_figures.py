"""The figures of the starters' points, against values written out by hand from a table of common practice (from memory;
they are suggestions and never a pass or fail)."""

import pytest

from sheetgen.garments import BY_WORD
from sheetgen.style.starters import FOR_CHILDREN, starter

from .garments import NAMES, OPTIONS, rows

ALL = pytest.mark.parametrize(("garment", "options"), OPTIONS, ids=NAMES)
SUGGESTED = ("base", "step", "minus", "plus")


def point(garment: str, name: str, **options) -> dict:
    return next(row for row in rows(starter(garment, **options), "measurements.points") if row["point"] == name)


@pytest.mark.parametrize(
    ("garment", "name", "extent", "base", "step", "tolerance"),
    [
        ("t-shirt", "Chest width", "half", 53, 2.5, 1),
        ("t-shirt", "Neck rib height", "full", 2, 0, 0.2),
        ("sweatshirt", "Bottom width, rib relaxed", "half", 46, 2.5, 1.3),
        ("shirt", "Across shoulder (yoke width)", "full", 46.5, 1.5, 0.75),
        ("shirt", "Sleeve length from center back", "full", 87.5, 1.75, 1.2),
        ("trousers", "Back rise", "full", 37.5, 0.75, 0.6),
        ("trousers", "Inside leg length", "full", 81, 0, 1.3),
        ("skirt", "Hip width", "half", 50.5, 2, 1),
        ("dress", "Bust dart position", "full", 27, 0.5, 0.5),
        ("jacket", "Front zip length", "full", 66, 1.5, 0.6),
        ("leggings", "Thigh width", "half", 23, 1, 0.6),
    ],
)
def test_a_point_has_the_declared_figures(garment, name, extent, base, step, tolerance):
    row = point(garment, name)
    assert (row["extent"], row["base"], row["step"], row["minus"], row["plus"]) == (
        extent,
        base,
        step,
        tolerance,
        tolerance,
    )


@pytest.mark.parametrize(
    ("garment", "name", "base"),
    [("t-shirt", "Minimum neck stretch", 31), ("leggings", "Waist width, stretched (minimum)", 48)],
)
def test_a_least_value_has_no_lower_tolerance_and_a_wide_upper_one(garment, name, base):
    row = point(garment, name)
    assert (row["base"], row["minus"], row["plus"], row["direction"]) == (base, 0, 5, "other")
    assert row["how"].endswith("; a least value, more is no fault")


@ALL
def test_points_stand_in_the_order_in_which_they_are_declared(garment, options):
    data = starter(garment, **options)
    declared = BY_WORD[data["measurements"]["garment"]]
    assert [row["drawn"] for row in rows(data, "measurements.points")] == [one.point for one in declared.points]
    assert (declared.word != garment) == ("hood" in options)


@ALL
@pytest.mark.parametrize("unit", ["cm", "mm", "in"])
def test_suggested_figures_are_those_to_overtype(garment, options, unit):
    for row in rows(starter(garment, **options, unit=unit), "measurements.points"):
        assert [row[f"suggested_{name}"] for name in SUGGESTED] == [row[name] for name in SUGGESTED]
        assert row["direction"] in {"length", "width", "other"}
        assert row["point"][0].isupper()
        assert row["point"].lower() == row["drawn"].lower()


def test_directions_are_along_and_across_the_body():
    def named(garment: str, direction: str, **options) -> list[str]:
        return [
            row["drawn"]
            for row in rows(starter(garment, **options), "measurements.points")
            if row["direction"] == direction
        ]

    assert named("trousers", "length") == [
        "waistband height", "front rise", "back rise", "inside leg length", "outside leg length", "fly length", "hem height",
    ]  # fmt: skip
    assert named("trousers", "width") == [
        "waist width, straight", "hip width (seat)", "thigh width", "knee width", "leg opening", "back pocket width", "belt loop width",
    ]  # fmt: skip
    assert named("trousers", "other") == ["front pocket opening"]
    assert named("shirt", "other") == ["collar length, buttoned", "cuff length, flat open"]
    assert named("sweatshirt", "other", hood=True) == ["pocket opening length"]
    assert named("skirt", "width") == ["waist width", "high hip width", "hip width", "bottom sweep"]


@ALL
def test_inches_stand_on_the_grid(garment, options):
    centimeters = rows(starter(garment, **options), "measurements.points")
    for row, metric in zip(
        rows(starter(garment, **options, unit="in"), "measurements.points"), centimeters, strict=True
    ):
        assert (row["base"] * 8).is_integer(), row
        assert row["base"] == pytest.approx(metric["base"] / 2.54, abs=1 / 16 + 1e-9)
        for name in ("step", "minus", "plus"):
            grid = 8 if row[name] >= 0.25 else 16
            assert (row[name] * grid).is_integer(), row
            assert (row[name] == 0) == (metric[name] == 0), row


def test_a_point_in_inches_by_hand():
    # 53 cm = 20.866 in, 2.5 cm = 0.984 in, 1 cm = 0.394 in; the neck's 0.5 cm = 0.197 in is a small step.
    chest = point("t-shirt", "Chest width", unit="in")
    assert (chest["base"], chest["step"], chest["minus"], chest["plus"]) == (20.875, 1, 0.375, 0.375)
    assert chest["how"] == "edge to edge, 1 in below armhole"
    neck = point("t-shirt", "Neck width", unit="in")
    assert (neck["base"], neck["step"], neck["plus"]) == (7.125, 0.1875, 0.1875)
    assert (
        point("shirt", "Waist width", unit="mm")["how"]
        == "edge to edge at the narrowest point (about 430 mm below high shoulder point)"
    )


def test_all_else_is_in_inches_too():
    data = starter("t-shirt", unit="in")
    assert data["construction"]["density_unit"] == "stitches per inch"
    hem = next(row for row in rows(data, "construction.callouts") if row["area"] == "Bottom hem")
    assert (hem["density"], hem["allowance"], hem["extra"]) == (11, 0.75, 0.75)  # 4.5 per cm; 2 cm
    assert (
        hem["instruction"]
        == "Turn up 3/4 in, twin needle 1/4 in apart, no twist; ends overlapped by 3/4 in near a side seam."
    )
    assert rows(data, "materials.bom")[0]["width"] == 68.875  # 175 cm
    assert rows(data, "materials.bom")[1]["net"] == rows(starter("t-shirt"), "materials.bom")[1]["net"]
    assert rows(data, "style.sizes")[2] == {"name": "M", "body": "chest girth 37 to 40 in"}
    assert rows(starter("t-shirt"), "style.sizes")[2] == {"name": "M", "body": "chest girth 94 to 102 cm"}


@ALL
def test_no_centimeter_is_left_in_inches(garment, options):
    data = starter(garment, **options, unit="in")
    texts = [value for sheet in data.values() for value in sheet.values() if isinstance(value, str)]
    tables = [table for sheet in data.values() for table in sheet.values() if isinstance(table, list)]
    texts += [value for table in tables for row in table for value in row.values() if isinstance(value, str)]
    # A child's size is named by the body height in cm everywhere.
    assert [text for text in texts if " cm" in text and "body height in cm" not in text] == []


@pytest.mark.parametrize("garment", FOR_CHILDREN)
@pytest.mark.parametrize("unit", ["cm", "in"])
def test_a_child_is_smaller_and_grows(garment, unit):
    adult = rows(starter(garment, unit=unit), "measurements.points")
    child = rows(starter(garment, child=True, unit=unit), "measurements.points")
    assert [row["drawn"] for row in child] == [row["drawn"] for row in adult]
    for small, large in zip(child, adult, strict=True):
        assert 0 < small["base"] < large["base"], small
        assert (small["step"] > 0) == (large["step"] > 0), small
        assert small["minus"] <= large["minus"], small
        assert small["plus"] <= large["plus"], small
        if small["direction"] == "width":
            assert small["step"] <= large["step"], small


@pytest.mark.parametrize(
    ("garment", "name", "base", "step", "tolerance"),
    [
        ("t-shirt", "Chest width", 35, 1.25, 0.75),  # 53 x 0.66 = 34.98; 2.5 / 2
        (
            "t-shirt",
            "Front length from high shoulder point",
            46.5,
            2.5,
            0.75,
        ),  # 72 x 116 / 180 = 46.4; 46.5 x 6 / 116 = 2.41
        ("t-shirt", "Neck width", 14.5, 0.25, 0.5),  # 18 x 0.8 = 14.4; 0.5 / 2
        ("sweatshirt", "Sleeve length from shoulder", 41, 2, 0.75),  # 64 x 116 / 180 = 41.24; 41 x 6 / 116 = 2.12
        ("sweatshirt", "Cuff opening, relaxed", 7, 0.25, 0.5),  # 9 x 0.78 = 7.02
        ("shirt", "Collar height at center back", 3, 0, 0.2),  # 4.3 x 0.7 = 3.01
        ("jacket", "Front zip length", 42.5, 2.25, 0.6),  # 66 x 116 / 180 = 42.53; 42.5 x 6 / 116 = 2.2
    ],
)
def test_a_child_is_scaled_by_the_rule(garment, name, base, step, tolerance):
    row = point(garment, name, child=True)
    assert (row["base"], row["step"], row["minus"], row["plus"]) == pytest.approx((base, step, tolerance, tolerance))


def test_a_child_neck_goes_over_the_head():
    # 31 x 0.9 = 27.9: twice 28 cm is more than the head of a child of 116 cm (about 52 cm, common practice).
    assert point("t-shirt", "Minimum neck stretch", child=True)["base"] == 28
    assert "about 10 cm below" in point("t-shirt", "Across front", child=True)["how"]
