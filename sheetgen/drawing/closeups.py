"""Close-ups: a garment's details side by side, in black and white, each with the dimensions that its points of measure give.

A figure is the one that stands in the sheet, with its row's ref; a detail whose numbers are not known is not drawn.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final, NamedTuple

from sheetgen.drawing import details, palette, pockets, svg, waists
from sheetgen.drawing.details import Detail, Seen
from sheetgen.drawing.dimension import LANE, Box, Dimension, Field, drawn
from sheetgen.drawing.flat import HANG, INK, element
from sheetgen.drawing.garments import views
from sheetgen.drawing.measures import Measure, Numbers, key_of, known
from sheetgen.drawing.names import FLAT
from sheetgen.drawing.shapes import Path, Point, bounds, parallel
from sheetgen.drawing.waists import Label
from sheetgen.texts import marked, say

WIDE = 1480
"""Units across: so wide, letters are nine points high where the drawing is as wide as a page."""
_CELL, _FOOT, _TITLE = 390.0, 26.0, 34.0
_MOST_ACROSS = 4
_BESIDE, _ABOVE = 84.0, 44.0
"""Room for dimensions beside a detail, and above and below it."""
_LARGEST = 42.0
"""Units for each centimeter at most: a placket is not drawn as large as a hood."""


class Closeup(NamedTuple):
    """What a detail is called, the words by which somebody else's drawing shows the same, and how it is drawn."""

    title: str
    meant: str
    made: Callable[[Seen], Detail | None]


CLOSEUPS: Final = (
    Closeup(marked("Neckline"), r"neck\w*|notch", details.neckline),
    Closeup(marked("Collar, laid open"), "collars?", details.collar),
    Closeup(marked("Hood, folded flat"), "hoods?", details.hood),
    Closeup(marked("Front placket"), "plackets?|front edge", details.placket),
    Closeup(marked("Front zip"), "zips?", details.front_zip),
    Closeup(marked("Chest pocket"), "pockets?", pockets.chest_pocket),
    Closeup(marked("Welt pocket"), "pockets?", pockets.welt_pocket),
    Closeup(marked("Pouch pocket"), "pockets?|pouch", pockets.pouch),
    Closeup(marked("Waistband and fly"), "waistbands?|fly", waists.fly),
    Closeup(marked("Waistband and zip"), "waistbands?|zips?", waists.waistband_and_zip),
    Closeup(marked("Waistband"), "waistbands?", waists.waistband),
    Closeup(marked("Front pocket"), "front pockets?", pockets.front_pocket),
    Closeup(marked("Back pocket"), "back pockets?", pockets.back_pocket),
    Closeup(marked("Gusset, laid flat"), "gussets?", waists.gusset_flat),
    Closeup(marked("Vent"), "vents?", waists.vent),
    Closeup(marked("Cuff"), "cuffs?", details.cuff),
    Closeup(marked("Sleeve hem"), "cuffs?|sleeve hem", details.sleeve_hem),
    Closeup(marked("Hem at the side seam"), "hems?|bottom rib", details.hem),
)
_LABEL: Final = "labels?"


class Shown(NamedTuple):
    """A detail under its title, and the dimensions on it: ref and words of each measured line by its key."""

    title: str
    detail: Detail
    figures: Mapping[str, tuple[str, str]]


def shown_closeups(
    garment: str, measures: Sequence[Measure], own: Sequence[str] = (), label: tuple[Label, bool] | None = None
) -> list[Shown]:  # fmt: skip
    """The details that can be drawn of these measures, but for those that drawings of one's `own` (their names) show.

    `label` is the main label with whether it lies at the waist. ValueError if the garment is not known.
    """
    declared = known(garment)
    seen = Seen(Numbers(declared, measures, HANG), *views(declared.word, measures, HANG)[:2])
    figures = _figures(measures)
    found = []
    for one in CLOSEUPS:
        made = None if _is_shown(one.meant, own) else one.made(seen)
        if made is not None and (known_ones := _known(made, figures)):
            found.append(Shown(say(one.title), made, known_ones))
    if label is not None and not _is_shown(_LABEL, own):
        made = waists.main_label(seen, *label)
        if made is not None:
            words = {key: (label[0].ref, said) for key, said in label[0].words.items()}
            found.append(Shown(say("Main label, inside"), made, _known(made, words)))
    return found


def _is_shown(meant: str, own: Sequence[str]) -> bool:
    return any(re.search(rf"\b(?:{meant})\b", name.lower()) for name in own)


def _figures(measures: Sequence[Measure]) -> dict[str, tuple[str, str]]:
    """Ref and words of each point that is measured, by the drawing's word for it."""
    found: dict[str, tuple[str, str]] = {}
    for one in measures:
        key = key_of(one.name)
        if key and key not in found:
            whole = key in FLAT and not one.half
            found[key] = (one.ref, say("{figure} all round", figure=one.said) if whole else one.said)
    return found


def _known(made: Detail, figures: Mapping[str, tuple[str, str]]) -> dict[str, tuple[str, str]]:
    return {span.key: figures[span.key] for span in made.spans if span.key in figures}


def closeups(shown: Sequence[Shown], caption: str = "") -> str:
    """One SVG of these details in rows, `caption` below; "" of none."""
    if not shown:
        return ""
    rows = 1 if len(shown) < _MOST_ACROSS else max(2, -(-len(shown) // _MOST_ACROSS))
    across = -(-len(shown) // rows)
    wide = WIDE / max(across, 2 if rows > 1 else 3)
    high = rows * _CELL + (_FOOT if caption else 0)
    elements: list[str] = []
    for index, one in enumerate(shown):
        row = index // across
        beside = min(across, len(shown) - row * across)
        left = (WIDE - wide * beside) / 2
        elements += _cell(one, Point(left + index % across * wide, row * _CELL), wide, index)
    if caption:
        elements.append(svg.text(Point(WIDE / 2, high - 8), caption, anchor="middle", color=palette.FAINT))
    return "\n".join(
        (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE} {svg.short(high)}" width="{WIDE}" '
            f'height="{svg.short(high)}" stroke-linejoin="round" stroke-linecap="round">',
            f'<rect width="{WIDE}" height="{svg.short(high)}" fill="#FFFFFF"/>',
            *elements,
            "</svg>\n",
        )
    )


class _Plane(NamedTuple):
    """Units for each centimeter, and where a detail's own zero lies."""

    scale: float
    zero: Point

    def path(self, path: Path) -> Path:
        return tuple(Point(self.zero.x + p.x * self.scale, self.zero.y + p.y * self.scale) for p in path)


def _cell(one: Shown, corner: Point, wide: float, number: int) -> Iterator[str]:
    """A detail in the middle of its part of the drawing, under its title, with its dimensions."""
    detail, title = one.detail, svg.cut(one.title, wide - 20)
    low, up = detail.window or bounds([path for stroke in detail.strokes for path in stroke.paths])
    room = Point(wide - 2 * _BESIDE, _CELL - _TITLE - 2 * _ABOVE)
    scale = min(room.x / max(up.x - low.x, 0.01), room.y / max(up.y - low.y, 0.01), _LARGEST)
    middle = corner.to(wide / 2, _TITLE + (_CELL - _TITLE) / 2)
    plane = _Plane(scale, middle.to(-(low.x + up.x) / 2 * scale, -(low.y + up.y) / 2 * scale))
    yield svg.text(corner.to(wide / 2, 24), title, anchor="middle", bold=True)
    strokes = [element(stroke, [plane.path(path) for path in stroke.paths]) for stroke in detail.strokes]
    if detail.window:
        yield from _through(plane.path(detail.window), strokes, number)
    else:
        yield from strokes
    field = Field(_CELL, corner.x, corner.y, corner.x + wide)
    field.boxes.append(Box(corner.to(wide / 2, 18), svg.wide(title) + 8, _TITLE - 6))
    field.take(
        [plane.path(path) for stroke in detail.strokes if stroke.kind not in {"cloth", "rib"} for path in stroke.paths],
        2,
    )
    yield from drawn(list(_dimensions(one, plane)), field, INK)


def _through(window: Path, strokes: Sequence[str], number: int) -> Iterator[str]:
    """What a window lets see of the strokes, with its frame."""
    low, up = window
    place = (
        f'x="{svg.short(low.x)}" y="{svg.short(low.y)}" width="{svg.short(up.x - low.x)}" '
        f'height="{svg.short(up.y - low.y)}" rx="8"'
    )
    yield f'<clipPath id="window{number}"><rect {place}/></clipPath><g clip-path="url(#window{number})">'
    yield from strokes
    yield f'</g><rect {place} fill="none" stroke="{palette.RULE}" stroke-width="1.5"/>'


def _dimensions(one: Shown, plane: _Plane) -> Iterator[Dimension]:
    for span in one.detail.spans:
        if span.key in one.figures:
            ref, words = one.figures[span.key]
            measured = plane.path(span.path)
            yield Dimension(ref, parallel(measured, span.lane * LANE), measured, f"{ref} = {words}")
