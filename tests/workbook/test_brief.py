"""A brief: TOML whose tables and keys are the book's addresses; all that is wrong is told at once, each with its place."""

import datetime

import pytest

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.workbook.exchange.toml import read_toml

from .briefs import loaded, png, problems

GOOD = """
[style]
number = "AB-001"
revision = 3
due = 2026-12-01
unit = "cm"
description = "First line\\r\\nsecond line"
front = "front.png"

[[style.sizes]]
name = "S"

[[style.sizes]]
name = "XL"

[[goods.lines]]
item = "Twill"
net = 1.25
waste = "7,5 %"
width = { S = "12 3/8 in", XL = 31 }

[[goods.lines]]
row = "M5"
item = "Tape"
width = "314 mm"

[[goods.answers]]
row = "Tape"
says = "in stock"

[[goods.answers]]
row = "M1"
says = "four weeks"

[[scale.grades]]
row = "B"
found = 2

[own]
margin = "55 %"
"""


def test_all_that_a_brief_says(tmp_path):
    (tmp_path / "front.png").write_bytes(png())
    assert loaded(tmp_path, GOOD) == {
        Place("style.number"): "AB-001",
        Place("style.revision"): 3,
        Place("style.due"): datetime.date(2026, 12, 1),
        Place("style.unit"): "cm",
        Place("style.description"): "First line\nsecond line",
        Place("style.front"): Picture(png()),
        Place("style.sizes.name", "Z1"): "S",
        Place("style.sizes.name", "Z2"): "XL",
        Place("goods.lines.item", "M1"): "Twill",
        Place("goods.lines.net", "M1"): 1.25,
        Place("goods.lines.waste", "M1"): 0.075,
        Place("goods.lines.width_z1", "M1"): 31.4325,  # 12.375 x 2.54
        Place("goods.lines.width_z2", "M1"): 31,
        Place("goods.lines.item", "M5"): "Tape",
        Place("goods.lines.width_z1", "M5"): 31.4,
        Place("goods.lines.width_z2", "M5"): 31.4,
        Place("goods.answers.says", "M5"): "in stock",
        Place("goods.answers.says", "M1"): "four weeks",
        Place("scale.grades.found", "G2"): 2,
        Place("own.margin"): 0.55,
    }


def test_a_unit_of_inches_holds_for_plain_numbers_and_marks_override_it(tmp_path):
    text = '[style]\nunit = "in"\n[[goods.lines]]\nitem = "A"\nwidth = "12 3/8"\n[[goods.lines]]\nitem = "B"\nwidth = "5.08 cm"\n'
    values = loaded(tmp_path, text)
    assert values[Place("goods.lines.width_z1", "M1")] == 12.375
    assert values[Place("goods.lines.width_z1", "M2")] == 2.0


def test_everything_wrong_is_told_at_once_with_its_place(tmp_path):
    text = """
    [stile]
    number = "x"
    [style]
    nmae = "x"
    number = 12
    revision = 1.5
    purpose = "party"
    due = "2026-12-01"
    stage = 2
    company = true
    front = "nowhere.png"
    back = 7
    description = "tab\\u0007"
    [[style.sizes]]
    name = "S"
    [[goods.lines]]
    itme = "x"
    net = -1
    waste = 5
    tint = "red"
    price = "USD 2.5"
    width = { S = "wide", M = 4 }
    photo = "brief.toml"
    cost = 3
    [goods]
    sent = 1985-01-01
    [own]
    plan = 3
    """.replace("[goods]\n    sent = 1985-01-01\n", "")
    assert problems(tmp_path, text) == [
        "nothing is called 'stile'; is it 'style'? @ stile",
        "nothing is called 'nmae'; is it 'name'? @ style.nmae",
        "must be text @ style.number",
        "must be a whole number @ style.revision",
        "must be one of: quote, sample, bulk @ style.purpose",
        "must be a date, as 2026-03-31 @ style.due",
        "is worked out by the workbook: take it out @ style.stage",
        "must be text @ style.company",
        f"{tmp_path / 'nowhere.png'}: there is no such picture; correct the path or leave the entry out. @ style.front",
        "must be the path of a picture @ style.back",
        "must not hold control characters @ style.description",
        "nothing is called 'itme'; is it 'item'? @ goods.lines[M1].itme",
        "must be at least 0 @ goods.lines[M1].net",
        "must be at most 50 % @ goods.lines[M1].waste",
        "must be a color as #RRGGBB @ goods.lines[M1].tint",
        "must be an amount of money as a number of at least 0 @ goods.lines[M1].price",
        "nothing is called 'M' @ goods.lines[M1].width.M",
        "'wide' is no length, as 12 3/8 or 31.4 cm @ goods.lines[M1].width",
        f"{tmp_path / 'brief.toml'}: is no PNG, JPEG or SVG picture; save it as one of these. @ goods.lines[M1].photo",
        "is worked out by the workbook: take it out @ goods.lines[M1].cost",
        "must be rows, written as [[own.plan]] @ own.plan",
    ]


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("style = 3", "must be a table of entries @ style"),
        ("[style]\nsizes = 3", "must be rows, written as [[style.sizes]] @ style.sizes"),
        ("[style]\nsizes = [1]", "must be rows, written as [[style.sizes]] @ style.sizes"),
        ("[style.number]\nx = 1", "must be text @ style.number"),
        ("[style]\nnumber = ['a']", "must be text @ style.number"),
        ("[style]\nrevision = nan", "must be a finite number @ style.revision"),
        (f"[style]\nrevision = 1{'0' * 400}", "must have at most 15 digits @ style.revision"),
        ("[style]\ndue = 12:30:00", "must be a date @ style.due"),
        ("[style]\ndue = 1985-01-01", "must be a date from 1990-01-01 on @ style.due"),
        ('[style]\nfront = "a\\u0000b.png"', "must be the path of a picture @ style.front"),
        (
            '[style]\nname = "a_x000D_b"',
            "must not hold _x000D_ or x005F_, which workbook files keep for themselves @ style.name",
        ),
        (f'[[style.sizes]]\nname = "{"x" * 61}"', "must be at most 60 characters @ style.sizes[Z1].name"),
        ("[[scale.grades]]\nfound = 1", 'each row must say which it is, as row = "..." @ scale.grades[1]'),
        ('[[scale.grades]]\nrow = "C"\nfound = 1', "no row is called 'C' @ scale.grades[1].row"),
        ('[[scale.grades]]\nrow = "G3"\nfound = 1', "no row is called 'G3' @ scale.grades[1].row"),
        ("[[scale.grades]]\nrow = 2\nfound = 1", "no row is called 2 @ scale.grades[1].row"),
        ('[[goods.answers]]\nrow = "M9"\nsays = "x"', "no row is called 'M9' @ goods.answers[1].row"),
        ('[[goods.lines]]\nrow = "Twill"\nitem = "x"', "no row is called 'Twill' @ goods.lines[1].row"),
        ('[[goods.lines]]\nrow = "M01"\nitem = "x"', "no row is called 'M01' @ goods.lines[1].row"),
    ],
)
def test_one_thing_wrong(tmp_path, text, problem):
    assert problems(tmp_path, text) == [problem]


@pytest.mark.parametrize("filled", ["width = {S = 3}", 'says = "x"', 'item = "a"'])
def test_a_row_that_anything_stands_in_can_be_named(tmp_path, filled):
    rows = "[[style.sizes]]\nname = 'S'\n" + "[[goods.lines]]\nnet = 1\n" * 8
    table = "answers" if "says" in filled else "lines"
    named = f"[[goods.lines]]\n{filled}\n" if table == "lines" else ""
    text = f"{rows}{named}[[goods.answers]]\nrow = 'M{9 if named else 8}'\nsays = 'yes'"
    assert loaded(tmp_path, text)[Place("goods.answers.says", "M9" if named else "M8")] == "yes"


@pytest.mark.parametrize("blank", ["width = {}", "width = {S = ''}", "item = ''"])
def test_a_row_in_which_nothing_stands_cannot(tmp_path, blank):
    rows = "[[style.sizes]]\nname = 'S'\n" + f"[[goods.lines]]\n{blank}\n" * 8
    assert problems(tmp_path, f"{rows}[[goods.answers]]\nrow = 'M8'\nsays = 'yes'") == [
        "no row is called 'M8' @ goods.answers[1].row"
    ]


@pytest.mark.parametrize(
    "rows",
    [
        '[[goods.lines]]\nrow = "M2"\nitem = "a"\n[[goods.lines]]\nitem = "b"',
        '[[goods.lines]]\nrow = "M1"\nitem = "a"\n[[goods.lines]]\nrow = "M1"\nnet = 2',
    ],
)
def test_a_row_given_twice_would_lose_the_first_one(tmp_path, rows):
    ref = "M2" if "M2" in rows else "M1"
    assert problems(tmp_path, rows) == [f"row {ref} is given twice @ goods.lines[2]"]


def test_a_vendors_answers_add_to_a_known_style(tmp_path):
    known = {
        Place("style.unit"): "in",
        Place("style.sizes.name", "Z1"): "S",
        Place("style.sizes.name", "Z2"): "M",
        Place("goods.lines.item", "M1"): "Twill",
        Place("goods.lines.item", "M2"): "Button",
    }
    text = """
    [[goods.lines]]
    row = "Button"
    price = 0.12
    width = { M = "1/2" }
    [[goods.answers]]
    row = "Twill"
    says = "yes"
    """
    assert loaded(tmp_path, text, known) == {
        Place("goods.lines.price", "M2"): 0.12,
        Place("goods.lines.width_z2", "M2"): 0.5,
        Place("goods.answers.says", "M1"): "yes",
    }


def test_a_mark_at_the_start_of_the_file_is_no_error(tmp_path):
    path = tmp_path / "brief.toml"
    path.write_bytes(b"\xef\xbb\xbf[style]\r\nnumber = 'A'\r\n")
    assert read_toml(path) == {"style": {"number": "A"}}


def test_an_empty_text_is_a_blank(tmp_path):
    assert loaded(tmp_path, '[style]\nnumber = ""\n[[goods.lines]]\nnet = ""\nitem = "a"') == {
        Place("goods.lines.item", "M1"): "a"
    }


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (
            b"[style\nnumber = 1",
            "Expected ']' at the end of a table declaration (at line 1, column 7); correct that line.",
        ),
        (b"[style]\na = 1\na = 2", "Cannot overwrite a value (at end of document); correct that line."),
        ("[style]\nname = 'Gr\u00fcn'".encode("latin-1"), "cannot be read as text; save it as UTF-8."),
        (b"\xff\xfe[\x00s\x00]\x00", "cannot be read as text; save it as UTF-8."),
        (b"a = " + b"[" * 3000 + b"]" * 3000, "has lists within lists without end; write it as the sample briefs are."),
    ],
)
def test_a_file_that_is_no_toml(tmp_path, content, says):
    path = tmp_path / "brief.toml"
    path.write_bytes(content)
    with pytest.raises(UserError) as caught:
        read_toml(path)
    assert (str(caught.value), caught.value.status) == (f"{path}: {says}", 2)


def test_a_number_that_no_program_takes(tmp_path):
    path = tmp_path / "brief.toml"
    path.write_text("a = " + "9" * 5000)
    with pytest.raises(UserError, match="correct that line"):
        read_toml(path)


def test_a_missing_file_and_a_folder(tmp_path):
    for path, says in (
        (tmp_path / "no.toml", "there is no such file; check the name."),
        (tmp_path, "is a folder; name the file in it."),
    ):
        with pytest.raises(UserError) as caught:
            read_toml(path)
        assert (str(caught.value), caught.value.status) == (f"{path}: {says}", 2)
