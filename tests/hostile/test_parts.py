"""Parts of a file that are odd, empty, broken or nobody's: none lets definitions in, none that does not matter stops a file."""

import re

import pytest

from sheetgen.workbook.read.file import read
from tests.workbook.small import FILLED, SMALL, typed_by_people

from .spoil import packed, parts_of, spoiled
from .test_files import BOMB, DEFINITIONS, GOOD, SHEET, refusal


@pytest.mark.parametrize("blanks", [b" " * 70, b" " * 500, b"\n" * 100_000, b"\xef\xbb\xbf" + b"\t" * 90], ids=len)
@pytest.mark.parametrize(
    "name", [SHEET, "xl/workbook.xml", "xl/sharedStrings.xml", "docProps/core.xml", "[Content_Types].xml"]
)
def test_a_definition_after_a_long_blank(tmp_path, name, blanks):
    data = spoiled(GOOD, name, lambda text: blanks + BOMB + text.partition(b"?>\n")[2])
    assert refusal(tmp_path, data) == DEFINITIONS


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-le", "utf-16-be"])
@pytest.mark.parametrize("name", ["xl/sharedStrings.xml", "docProps/core.xml", "[Content_Types].xml"])
def test_a_definition_in_a_part_whose_head_names_another_encoding(tmp_path, name, encoding):
    # No parser reads that; without its head one would.
    def spoil(text: bytes) -> bytes:
        head, mark, rest = text.partition(b"?>\n")
        return (head + mark + BOMB + rest).decode().encode(encoding)

    assert refusal(tmp_path, spoiled(GOOD, name, spoil)) == DEFINITIONS


NOBODYS = b"\xff\xfe<\0a"
"""Half a letter of UTF-16."""


@pytest.mark.parametrize(
    "odd",
    [
        {"xl/nobodys.xml": NOBODYS},
        {"customXml/item1.xml": b"\0<\0a\xd8\0"},
        {"a" * 40_000: b"x"},
    ],
    ids=["half a letter", "half a pair", "a long name"],
)
def test_what_nobody_reads_is_passed_over(tmp_path, odd):
    path = tmp_path / "returned.xlsx"
    path.write_bytes(packed({**parts_of(GOOD), **odd}))
    assert typed_by_people(read(SMALL, path)) == FILLED


@pytest.mark.parametrize(
    "broken", [b"<Relationships><Relationship Type='x' a=\"/drawing\"/><Relationship", b'<Relationship /drawing">']
)
def test_relations_that_are_broken_and_nobodys_are_passed_over(tmp_path, broken):
    path = tmp_path / "returned.xlsx"
    path.write_bytes(packed({**parts_of(GOOD), "customXml/_rels/item1.xml.rels": broken}))
    assert typed_by_people(read(SMALL, path)) == FILLED


EMPTY_NAMES = (b"<definedNames/>", b"<definedNames />\n", b"<definedNames></definedNames>")


@pytest.mark.parametrize("empty", EMPTY_NAMES, ids=repr)
def test_an_element_that_is_empty_is_cut_out_alone(tmp_path, empty):
    def change(text: bytes) -> bytes:
        return re.sub(rb"<calcPr[^>]*>", b"", re.sub(rb"<definedNames>.*</definedNames>", empty, text, flags=re.DOTALL))

    path = tmp_path / "returned.xlsx"
    path.write_bytes(spoiled(GOOD, "xl/workbook.xml", change))
    assert read(SMALL, path).typed  # by the words that stand on the sheets


@pytest.mark.parametrize("empty", [b"<extLst/>", b"<mergeCells/>", b"<conditionalFormatting/>"], ids=repr)
def test_an_empty_element_at_a_sheets_end_takes_nothing_along(tmp_path, empty):
    path = tmp_path / "returned.xlsx"
    path.write_bytes(spoiled(GOOD, SHEET, lambda text: text.replace(b"</worksheet>", empty + b"</worksheet>")))
    assert typed_by_people(read(SMALL, path)) == FILLED


def test_names_of_an_extension_are_not_the_workbooks(tmp_path):
    def change(text: bytes) -> bytes:
        name = re.search(rb'<definedName name="(goods__lines__item)"', text)
        assert name
        other = b'<extLst><ext uri="{841E416B}"><x14:definedNames xmlns:x14="urn:x"><x14:definedName name="%s">Style!$A$1</x14:definedName>'
        return text.replace(b"</workbook>", other % name[1] + b"</x14:definedNames></ext></extLst></workbook>")

    path = tmp_path / "returned.xlsx"
    path.write_bytes(spoiled(GOOD, "xl/workbook.xml", change))
    found = read(SMALL, path)
    assert typed_by_people(found) == FILLED
    assert found.loaded.names["goods__lines__item"].title == "Bought goods"


def test_styles_that_a_relation_does_not_lead_to_are_found_where_they_usually_are(tmp_path):
    path = tmp_path / "returned.xlsx"
    path.write_bytes(
        spoiled(GOOD, "xl/_rels/workbook.xml.rels", lambda text: text.replace(b'"styles.xml"', b'"nowhere.xml"'))
    )
    assert typed_by_people(read(SMALL, path)) == FILLED
