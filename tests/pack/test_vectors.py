"""What the program draws goes to paper as lines, and is the same as the pixels in the workbook."""

from __future__ import annotations

import io
from pathlib import Path

from PIL import Image, ImageChops, ImageFilter

from sheetgen import api
from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Picture
from sheetgen.jobs.packs import content_for
from sheetgen.workbook.model.pictures import from_svg


def test_what_the_program_draws_is_on_paper_as_vectors(tmp_path):
    """A started style's pack holds no picture of pixels: flats, with callouts on them, and measurement drawings are lines."""
    callout = {Place("construction.callouts.across", "N1"): 0.5, Place("construction.callouts.down", "N1"): 0.2}
    path = tmp_path / "a.xlsx"
    path.write_bytes(api.from_values({**api.start("shirt").values, **callout}).data)
    made = content_for(api.read(path), "quote")[0]
    assert {Path(name).suffix for name in made.pictures} == {".svg"}
    marked = [data for data in made.pictures.values() if b">N1</text>" in data]
    assert len(marked) == 1
    assert marked[0].count(b"<svg") == 3  # the flat, and over it the callouts, in one plane
    words = [
        one["words"] for page in made.document["pages"] for block in (*page["left"], *page["right"])
        if block["sort"] == "drawings" for one in block["shown"]
    ]  # fmt: skip
    assert "Flat, front, drawn from the measurements" in words
    assert b"drawn from the measurements" not in b"".join(made.pictures.values())


def test_a_drawing_with_callouts_is_the_same_as_pixels_and_as_vectors(tmp_path):
    """Both drawn by the same renderer, the vectors as one drawing, the pixels one over the other."""
    callout = {Place("construction.callouts.across", "N1"): 0.9, Place("construction.callouts.down", "N1"): 0.15}
    built = api.from_values({**api.start("trousers").values, **callout})
    path = tmp_path / "a.xlsx"
    path.write_bytes(built.data)
    flat = Place("construction.flat_front")
    made = content_for(api.read(path), "quote")[0]
    (vector,) = [data for data in made.pictures.values() if b">N1</text>" in data]
    pixels = api.read(path).typed[flat]
    assert isinstance(pixels, Picture)
    with (
        Image.open(io.BytesIO(pixels.data)) as one,
        Image.open(io.BytesIO(from_svg(vector.decode(), 1300).data)) as other,
    ):
        size = (one.width // 4, one.height // 4)
        shades = [
            image.convert("L").resize(size).point(lambda shade: 255 if shade < 200 else 0) for image in (one, other)
        ]
    # Edges are drawn otherwise, so that a line may lie a pixel beside the other; and one of them has a caption.
    around = [image.filter(ImageFilter.MaxFilter(3)) for image in shades]
    for ink, beside in ((shades[0], around[1]), (shades[1], around[0])):
        drawn = ink.histogram()[255]
        assert drawn > 1000
        assert ImageChops.subtract(ink, beside).histogram()[255] < 0.03 * drawn
