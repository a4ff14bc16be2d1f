"""Pictures: PNG and JPEG as they are, SVG drawn to PNG; refused in one sentence if a file is not what it says."""

from __future__ import annotations

import io
import re
from functools import lru_cache
from importlib import import_module
from pathlib import Path
from typing import Any
from xml.parsers import expat

from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.texts import say

SHARPNESS = 1100
"""Longest side of a drawn SVG in pixels, whatever size it says it has: sharp over half an A4 page at 200 dots per inch."""
LARGE = 1600
"""The same for a drawing that takes a whole page."""
MOST_BYTES = 12_000_000
MOST_PIXELS = 50_000_000
_FAMILY = "Source Sans Pro"
_FONT_OF_TEXT = re.compile(r"""font-family\s*[:=]\s*(?:"[^"]*"|'[^']*'|[^;"'>]+)""")
_DEEPEST = 200
"""The drawing program dies, and ours with it, on groups within groups without end."""
_DOTS_PER_INCH = 96
_OPAQUE = (255, 255)
_PAPER = 250
"""From this shade of gray on a pixel is the paper."""


def load(path: Path) -> Picture:
    """The picture in a file. UserError if it is missing, too large, no picture, or an SVG that points outside itself."""
    try:
        data = path.read_bytes()
    except (OSError, ValueError):
        raise UserError(
            say("{path}: there is no such picture; correct the path or leave the entry out.", path=path)
        ) from None
    if len(data) > MOST_BYTES:
        raise UserError(
            say(
                "{path}: larger than {megabytes} MB; save a smaller picture.",
                path=path,
                megabytes=MOST_BYTES // 1_000_000,
            )
        )
    if path.suffix.lower() == ".svg":
        try:
            return Picture(_drawn(data.decode("utf-8", "replace")))
        except ValueError as error:
            raise UserError(f"{path}: {error}.") from None
    width_and_height(str(path), data)
    _refuse_cut_off(path, data)
    return Picture(data)


def from_svg(svg: str, longest: int = LARGE) -> Picture:
    """A drawing of our own as a picture, its longest side in pixels; ValueError if it is no SVG."""
    return Picture(_drawn(svg, longest))


def width_and_height(name: str, data: bytes) -> tuple[int, int]:
    """Pixels of a PNG or JPEG; UserError if it is neither."""
    library = _image_library()
    try:
        with library.open(io.BytesIO(data), formats=("PNG", "JPEG")) as image:
            size: tuple[int, int] = image.size
            if size[0] * size[1] > MOST_PIXELS:
                raise UserError(
                    say(
                        "{name}: {width} x {height} pixels are too many; save a smaller picture.",
                        name=name,
                        width=size[0],
                        height=size[1],
                    )
                )
            return size
    except (OSError, ValueError, library.DecompressionBombError):
        raise UserError(say("{name}: is no PNG, JPEG or SVG picture; save it as one of these.", name=name)) from None


def inked(data: bytes) -> tuple[int, int, int, int]:
    """Left, top, right and bottom of what stands on a picture's white ground, in pixels; all of it where nothing does."""
    with _image_library().open(io.BytesIO(data), formats=("PNG", "JPEG")) as image:
        opaque = image.convert("RGBA")
        paper = import_module("PIL.Image").new("RGBA", opaque.size, "white")
        paper.alpha_composite(opaque)
        dark = paper.convert("L").point(lambda shade: 255 if shade < _PAPER else 0)
        found: tuple[int, int, int, int] | None = dark.getbbox()
        return found or (0, 0, *image.size)


def _image_library() -> Any:
    """Loaded when a picture is there, as the other libraries below: most commands see none."""
    return import_module("PIL.Image")


def _refuse_cut_off(path: Path, data: bytes) -> None:
    try:
        with _image_library().open(io.BytesIO(data), formats=("PNG", "JPEG")) as image:
            image.load()
    except (OSError, ValueError, SyntaxError):
        raise UserError(say("{path}: is damaged or cut off; save the picture again.", path=path)) from None


@lru_cache(maxsize=64)
def _drawn(svg: str, longest: int = SHARPNESS) -> bytes:
    """The drawing as PNG; ValueError says what is wrong with it."""
    _refuse_outside_and_endless(svg)
    files = sorted(import_module("font_source_sans_pro").font_files_ttf.values())
    fonts = [file for file in files if file.endswith(("-Regular.ttf", "-Bold.ttf"))]
    # The drawing program drops text whose font is not there, without a word: so all text takes the font we bring.
    svg = _FONT_OF_TEXT.sub(lambda found: _named(found.group()), svg)
    try:
        drawn = import_module("resvg_py").svg_to_bytes(
            svg_string=svg,
            width=longest,
            height=longest,
            dpi=_DOTS_PER_INCH,
            font_files=fonts,
            font_family=_FAMILY,
            sans_serif_family=_FAMILY,
            serif_family=_FAMILY,
            skip_system_fonts=True,
        )
    except ValueError:
        raise ValueError(say("is no SVG drawing; save it as SVG, PNG or JPEG")) from None
    return _smaller(bytes(drawn))


def _smaller(png: bytes) -> bytes:
    """A drawing in black and white with one value a pixel instead of four: the same picture in half the bytes."""
    with _image_library().open(io.BytesIO(png)) as image:
        if image.mode != "RGBA" or image.getchannel("A").getextrema() != _OPAQUE:
            return png
        red, green, blue, _ = image.split()
        if red.tobytes() != green.tobytes() or red.tobytes() != blue.tobytes():
            return png
        buffer = io.BytesIO()
        red.save(buffer, "PNG")
        return buffer.getvalue()


def _refuse_outside_and_endless(svg: str) -> None:
    depth = 0

    def start(_: str, attributes: dict[str, str]) -> None:
        nonlocal depth
        depth += 1
        if depth > _DEEPEST:
            raise ValueError(
                say(
                    "the drawing has more than {deepest} groups within groups; ungroup it and save again",
                    deepest=_DEEPEST,
                )
            )
        for name, value in attributes.items():
            if name.endswith(("href", "src")) and not value.startswith(("#", "data:")):
                raise ValueError(say("the drawing points to a file outside itself; embed that picture and save again"))

    def end(_: str) -> None:
        nonlocal depth
        depth -= 1

    parser = expat.ParserCreate()
    parser.StartElementHandler, parser.EndElementHandler = start, end
    try:
        parser.Parse(svg, True)
    except expat.ExpatError:
        raise ValueError(say("is no SVG drawing; save it as SVG, PNG or JPEG")) from None


def _named(attribute: str) -> str:
    return f"font-family:{_FAMILY}" if ":" in attribute[:13] else f'font-family="{_FAMILY}"'
