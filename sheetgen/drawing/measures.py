"""Measures: which point of the sheet is which length of the drawing, and what a drawing takes for one not given."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from sheetgen.drawing.names import ACROSS, FLAT, NAMES
from sheetgen.drawing.related import RELATED
from sheetgen.garments import BY_WORD, Garment


@dataclass(frozen=True)
class Measure:
    """One row of the sheet: its ref, the point's name, its value in cm, and whether that is flat, edge to edge.

    `said` is the value as it stands in the sheet, in the style's unit.
    """

    ref: str
    name: str
    value: float
    half: bool
    said: str = ""


def known(garment: str) -> Garment:
    """The garment of that word; ValueError if there is none."""
    found = BY_WORD.get(garment.casefold().strip())
    if found is None:
        raise ValueError(f"no drawing for {garment!r}; known: {', '.join(BY_WORD)}")
    return found


def key_of(name: str) -> str:
    """What the drawing calls a point, "" if it knows none of that name.

    Known are the names that garments declare; what follows a comma only says how, unless it is a stretched or least value,
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

    In proportion: the value declared for the base size, times the mean of given to declared over the points across
    (or along) the garment. `features` say what there is to draw. `hang` is the angle of the sleeves below level, in
    radians, where it must be a given one.
    """

    def __init__(self, garment: Garment, measures: Sequence[Measure], hang: float | None = None) -> None:
        self.features, self.hang = garment.features, hang
        self.given: dict[str, float] = {}
        for measure in measures:
            key = key_of(measure.name)
            if key and key not in self.given and math.isfinite(measure.value):
                self.given[key] = flat(measure)
        self._start = _starting(garment.word)
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
        """Given to declared, over all points of that direction that both know."""
        shared = [key for key in self.given if key in self._start and (key in ACROSS) is across]
        declared = sum(self._start[key] for key in shared)
        return sum(self.given[key] for key in shared) / declared if declared else None


@cache
def _starting(word: str) -> Mapping[str, float]:
    """A whole garment to start from: its points at the base size, and what they leave out."""
    declared = {key_of(point.point): point.base_cm for point in BY_WORD[word].points}
    return {**BY_WORD[word].starting, **{key: value for key, value in declared.items() if key}}
