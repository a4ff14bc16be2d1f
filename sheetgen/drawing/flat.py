"""Flats: front or back of a garment from its measurements, with its seams and stitching; in black and white or colored.

Nothing is measured on it, so that sleeves hang as in a hand's drawing. A style's own drawings take its place.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

from sheetgen.drawing import svg
from sheetgen.drawing.areas import spot_of
from sheetgen.drawing.callouts import Target
from sheetgen.drawing.garments import views
from sheetgen.drawing.measures import Measure, known
from sheetgen.drawing.shapes import Path, Point, bounds
from sheetgen.drawing.views import Part, Stroke, View
from sheetgen.trade.contrast import contrast, luminance

WIDE, HIGH = 1000, 1100
_EDGE, _CAPTION = 40.0, 16.0
HANG = math.radians(56)
"""Below level, at the shoulder: sleeves drawn beside the body, as flats are."""
INK, _PAPER, _SHADE, _GRAY, _FAINT = "#1A1A1A", "#FFFFFF", "#E2E2E2", "#F2F2F2", "#6B7780"
_MIDDLE = 0.18
"""Black and white have the same contrast to a ground as light as this."""
_TOLD_APART = 3.0
"""What is no text is told from its ground by this contrast (W3C, WCAG 2.1, 1.4.11)."""
_OUTLINE, _EDGE_OF_CUFF, _SEAM, _STITCH, _RIB = 4.2, 3.4, 2.4, 1.8, 1.4
_FILLED: Final = {"cloth", "inside", "ribbed", "cuff", "button"}


@dataclass(frozen=True)
class Colors:
    """Colors as #RRGGBB by the part that has them; a part that is not named is of the body's."""

    of: Mapping[Part, str]

    def fill(self, stroke: Stroke) -> str:
        """The color of a filled part; its inside is the lining's, else a shade of its own."""
        if stroke.kind == "inside":
            return self.of.get("inside") or mixed(self.of.get("body", _PAPER), "#000000", 0.25)
        return self.of.get(stroke.part) or self.of.get("body", _PAPER)

    def line(self, stroke: Stroke) -> str:
        """A line that can be told from what it lies on; stitching has its thread's color where one is given."""
        if stroke.kind == "stitch" and "stitch" in self.of:
            return self.of["stitch"]
        ground = self.of.get(stroke.part) or self.of.get("body", _PAPER)
        ink = "#000000" if luminance(ground[1:]) > _MIDDLE else "#FFFFFF"
        shades = (mixed(ground, ink, part / 10) for part in (5, 6, 7, 8, 9))
        return next((shade for shade in shades if contrast(shade[1:], ground[1:]) >= _TOLD_APART), ink)


def flat(
    garment: str, measures: Sequence[Measure], *, back: bool = False, colors: Colors | None = None, caption: str = ""
) -> str:  # fmt: skip
    """One SVG of 1000 x 1100 at most: the garment's front or back, a faint caption below. ValueError if it is not known."""
    view = views(known(garment).word, measures, HANG)[1 if back else 0]
    plane = _plane(view, caption)
    drawn = [element(stroke, [plane.path(path) for path in stroke.paths], colors) for stroke in view.strokes]
    size = (plane.wide, plane.high)
    width, height = (svg.short(side) for side in size)
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" width="{width}" height="{height}" '
            'stroke-linejoin="round" stroke-linecap="round">',
            f'<rect width="{width}" height="{height}" fill="{_PAPER}"/>',
            *drawn,
            *(
                [svg.text(Point(size[0] / 2, size[1] - 12), caption, size=20, anchor="middle", color=_FAINT)]
                if caption
                else ()
            ),
            "</svg>\n",
        )
    )


def area_targets(
    garment: str, measures: Sequence[Measure], areas: Mapping[str, str], *, back: bool = False, caption: str = ""
) -> tuple[Target, ...]:  # fmt: skip
    """Where the named areas (ref -> words) lie on the drawing that `flat` makes; those that it shows, left and right in turn."""
    view = views(known(garment).word, measures, HANG)[1 if back else 0]
    plane, found = _plane(view, caption), []
    for ref, words in areas.items():
        if (spot := spot_of(view, words)) is not None:
            found.append((ref, spot))
    found.sort(key=lambda one: one[1].point.y)
    turn, targets = False, []
    for ref, spot in found:
        point = plane.point((spot.turned if turn and spot.twice else spot).point)
        turn = turn is not spot.twice
        targets.append(Target(ref, point.x / plane.wide, point.y / plane.high))
    return tuple(targets)


class _Plane(NamedTuple):
    """How a view lies on the drawing: from where, how large, and the size of it all."""

    low: Point
    scale: float
    wide: float
    high: float

    def point(self, at: Point) -> Point:
        return Point((at.x - self.low.x) * self.scale + _EDGE, (at.y - self.low.y) * self.scale + _EDGE)

    def path(self, path: Path) -> Path:
        return tuple(map(self.point, path))


def _plane(view: View, caption: str) -> _Plane:
    low, up = bounds([path for stroke in view.strokes for path in stroke.paths])
    wide, high = max(up.x - low.x, 0.01), max(up.y - low.y, 0.01)
    scale = min((WIDE - 2 * _EDGE) / wide, (HIGH - 2 * _EDGE) / high)
    foot = _CAPTION if caption else 0.0
    return _Plane(low, scale, wide * scale + 2 * _EDGE, high * scale + 2 * _EDGE + foot)


def element(stroke: Stroke, paths: Sequence[Path], colors: Colors | None = None) -> str:
    """One stroke of a flat, its paths in units of the drawing; in black and white without colors."""
    fill, line, wide, dashes = "none", INK, _SEAM, ""
    if stroke.kind in _FILLED:
        fill = colors.fill(stroke) if colors else {"inside": _SHADE, "ribbed": _GRAY}.get(stroke.kind, _PAPER)
    if stroke.kind == "cloth":
        line = "none"
    elif stroke.kind in {"outline", "cuff", "ribbed"}:
        wide = _OUTLINE if stroke.kind == "outline" else _EDGE_OF_CUFF
    elif colors:
        line = colors.line(stroke)
    if stroke.kind in {"stitch", "rib", "fold"}:
        wide, dashes = {"stitch": (_STITCH, "9 6"), "rib": (_RIB, ""), "fold": (_RIB, "22 8 5 8")}[stroke.kind]
        line = colors.line(stroke) if colors else "#555555"
    dashed = f' stroke-dasharray="{dashes}"' if dashes else ""
    return f'<path d="{svg.data(paths)}" fill="{fill}" stroke="{line}" stroke-width="{svg.short(wide)}"{dashed}/>'


def mixed(one: str, other: str, much: float) -> str:
    """A color with so much of another in it, both as #RRGGBB."""
    parts = (
        round(int(one[at : at + 2], 16) * (1 - much) + int(other[at : at + 2], 16) * much) for at in (1, 3, 5)
    )  # fmt: skip
    return "#" + "".join(f"{part:02X}" for part in parts)
