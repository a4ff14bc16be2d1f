"""The marker as a picture: the fabric lying, its length from left to right, each size in a tint of its own and named."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from sheetgen.drawing import palette, svg
from sheetgen.drawing.diagram import scale_bar
from sheetgen.drawing.shapes import Path, Point, bounds
from sheetgen.nesting.labels import Label, label
from sheetgen.nesting.markers import Marker, Placed, in_sizes
from sheetgen.texts import say
from sheetgen.trade.lengths import INCH_CM

TINTS: Final = (
    "#D9E4EA", "#EFE4D2", "#DDE8D8", "#F0DCD6", "#E2DDEC", "#F2ECC8", "#D3E6E3", "#E6DED6", "#F3E1EC", "#E3E9C9",
)  # fmt: skip
"""Each size's own, in the order of the garments; from the eleventh size on they come again, and the names tell."""
_EDGE = 40.0
_ROOM = svg.WIDTH - 2 * _EDGE
_TOP = 112.0
_RULER = 64.0
"""Below each row of fabric: its ruler, and air."""
_TALL = 900.0
_LEAST_SCALE = 3.0
"""Units for each cm: below it the words of usual pieces find no room, and the fabric is shown in several rows."""
_MOST_ROWS = 5
_LINE = palette.TEXT * 1.55
_BESIDE = 330.0
"""So much room beside the fabric is enough for the legend; where there is less, it stands below."""
_CM = {"cm": 1.0, "in": INCH_CM}


@dataclass(frozen=True)
class _Row:
    """A length of fabric as it is drawn: from where to where in cm, units for each cm, upper and lower edge."""

    number: int
    start: float
    end: float
    scale: float
    top: float
    bottom: float

    def path(self, path: Path) -> Path:
        """A path of the fabric in units of the drawing."""
        return tuple(Point(self.x(point.x), self.top + point.y * self.scale) for point in path)

    def x(self, along: float) -> float:
        """Where a place along the fabric is drawn."""
        return _EDGE + (along - self.start) * self.scale

    def part(self, path: Path) -> float:
        """How much of the length of a path lies in this row."""
        low, up = bounds([path])
        return (min(up.x, self.end) - max(low.x, self.start)) / (up.x - low.x)


def picture(marker: Marker, *, fabric: str = "", unit: str = "cm") -> str:
    """One SVG, 1600 units wide: the marker to scale, in several rows where it is long, with its figures.

    `fabric` is what the fabric is called; `unit`, "cm" or "in", that of the figures, the ruler and the scale bar.
    ValueError for another unit.
    """
    if unit not in _CM:
        raise ValueError(say("a marker is shown in cm or in, not {unit!r}", unit=unit))
    rows = _rows(marker)
    title = say("Marker: {fabric}", fabric=fabric) if fabric else "Marker"
    elements = [
        svg.text(Point(_EDGE, 42), svg.cut(title, _ROOM, 26), size=26, bold=True),
        svg.text(Point(_EDGE, 78), caption(marker, unit)),
    ]
    for row in rows:
        elements += _fabric(row, rows)
        elements += _pieces(marker, row, rows)
        elements += _ruler(row, unit)
    right, foot = rows[0].x(rows[0].end), rows[-1].bottom + _RULER
    beside = right + _EDGE + _BESIDE < _EDGE + _ROOM
    start = Point(right + _EDGE, _TOP + 14) if beside else Point(_EDGE, foot + 8)
    drawn, end = _legend(marker, start)
    bar = max(end + 38, foot + 22)
    return svg.page([*elements, *drawn, *scale_bar(Point(_EDGE, bar), rows[0].scale, unit)], title, bar + 22)


def caption(marker: Marker, unit: str = "cm") -> str:
    """The marker's figures in one line."""
    width, length, each, gap = (
        side / _CM[unit] for side in (marker.width_cm, marker.length_cm, marker.length_per_garment(), marker.gap_cm)
    )
    count = sum(marker.garments.values())
    sizes = in_sizes(marker.garments)
    figures = (
        say("Width {width:.1f} {unit}", width=width, unit=unit),
        say("length {length:.1f} {unit}", length=length, unit=unit),
        say("efficiency {share:.1f} %", share=marker.efficiency * 100),
        f"{count} garment{'s' if count > 1 else ''} ({sizes})",
        f"{each:.1f} {unit} each",
        marker.nap,
        say("gap {gap:.2g} {unit}", gap=gap, unit=unit),
        say("seed {seed}", seed=marker.seed),
    )
    return " · ".join(figures)


def _rows(marker: Marker) -> list[_Row]:
    """The fabric in as many rows as keep its pieces legible."""
    count = min(math.ceil(marker.length_cm * _LEAST_SCALE / _ROOM), _MOST_ROWS)
    each = marker.length_cm / count
    scale = min(_ROOM / each, _TALL / marker.width_cm)
    high = marker.width_cm * scale
    tops = [_TOP + number * (high + _RULER) for number in range(count)]
    return [_Row(i, each * i, each * (i + 1), scale, top, top + high) for i, top in enumerate(tops)]


def _fabric(row: _Row, rows: Sequence[_Row]) -> Iterator[str]:
    """The fabric, its selvedges as heavy lines, its ends thin, dashed where it goes on in another row."""
    left, right = row.x(row.start), row.x(row.end)
    yield (
        f'<rect x="{svg.short(left)}" y="{svg.short(row.top)}" width="{svg.short(right - left)}" '
        f'height="{svg.short(row.bottom - row.top)}" fill="{palette.CLOTH}"/>'
    )
    for along, whole in ((left, row is rows[0]), (right, row is rows[-1])):
        yield svg.stroke("seam" if whole else "stitch", [(Point(along, row.top), Point(along, row.bottom))])
    for level in (row.top - 2.5, row.bottom + 2.5):
        yield (
            f'<path class="selvedge" d="M{svg.short(left)} {svg.short(level)} H{svg.short(right)}" '
            f'stroke="{palette.BAND}" stroke-width="5" stroke-linecap="butt"/>'
        )


def _pieces(marker: Marker, row: _Row, rows: Sequence[_Row]) -> Iterator[str]:
    """The pieces of a row, cut off at its ends; then the words of those that lie in it for the most part."""
    shown = [one for one in marker.placed if row.part(one.polygon) > 0]
    name = f"row-{row.number + 1}"
    yield (
        f'<clipPath id="{name}"><rect x="{svg.short(row.x(row.start) - 1)}" y="{svg.short(row.top - 1)}" '
        f'width="{svg.short((row.end - row.start) * row.scale + 2)}" height="{svg.short(row.bottom - row.top + 2)}"/>'
        f'</clipPath><g clip-path="url(#{name})">'
    )
    for one in shown:
        yield (
            f'<path class="piece" data-ref="{svg.attribute(one.ref)}" data-size="{svg.attribute(one.size)}" '
            f'd="{svg.data([row.path(one.polygon)])} Z" fill="{_tint(marker, one.size)}" stroke="{palette.INK}" '
            f'stroke-width="1.3"/>'
        )
    yield "</g>"
    for one in shown:
        if row is max(rows, key=lambda row: row.part(one.polygon)):
            found = label(row.path(one.polygon), _choices(one), row.x(row.start), row.x(row.end))
            yield from _words(found, one.turned, _tint(marker, one.size))


def _tint(marker: Marker, size: str) -> str:
    return TINTS[list(marker.garments).index(size) % len(TINTS)]


def _choices(one: Placed) -> list[tuple[str, ...]]:
    """What a piece may be called, the fullest first; its ref and size are always in it, and of a pair which side it is."""
    side = (say("rt") if one.mirrored else say("lt")) if one.piece.mirrored else ""
    short = " ".join(word for word in (one.ref, one.size, side) if word)
    return [(short, one.piece.name), (short,)] if one.piece.name else [(short,)]


def _words(found: Label, turned: bool, tint: str) -> Iterator[str]:
    """The words with the grain arrow after them; words that reach over their piece stand on its tint, so that they read."""
    middle = found.middle.to(0, -7.0 if found.arrow else 0.0)
    turn = f' transform="rotate(-90 {svg.short(middle.x)} {svg.short(middle.y)})"' if found.upright else ""
    yield f'<g class="label"{turn}>'
    if not found.fits:
        wide, high = svg.wide(found.words[0], found.size) + 10, found.size + 1
        yield (
            f'<rect x="{svg.short(middle.x - wide / 2)}" y="{svg.short(middle.y - high / 2)}" rx="3" '
            f'width="{svg.short(wide)}" height="{svg.short(high)}" fill="{tint}" stroke="{palette.RULE}"/>'
        )
    for place, line in found.lines(middle):
        yield svg.text(place, line, size=found.size, anchor="middle", bold=line is found.words[0])
    yield "</g>"
    if found.arrow:
        half = (found.wide if found.upright else found.high) / 2
        yield from _grain(middle.to(0, half + 10), found.arrow, turned)


def _grain(middle: Point, long: float, turned: bool) -> Iterator[str]:
    """A line along the grain, its head toward the top of the piece."""
    way = 1 if turned else -1
    tail, tip = middle.to(-way * long / 2, 0), middle.to(way * long / 2, 0)
    yield svg.stroke("seam", [(tail, tip.to(-way * 6, 0))], ' class="grain"')
    yield f'<path d="{svg.data([(tip, tip.to(-way * 9, 3.6), tip.to(-way * 9, -3.6))])} Z" fill="{palette.INK}"/>'


def _ruler(row: _Row, unit: str) -> Iterator[str]:
    """Ticks along the fabric, each with the length up to there."""
    cm = _CM[unit]
    step = next((step for step in (10, 20, 50, 100, 200) if step * cm * row.scale >= 90), 500) * cm
    level = row.bottom + 12
    for number in range(math.ceil(row.start / step - 1e-6), math.floor(row.end / step + 1e-6) + 1):
        place = Point(row.x(number * step), level)
        yield svg.stroke("rib", [(place, place.to(0, 8))])
        words = f"{number * step / cm:g}" + (f" {unit}" if number == 0 else "")
        yield svg.text(place.to(0, 27), words, anchor="middle" if number else "start", color=palette.FAINT)


def _legend(marker: Marker, start: Point) -> tuple[list[str], float]:
    """Each size's tint and number, each ref's name, and what the lines say, in columns; and the level it ends at."""
    names = {one.ref: one.piece.name for one in marker.placed}
    room = _EDGE + _ROOM - start.x
    pairs = any(one.piece.mirrored for one in marker.placed)
    groups = (
        [(f"{size or say('one size')} x {number}", size) for size, number in marker.garments.items()],
        [(f"{ref} {names[ref]}".strip(), None) for ref in sorted(names, key=lambda ref: (len(ref), ref))],
        [
            (say("heavy lines: selvedges"), None),
            (say("arrows: grain, toward the top of the piece"), None),
            *([(say("lt and rt: left and right of a pair, one the mirror of the other"), None)] if pairs else []),
        ],
    )
    drawn, level = [], start.y
    for group in groups:
        indent = 34 if group[0][1] is not None else 0
        each = min(indent + max(svg.wide(words) for words, _ in group) + 30, room)
        columns = int(room / each)
        for index, (words, size) in enumerate(group):
            place = Point(start.x + index % columns * each, level + index // columns * _LINE)
            if size is not None:
                drawn.append(_swatch(place.to(0, -14), _tint(marker, size)))
            shown, color = svg.cut(words, each - indent), palette.INK if indent else palette.FAINT
            drawn.append(svg.text(place.to(indent, 0), shown, color=color))
        level += math.ceil(len(group) / columns) * _LINE
    return drawn, level - _LINE


def _swatch(corner: Point, tint: str) -> str:
    return (
        f'<rect x="{svg.short(corner.x)}" y="{svg.short(corner.y)}" width="24" height="17" fill="{tint}" '
        f'stroke="{palette.INK}" stroke-width="1.2"/>'
    )
