"""Files that cannot be used: one sentence that names the file, status 3, nothing written, nothing killed."""

import io
import re
import time
import zipfile

import openpyxl
import pytest

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Lost
from sheetgen.workbook.write.file import workbook_bytes
from tests.workbook.briefs import png
from tests.workbook.small import FILLED, SMALL, ready_for, typed_by_people

from .spoil import after_start, packed, parts_of, spoiled, with_cell

GOOD = workbook_bytes(ready_for(FILLED), FILLED, {"kind": "working"})
SHEET = "xl/worksheets/sheet2.xml"


@pytest.fixture(autouse=True)
def _nothing_written_and_done_in_time(tmp_path):
    started = time.monotonic()
    yield
    assert [path.name for path in tmp_path.iterdir()] in ([], ["returned.xlsx"])
    assert time.monotonic() - started < 20  # a hostile file must not hold the program up


def refusal(tmp_path, data: bytes) -> str:
    path = tmp_path / "returned.xlsx"
    path.write_bytes(data)
    return refusal_of(path)


def refusal_of(path) -> str:
    with pytest.raises(UserError) as caught:
        read(SMALL, path)
    assert caught.value.status == 3
    message = str(caught.value)
    assert message.startswith(f"{path}: ")
    assert message.endswith(".")
    assert "\n" not in message
    return message.removeprefix(f"{path}: ")


def test_the_good_file_is_read(tmp_path):
    path = tmp_path / "returned.xlsx"
    path.write_bytes(GOOD)
    assert typed_by_people(read(SMALL, path)) == FILLED


NO_ODT = "is an OpenDocument file, but no spreadsheet; save it as .xlsx or .ods in the spreadsheet program."
DAMAGED = "is damaged; ask for it to be sent again."
NO_WORKBOOK = "is not a workbook; save it as .xlsx in the spreadsheet program and send that."
ODD = "is built in a way no spreadsheet program writes; ask for it to be saved again."
DEFINITIONS = "carries definitions no spreadsheet program writes; ask for it to be saved again."
TOO_MUCH = "unpacks to far more than a workbook holds; ask for it to be saved again."
TOO_MANY_CELLS = "holds more cells than any specification workbook; ask for the workbook itself."
NOT_OURS = "is no workbook made by sheetgen; nothing in it can be found."
FAR = "has a cell far outside the sheets ({}); delete it and save again."


def zip_of(**parts: bytes) -> bytes:
    return packed({name.replace("__", "/"): content for name, content in parts.items()})


def other_workbook() -> bytes:
    buffer = io.BytesIO()
    openpyxl.Workbook().save(buffer)
    return buffer.getvalue()


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "is empty; ask for it to be sent again."),
        (
            b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + "EncryptedPackage".encode("utf-16-le"),
            "is protected with a password; save it without one.",
        ),
        (png(), NO_WORKBOOK),
        (b"Style;Price\r\nAB-001;4,50\r\n", NO_WORKBOOK),
        (b"PK\x03\x04 and then nothing", DAMAGED),
        (GOOD[: len(GOOD) // 2], DAMAGED),
        (GOOD[:-30], DAMAGED),
        (zip_of(letter=b"hello"), NO_WORKBOOK),
        (zip_of(word__document=b"<w/>"), NO_WORKBOOK),
        (zip_of(mimetype=b"application/vnd.oasis.opendocument.spreadsheet"), DAMAGED),
        (zip_of(mimetype=b"application/vnd.oasis.opendocument.text"), NO_ODT),
        (other_workbook(), NOT_OURS),
    ],
    ids=["empty", "password", "picture", "csv", "stub", "half", "cut-off", "zip", "docx", "ods", "odt", "not-ours"],
)
def test_a_file_that_is_no_workbook_of_ours(tmp_path, data, says):
    assert refusal(tmp_path, data) == says


def test_a_folder_and_a_missing_file(tmp_path):
    (tmp_path / "returned.xlsx").mkdir()
    assert refusal_of(tmp_path / "returned.xlsx") == "is a folder; name the workbook in it."
    assert refusal_of(tmp_path / "nowhere.xlsx") == "there is no such file; check the name."


def test_every_byte_of_a_part_counts(tmp_path):
    start = GOOD.index(b"xl/worksheets/sheet2.xml") + 200
    assert refusal(tmp_path, GOOD[:start] + bytes([GOOD[start] ^ 255]) + GOOD[start + 1 :]) == DAMAGED


@pytest.mark.parametrize(
    ("cell", "row", "where"),
    [
        (b'<c r="XFD1048576"><v>1</v></c>', b'<row r="1048576">', "XFD1048576"),
        (b'<c s="1" r="XFD5"><v>1</v></c>', b'<row r="200">', "XFD5"),
        (b"<c\n r = 'AAA5'><v>1</v></c>", b'<row r="200">', "AAA5"),
        (b'<c r="xfd5"><v>1</v></c>', b'<row r="200">', "xfd5"),
        (b'<c r="B100001"><v>1</v></c>', b'<row r="100001">', "B100001"),
        (b'<c r="ZZ90000"><v>1</v></c>', b'<row r="90000">', "ZZ90000"),
        (b"<c><v>1</v></c>", b'<row r="1048576">', None),
    ],
)
def test_a_cell_far_away(tmp_path, cell, row, where):
    says = refusal(tmp_path, with_cell(GOOD, cell, row))
    assert says == FAR.format(where) if where else says.startswith("has a cell far outside the sheets (")


def test_an_empty_row_far_away_is_harmless(tmp_path):
    # one program always writes the last row's height
    path = tmp_path / "returned.xlsx"
    path.write_bytes(with_cell(GOOD, b"", b'<row r="1048576" ht="12.8">'))
    assert typed_by_people(read(SMALL, path)) == FILLED


def test_a_cell_that_hides_where_it_is(tmp_path):
    assert refusal(tmp_path, with_cell(GOOD, b'<c r="&#88;FD5"><v>1</v></c>')) == FAR.format("XFD5")


def test_a_far_cell_in_a_sheet_that_stands_elsewhere(tmp_path):
    parts = parts_of(with_cell(GOOD, b'<c r="XFD1048576"><v>1</v></c>'))
    parts["xl/odd/sheet2.data"] = parts.pop(SHEET)
    for name in ("xl/_rels/workbook.xml.rels", "[Content_Types].xml"):
        parts[name] = parts[name].replace(b"worksheets/sheet2.xml", b"odd/sheet2.data")
    assert refusal(tmp_path, packed(parts)) == FAR.format("XFD1048576")


@pytest.mark.parametrize("area", [b"A1:XFD1048576", b"A1:B1048576", b"a1:xfd999"])
@pytest.mark.parametrize(
    "element",
    [
        b'<mergeCells count="1"><mergeCell ref="%s"/></mergeCells>',
        b'<hyperlinks><hyperlink ref="%s" location="Style!A1"/></hyperlinks>',
    ],
)
def test_a_huge_area(tmp_path, area, element):
    data = spoiled(GOOD, SHEET, lambda text: text.replace(b"</sheetData>", b"</sheetData>" + element % area))
    assert refusal(tmp_path, data) == TOO_MANY_CELLS


BOMB = b'<!DOCTYPE x [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;">]>'


@pytest.mark.parametrize(
    "name", [SHEET, "xl/workbook.xml", "xl/sharedStrings.xml", "docProps/core.xml", "xl/_rels/workbook.xml.rels"]
)
def test_an_entity_bomb_in_any_part(tmp_path, name):
    assert refusal(tmp_path, after_start(GOOD, name, BOMB)) == DEFINITIONS


def in_utf_16(text: bytes) -> bytes:
    return text.decode().replace("UTF-8", "UTF-16").encode("utf-16")


def test_a_definition_hidden_in_another_encoding(tmp_path):
    def spoil(text: bytes) -> bytes:
        start, mark, rest = text.partition(b"?>\n")
        return in_utf_16(start + mark + BOMB + rest)

    assert refusal(tmp_path, spoiled(GOOD, SHEET, spoil)) == DEFINITIONS


@pytest.mark.parametrize("blank", [b"\n", b"\r\n", b"", b" \n\n  "], ids=repr)
@pytest.mark.parametrize("mark", [True, False], ids=["with its mark", "without"])
@pytest.mark.parametrize("name", [SHEET, "xl/sharedStrings.xml", "xl/styles.xml", "xl/workbook.xml"])
def test_a_part_in_another_encoding_is_read(tmp_path, name, mark, blank):
    path = tmp_path / "returned.xlsx"
    change = lambda text: in_utf_16(text.replace(b"?>\n", b"?>" + blank, 1))[0 if mark else 2 :]  # noqa: E731
    path.write_bytes(spoiled(GOOD, name, change))
    assert typed_by_people(read(SMALL, path)) == FILLED


def test_a_white_space_bomb(tmp_path):
    data = spoiled(GOOD, "xl/sharedStrings.xml", lambda text: text.replace(b"</sst>", b" " * 60_000_000 + b"</sst>"))
    assert refusal(tmp_path, data) == TOO_MUCH


def test_too_many_parts_and_a_part_that_is_there_twice(tmp_path):
    parts = {**parts_of(GOOD), **{f"xl/media/{number}.txt": b"" for number in range(3001)}}
    assert refusal(tmp_path, packed(parts)) == ODD
    with pytest.warns(UserWarning, match="Duplicate name"):
        doubled = packed(parts_of(GOOD), doubled=SHEET)
    assert refusal(tmp_path, doubled) == ODD


def test_a_part_under_a_password(tmp_path):
    data = bytearray(GOOD)
    with zipfile.ZipFile(io.BytesIO(GOOD)) as package:
        offset = package.getinfo(SHEET).header_offset
    data[offset + 6] |= 1
    central = GOOD.rindex(b"PK\x01\x02", 0, GOOD.rindex(SHEET.encode()))
    data[central + 8] |= 1
    assert refusal(tmp_path, bytes(data)) == "is protected with a password; save it without one."


@pytest.mark.parametrize(
    ("name", "change"),
    [
        (SHEET, lambda text: text[: len(text) // 2]),
        (SHEET, lambda text: text.replace(b'<c r="', b'<c r="9', 1)),
        (SHEET, lambda text: text.replace(b't="s"><v>', b't="s"><v>99999', 1)),
        ("xl/workbook.xml", lambda text: text.replace(b"<sheets>", b"<sheet>")),
        ("xl/styles.xml", lambda _: b"<styleSheet"),
        ("[Content_Types].xml", lambda _: b"<Types/>"),
    ],
    ids=["half a sheet", "odd address", "no such string", "workbook", "styles", "no types"],
)
def test_a_part_that_is_broken(tmp_path, name, change):
    says = refusal(tmp_path, spoiled(GOOD, name, change))
    assert says.startswith("is damaged") or says == NOT_OURS


@pytest.mark.parametrize("encoding", [b"x" * 40_000, b"klingon"])
def test_an_encoding_that_nobody_knows(tmp_path, encoding):
    says = refusal(
        tmp_path,
        spoiled(
            GOOD, SHEET, lambda text: b'<?xml version="1.0" encoding="' + encoding + b'"?>' + text.partition(b"?>")[2]
        ),
    )
    assert says.startswith("is damaged")
    assert len(says) < 300


def test_a_sheet_whose_part_is_gone_is_lost_and_the_rest_is_read(tmp_path):
    path = tmp_path / "returned.xlsx"
    path.write_bytes(packed({name: content for name, content in parts_of(GOOD).items() if name != SHEET}))
    got = read(SMALL, path)
    assert got.lost == [Lost("sheet", "goods")]
    assert typed_by_people(got) == {
        place: value for place, value in FILLED.items() if not place.entry.startswith("goods.")
    }


@pytest.mark.parametrize(
    "spoil",
    [
        lambda parts: parts | {"xl/media/image1.png": b"no picture at all"},
        lambda parts: parts | {"xl/media/image1.png": parts["xl/media/image1.png"][:40]},
        lambda parts: {name: content for name, content in parts.items() if name != "xl/media/image1.png"},
        lambda parts: parts | {"xl/drawings/drawing1.xml": b"<broken"},
        lambda parts: {
            name: content for name, content in parts.items() if name != "xl/drawings/_rels/drawing1.xml.rels"
        },
        lambda parts: {name: content for name, content in parts.items() if name != "xl/drawings/drawing1.xml"},
    ],
    ids=["no picture", "cut off", "picture gone", "drawing broken", "links gone", "drawing gone"],
)
def test_a_broken_picture_costs_at_most_the_picture(tmp_path, spoil):
    values = {**FILLED, Place("style.front"): Picture(png())}
    path = tmp_path / "returned.xlsx"
    path.write_bytes(packed(spoil(parts_of(workbook_bytes(ready_for(values), values, {"kind": "working"})))))
    typed = typed_by_people(read(SMALL, path))
    typed.pop(Place("style.front"), None)
    assert typed == FILLED


@pytest.mark.parametrize("name", ["style__evil_z99999999", "x_z999999", "a_z200000"])
def test_a_name_that_claims_a_million_sizes(tmp_path, name):
    defined = f'<definedName name="{name}">Style!$A$1</definedName></definedNames>'.encode()
    path = tmp_path / "returned.xlsx"
    path.write_bytes(spoiled(GOOD, "xl/workbook.xml", lambda text: text.replace(b"</definedNames>", defined)))
    assert typed_by_people(read(SMALL, path)) == FILLED


def test_a_name_that_claims_a_million_rows(tmp_path):
    def stretched(text: bytes) -> bytes:
        return re.sub(rb"('Bought goods'!\$[A-Z]+\$\d+:\$[A-Z]+\$)\d+", rb"\g<1>1048576", text)

    path = tmp_path / "returned.xlsx"
    path.write_bytes(spoiled(GOOD, "xl/workbook.xml", stretched))
    started = time.process_time()
    got = read(SMALL, path)
    assert typed_by_people(got).items() >= FILLED.items()
    assert time.process_time() - started < 10
