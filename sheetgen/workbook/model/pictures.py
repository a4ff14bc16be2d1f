"""Pictures: PNG and JPEG as they are, SVG drawn to PNG; refused in one sentence if a file is not what it says."""

from __future__ import annotations

import io
import re
from functools import lru_cache
from html import escape
from importlib import import_module
from pathlib import Path
from typing import Any
from xml.parsers import expat

from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.store import kept
from sheetgen.texts import say
from sheetgen.workbook.model.marks import marks_drawn, with_marks_kept

SHARPNESS = 1100
"""Longest side of a drawn SVG in pixels, whatever size it says it has: sharp over half an A4 page at 200 dots per inch."""
LARGE = 1600
"""The same for a drawing that takes a whole page."""
MOST_BYTES = 12_000_000
MOST_PIXELS = 50_000_000
_FAMILY = "Source Sans Pro"
_FONT_OF_TEXT = re.compile(r"""font-family\s*[:=]\s*(?:"[^"]*"|'[^']*'|[^;"'>]+)""")
_SIZE = re.compile(r' (?:width|height)="[\d.]+"')
"""Of a drawing of ours: its width and height stand in its first line, and nothing else of that name before them."""
_DEEPEST = 200
"""The drawing program dies, and ours with it, on groups within groups without end."""
_DOTS_PER_INCH = 96
_OPAQUE = (255, 255)
_PALETTE, _SHADES_OF_AREAS = 256, 6
_FEW_COLORS = 4096
"""A drawing has not more, edges and shadings with it; a photo has."""
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


def from_svg(svg: str, longest: int = LARGE, *, without: str = "") -> Picture:
    """A drawing of our own as a picture, its longest side in pixels; ValueError if it is no SVG.

    The same as vectors has no text that says what it is to be `without`.
    """
    vector = svg.replace(f">{escape(without)}</text>", "></text>") if without else svg
    return Picture(with_marks_kept(_drawn(svg, longest), marks_drawn(svg)), in_our_font(vector))


def in_our_font(svg: str) -> str:
    """The drawing with all its text in the font that we bring: another one may not be there."""
    return _FONT_OF_TEXT.sub(lambda found: _named(found.group()), svg)


def drawn_over(picture: Picture, svg: str, frame: tuple[float, float, float, float], longest: int) -> Picture:
    """A picture with a drawing over it. `frame` is the part of the plane that the drawing shows, in the picture's pixels (left,
    top, right, bottom); what the picture leaves of it is paper."""
    said = b"\0".join((f"{frame} {longest} {svg}".encode(), picture.data))
    made = kept("drawn-over", said, lambda: _over(picture.data, svg, frame, longest))
    made = with_marks_kept(made, marks_drawn(svg))
    return Picture(made, _vectors_over(picture, svg, frame) if picture.vector else "")


def _vectors_over(picture: Picture, svg: str, frame: tuple[float, float, float, float]) -> str:
    """The two drawings as one, the lower one in the plane of the upper one."""
    left, top, right, bottom = frame
    wide, high = width_and_height("", picture.data)
    plane = f'x="{left:.1f}" y="{top:.1f}" width="{right - left:.1f}" height="{bottom - top:.1f}"'
    below = _SIZE.sub("", picture.vector, count=2).replace(
        "<svg ", f'<svg x="0" y="0" width="{wide}" height="{high}" ', 1
    )
    above = in_our_font(svg).replace("<svg ", f"<svg {plane} ", 1)
    seen = f'viewBox="{left:.1f} {top:.1f} {right - left:.1f} {bottom - top:.1f}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {seen}><rect {plane} fill="#FFFFFF"/>{below}{above}</svg>'


def _over(picture: bytes, svg: str, frame: tuple[float, float, float, float], longest: int) -> bytes:
    library = _image_library()
    left, top, right, _ = frame
    with library.open(io.BytesIO(_raw(svg, longest))) as over, library.open(io.BytesIO(picture)) as under:
        scale = over.width / (right - left)
        size = (max(1, round(under.width * scale)), max(1, round(under.height * scale)))
        sheet = library.new("RGBA", over.size, "white")
        fitting = under.convert("RGBA").resize(size, library.Resampling.BICUBIC)
        sheet.alpha_composite(*_inside(fitting, round(-left * scale), round(-top * scale)))
        sheet.alpha_composite(over.convert("RGBA"))
    buffer = io.BytesIO()
    sheet.save(buffer, "PNG", compress_level=1)
    return _smaller(buffer.getvalue())


def _inside(image: Any, left: int, top: int) -> tuple[Any, tuple[int, int]]:
    """An image cut to what is right of and below the corner, and where it lies then."""
    return image.crop((max(0, -left), max(0, -top), *image.size)), (max(0, left), max(0, top))


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
    """The drawing as PNG, as small as it can be; ValueError says what is wrong with it."""
    return kept("drawn", f"{longest} {svg}".encode(), lambda: _smaller(_raw(svg, longest)))


def _raw(svg: str, longest: int) -> bytes:
    """The drawing as the library draws it, in colors and transparent where nothing stands."""
    _refuse_outside_and_endless(svg)
    files = sorted(import_module("font_source_sans_pro").font_files_ttf.values())
    fonts = [file for file in files if file.endswith(("-Regular.ttf", "-Bold.ttf"))]
    # The drawing program drops text whose font is not there, without a word: so all text takes the font we bring.
    svg = in_our_font(svg)
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
    return bytes(drawn)


def _smaller(png: bytes) -> bytes:
    """The same drawing in a third of the bytes: without transparency that it does not use, and with a palette.

    Black and white keeps sixteen shades. A colored drawing of few colors keeps those of its areas exactly, and no more of
    those along its edges than a palette holds; one with many (a photo within it) keeps all.
    """
    library = _image_library()
    with library.open(io.BytesIO(png)) as image:
        if image.mode != "RGBA" or image.getchannel("A").getextrema() != _OPAQUE:
            return png
        red, green, blue, _ = image.split()
        if red.tobytes() == green.tobytes() == blue.tobytes():
            return _shades(red)
        plain = image.convert("RGB")
        colors: list[tuple[int, tuple[int, int, int]]] | None = plain.getcolors(_FEW_COLORS)
        buffer = io.BytesIO()
        (_with_palette(plain, colors) if colors else plain).save(buffer, "PNG")
        return buffer.getvalue()


def _shades(gray: Any) -> bytes:
    """A drawing in black and white with sixteen shades, four bits a pixel: those of its areas, the others evenly spread."""
    often = sorted(gray.getcolors(), reverse=True)
    areas = [shade for _, shade in often[:_SHADES_OF_AREAS]]
    kept = sorted({*areas, *(round(255 * step / 9) for step in range(10))})
    few = gray.point([min(range(len(kept)), key=lambda at: abs(kept[at] - shade)) for shade in range(256)])
    few.putpalette([kept[min(at, len(kept) - 1)] for at in range(16) for _ in range(3)])
    buffer = io.BytesIO()
    few.save(buffer, "PNG", bits=4)
    return buffer.getvalue()


def _with_palette(plain: Any, colors: list[tuple[int, tuple[int, int, int]]]) -> Any:
    """The picture with a palette of its most frequent colors; `colors` are all of them, with the pixels that have each.

    The library looks for the nearest entry roughly and takes neighbors for one, so each entry is then made the color that
    most of its pixels had: that of an area stays exact.
    """
    library = _image_library()
    often = [color for _, color in sorted(colors, reverse=True)[:_PALETTE]]
    wanted = library.new("P", (1, 1))
    wanted.putpalette([part for color in (*often, *[often[0]] * (_PALETTE - len(often))) for part in color])
    each = library.frombytes("RGB", (len(colors), 1), bytes(part for _, color in colors for part in color))
    none = library.Dither.NONE
    few, entries = (image.quantize(palette=wanted, dither=none) for image in (plain, each))
    palette: list[int] = few.getpalette()
    most: dict[int, int] = {}
    for entry, (count, color) in zip(entries.tobytes(), colors, strict=True):
        if count > most.get(entry, 0):
            most[entry] = count
            palette[3 * entry : 3 * entry + 3] = color
    few.putpalette(palette)
    return few


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
