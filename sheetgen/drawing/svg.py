"""SVG: the few elements a drawing is made of, as text; every text escaped, every number short."""

from __future__ import annotations

import math
from collections.abc import Iterable
from html import escape
from typing import Final

from sheetgen.drawing import palette
from sheetgen.drawing.shapes import Path, Point

WIDTH, HEIGHT = 1600, 1100

STYLES: Final = {
    "cloth": f'fill="{palette.CLOTH}"',
    "inside": f'fill="{palette.INSIDE}" stroke="{palette.INK}" stroke-width="{palette.SEAM}"',
    "ribbed": f'fill="{palette.RIB}" stroke="{palette.INK}" stroke-width="{palette.SEAM}"',
    "cuff": f'fill="{palette.CLOTH}" stroke="{palette.INK}" stroke-width="{palette.SEAM}"',
    "button": f'fill="{palette.CLOTH}" stroke="{palette.INK}" stroke-width="{palette.SEAM}"',
    "outline": f'fill="none" stroke="{palette.INK}" stroke-width="{palette.OUTLINE}"',
    "seam": f'fill="none" stroke="{palette.INK}" stroke-width="{palette.SEAM}"',
    "armhole": f'fill="none" stroke="{palette.INK}" stroke-width="{palette.SEAM}"',
    "stitch": f'fill="none" stroke="{palette.FAINT}" stroke-width="{palette.THIN}" stroke-dasharray="5 3.5"',
    "fold": f'fill="none" stroke="{palette.RULE}" stroke-width="{palette.THIN}" stroke-dasharray="14 5 3 5"',
    "rib": f'fill="none" stroke="{palette.RULE}" stroke-width="{palette.THIN}"',
    "measure": f'fill="none" stroke="{palette.MEASURE}" stroke-width="1.3"',
    "head": f'fill="{palette.MEASURE}"',
    "extension": f'fill="none" stroke="{palette.MEASURE}" stroke-width="0.8" stroke-opacity="0.55"',
}
"""What each kind of stroke looks like."""


def short(value: float) -> str:
    """A number with two digits at most, without a needless end."""
    if not math.isfinite(value):
        raise ValueError("a drawing has no place that is not a number")
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def data(paths: Iterable[Path]) -> str:
    """The path data of polylines."""
    return " ".join("M" + " L".join(f"{short(point.x)} {short(point.y)}" for point in path) for path in paths if path)


def stroke(kind: str, paths: Iterable[Path], more: str = "", *, color: str = palette.MEASURE) -> str:
    """Paths of one kind as one element; `color` is that of lines that measure."""
    return f'<path d="{data(paths)}" {STYLES[kind].replace(palette.MEASURE, color)}{more}/>'


def text(where: Point, words: str, *, size: float = palette.TEXT, anchor: str = "start", color: str = palette.INK,
         bold: bool = False) -> str:  # fmt: skip
    """Words with their base line at a place."""
    weight = ' font-weight="bold"' if bold else ""
    return (
        f'<text x="{short(where.x)}" y="{short(where.y)}" font-size="{short(size)}" text-anchor="{anchor}" '
        f'fill="{color}"{weight}>{escape(_sayable(words))}</text>'
    )


def _sayable(words: str) -> str:
    """The words without signs that no XML may hold."""
    return "".join(sign if sign.isprintable() else " " for sign in words if not 0xD800 <= ord(sign) <= 0xDFFF)


def wide(words: str, size: float = palette.TEXT) -> float:
    """About how wide words are."""
    return len(words) * size * 0.5


def cut(words: str, room: float, size: float = palette.TEXT) -> str:
    """The words, shortened to the room there is."""
    most = max(int(room / (size * 0.5)), 1)
    return words if len(words) <= most else words[: most - 1].rstrip() + "…"


def page(elements: Iterable[str], title: str, height: float = HEIGHT) -> str:
    """A whole drawing on white."""
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {short(height)}" width="{WIDTH}" '
            f'height="{short(height)}" font-family="sans-serif" stroke-linejoin="round" stroke-linecap="round">',
            f"<title>{escape(_sayable(title))}</title>",
            f'<rect width="{WIDTH}" height="{short(height)}" fill="#FFFFFF"/>',
            *elements,
            "</svg>\n",
        )
    )


def attribute(words: str) -> str:
    """Words as the value of an attribute."""
    return escape(_sayable(words), quote=True)
