"""The pack: what a purpose needs and nothing of the brand's own, legible, the same bytes, its artwork at true size."""

from __future__ import annotations

import io
import re
import subprocess
from functools import cache
from pathlib import Path
from shutil import which
from typing import Any

import pytest
from click.testing import CliRunner
from PIL import Image

from sheetgen import api
from sheetgen.commands.pack import command
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture
from sheetgen.jobs.packs import content_for
from sheetgen.pack.content import Content, content_of, pages_for
from sheetgen.pack.pages import PAGES, Drawings, Facts, FitForm, RowDrawings, Rows, TrueSize
from sheetgen.pack.typeset import typeset, without_glyph
from sheetgen.sheets import BOOK
from sheetgen.workbook.model.values import Values
from tests.loop import loop

STYLES = ["overshirt", "sweatshirt", "jacket"]


@cache
def content(style: str, purpose: str, file: str = "a-working.xlsx") -> Content:
    return content_for(api.read(loop(style) / file), purpose)[0]


@cache
def pdf(style: str, purpose: str) -> bytes:
    return typeset(content(style, purpose))


def named() -> list[str]:
    """Every address that the pages name."""
    found: list[str] = []
    for page in PAGES:
        for block in (*page.left, *page.right):
            match block:
                case Drawings() | Facts():
                    found += block.entries
                case Rows():
                    found += [
                        f"{block.table}.{name}"
                        for name in (*block.columns, *(name for name in (block.where or block.unless)[:1] if name))
                    ]
                case TrueSize():
                    found += [
                        f"{block.table}.{name}" for name in (block.name, block.picture, block.width, *block.words)
                    ]
                case RowDrawings():
                    found += [f"{block.table}.{name}" for name in (block.picture, *block.words)]
                case FitForm():
                    found += [f"{block.table}.{name}" for name in (*block.columns, block.asked)]
    return found


@pytest.mark.parametrize("address", sorted(set(named())))
def test_the_pages_name_entries_that_there_are_and_that_a_vendor_may_see(address):
    column = BOOK.entries[address]
    assert not column.entry.private
    assert not column.sheet.private


@pytest.mark.parametrize("style", STYLES)
def test_nothing_of_the_brands_own_is_in_it(style):
    got = api.read(loop(style) / "a-working.xlsx")
    own = {place for place in (*got.typed, *got.shown)
           if (column := got.ready.book.entries[place.entry]).entry.private or column.sheet.private}  # fmt: skip
    assert own
    for purpose in ("quote", "sample", "bulk"):
        assert not own & {place for _, place in content(style, purpose).texts}


@pytest.mark.parametrize("style", STYLES)
def test_each_purpose_has_its_pages(style):
    titles = {
        purpose: [page["title"] for page in content(style, purpose).document["pages"]]
        for purpose in ("quote", "sample", "bulk")
    }
    # No marker is laid in the samples.
    assert titles == {purpose: [one for one in pages_for(purpose) if one != "Markers"] for purpose in titles}
    assert "Fit form" in titles["sample"]
    assert "Order" in titles["bulk"]
    assert not {"Fit form", "Order", "Quality and packing"} & set(titles["quote"])


@pytest.mark.parametrize("style", STYLES)
def test_every_row_that_is_filled_is_in_it(style):
    got = api.read(loop(style) / "a-working.xlsx")
    shown = {place for purpose in ("sample", "bulk") for _, place in content(style, purpose).texts}
    for table in (
        "construction.callouts",
        "labels.items",
        "measurements.points",
        "materials.bom",
        "colorways.components",
        "quality.tests",
    ):
        key = f"{table}.{BOOK.tables[table][1].key}"
        filled = {place for place, _ in got.where.places(key) if got.typed.get(place) not in (None, "")}
        assert filled
        assert filled <= shown


@pytest.mark.parametrize("style", STYLES)
def test_a_copy_gives_the_pages_of_the_file_that_it_was_made_of(style):
    pages = content(style, "sample").document["pages"]
    assert content(style, "sample", "a-issued.xlsx").document["pages"] == pages


def test_the_same_file_gives_the_same_bytes():
    again = typeset(content_of(api.read(loop() / "a-working.xlsx"), "quote"))
    assert again == typeset(content_of(api.read(loop() / "a-working.xlsx"), "quote"))
    assert again.startswith(b"%PDF")


def one_artwork(width: float, unit: str = "cm", pixels: tuple[int, int] = (300, 150)) -> dict[str, object]:
    out = io.BytesIO()
    Image.new("RGB", pixels, "red").save(out, "PNG")
    values: Values = {
        Place("style.unit"): unit, Place("artwork.pieces.name", "A1"): "Mark", Place("artwork.pieces.width", "A1"): width,
        Place("artwork.pieces.picture", "A1"): Picture(out.getvalue()),
    }  # fmt: skip
    path = Path("a.xlsx")
    path.write_bytes(api.from_values({**api.start("shirt", unit="in" if unit == "in" else "cm").values, **values}).data)
    (page,) = content_of(api.read(path), "quote", ("Artwork",)).document["pages"]
    (block,) = page["left"]
    return block


@pytest.mark.parametrize("width, unit, millimeters, scale", [
    (8, "cm", 80, ""), (3, "in", 76.2, ""), (30, "cm", 150, "scale 1 : 2"), (15, "cm", 150, ""),
])  # fmt: skip
def test_artwork_is_as_large_as_it_is_made_or_its_scale_is_said(width, unit, millimeters, scale, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    block = one_artwork(width, unit)
    assert block["mm"] == pytest.approx(millimeters)
    assert block["scale"] == scale


def test_the_cautions_that_apply_are_in_it_in_full():
    got = api.read(loop("jacket") / "a-working.xlsx")
    applying = [
        caution.sentence for sheet in BOOK.sheets for caution in sheet.cautions
        if (got.shown.get(Place(f"checks.caution_{caution.name.replace('-', '_')}")) or 0) > 0
    ]  # fmt: skip
    (page,) = [one for one in content("jacket", "quote").document["pages"] if one["title"] == "Cautions"]
    assert [sentence for _, sentence in page["left"][0]["facts"]] == applying
    assert any("drawstring" in sentence for sentence in applying)
    assert "local law and an accredited laboratory decide" in page["left"][0]["title"]


def test_lengths_in_inches_are_fractions():
    texts = {str(place): text for text, place in content("sweatshirt", "sample").texts}
    assert (
        texts[
            "measurements.points[P2].base"
            if "measurements.points[P2].base" in texts
            else "measurements.points[P1].minus"
        ]
        == "1/2"
    )


def test_a_character_that_no_font_has_is_named_with_its_place(tmp_path):
    values = {**api.start("shirt").values, Place("style.description"): "Hemd, Рубашка, Πουκάμισο, áo sơ mi, 襯"}
    path = tmp_path / "a.xlsx"
    path.write_bytes(api.from_values(values).data)
    assert without_glyph(content_of(api.read(path), "quote")) == {"襯": Place("style.description")}


def rows_in(document: dict[str, Any]) -> list[list[Any]]:
    blocks = [block for page in document["pages"] for block in (*page["left"], *page["right"])]
    return [row for block in blocks if block["sort"] == "rows" for row in block["rows"]]


@pytest.mark.parametrize("style", STYLES)
def test_a_ref_leads_to_its_row_where_that_is_in_the_pack(style):
    document = content(style, "sample").document
    anchors = [row[0]["anchor"] for row in rows_in(document) if isinstance(row[0], dict)]
    anchors += [
        block["ref"]["anchor"] for page in document["pages"] for block in page["left"]
        if block["sort"] == "true-size" and isinstance(block["ref"], dict)
    ]  # fmt: skip
    assert sorted(anchors) == document["refs"]  # each once
    assert {"N1", "M1", "P1", "K1", "L1"} <= set(anchors)


@pytest.mark.skipif(which("pdftohtml") is None, reason="needs pdftohtml, of poppler-utils")
def test_the_pdf_has_bookmarks_links_and_words_for_those_who_do_not_see_it(tmp_path):
    """PDF/UA-1 (ISO 14289-1) is asked of the typesetter, which refuses a picture without words; poppler reads what it made."""
    path = tmp_path / "pack.pdf"
    path.write_bytes(pdf("overshirt", "sample"))
    page = subprocess.run(
        ["pdftohtml", "-xml", "-i", "-stdout", path], check=True, capture_output=True, text=True
    ).stdout
    titles = [one["title"] for one in content("overshirt", "sample").document["pages"]]
    assert re.findall(r"<item page=.\d+.>(.*?)</item>", page) == titles
    # Callouts name interlinings and lining by their refs: "upper collar fused (M3)".
    assert len(re.findall("<a href", page)) >= 10
    tags = subprocess.run(["pdfinfo", "-struct-text", path], check=True, capture_output=True, text=True).stdout
    assert tags.count("H1 ") == len(titles)
    assert tags.count("Figure") >= 8
    assert tags.count("TH ") > 30 and "Table" in tags
    assert b"pdfuaid" in path.read_bytes()


def run(*words: object) -> tuple[int, str]:
    done = CliRunner().invoke(command, [str(word) for word in words], standalone_mode=False)
    return (1, str(done.exception)) if done.exception else (0, " ".join(done.output.split()))


def test_the_command_writes_it_and_says_what_is_in_it(tmp_path):
    path = tmp_path / "pack.pdf"
    status, said = run(loop() / "a-working.xlsx", "--for", "quote", "--out", path)
    assert status == 0
    assert "Pages: Overview, Colors, Construction, front" in said
    assert path.read_bytes().startswith(b"%PDF")
    status, said = run(loop() / "a-working.xlsx", "--for", "quote", "--out", path)
    assert "is there already" in said
    status, said = run(loop() / "a-working.xlsx", "--only", "labels", "--out", path, "--replace")
    assert "Pages: Labels." in said


@pytest.mark.parametrize("words, said", [
    (("--only", "Cover"), "there is no such page; these are: The garment, In its colors"),
    (("--fonts", "nowhere"), "is no folder with fonts"),
])  # fmt: skip
def test_a_wrong_word_is_one_sentence(words, said, tmp_path):
    assert said in run(loop() / "a-working.xlsx", *words, "--out", tmp_path / "p.pdf")[1]
    assert not (tmp_path / "p.pdf").exists()


def extracted(data: bytes, folder: Path, *options: str) -> str:
    program = which("pdftotext")
    assert program, "poppler-utils is not installed"
    (folder / "p.pdf").write_bytes(data)
    return subprocess.run(
        [program, *options, str(folder / "p.pdf"), "-"], capture_output=True, text=True, check=True
    ).stdout


@pytest.mark.libreoffice  # it brings poppler, which reads the PDF
@pytest.mark.parametrize("style", STYLES)
def test_every_text_is_on_paper_at_seven_points_at_least(style, tmp_path):
    # Word by word: the reader of the PDF joins what a line's end breaks, and cells that stand close.
    whole = re.sub(r"[\s-]+", "", extracted(pdf(style, "sample"), tmp_path))
    lost = [
        (text, place)
        for text, place in content(style, "sample").texts
        if not all(one in whole for one in re.split(r"[\s-]+", text))
    ]
    assert lost == []
    boxes = re.findall(r'yMin="([\d.]+)"[^>]*yMax="([\d.]+)"', extracted(pdf(style, "sample"), tmp_path, "-bbox"))
    heights = [float(bottom) - float(top) for top, bottom in boxes]
    assert min(heights) >= 6.99


@pytest.mark.libreoffice
@pytest.mark.parametrize("style, most", [("overshirt", 13), ("sweatshirt", 14), ("jacket", 15)])
def test_a_samples_pack_is_short(style, most, tmp_path):
    assert extracted(pdf(style, "sample"), tmp_path).count("\f") <= most
