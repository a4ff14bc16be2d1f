"""The brand file, and what it gives to a style that says nothing itself."""

from dataclasses import replace
from pathlib import Path

import pytest

from sheetgen.declare.entry import designer
from sheetgen.declare.kinds import length, text
from sheetgen.declare.parts import Book, Form, Sheet, Table
from sheetgen.errors import UserError
from sheetgen.sheets import ABOUT
from sheetgen.style.brand import Tolerance, load_brand, load_style
from tests.workbook.small import STYLE

POINTS = Sheet("measurements", "Measurements", (
    Table("points", "Points", ref="P", key="point", columns=(
        designer("point", "Point", text()), designer("minus", "-", length()), designer("plus", "+", length()),
    )),
))  # fmt: skip
SIZED = replace(STYLE, parts=(Form("Range", (designer("size_range", "Size range", text()),)), *STYLE.parts))
BOOK = Book((SIZED, POINTS), axes={"size": "style.sizes"}, about=ABOUT)

BRAND = """
[company]
name = "Our company"
[defaults]
"style.unit" = "cm"
"style.currency" = "EUR"
[size_ranges]
letters = ["S", "M", "L"]
ages = [98, 104]
[[tolerances]]
words = ["chest width"]
minus = 0.5
plus = 1
[[tolerances]]
words = ["chest", "HEM"]
minus = 2
plus = 3
unit = "mm"
[numbering]
join = "."
parts = [{ name = "brand", codes = { OC = "Ours" } }, { name = "serial", digits = 2 }]
"""


def brand_file(folder: Path, text: str = BRAND) -> Path:
    path = folder / "brand.toml"
    path.write_text(text, "utf-8")
    return path


def style(folder: Path, text: str, brand: str | None = BRAND) -> dict[str, object]:
    path = folder / "brief.toml"
    path.write_text(text, "utf-8")
    values = load_style(BOOK, path, load_brand(brand_file(folder, brand)) if brand is not None else None)
    return {str(place): value for place, value in values.items()}


def test_what_a_brand_file_holds(tmp_path):
    brand = load_brand(brand_file(tmp_path))
    assert brand.defaults == {"style.company": "Our company", "style.unit": "cm", "style.currency": "EUR"}
    assert brand.size_ranges == {"letters": ("S", "M", "L"), "ages": ("98", "104")}
    assert brand.tolerances == (
        Tolerance(("chest width",), 0.5, 1.0, "cm"),
        Tolerance(("chest", "hem"), 2.0, 3.0, "mm"),
    )
    assert brand.numbering is not None
    assert brand.numbering.decode("OC.07") == {"brand": "Ours", "serial": "07"}


def test_a_style_takes_what_it_does_not_say(tmp_path):
    text = """
    size_range = "letters"
    [style]
    number = "OC.12"
    unit = "in"
    [[measurements.points]]
    point = "Chest width"
    plus = 0.25
    [[measurements.points]]
    point = "Hem"
    [[measurements.points]]
    point = "Collar"
    """
    assert style(tmp_path, text) == {
        "style.number": "OC.12",
        "style.unit": "in",
        "style.company": "Our company",
        "style.currency": "EUR",
        "style.size_range": "letters",
        "style.sizes[Z1].name": "S",
        "style.sizes[Z2].name": "M",
        "style.sizes[Z3].name": "L",
        "measurements.points[P1].point": "Chest width",
        "measurements.points[P1].minus": 0.19685,  # 0.5 cm
        "measurements.points[P1].plus": 0.25,
        "measurements.points[P2].point": "Hem",
        "measurements.points[P2].minus": 0.07874,  # 2 mm
        "measurements.points[P2].plus": 0.11811,  # 3 mm
        "measurements.points[P3].point": "Collar",
    }


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (
            "[styles]\na = 1",
            "nothing is called 'styles'; a brand file has company, defaults, judgment, letter, numbering, size_ranges, tolerances.",
        ),
        ("company = 3", "'company' must be a table; see the sample brand file for its form."),
        ("[size_ranges]\na = 'S'", "'S' must be a list; see the sample brand file for its form."),
        ("tolerances = [3]", "each of [[tolerances]] must be a table; see the sample brand file for its form."),
        ("[[tolerances]]\nword = []", "[[tolerances]] knows no 'word'; see the sample brand file for its form."),
        (
            "[[tolerances]]\nminus = 1\nplus = 1",
            "[[tolerances]] needs 'words'; see the sample brand file for its form.",
        ),
        (
            "[[tolerances]]\nwords = ['a']\nplus = 1",
            "[[tolerances]] needs 'minus'; see the sample brand file for its form.",
        ),
        (
            "[[tolerances]]\nwords = ['a']\nminus = 1\nplus = 1\nunit = 'ft'",
            "[[tolerances]] unit must be cm, mm or in, not 'ft'; see the sample brand file for its form.",
        ),
        (
            "[numbering]\nparts = [3]",
            "each of [[numbering.parts]] must be a table; see the sample brand file for its form.",
        ),
        (
            "[numbering]\nparts = [{ digits = 3 }]",
            "[[numbering.parts]] needs 'name'; see the sample brand file for its form.",
        ),
        (
            "[numbering]\nparts = [{ name = 'a', codes = 3 }]",
            "codes must be a table; see the sample brand file for its form.",
        ),
    ],
)
def test_a_brand_file_with_one_thing_wrong(tmp_path, text, says):
    path = brand_file(tmp_path, text)
    with pytest.raises(UserError) as caught:
        load_brand(path)
    assert (str(caught.value), caught.value.status) == (f"{path}: {says}", 2)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('size_range = "numbers"', "the brand file has no size range 'numbers'; it has letters, ages."),
        ('size_range = ["S"]', "the brand file has no size range ['S']; it has letters, ages."),
        ("[style]\nnumber = 'OC.7'", "'7' in 'OC.7' must be 2 digits (serial) @ style.number"),
    ],
)
def test_a_style_that_does_not_fit_the_brand(tmp_path, text, says):
    with pytest.raises(UserError) as caught:
        style(tmp_path, text)
    assert (str(caught.value), caught.value.status) == (f"{tmp_path / 'brief.toml'}: {says}", 2)


def test_a_size_range_without_a_brand_file(tmp_path):
    with pytest.raises(UserError, match=r"no size range 'letters'; it has none\.$"):
        style(tmp_path, 'size_range = "letters"', brand=None)
