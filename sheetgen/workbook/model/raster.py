"""An SVG drawing as pixels: drawn with the font that we bring, as small as can be; refused if it points outside itself."""

from __future__ import annotations

import io
import re
import struct
from collections.abc import Sequence
from functools import lru_cache
from importlib import import_module
from typing import Any
from xml.parsers import expat

from sheetgen.store import kept
from sheetgen.texts import say

SHARPNESS = 1100
"""Longest side of a drawn SVG in pixels, whatever size it says it has: sharp over half an A4 page at 200 dots per inch."""
FOR_A_FRAME = 800
"""The same where paper has the lines: 350 dots per inch in the largest frame of such a drawing, sharp at four times its size."""
_FAMILY = "Source Sans Pro"
_FONT_OF_TEXT = re.compile(r"""font-family\s*[:=]\s*(?:"[^"]*"|'[^']*'|[^;"'>]+)""")
_ROOT = re.compile(r"<svg\b[^>]*>")
_SAID = re.compile(r"""\s(width|height|viewBox)\s*=\s*["']([^"']*)["']""")
_SIZES = re.compile(r"""\s(?:width|height)\s*=\s*["'][^"']*["']""")
_ALIKE = 0.01
"""By so much of it a printed page may differ in shape from the drawing's own, for rounding."""
_NUMBER = re.compile(r"-?(?:\d+\.?\d*|\.\d+)")
_DEEPEST = 200
"""The drawing program dies, and ours with it, on groups within groups without end."""
_DOTS_PER_INCH = 96
_OPAQUE = (255, 255)
_FAINT = 32
"""So much of a pixel at least a drawing covers along its edge; below it the color would be guessed."""
_PALETTE, _SHADES_OF_AREAS = 256, 6
_FEW_COLORS = 16_384
"""A drawing has not more, edges and shadings with it; a photo has."""


def unsized(svg: str) -> str:
    """The drawing without how large it is printed, where that is only a larger or smaller print of its page."""
    root = _ROOT.search(svg)
    said = dict(_SAID.findall(root[0])) if root else {}
    box = [float(one) for one in _NUMBER.findall(said.get("viewBox", ""))]
    if root is None or len(box) != 4:
        return svg
    sizes = [said[name] for name in ("width", "height") if name in said and not said[name].endswith("%")]
    if len(sizes) == 2:
        wide, high = (float(found[0]) if (found := _NUMBER.match(size)) else 0.0 for size in sizes)
        if abs(wide * box[3] - high * box[2]) > _ALIKE * wide * box[3]:
            return svg
    return svg.replace(root[0], _SIZES.sub("", root[0]), 1)


def in_our_font(svg: str) -> str:
    """The drawing with all its text in the font that we bring: another one may not be there."""
    return _FONT_OF_TEXT.sub(lambda found: _named(found.group()), svg)


@lru_cache(maxsize=64)
def drawn(svg: str, longest: int = SHARPNESS) -> bytes:
    """The drawing as PNG, as small as it can be; ValueError says what is wrong with it."""
    return kept("drawn", f"{longest} {svg}".encode(), lambda: smaller(raw(svg, longest)))


@lru_cache(maxsize=4)  # the same is asked for twice in a row: as it is, and with what is seen of it alone
def raw(svg: str, longest: int) -> bytes:
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


def smaller(png: bytes) -> bytes:
    """The same drawing in a third of the bytes: without transparency that it does not use, and with a palette.

    Black and white keeps sixteen shades. A colored drawing of few colors keeps those of its areas exactly, and no more of
    those along its edges than a palette holds; one with many (a photo within it) keeps all.
    """
    library = import_module("PIL.Image")
    with library.open(io.BytesIO(png)) as image:
        if image.mode != "RGBA":
            return png
        if not _is_opaque(image):
            return _sheer(image) or png
        red, green, blue, _ = image.split()
        if red.tobytes() == green.tobytes() == blue.tobytes():
            return _shades(red)
        plain = image.convert("RGB")
        colors: list[tuple[int, tuple[int, int, int]]] | None = plain.getcolors(_FEW_COLORS)
        buffer = io.BytesIO()
        (_with_palette(plain, colors) if colors else plain).save(buffer, "PNG")
        return buffer.getvalue()


def _is_opaque(image: Any) -> bool:
    """Whether nothing shines through, but for a part of a pixel along the edge of a page that is no whole number of them."""
    alpha = image.getchannel("A")
    if alpha.getextrema() == _OPAQUE:
        return True
    wide, high = image.size
    inside = wide > 2 and high > 2 and alpha.crop((1, 1, wide - 1, high - 1)).getextrema() == _OPAQUE
    return bool(inside) and alpha.getextrema()[0] >= _FAINT


def _sheer(image: Any) -> bytes:
    """A drawing through which the ground is seen, with a palette of its most frequent colors, each as sheer as it is; the
    others are the nearest of these. Nothing where it has too many."""
    colors: list[tuple[int, tuple[int, int, int, int]]] | None = image.getcolors(_FEW_COLORS)
    if colors is None:
        return b""
    often = [color for _, color in sorted(colors, reverse=True)]
    palette = often[:_PALETTE]
    entry = {color: number for number, color in enumerate(palette)}
    seen = [_as_seen(color) for color in palette]
    entry |= {color: _nearest(_as_seen(color), seen) for color in often[_PALETTE:]}
    numbered = {struct.unpack("=I", bytes(color))[0]: number for color, number in entry.items()}
    few = import_module("PIL.Image").frombytes(
        "P", image.size, bytes(map(numbered.__getitem__, memoryview(image.tobytes()).cast("I")))
    )
    few.putpalette([part for color in palette for part in color[:3]])
    buffer = io.BytesIO()
    few.save(buffer, "PNG", transparency=bytes(color[3] for color in palette))
    return buffer.getvalue()


def _as_seen(color: Sequence[int]) -> tuple[float, ...]:
    """A color as much as it covers: where nearly nothing is, its color has no weight."""
    *parts, alpha = color
    return (*(part * alpha / 255 for part in parts), alpha)


def _nearest(wanted: Sequence[float], among: Sequence[Sequence[float]]) -> int:
    off = [sum((one - other) ** 2 for one, other in zip(wanted, each, strict=True)) for each in among]
    return off.index(min(off))


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
    library = import_module("PIL.Image")
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
