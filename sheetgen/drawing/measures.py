"""Measures: which point of the sheet is which length of the drawing, and what a drawing takes for one not given."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from sheetgen.drawing.names import ACROSS, FLAT, NAMES
from sheetgen.drawing.starting import RELATED, STARTING
from sheetgen.trade.points import points

GARMENTS = (
    "t-shirt",
    "sweatshirt",
    "hooded sweatshirt",
    "shirt",
    "trousers",
    "skirt",
    "dress",
    "jacket",
    "leggings",
)
"""The garments that can be drawn."""
_LIBRARY = {name: name for name in GARMENTS} | {"t-shirt": "T-shirt", "sweatshirt": "hooded sweatshirt"}


@dataclass(frozen=True)
class Measure:
    """One row of the sheet: its ref, the point's name, its value in cm, and whether that is flat, edge to edge."""

    ref: str
    name: str
    value: float
    half: bool


def known(garment: str) -> str:
    """The garment's name as in GARMENTS; ValueError if it can't be drawn."""
    name = garment.casefold().strip()
    if name not in GARMENTS:
        raise ValueError(f"no drawing for {garment!r}; known: {', '.join(GARMENTS)}")
    return name


def key_of(name: str) -> str:
    """What the drawing calls a point, "" if it knows none of that name.

    Known are the library's names; what follows a comma only says how, unless it is a stretched or least value,
    which is no length of the garment at rest.
    """
    plain = " ".join(name.casefold().replace("centre", "center").split())
    first, _, how = plain.partition(",")
    if "stretch" in how or "minimum" in how:
        return ""
    return NAMES.get(plain) or NAMES.get(first.strip(), "")


def flat(measure: Measure) -> float:
    """The measure as it lies on the table, never less than nothing: a girth measured all round is halved."""
    whole = not measure.half and key_of(measure.name) in FLAT
    return max(measure.value, 0.0) / (2 if whole else 1)


class Numbers:
    """All lengths of one garment in cm, lying flat: as given, else from related ones, else in proportion.

    In proportion: the library's value at its base size, times the mean of given to library over the points across
    (or along) the garment. `hang` is the angle of the sleeves below level, in radians, where it must be a given one.
    """

    def __init__(self, garment: str, measures: Sequence[Measure], hang: float | None = None) -> None:
        self.garment, self.hang = known(garment), hang
        self.given: dict[str, float] = {}
        for measure in measures:
            key = key_of(measure.name)
            if key and key not in self.given and math.isfinite(measure.value):
                self.given[key] = flat(measure)
        self._start = _starting(self.garment)
        along, across = self._ratio(across=False), self._ratio(across=True)
        self._across, self._along = across or along or 1.0, along or across or 1.0

    def __getitem__(self, key: str) -> float:
        if key in self.given:
            return self.given[key]
        for needs, made in RELATED.get(key, ()):
            if all(need in self.given for need in needs):
                return max(made(*(self.given[need] for need in needs)), 0.1)
        return self._start.get(key, 0.0) * (self._across if key in ACROSS else self._along)

    def has(self, *keys: str) -> bool:
        """Whether any of these is given: a part that a garment need not have is drawn if a point measures it."""
        return any(key in self.given for key in keys)

    def _ratio(self, across: bool) -> float | None:
        """Given to library, over all points of that direction that both know."""
        shared = [key for key in self.given if key in self._start and (key in ACROSS) is across]
        library = sum(self._start[key] for key in shared)
        return sum(self.given[key] for key in shared) / library if library else None


@cache
def _starting(garment: str) -> Mapping[str, float]:
    """A whole garment to start from: the library's base size, and what the library leaves out."""
    library = {key_of(point.point): point.base_cm for point in points(_LIBRARY[garment])}
    return STARTING[garment] | {key: value for key, value in library.items() if key}
