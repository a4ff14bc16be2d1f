"""Pictures: PNG and JPEG as they are, SVG drawn to PNG; refused in one sentence if a file is not what it says."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from functools import partial
from html import escape
from importlib import import_module
from pathlib import Path
from typing import Any

from sheetgen.declare.kinds import Picture
from sheetgen.errors import UserError
from sheetgen.store import kept
from sheetgen.texts import say
from sheetgen.workbook.model.lines import lines_kept, with_lines_kept, without_lines
from sheetgen.workbook.model.marks import marks_drawn, with_marks_kept, without_marks
from sheetgen.workbook.model.raster import FOR_A_FRAME, drawn, in_our_font, raw, smaller, unsized

LARGE = 1600
"""Longest side in pixels of a drawing that takes a whole page."""
MOST_BYTES = 12_000_000
MOST_PIXELS = 50_000_000
_SIZE = re.compile(r' (?:width|height)="[\d.]+"')
"""Of a drawing as a whole, in its first tag."""
_SEEN = "shapes-seen"
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
            return _with_its_lines(data.decode("utf-8", "replace"))
        except ValueError as error:
            raise UserError(f"{path}: {error}.") from None
    width_and_height(str(path), data)
    _refuse_cut_off(path, data)
    return Picture(data)


def _with_its_lines(svg: str) -> Picture:
    """A brand's own drawing: its pixels, and within them the lines of what is seen of it."""
    lines = _shapes(unsized(svg))
    if lines:
        kept(_SEEN, lines.encode(), lines.encode)  # they are looked through already, when they leave
    return Picture(with_lines_kept(drawn(lines, FOR_A_FRAME) if lines else drawn(svg), lines), lines)


def with_vector(picture: Picture) -> Picture:
    """The picture with its lines for paper, where it carries such as draw the very same pixels."""
    lines = "" if picture.vector else lines_kept(picture.data)
    try:
        longest = max(width_and_height("", picture.data)) if lines else 0
        is_same = bool(lines) and drawn(lines, longest) == without_marks(without_lines(picture.data))
    except (ValueError, UserError):
        is_same = False
    return replace(picture, vector=lines) if is_same else picture


def with_shapes(picture: Picture) -> Picture:
    """The same, where the lines hold nothing but shapes that are seen."""
    found = with_vector(picture)
    return found if found.vector and _shapes(found.vector) == found.vector else picture


def _shapes(svg: str) -> str:
    def found() -> bytes:
        library = import_module("sheetgen.workbook.model.shapes")  # most drawings are known already
        draw, small = (partial(raw, longest=longest) for longest in (FOR_A_FRAME, FOR_A_FRAME // 2))
        try:
            seen: str = library.shapes_seen(svg, draw, small, _colors_shown)
        except ValueError:
            return b""
        return seen.encode()

    return kept(_SEEN, svg.encode(), found).decode()


def _colors_shown(svg: str) -> frozenset[int]:
    """The colors of a drawing without soft edges, as numbers."""
    with _image_library().open(io.BytesIO(raw(svg, FOR_A_FRAME))) as image:
        shown = image.convert("RGB").getcolors(image.width * image.height)
    return frozenset((red << 16) + (green << 8) + blue for _, (red, green, blue) in shown)


def from_svg(svg: str, longest: int = LARGE, *, without: str = "") -> Picture:
    """A drawing of our own as a picture, its longest side in pixels; ValueError if it is no SVG.

    The same as vectors has no text that says what it is to be `without`.
    """
    vector = svg.replace(f">{escape(without)}</text>", "></text>") if without else svg
    return Picture(with_marks_kept(drawn(svg, longest), marks_drawn(svg)), in_our_font(vector), is_ours=True)


def drawn_over(picture: Picture, svg: str, frame: tuple[float, float, float, float], longest: int) -> Picture:
    """A picture with a drawing over it. `frame` is the part of the plane that the drawing shows, in the picture's pixels (left,
    top, right, bottom); what the picture leaves of it is paper."""
    if picture.vector:
        lines = _vectors_over(picture, svg, frame)
        made = with_marks_kept(drawn(lines, longest), marks_drawn(svg))
        return replace(picture, data=made if picture.is_ours else with_lines_kept(made, lines), vector=lines)
    said = b"\0".join((f"{frame} {longest} {svg}".encode(), picture.data))
    made = kept("drawn-over", said, lambda: _over(picture.data, svg, frame, longest))
    return Picture(with_marks_kept(made, marks_drawn(svg)))


def _vectors_over(picture: Picture, svg: str, frame: tuple[float, float, float, float]) -> str:
    """The two drawings as one, the lower one in the plane of the upper one."""
    left, top, right, bottom = frame
    wide, high = width_and_height("", picture.data)
    plane = f'x="{left:.1f}" y="{top:.1f}" width="{right - left:.1f}" height="{bottom - top:.1f}"'
    root, end, inner = picture.vector.partition(">")
    root = _SIZE.sub("", root).replace("<svg ", f'<svg x="0" y="0" width="{wide}" height="{high}" ', 1)
    below = f"{root}{end}{inner}"
    above = in_our_font(svg).replace("<svg ", f"<svg {plane} ", 1)
    seen = f'viewBox="{left:.1f} {top:.1f} {right - left:.1f} {bottom - top:.1f}"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {seen}><rect {plane} fill="#FFFFFF"/>{below}{above}</svg>'


def _over(picture: bytes, svg: str, frame: tuple[float, float, float, float], longest: int) -> bytes:
    library = _image_library()
    left, top, right, _ = frame
    with library.open(io.BytesIO(raw(svg, longest))) as over, library.open(io.BytesIO(picture)) as under:
        scale = over.width / (right - left)
        size = (max(1, round(under.width * scale)), max(1, round(under.height * scale)))
        sheet = library.new("RGBA", over.size, "white")
        fitting = under.convert("RGBA").resize(size, library.Resampling.BICUBIC)
        sheet.alpha_composite(*_inside(fitting, round(-left * scale), round(-top * scale)))
        sheet.alpha_composite(over.convert("RGBA"))
    buffer = io.BytesIO()
    sheet.save(buffer, "PNG", compress_level=1)
    return smaller(buffer.getvalue())


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
    left, top, right, bottom = map(int, kept("inked", data, lambda: b"%d %d %d %d" % _inked(data)).split())
    return left, top, right, bottom


def _inked(data: bytes) -> tuple[int, int, int, int]:
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
