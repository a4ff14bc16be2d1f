"""Nested sizes: all sizes' half fronts over each other from one anchor, and the steps between them as bars."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sheetgen.drawing import palette, svg
from sheetgen.drawing.diagram import scale_bar
from sheetgen.drawing.garments import views
from sheetgen.drawing.measures import known
from sheetgen.drawing.shapes import Path, Point, bounds, mirrored
from sheetgen.drawing.steps import STRIPS, Size, strips
from sheetgen.drawing.views import View

_LEFT, _TOP, _ROOM, _TALL = 70.0, 100.0, 900.0, 890.0
_COLUMN = 1060.0
_DASHES = ("", "12 5", "4 4", "14 4 3 4")


def nested(garment: str, sizes: Sequence[Size], *, caption: str = "", unit: str = "cm") -> str:
    """One SVG, 1600 units wide: each size's half front from the center line, each with its own line, and the steps.

    Both halves where there is room. Tops lie on each other at center front and high shoulder point, bottoms at
    center front and waist. Bars show the main girth's and the main length's step to the next
    size; one that differs from the usual step is marked. All sleeves hang as the middle size's does, since a
    sleeve's own angle on the table says nothing of its grade.
    """
    name = known(garment).word
    hang = views(name, sizes[len(sizes) // 2][1])[0].hang if sizes else None
    fronts = [(size, views(name, measures, hang)[0]) for size, measures in sizes]
    where = _placing([view.silhouette for _, view in fronts])
    height = max(where.end, _below_legend(len(sizes)) + STRIPS) + 80
    title = caption or f"{name.capitalize()}, all sizes"
    elements = [svg.text(Point(40, 42), svg.cut(title, 1500, 26), size=26, bold=True)]
    words = "Front" if where.whole else "Half front, from the center line"
    elements.append(svg.text(Point(_LEFT, 78), words, color=palette.FAINT))
    elements += where.center()
    for index, (size, view) in enumerate(fronts):
        elements += _outline(size, view, where, index, len(fronts))
    elements += _legend([size for size, _ in fronts])
    elements += strips(sizes, Point(_COLUMN, _below_legend(len(sizes))), unit)
    elements += scale_bar(Point(_LEFT, height - 24), where.scale, unit)
    return svg.page(elements, title, height)


@dataclass(frozen=True)
class Placing:
    """Where the outlines stand: their common anchor, scale and lower end, and whether both halves are drawn."""

    zero: Point
    scale: float
    top: float
    end: float
    whole: bool

    def path(self, path: Path) -> Path:
        """A path in units of the drawing."""
        return tuple(Point(self.zero.x + p.x * self.scale, self.zero.y + p.y * self.scale) for p in path)

    def center(self) -> Iterator[str]:
        """The center line and the level all sizes hang from."""
        yield svg.stroke("fold", [(Point(self.zero.x, self.top - 12), Point(self.zero.x, self.end + 12))])
        yield svg.stroke("fold", [(self.zero.to(-30, 0), self.zero.to(60, 0))])


def _placing(outlines: Sequence[Path]) -> Placing:
    """The halves as large as they fit; both halves where that makes them no smaller."""
    low, up = bounds(outlines)
    wide, high = max(up.x - low.x, 0.01), max(up.y - low.y, 0.01)
    scale = min(_ROOM / wide, _TALL / high)
    whole = 2 * max(up.x, -low.x) * scale <= _ROOM
    middle = _LEFT + _ROOM / 2 if whole else _LEFT + (_ROOM - wide * scale) / 2 - low.x * scale
    zero = Point(middle, _TOP - low.y * scale)
    return Placing(zero, scale, _TOP, _TOP + high * scale, whole)


def _below_legend(count: int) -> float:
    return _TOP + 40 + 27 * -(-count // 2)


def shade(index: int, count: int) -> str:
    """From light for the first size to ink for the last."""
    part = index / (count - 1) if count > 1 else 1.0
    light, dark = (0x8F, 0xA9, 0xB8), (0x22, 0x30, 0x3A)
    return "#" + "".join(f"{round(a + (b - a) * part):02X}" for a, b in zip(light, dark, strict=True))


def _dash(index: int) -> str:
    pattern = _DASHES[index % len(_DASHES)]
    return f' stroke-dasharray="{pattern}"' if pattern else ""


def _outline(size: str, view: View, where: Placing, index: int, count: int) -> Iterator[str]:
    look = f'fill="none" stroke="{shade(index, count)}"{_dash(index)}'
    armholes = [s.paths[: 2 if where.whole else 1] for s in view.strokes if s.kind == "armhole"]
    for paths in armholes:
        yield f'<path d="{svg.data(where.path(path) for path in paths)}" {look} stroke-width="0.9"/>'
    half = where.path(view.silhouette)
    paths = (half, where.path(mirrored(view.silhouette))) if where.whole else (half,)
    yield f'<path class="size" data-size="{svg.attribute(size)}" d="{svg.data(paths)}" {look} stroke-width="2"/>'


def _legend(names: Sequence[str]) -> Iterator[str]:
    """Two columns of line samples with size names, down first."""
    rows = -(-len(names) // 2)
    for index, name in enumerate(names):
        left, y = _COLUMN + 250 * (index // rows), _TOP + 27 * (index % rows)
        yield (
            f'<path d="M{svg.short(left)} {svg.short(y)} h60" fill="none" stroke="{shade(index, len(names))}" '
            f'stroke-width="2"{_dash(index)}/>'
        )
        yield svg.text(Point(left + 72, y + 6), svg.cut(name, 170))
