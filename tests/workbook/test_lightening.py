"""What the reader of cells is given says of every cell what the whole file says, and brings in nothing that was not looked at."""

import datetime
import random
import zipfile

import openpyxl
import pytest
from openpyxl.styles.numbers import is_date_format, is_timedelta_format
from openpyxl.utils.cell import range_boundaries

from sheetgen.errors import UserError
from sheetgen.workbook.read.hardened import BrokenError, UnsafeError, parse
from sheetgen.workbook.read.lightening import lightened
from sheetgen.workbook.read.loading import load
from sheetgen.workbook.read.safety import passed
from sheetgen.workbook.write.file import workbook_bytes
from tests.forms.make import FOLDER as FORMS
from tests.hostile.spoil import packed, parts_of

from .small import FILLED, ready_for

pytestmark = pytest.mark.filterwarnings("ignore:Workbook contains no default style")

BOMB = b'<!DOCTYPE d [<!ENTITY e "' + b"x" * 50 + b'">]><Relationships>&e;</Relationships>'


def cells(book):
    """Every cell that holds something, with what kind of thing it is."""
    return {
        (sheet.title, cell.coordinate): (cell.value, cell.data_type, cell.comment and cell.comment.text)
        for sheet in book.worksheets
        for row in sheet.iter_rows()
        for cell in row
        if cell.value is not None or cell.comment
    }


@pytest.mark.parametrize("path", sorted(FORMS.rglob("*.xlsx")), ids=lambda path: f"{path.parent.name}-{path.stem}")
def test_the_light_file_holds_the_cells_of_the_whole_one(path):
    light = openpyxl.load_workbook(lightened(passed(path), is_date_format, is_timedelta_format))
    whole = openpyxl.load_workbook(path)
    assert cells(light) == cells(whole)
    assert [sheet.title for sheet in light] == [sheet.title for sheet in whole]
    assert [sheet.sheet_state for sheet in light] == [sheet.sheet_state for sheet in whole]


# Number formats of ECMA-376 part 1, 18.8.30, and codes that programs write of their own.
CODES = [
    "General", "0.00", "mm-dd-yy", "yyyy-mm-dd", "[$-409]d mmm yyyy;@", "h:mm", "[h]:mm:ss", "[mm]:ss", '"d"0.0', "\\d0", "#,##0 [$EUR]",
    "[Red]0", "@", "_(* #,##0_);_(* \\(#,##0\\)", "0;dd", "dd;0", '0.0 "hm"', "mmss.0",
    '0.00" [m]"', '0.0"[h]"', '0.00 "[s]"',
]  # fmt: skip


@pytest.mark.parametrize("code", CODES)
def test_a_day_is_a_day_by_its_number_format(tmp_path, code):
    book = openpyxl.Workbook()
    book.active["A1"], book.active["A2"], book.active["A3"] = 46000.25, "a word", datetime.date(2026, 12, 1)
    for cell in ("A1", "A2"):
        book.active[cell].number_format = code
    book.save(tmp_path / "a.xlsx")
    first = passed(tmp_path / "a.xlsx")
    light = openpyxl.load_workbook(lightened(first, is_date_format, is_timedelta_format))
    assert cells(light) == cells(openpyxl.load_workbook(tmp_path / "a.xlsx"))


def test_names_are_those_that_the_library_reads(tmp_path):
    path = next(FORMS.rglob("working.xlsx"))
    names = openpyxl.load_workbook(path).defined_names
    found = load(path).names
    assert len(names) > 1000
    assert found.keys() == names.keys()
    for name, area in found.items():
        ((title, cells),) = names[name].destinations
        left, first, right, last = range_boundaries(cells)
        assert area == (title, first, left, last, right)


@pytest.mark.parametrize(
    "relations",
    [
        # What is cut away begins a comment, and what is left ends none: the definitions in it would come to stand outside.
        b'<Relationship a="/drawing"><!-- <Relationship b="/drawing" >' + BOMB + b"--></Relationship>",
        b'<?xml version="1.0"?><Relationship a="/drawing"><!-- <Relationship b="/drawing">'
        + BOMB
        + b"--></Relationship>",
        b'<Relationship a="/drawing"><![CDATA[ <Relationship b="/drawing" >' + BOMB + b"]]></Relationship>",
    ],
)
def test_definitions_that_stand_in_a_comment_do_not_get_out_of_it(tmp_path, relations):
    parts = parts_of(next(FORMS.rglob("working.xlsx")).read_bytes())
    parts["xl/worksheets/_rels/sheet2.xml.rels"] = relations
    path = tmp_path / "a.xlsx"
    path.write_bytes(packed(parts))
    first = passed(path)
    with pytest.raises(UnsafeError, match="definitions"):
        lightened(first, is_date_format, is_timedelta_format)
    with pytest.raises(UserError, match="carries definitions no spreadsheet program writes") as caught:
        load(path)
    assert caught.value.status == 3


def test_pictures_and_looks_are_not_in_it():
    path = next(FORMS.rglob("working.xlsx"))
    light = zipfile.ZipFile(lightened(passed(path), is_date_format, is_timedelta_format))
    assert not [name for name in light.namelist() if "media" in name or "charts" in name]
    assert b"<font" not in light.read("xl/styles.xml")
    assert b"<definedName" not in light.read("xl/workbook.xml")


def disguised(chance, text):
    """A part with definitions somewhere in it, in some encoding, behind some blanks, with a head that may be wrong or gone."""
    head, mark, rest = text.decode().partition("?>\n")
    at = chance.choice([0, 0, 0, chance.randrange(len(rest) + 1)])
    words = rest[:at] + DEFINED + rest[at:]
    words = chance.choice([head + mark, head.replace("UTF-8", "UTF-16") + mark, ""]) + words
    encoding = chance.choice(["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "latin-1"])
    blanks = chance.choice([b"", b" " * 70, b"\r\n" * 40, b"\xef\xbb\xbf", b"\0", b"\xff\xfe"])
    return blanks + words.encode(encoding, "replace")


DEFINED = '<!DOCTYPE d [<!ENTITY e "xxxxxxxx"><!ENTITY f "&e;&e;&e;">]>'
SMALL_FILE = workbook_bytes(ready_for(FILLED), FILLED, {"kind": "working"})


@pytest.mark.parametrize("seed", range(300))
def test_the_library_is_given_no_part_that_brings_definitions(tmp_path, seed):
    chance = random.Random(seed)
    parts = parts_of(SMALL_FILE)
    name = chance.choice([name for name in parts if name.endswith((".xml", ".rels"))])
    path = tmp_path / "a.xlsx"
    path.write_bytes(packed({**parts, name: disguised(chance, parts[name])}))
    try:
        given = lightened(passed(path), is_date_format, is_timedelta_format)
    except (UserError, UnsafeError):
        return  # refused
    with zipfile.ZipFile(given) as light:
        for part in light.namelist():
            try:
                parse(light.read(part))  # UnsafeError: it brings definitions
            except BrokenError:
                assert part == name
