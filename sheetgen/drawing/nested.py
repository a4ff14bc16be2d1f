"""Nested sizes: each piece in all sizes over each other from one anchor, and the steps between them as bars."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sheetgen.drawing import palette, svg
from sheetgen.drawing.diagram import scale_bar
from sheetgen.drawing.garments import views
from sheetgen.drawing.measures import known
from sheetgen.drawing.shapes import Path, Point, bounds, mirrored
from sheetgen.drawing.steps import STRIPS, Size, strips
from sheetgen.drawing.views import Laid, View

_LEFT, _TOP, _ROOM, _TALL = 70.0, 100.0, 900.0, 890.0
_COLUMN = 1060.0
_BETWEEN = 60.0
"""From a piece to the one below it."""
_DASHES = ("", "12 5", "4 4", "14 4 3 4")


def nested(garment: str, sizes: Sequence[Size], *, caption: str = "", unit: str = "cm") -> str:
    """One SVG, 1600 units wide: each size's half front, each with its own line, and the steps.

    Both halves where there is room. Sizes lie on each other as those of a pattern do, each piece by itself: bodies at center
    front and high shoulder point, sleeves straight at the shoulder point, legs at their middle and the waist. Bars show the
    main girth's and the main length's step to the next size; one that differs from the usual step is marked.
    """
    name = known(garment).word
    fronts = [views(name, measures)[0] for _, measures in sizes]
    groups = _groups(fronts)
    placings = _placings(groups)
    names = [size for size, _ in sizes]
    height = max(placings[-1].end if placings else 0, _below_legend(len(sizes)) + STRIPS) + 80
    title = caption or f"{name.capitalize()}, all sizes"
    elements = [svg.text(Point(40, 42), svg.cut(title, 1500, 26), size=26, bold=True)]
    for where, group in zip(placings, groups, strict=True):
        words = "Front" if where.whole else group[0].words
        elements.append(svg.text(Point(_LEFT, where.top - 22), words, color=palette.FAINT))
        elements += where.center()
        for index, (size, piece) in enumerate(zip(names, group, strict=True)):
            elements.append(_outline(size, piece, where, index, len(group)))
    elements += _legend(names)
    elements += strips(sizes, Point(_COLUMN, _below_legend(len(sizes))), unit)
    elements += scale_bar(Point(_LEFT, height - 24), placings[0].scale if placings else 1.0, unit)
    return svg.page(elements, title, height)


def _groups(fronts: Sequence[View]) -> list[list[Laid]]:
    """The same piece of all sizes together; a front that is not taken apart is one piece."""
    laid = [view.laid or (Laid("Half front, from the center line", view.silhouette, halves=True),) for view in fronts]
    return [list(pieces) for pieces in zip(*laid, strict=False)]


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


def _placings(groups: Sequence[Sequence[Laid]]) -> list[Placing]:
    """Where the pieces stand, one below the other, as large as they fit; both halves where that makes them no smaller."""
    boxes = [bounds([piece.path for piece in group]) for group in groups]
    wide = max((up.x - low.x for low, up in boxes), default=0.01)
    high = max(sum(up.y - low.y for low, up in boxes), 0.01)
    scale = min(_ROOM / max(wide, 0.01), (_TALL - _BETWEEN * max(len(groups) - 1, 0)) / high)
    found, top = [], _TOP
    for group, (low, up) in zip(groups, boxes, strict=True):
        whole = len(groups) == 1 and group[0].halves and 2 * max(up.x, -low.x) * scale <= _ROOM
        middle = _LEFT + _ROOM / 2 if whole else _LEFT + (_ROOM - (up.x - low.x) * scale) / 2 - low.x * scale
        end = top + (up.y - low.y) * scale
        found.append(Placing(Point(middle, top - low.y * scale), scale, top, end, whole))
        top = end + _BETWEEN
    return found


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


def _outline(size: str, piece: Laid, where: Placing, index: int, count: int) -> str:
    look = f'fill="none" stroke="{shade(index, count)}"{_dash(index)} stroke-width="2"'
    half = where.path(piece.path)
    paths = (half, where.path(mirrored(piece.path))) if where.whole else (half,)
    said = f'data-size="{svg.attribute(size)}" data-piece="{svg.attribute(piece.words)}"'
    return f'<path class="size" {said} d="{svg.data(paths)}" {look}/>'


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
