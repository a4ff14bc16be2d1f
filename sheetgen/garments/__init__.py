"""Garments: one declaration each, found by itself; what is drawn, chosen, laid and begun with follows from it.

A declaration is a module of this package that holds a GARMENT; the starter's data stand beside it under the same name.
All figures are common practice of the trade, with no published authority (an editors' merge, anchored on two published
graded tables and public how-to guides): editable starting values, never a pass or fail.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from importlib import import_module
from pkgutil import iter_modules
from typing import Final

from sheetgen.garments.declaration import Features, Garment, Point
from sheetgen.trade import outlines

__all__ = ["BY_WORD", "GARMENTS", "OUTLINES", "POINTS", "Features", "Garment", "Point"]


def _declared() -> Iterator[Garment]:
    for module in iter_modules(__path__):
        held = getattr(import_module(f"{__name__}.{module.name}"), "GARMENT", None)
        if isinstance(held, Garment):
            yield held


def _with_hoods() -> Iterator[Garment]:
    for garment in GARMENTS:
        yield garment
        if garment.hooded:
            yield garment.hooded


GARMENTS: Final = tuple(sorted(_declared(), key=lambda garment: (garment.place, garment.word)))
"""All garments in the order of the lists."""
BY_WORD: Final[Mapping[str, Garment]] = {garment.word: garment for garment in _with_hoods()}
"""Each garment that can be drawn, those with a hood behind their own, by the word that the Measurements sheet has."""
POINTS: Final = tuple(dict.fromkeys(point.point for garment in BY_WORD.values() for point in garment.points))
"""The name of each point of measure once."""
OUTLINES: Final = outlines.SHARED + tuple(
    dict.fromkeys(one for garment in BY_WORD.values() for one in garment.outlines)
)
"""The outlines of cut pieces that can be drawn: those of the trade, then those that only one garment has."""
