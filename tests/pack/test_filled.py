"""No page of a pack is nearly empty, but for the last one of a table that goes on; seen on the page's picture, by another renderer."""

from __future__ import annotations

import copy
import io
import subprocess
from dataclasses import replace
from pathlib import Path
from shutil import which

import pytest
from PIL import Image
from pypdf import PdfReader

from sheetgen import api
from sheetgen.jobs.packs import content_for
from sheetgen.pack.typeset import typeset
from tests.pack.test_pack import STYLES, content, pdf

HEAD_MM, FOOT_MM, HIGH_MM = 19.0, 14.0, 210.0
LEAST = 0.25
STARTED = {"trousers": ("trousers", {}), "skirt": ("skirt", {}), "hooded sweatshirt": ("sweatshirt", {"hood": True}),
           "child's t-shirt": ("t-shirt", {"child": True}), "shirt": ("shirt", {}), "leggings": ("leggings", {})}  # fmt: skip


def shares(data: bytes, folder: Path) -> list[float]:
    """How far down each page, between head and foot, something stands; in parts of the height."""
    (folder / "p.pdf").write_bytes(data)
    subprocess.run(["pdftoppm", "-r", "30", "-gray", folder / "p.pdf", folder / "p"], check=True)
    found = []
    for path in sorted(folder.glob("p-*.pgm")):
        with Image.open(path) as image:
            wide, high = image.size
            body = image.crop((0, round(high * HEAD_MM / HIGH_MM), wide, round(high * (1 - FOOT_MM / HIGH_MM))))
            box = body.point(lambda shade: 255 if shade < 250 else 0).getbbox()
            found.append(box[3] / body.height if box else 0.0)
    return found


def begins(data: bytes) -> set[int]:
    """The pages that a title begins, by the bookmarks."""
    reader = PdfReader(io.BytesIO(data))
    return {reader.get_destination_page_number(one) for one in reader.outline}  # type: ignore[arg-type]


def nearly_empty(data: bytes, folder: Path) -> list[tuple[int, float]]:
    found = shares(data, folder)
    first = begins(data)
    assert len(first) >= 8
    return [
        (number, share) for number, share in enumerate(found)
        if share < LEAST and number in first and number < len(found) - 1
    ]  # fmt: skip


@pytest.mark.libreoffice  # it brings poppler
@pytest.mark.skipif(which("pdftoppm") is None, reason="needs pdftoppm, of poppler-utils")
@pytest.mark.parametrize("style", STYLES)
@pytest.mark.parametrize("purpose", ["quote", "sample", "bulk"])
def test_each_page_of_a_sample_is_a_quarter_filled(style, purpose, tmp_path):
    assert nearly_empty(pdf(style, purpose), tmp_path) == []


@pytest.mark.libreoffice
@pytest.mark.skipif(which("pdftoppm") is None, reason="needs pdftoppm, of poppler-utils")
@pytest.mark.parametrize("started", STARTED)
def test_so_is_each_on_the_first_evening(started, tmp_path):
    word, options = STARTED[started]
    (tmp_path / "a.xlsx").write_bytes(api.start(word, **options).data)
    assert nearly_empty(typeset(content_for(api.read(tmp_path / "a.xlsx"), "sample")[0]), tmp_path) == []


def test_the_first_page_takes_one_page():
    """What is asked, of whom and until when: it does not go on."""
    for style in STYLES:
        assert {0, 1} <= begins(pdf(style, "bulk")), style


@pytest.mark.parametrize("title", ["Order", "Cautions"])
def test_what_follows_a_page_and_is_longer_than_one_goes_on(title):
    """Each of its rows is on paper, however many: none is cut off below."""
    made = content("overshirt", "bulk")
    document = copy.deepcopy(made.document)
    (page,) = [one for one in document["pages"] if one["title"] == title]
    assert page["follows"]
    for block in page["left"]:
        if block["sort"] == "rows":
            block["rows"] += [["", f"line{number}", *block["rows"][0][2:]] for number in range(120)]
        elif block is page["left"][-1]:
            block["facts"] = [[f"line{number}", words] for number in range(120) for _, words in block["facts"][:1]]
    data = typeset(replace(made, document=document))
    words = {word for page in PdfReader(io.BytesIO(data)).pages for word in page.extract_text().split()}
    assert {f"line{number}" for number in range(120)} <= words
