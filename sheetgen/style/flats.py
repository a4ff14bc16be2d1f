"""Flats and colored views where a style has none of its own: drawn from its measurements, anew at every build.

A drawing of the designer's own, put into a frame, takes the place of ours there. A garment may have details that no point
measures: so each says what it is drawn from, and a word on Construction leaves the frames blank.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import Final, NamedTuple, get_args

from sheetgen.declare.entry import Place
from sheetgen.declare.families import member_name
from sheetgen.declare.kinds import Picture, Value
from sheetgen.drawing import Colors, Measure, area_targets, flat
from sheetgen.drawing.areas import is_at_the_back
from sheetgen.drawing.callouts import Target
from sheetgen.drawing.views import Part
from sheetgen.garments import BY_WORD
from sheetgen.sheets import BOOK
from sheetgen.sheets.construction import LEFT_BLANK
from sheetgen.style.drawn_once import drawn_once
from sheetgen.style.marks import CALLOUTS, FLATS, with_marks
from sheetgen.texts import say
from sheetgen.workbook.model.pictures import from_svg
from sheetgen.workbook.model.values import Values, refs

_COMPONENTS = "colorways.components"
_POINTS = "measurements.points"
_SHARP, _SHARP_IN_COLORS = 1100, 800
"""Pixels of the longer side: of a flat, and of a colored view, whose frame is a third as wide; paper has both as lines."""


class Frame(NamedTuple):
    """What is drawn in a frame: the back or the front, in which colorway (0: black and white)."""

    back: bool
    colorway: int


FRAMES: Final = {
    Place("construction.flat_front"): Frame(back=False, colorway=0),
    Place("construction.flat_back"): Frame(back=True, colorway=0),
    Place("style.front"): Frame(back=False, colorway=1),
    Place("style.back"): Frame(back=True, colorway=1),
    Place("style.view_3"): Frame(back=False, colorway=2),
    Place("style.view_4"): Frame(back=True, colorway=2),
}
_WORDS: Final[Mapping[Part, str]] = {
    "body": "shell|body|main|outer|self|fabric",
    "sleeve": "sleeves?",
    "hood": "hood",
    "collar": "collar",
    "cuff": "cuffs?",
    "rib": "ribs?|ribbing",
    "pocket": "pockets?",
    "waistband": "waistband",
    "inside": "lining|inner|inside|facing",
    "button": "buttons?|snaps?",
    "zip": "zips?",
    "stitch": "topstitch(?:ing)?",
}
_NOT_SEEN = re.compile(r"\b(?:prints?|embroider\w*|labels?|tapes?|cords?|stoppers?|piping|bags?|buttonholes?|seams?)\b")
"""What these words are about has a color of its own, and is no area of a flat."""


def to_draw(values: Mapping[Place, Value]) -> tuple[Place, ...]:
    """The frames that are drawn: of a sheet on which the designer has put no drawing, if the garment can be drawn.

    A second colorway is drawn where it has a color for the body.
    """
    garment = values.get(Place("measurements.garment"))
    if garment not in BY_WORD or not refs(_POINTS, values) or values.get(Place("construction.flats")) == LEFT_BLANK:
        return ()
    own = {place.entry.partition(".")[0] for place in FRAMES if values.get(place) is not None}
    return tuple(
        place for place, frame in FRAMES.items()
        if place.entry.partition(".")[0] not in own
        and (frame.colorway < 2 or "body" in colors_of(values, frame.colorway).of)
    )  # fmt: skip


def drawn_flats(values: Mapping[Place, Value], measures: list[Measure]) -> Values:
    """The drawings, with their callouts, and what tells the next build that they are ours."""
    made: Values = {}
    frames = to_draw(values)
    if not frames:
        return {}
    for place in frames:
        frame = FRAMES[place]
        colors = colors_of(values, frame.colorway) if frame.colorway else None
        drawing = drawn_once(
            flat, str(values[Place("measurements.garment")]), measures, back=frame.back,
            colors=colors if colors and colors.of else None, caption=_caption(),
        )  # fmt: skip
        # On paper a drawing may be small, and its caption with it: there it stands below.
        made[place] = from_svg(drawing, _SHARP_IN_COLORS if frame.colorway else _SHARP, without=_caption())
    marked = with_marks({**values, **made}, _areas(values, measures, made))
    for place in made:
        original = BOOK.entries[place.entry].entry.original
        marked.pop(Place(original), None)  # it is drawn anew, and not kept
        shown = marked.get(place, made[place])
        if isinstance(shown, Picture):
            marked |= {place: shown, Place(f"{original}_of"): shown.digest}
    return marked


def _caption() -> str:
    """What stands below each drawing; the callouts' places count its room."""
    return say("drawn from the measurements")


def _areas(
    values: Mapping[Place, Value], measures: list[Measure], made: Mapping[Place, Value]
) -> dict[Place, tuple[Target, ...]]:
    """Where the callouts' areas lie on the drawn flats; a row that says on which drawing it is means that one."""
    found: dict[Place, tuple[Target, ...]] = {}
    for word, place in FLATS.items():
        areas = {ref: area for ref, area, side in _named_areas(values) if side == word}
        if place in made:
            found[place] = area_targets(
                str(values[Place("measurements.garment")]), measures, areas, back=FRAMES[place].back,
                caption=_caption(),
            )  # fmt: skip
    return found


def _named_areas(values: Mapping[Place, Value]) -> Iterator[tuple[str, str, str]]:
    """Ref and area of each callout, and the flat that it is about."""
    for ref in refs(CALLOUTS, values):
        area, said = (str(values.get(Place(f"{CALLOUTS}.{name}", ref)) or "") for name in ("area", "drawing"))
        yield ref, area, said or ("back" if is_at_the_back(area) else "front")


def colors_of(values: Mapping[Place, Value], colorway: int) -> Colors:
    """The swatches of a colorway by the part that each component's name means; the first component's is the body's at least."""
    found: dict[Part, str] = {}
    first = ""
    for ref in refs(_COMPONENTS, values):
        name = str(values.get(Place(f"{_COMPONENTS}.component", ref)) or "").lower()
        swatch = values.get(Place(f"{_COMPONENTS}.{member_name('swatch', 'colorway', colorway)}", ref))
        if isinstance(swatch, str) and re.fullmatch("#[0-9A-Fa-f]{6}", swatch):
            first = first or swatch
            for part in parts_meant(name):
                found.setdefault(part, swatch)
    if first:
        found.setdefault("body", first)
    return Colors(found)


def parts_meant(name: str) -> Iterator[Part]:
    """Which parts of a garment a component's name is about."""
    if _NOT_SEEN.search(name):
        return
    if re.search(rf"\b(?:{_WORDS['inside']})\b", name):
        yield "inside"
        return
    for part in get_args(Part):
        if part in _WORDS and re.search(rf"\b(?:{_WORDS[part]})\b", name):
            yield part
