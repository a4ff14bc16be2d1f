"""Marks in a drawing lead to their rows, rows lead back: read from the PDF by a library that knows nothing of ours."""

from __future__ import annotations

import io
import math
from collections import Counter
from functools import cache
from typing import Any, NamedTuple

import pytest
from pypdf import PdfReader

from sheetgen import api
from sheetgen.jobs.packs import content_for
from sheetgen.pack.typeset import typeset
from tests.loop import loop
from tests.pack.test_pack import STYLES, content, pdf

STARTED = ["trousers", "t-shirt, child"]


class Link(NamedTuple):
    """On which page, the rectangle (left, bottom, right, top) in points, and the page and height that it leads to."""

    page: int
    box: tuple[float, float, float, float]
    to_page: int
    to_top: float


class Paper(NamedTuple):
    document: dict[str, Any]
    links: list[Link]
    words: list[tuple[int, str, float, float, float]]
    """Page, text, left, base line and size of each piece of text."""


def read(data: bytes) -> tuple[list[Link], list[tuple[int, str, float, float, float]]]:
    reader = PdfReader(io.BytesIO(data))
    numbers = {page.indirect_reference.idnum: number for number, page in enumerate(reader.pages)}
    links, words = [], []
    for number, page in enumerate(reader.pages):
        for reference in page.get("/Annots", []):
            annotation = reference.get_object()
            if annotation["/Subtype"] == "/Link":
                destination = annotation.get(
                    "/Dest", annotation.get("/A", {}).get("/D") if "/A" in annotation else None
                )
                if isinstance(destination, str):
                    named = reader.named_destinations[destination]
                    target, top = numbers[named.page.idnum], float(named.top)
                else:
                    target, top = numbers[destination[0].idnum], float(destination[3])
                box = tuple(map(float, annotation["/Rect"]))
                links.append(Link(number, (box[0], box[1], box[2], box[3]), target, top))

        def seen(text, matrix, within, font, size, number=number):
            if text.strip():
                words.append((number, text.strip(), matrix[4], matrix[5], size))

        page.extract_text(visitor_text=seen)
    return links, words


@cache
def paper(style: str) -> Paper:
    if style in STYLES:
        return Paper(content(style, "sample").document, *read(pdf(style, "sample")))
    word, _, child = style.partition(", ")
    made = api.start(word, child=bool(child))
    path = loop() / f"links-{style}.xlsx"
    path.write_bytes(made.data)
    found = content_for(api.read(path), "sample")[0]
    return Paper(found.document, *read(typeset(found)))


def drawings(document: dict[str, Any]) -> list[dict[str, Any]]:
    return [
        one for page in document["pages"] for block in (*page["left"], *page["right"])
        if block["sort"] == "drawings" for one in block["shown"]
    ]  # fmt: skip


def over_marks(style: str) -> list[list[tuple[str, Link]]]:
    """For each drawing with several marks the links that lie as they do, in one scale, each with its mark's ref."""
    document, links, _ = paper(style)
    marked = [one["marks"] for one in drawings(document) if len(one["marks"]) > 1]
    pages = sorted({link.page for link in links})
    return [min((_on(page, marks, links) for page in pages), key=lambda lying: lying[0])[1] for marks in marked]


def _on(page: int, marks: list[dict[str, Any]], links: list[Link]) -> tuple[float, list[tuple[str, Link]]]:
    """The links of a page that lie as these marks do, with how far they are from it at most, in points; or none."""
    there = [link for link in links if link.page == page]
    best: tuple[float, list[tuple[str, Link]]] = (math.inf, [])
    for first in there:
        wide = (first.box[2] - first.box[0]) / marks[0]["wide"]
        high = (first.box[3] - first.box[1]) / marks[0]["high"]
        left, top = first.box[0] - marks[0]["left"] * wide, first.box[3] + marks[0]["top"] * high
        found, off = [], 0.0
        for mark in marks:
            x, y = left + mark["left"] * wide, top - mark["top"] * high
            box = (x, y - mark["high"] * high, x + mark["wide"] * wide, y)
            apart, near = min(
                ((max(abs(a - b) for a, b in zip(link.box, box, strict=True)), link) for link in there),
                key=lambda one: one[0],
            )
            found.append((mark["ref"], near))
            off = max(off, apart)
        if off < min(best[0], 0.8):
            best = (off, found)
    return best


@pytest.mark.parametrize("style", [*STYLES, *STARTED])
def test_each_mark_has_a_link_as_large_as_it_is(style):
    """Marks of one drawing keep their distances: what lies so far apart in it does so on paper."""
    found = over_marks(style)
    assert len(found) >= 3  # a flat, close-ups, the measurement drawing
    assert all(found)


@pytest.mark.parametrize("style", [*STYLES, *STARTED])
def test_no_letter_is_smaller_than_seven_points(style):
    """Nor in drawings: all of them are lines, so that their letters can be measured."""
    assert min(size for *_, size in paper(style).words) >= 6.99


@pytest.mark.parametrize("style", [*STYLES, *STARTED])
def test_a_link_lies_over_the_words_that_say_its_row(style):
    """In a drawing of lines the letters of the mark stand within the link."""
    words, checked = paper(style).words, 0
    for ref, link in (one for drawing in over_marks(style) for one in drawing):
        left, bottom, right, top = link.box
        inside = [
            (x, text) for page, text, x, y, _ in words if page == link.page and left <= x < right and bottom <= y < top
        ]
        if inside:
            checked += 1
            assert "".join(text for _, text in sorted(inside)).replace(" ", "").startswith(ref)
    assert checked > 8


@pytest.mark.parametrize("style", [*STYLES, *STARTED])
def test_a_mark_leads_to_its_row(style):
    """To the page and the top of the row that the ref begins; the typesetter leaves ten points above what a link leads to."""
    words, refs = paper(style).words, set(paper(style).document["refs"])
    for ref, link in (one for drawing in over_marks(style) for one in drawing):
        there = [(round(x), y, text) for page, text, x, y, size in words
                 if page == link.to_page and text in refs and size == 8]  # fmt: skip
        column = Counter(x for x, _, _ in there).most_common(1)[0][
            0
        ]  # that of a table's refs; others stand in sentences
        below, first = min((link.to_top - y, text) for x, y, text in there if x == column and y < link.to_top - 10)
        assert first == ref
        assert below < 60


@pytest.mark.parametrize("style", [*STYLES, *STARTED])
def test_a_row_leads_back_to_the_mark_in_its_drawing(style):
    document, links, _ = paper(style)
    assert set(document["marks"]) <= set(document["refs"])
    forward = [one for drawing in over_marks(style) for one in drawing]
    assert {ref for ref, _ in forward} <= set(document["marks"])
    for ref, row in forward:
        back = [link for link in links if link.page == row.to_page and 0 < row.to_top - link.box[3] < 40]
        assert any(
            link.to_page == mark.page and 8 < link.to_top - mark.box[3] < 12
            for link in back for one, mark in forward if one == ref
        ), ref  # fmt: skip


def test_a_mark_of_a_row_that_is_not_in_the_pack_has_no_link():
    """Only the flats: no row is there that a mark could lead to."""
    found = content_for(api.read(loop() / "a-working.xlsx"), "quote", ("Where the points are",))[0]
    assert found.document["refs"] == [] and found.document["marks"] == []
    links, _ = read(typeset(found))
    assert links == []
    assert drawings(found.document)[0]["marks"]


def test_the_copy_has_the_marks_of_the_file_that_it_was_made_of():
    """They travel in the picture, also on a flat of the designer's own; and so do its lines."""
    found = content("overshirt", "sample", "a-issued.xlsx")
    assert [one["marks"] for one in drawings(found.document)] == [
        one["marks"] for one in drawings(paper("overshirt").document)
    ]
    flat = next(one for one in drawings(found.document) if one["words"] == "Flat, front")
    assert flat["image"].endswith(".svg")
    assert {"N1", "N2"} <= {mark["ref"] for mark in flat["marks"]}
