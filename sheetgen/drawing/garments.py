"""Bodies: which function draws which, and what its main girth and length are."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from sheetgen.drawing.bottoms import bottom
from sheetgen.drawing.dresses import dress, skirt
from sheetgen.drawing.measures import Measure, Numbers, known
from sheetgen.drawing.tops import top
from sheetgen.drawing.views import View
from sheetgen.garments.declaration import Silhouette

_VIEWS: Final[dict[Silhouette, Callable[[Numbers], tuple[View, ...]]]] = {
    "top": top,
    "with a waist seam": dress,
    "waist to hem": skirt,
    "two legs": bottom,
}
GIRTHS: Final = ("chest", "hip", "waist", "bottom")
LENGTHS: Final = ("length", "back length", "outside", "side", "inside", "front rise")
"""The first of each that a garment's points give is its main one."""


def views(garment: str, measures: Sequence[Measure], hang: float | None = None) -> tuple[View, ...]:
    """Front, back and details of a garment in cm, its sleeves at an angle if one is given. ValueError if unknown."""
    declared = known(garment)
    return _VIEWS[declared.features.silhouette](Numbers(declared, measures, hang))
