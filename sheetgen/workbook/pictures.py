"""Pictures: PNG and JPEG as they are, SVG drawn to PNG; refused in one sentence if a file is not what it says."""

from __future__ import annotations

import io
import re
from functools import lru_cache
from pathlib import Path

import font_source_sans_pro
import resvg_py
from PIL import Image

from sheetgen.declare.kinds import Picture
from sheetgen.workbook.values import UserError

SHARPNESS = 1100
"""Longest side of a drawn SVG in pixels: sharp over half an A4 page at 200 dots per inch."""
MOST_BYTES = 12_000_000
MOST_PIXELS = 50_000_000
_FAMILY = "Source Sans Pro"
_FONT_OF_TEXT = re.compile(r"""font-family\s*[:=]\s*(?:"[^"]*"|'[^']*'|[^;"'>]+)""")
_OUTSIDE = re.compile(r"""(?:href|src)\s*=\s*["'](?!#|data:)""")


@lru_cache(maxsize=64)
def load(path: Path) -> Picture:
    """The picture in a file. UserError if it is missing, too large, no picture, or an SVG that points outside itself."""
    try:
        data = path.read_bytes()
    except (OSError, ValueError):
        raise UserError(f"{path}: there is no such picture; correct the path or leave the entry out.") from None
    if len(data) > MOST_BYTES:
        raise UserError(f"{path}: larger than {MOST_BYTES // 1_000_000} MB; save a smaller picture.")
    if path.suffix.lower() == ".svg":
        return Picture(_drawn(path, data.decode("utf-8", "replace")))
    width_and_height(path.name, data)
    return Picture(data)


def width_and_height(name: str, data: bytes) -> tuple[int, int]:
    """Pixels of a PNG or JPEG; UserError if it is neither."""
    try:
        with Image.open(io.BytesIO(data), formats=("PNG", "JPEG")) as image:
            size = image.size
            if size[0] * size[1] > MOST_PIXELS:
                raise UserError(f"{name}: {size[0]} x {size[1]} pixels are too many; save a smaller picture.")
            return size
    except (OSError, ValueError, Image.DecompressionBombError):
        raise UserError(f"{name}: is no PNG, JPEG or SVG picture; save it as one of these.") from None


def _drawn(path: Path, svg: str) -> bytes:
    if _OUTSIDE.search(svg):
        raise UserError(f"{path}: the drawing points to a file outside itself; embed that picture and save again.")
    fonts = [file for file in font_source_sans_pro.font_files_ttf if file.endswith(("-Regular.ttf", "-Bold.ttf"))]
    # The drawing program drops text whose font is not there, without a word: so all text takes the font we bring.
    svg = _FONT_OF_TEXT.sub(lambda found: _named(found.group()), svg)
    longest = max(_size_of(svg))
    try:
        drawn = resvg_py.svg_to_bytes(
            svg_string=svg,
            zoom=SHARPNESS / longest,
            font_files=fonts,
            font_family=_FAMILY,
            sans_serif_family=_FAMILY,
            serif_family=_FAMILY,
            skip_system_fonts=True,
        )
    except ValueError:
        raise UserError(f"{path}: is no SVG drawing; save it as SVG, PNG or JPEG.") from None
    return bytes(drawn)


def _named(attribute: str) -> str:
    return f"font-family:{_FAMILY}" if ":" in attribute[:13] else f'font-family="{_FAMILY}"'


def _size_of(svg: str) -> tuple[float, float]:
    box = re.search(r'viewBox\s*=\s*"([^"]+)"', svg)
    numbers = [float(word) for word in re.findall(r"[-\d.]+", box.group(1))] if box else []
    size = (numbers[2], numbers[3]) if len(numbers) == 4 else (1000.0, 1000.0)
    if not 1 <= max(size) <= 20000:
        raise UserError("an SVG drawing must be between 1 and 20,000 units wide and high")
    return size
