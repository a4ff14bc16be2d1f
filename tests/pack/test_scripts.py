"""Scripts that are written from the right: on the page as a second renderer sets them."""

from __future__ import annotations

import subprocess
from pathlib import Path
from shutil import which

import numpy
import pytest
from PIL import Image, ImageDraw, ImageFont, features
from scipy.signal import fftconvolve

from sheetgen import api
from sheetgen.cli import main
from sheetgen.declare.entry import Place

FROM_THE_RIGHT = {
    "style.description": "للمقاسات",
    "style.fit": "השרוולים",
}
DOTS = 300


@pytest.mark.libreoffice  # it brings poppler and the fonts
def test_scripts_from_the_right_stand_on_the_page_as_another_renderer_sets_them(tmp_path):
    """Raqm (HarfBuzz and FriBidi) through Pillow sets the same words: joined, and in the same order."""
    assert features.check("raqm")
    face = Path(
        subprocess.run(["fc-match", "-f", "%{file}", "DejaVu Sans"], check=True, capture_output=True, text=True).stdout
    )
    values = {**api.start("t-shirt").values, **{Place(at): words for at, words in FROM_THE_RIGHT.items()}}
    (tmp_path / "style.xlsx").write_bytes(api.from_values(values).data)
    words = [
        "pack",
        str(tmp_path / "style.xlsx"),
        "--fonts",
        str(face.parent),
        "--only",
        "Overview",
        "--out",
        str(tmp_path / "p.pdf"),
    ]
    assert main(words) == 0
    command = [
        str(which("pdftoppm")),
        "-r",
        str(DOTS),
        "-gray",
        "-png",
        "-f",
        "1",
        "-l",
        "1",
        str(tmp_path / "p.pdf"),
        str(tmp_path / "p"),
    ]
    subprocess.run(command, check=True)
    page = 255.0 - numpy.asarray(Image.open(next(tmp_path.glob("p-*.png"))).convert("L"), dtype=float)
    font = ImageFont.truetype(str(face), 8.5 / 72 * DOTS, layout_engine=ImageFont.Layout.RAQM)
    for words in FROM_THE_RIGHT.values():
        alike = best_match(page, set_by_raqm(words, font, "rtl"))
        assert alike > 0.8, words
        turned = set_by_raqm(words[::-1], font, "rtl")
        assert best_match(page, turned) < alike - 0.15, words


def set_by_raqm(words: str, font: ImageFont.FreeTypeFont, direction: str) -> numpy.ndarray:
    left, top, right, bottom = (round(edge) for edge in font.getbbox(words, direction=direction))
    image = Image.new("L", (right - left + 2, bottom - top + 2))
    ImageDraw.Draw(image).text((1 - left, 1 - top), words, font=font, fill=255, direction=direction)
    return numpy.asarray(image, dtype=float)


def best_match(page: numpy.ndarray, part: numpy.ndarray) -> float:
    """The largest normalized correlation of a picture with any place of a page (1: it stands there dot by dot)."""
    ones = numpy.ones_like(part)
    centered = part - part.mean()
    products = fftconvolve(page, centered[::-1, ::-1], mode="valid")
    sums, squares = (fftconvolve(one, ones, mode="valid") for one in (page, page**2))
    spread = numpy.sqrt(numpy.maximum(squares - sums**2 / part.size, 1.0) * (centered**2).sum())
    return float((products / spread).max())
