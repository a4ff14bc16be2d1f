"""Marks on a picture: found where they are drawn, kept in its file, and there again when it is read."""

from __future__ import annotations

import io

import pytest
from PIL import Image

from sheetgen.drawing.callouts import Box, Target, marks_of, placed
from sheetgen.workbook.model.marks import Mark, marks_drawn, marks_kept, with_marks_kept, without_marks
from sheetgen.workbook.model.pictures import drawn_over, from_svg
from tests.workbook.briefs import png

DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="-100 -50 400 200" width="400" height="200">'
    '<rect width="400" height="200" fill="#FFFFFF"/><circle data-row="N2" cx="0" cy="0" r="20" fill="#fff" stroke="#000"/>'
    '<rect data-row="P3" x="100" y="50" width="80" height="20" rx="4" fill="#fff"/></svg>'
)


def test_a_circle_and_a_label_are_boxes_in_parts_of_the_drawing():
    assert marks_drawn(DRAWING) == (Mark("N2", 0.2, 0.15, 0.1, 0.2), Mark("P3", 0.5, 0.5, 0.2, 0.1))
    assert marks_drawn("<svg/>") == ()


def test_they_come_back_from_the_file_and_the_pixels_are_the_same():
    picture = from_svg(DRAWING, 400)
    assert marks_kept(picture.data) == marks_drawn(DRAWING)
    bare = without_marks(picture.data)
    assert b"tEXt" not in bare and marks_kept(bare) == ()
    with Image.open(io.BytesIO(bare)) as one, Image.open(io.BytesIO(picture.data)) as other:
        assert one.tobytes() == other.tobytes()
        assert other.text["Rows"].startswith("N2 0.20000")  # type: ignore[attr-defined]


def test_a_mark_beyond_the_edge_and_a_word_that_is_no_ref_are_left_out():
    marks = (Mark("N1", -0.1, 0, 0.1, 0.1), Mark("N2", 0, 0, 0.1, 0.1))
    assert marks_kept(with_marks_kept(png(), marks)) == marks[1:]
    assert with_marks_kept(png(), ()) == png()
    assert marks_kept(with_marks_kept(png(), [Mark("Ines at home", 0, 0, 0.1, 0.1)])) == ()


@pytest.mark.parametrize("data", [b"", b"\xff\xd8\xff", png()[:33], png()[:40], png()])
def test_what_has_none_has_none(data):
    assert marks_kept(data) == ()
    assert without_marks(data) == data


def test_over_a_picture_of_pixels_a_mark_lies_over_its_circle():
    """At the middle of the box's sides stands the ring, within it the paper."""
    picture = from_svg(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 600 800"><rect width="600" height="800" fill="#DDDDDD"/></svg>',
        800,
    )
    around = placed([Target("N1", 0.2, 0.3), Target("N2", 0.8, 0.6)], 600, 800, Box(0, 0, 600, 800))
    made = drawn_over(picture, marks_of(around), around.frame, 1300)
    with Image.open(io.BytesIO(made.data)) as image:
        shades = image.convert("L")
        for mark in marks_kept(made.data):
            left, top = mark.left * image.width, mark.top * image.height
            wide, high = mark.wide * image.width, mark.high * image.height
            assert wide == pytest.approx(high, abs=1)
            for x, y in (
                (left, top + high / 2),
                (left + wide, top + high / 2),
                (left + wide / 2, top),
                (left + wide / 2, top + high),
            ):
                near = [shades.getpixel((int(x) + a, int(y) + b)) for a in (-2, -1, 0, 1, 2) for b in (-2, -1, 0, 1, 2)
                        if 0 <= int(x) + a < image.width and 0 <= int(y) + b < image.height]  # fmt: skip
                assert min(near) < 100, (mark.ref, x, y)
            assert shades.getpixel((int(left + wide * 0.5), int(top + high * 0.12))) > 200
    assert {mark.ref for mark in marks_kept(made.data)} == {"N1", "N2"}
