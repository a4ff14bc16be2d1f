"""Where on a drawn garment an area lies that somebody named: the cuff, the side seam, the front pocket.

Words are those that people write before an instruction. What a drawing does not show (a lining, a label) has no place.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from sheetgen.drawing.shapes import Path, Point, bounds
from sheetgen.drawing.views import Part, View

_INSIDE = re.compile(
    r"\b(?:lining|inside(?! leg)|inner|labels?|prints?|tapes?|facings?|edges|bartacks?|interlinings?)\b"
)
_AT_THE_BACK = re.compile(r"\b(?:back|seat|vents?)\b")

_ASIDE = 1.0
"""Centimeters: what is nearer to the center line lies on it."""


class Spot(NamedTuple):
    """A place on a view, in its own centimeters; `twice` where its like lies on the other side of the garment."""

    point: Point
    twice: bool = True

    @property
    def turned(self) -> Spot:
        """The same place on the other side."""
        return self._replace(point=Point(-self.point.x, self.point.y))


Find = Callable[[View], Spot | None]


def is_at_the_back(area: str) -> bool:
    """Whether the words are about the back of the garment."""
    return _AT_THE_BACK.search(area.lower()) is not None


def spot_of(view: View, area: str) -> Spot | None:
    """The place that an area's words mean on this view; None where it is not seen, or no word is known."""
    words = area.lower()
    if _INSIDE.search(words):
        return None
    return next((spot for find in _meant(words) if (spot := find(view)) is not None), None)


def _meant(words: str) -> Iterator[Find]:
    return (find for pattern, find in _WORDS if re.search(rf"\b(?:{pattern})\b", words))


def _between(one: str, other: str, part: float = 0.5) -> Find:
    """A part of the way from one named corner to another."""

    def find(view: View) -> Spot | None:
        first, last = view.spots.get(one), view.spots.get(other)
        return Spot(first.toward(last, part)) if first is not None and last is not None else None

    return find


def _inward(find: Find) -> Find:
    """A little nearer to the center line: an armhole without a sleeve curves inward."""

    def nearer(view: View) -> Spot | None:
        spot = find(view)
        return spot and spot._replace(point=Point(spot.point.x * 0.9, spot.point.y))

    return nearer


def _part(part: Part) -> Find:
    """In the area of a part that lies furthest to the right: in its middle, or beside the center line that it crosses."""

    def find(view: View) -> Spot | None:
        boxes = [bounds([path]) for path in _paths(view, part)]
        if not boxes:
            return None
        low, up = max(boxes, key=lambda box: box[0].x + box[1].x)
        crosses = low.x < -_ASIDE and up.x > _ASIDE
        point = Point(up.x * 0.6 if crosses else (low.x + up.x) / 2, (low.y + up.y) / 2)
        return Spot(point, crosses or any(abs(other.x + up.x) < _ASIDE for other, _ in boxes))

    return find


def _paths(view: View, part: Part) -> Sequence[Path]:
    """A part's areas; the lines on them are no place of their own."""
    strokes = [stroke for stroke in view.strokes if stroke.part == part]
    filled = [stroke for stroke in strokes if stroke.kind in {"cloth", "cuff", "ribbed", "button"}] or strokes
    return [path for stroke in filled for path in stroke.paths]


def _center(part: float, *ends: tuple[str, str]) -> Find:
    """On the center line, a part of the way from one corner's height to another's."""

    def find(view: View) -> Spot | None:
        for top, bottom in ends:
            if top in view.spots and bottom in view.spots:
                first, last = view.spots[top], view.spots[bottom]
                return Spot(Point(0, first.y + (last.y - first.y) * part), twice=False)
        return None

    return find


_DOWN_THE_FRONT = (("neck", "hem center"), ("waist", "fork"))
_WORDS: tuple[tuple[str, Find], ...] = (
    ("collar band|collar stand", _center(0.0, ("neck", "hem center"))),
    ("collar", _part("collar")),
    ("hood", _part("hood")),
    ("neck", _center(0.0, ("neck", "hem center"))),
    ("sleeve hem", _between("cuff fold", "cuff seam")),
    ("sleeve placket", _between("cuff fold", "shoulder", 0.12)),
    ("cuffs?", _part("cuff")),
    ("cuffs?", _between("cuff fold", "cuff seam")),
    ("armholes?", _inward(_between("shoulder", "underarm", 0.7))),
    ("shoulders?|yoke", _between("high shoulder", "shoulder")),
    ("placket|zip|buttonholes?|buttons?|snaps|front edge|fly|center front|center back", _center(0.4, *_DOWN_THE_FRONT)),
    ("pockets?", _part("pocket")),
    ("front pocket", _between("waist", "hip", 0.6)),
    ("back pocket", _between("waist", "hip middle", 0.7)),
    ("inside leg|inseam", _between("knee in", "knee", 0.1)),
    ("crotch|gusset|seat|rise", _center(0.95, ("waist", "fork"))),
    ("outside leg|side seams?|sides?", _between("hip", "knee", 0.5)),
    ("side|underarm", _between("underarm", "hem side", 0.45)),
    ("side seams?", _between("hip", "hem side", 0.5)),
    ("waistband|belt loops?|elastic", _part("waistband")),
    ("darts?", _between("waist", "hip", 0.3)),
    ("waist", _center(0.0, ("waist", "hem center"), ("waist", "fork"))),
    ("hem|bottom", _between("hem center", "hem side", 0.6)),
    ("hem|bottom", _between("hem in", "hem side", 0.5)),
    ("vents?", _center(0.95, ("waist", "hem center"))),
    ("sleeves?", _between("shoulder", "cuff fold", 0.5)),
)  # fmt: skip
"""Words of an area, as a pattern -> where it lies; the first that finds something counts."""
