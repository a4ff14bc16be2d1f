"""Cut pieces: what the workbook knows of each before it is laid: its box, its kind of outline, how many of it."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final

from sheetgen.drawing.measures import Measure, flat, key_of
from sheetgen.garments import OUTLINES
from sheetgen.texts import say

DETAILS: Final = (
    "neck",
    "neck drop",
    "back neck drop",
    "shoulder",
    "slope",
    "armhole",
    "armhole depth",
    "across front",
    "across back",
    "chest",
    "waist",
    "waist position",
    "bottom",
    "tail",
    "cap height",
    "opening",
    "hip",
    "hip position",
    "front rise",
    "crotch depth",
    "knee",
    "leg",
)
"""The details that shape an outline, in the words of `sheetgen.drawing.names`; beside them the depth of the armhole below
the high shoulder point, the height of the sleeve's cap, the depth of the crotch below the waist, and the tail: how far a
curved hem lies lower at the center than at the side. Waist and bottom of a top are drawn as they differ from the chest,
of a skirt from the hip: what the box has more than the garment is allowance, and the side keeps it all along."""

LEAST_CM: Final = 0.1
MOST_CM: Final = 10_000.0
"""A side of a piece lies between these."""


@dataclass(frozen=True)
class Piece:
    """One cut piece of one size.

    `length` (along the grain) and `width` in cm are those of the cut piece: seams, hems and shrinkage are in them.
    `count` pieces belong to one garment; of a `mirrored` pair every second one is the mirror image. `details` are
    further measures in cm as they lie flat, edge to edge, by the words of DETAILS; others are not looked at.
    ValueError if the outline is not one of OUTLINES, a side is out of bounds or the count is below 0.
    """

    ref: str
    name: str
    outline: str
    length: float
    width: float
    count: int = 1
    mirrored: bool = False
    size: str = ""
    details: Mapping[str, float] = field(default_factory=dict)

    def __post_init__(self) -> None:
        if self.outline not in OUTLINES:
            raise ValueError(
                say(
                    "{piece}: no outline {outline!r}; known: {listed}",
                    piece=self,
                    outline=self.outline,
                    listed=", ".join(OUTLINES),
                )
            )
        for side in ("length", "width"):
            value = getattr(self, side)
            if not LEAST_CM <= value <= MOST_CM:
                raise ValueError(
                    say(
                        "{piece}: its {side} of {found:g} cm is not between {least_cm:g} and {most_cm:g} cm",
                        piece=self,
                        side=side,
                        found=value,
                        least_cm=LEAST_CM,
                        most_cm=MOST_CM,
                    )
                )
        if self.count < 0:
            raise ValueError(say("{piece}: its count of {count} is below 0", piece=self, count=self.count))

    def __str__(self) -> str:
        """The piece as a sentence names it."""
        return " ".join(
            word for word in (self.ref, self.name, self.size and say("in size {size}", size=self.size)) if word
        )

    @property
    def hands(self) -> tuple[int, int]:
        """How many of a garment lie as the outline is, and how many as its mirror image."""
        turned_over = self.count // 2 if self.mirrored else 0
        return self.count - turned_over, turned_over


def details_of(measures: Sequence[Measure]) -> dict[str, float]:
    """Details in cm from the points of the measurement sheet; a girth given all round is halved, unknown points left."""
    found: dict[str, float] = {}
    for measure in measures:
        key = key_of(measure.name)
        if key in DETAILS and key not in found and math.isfinite(measure.value):
            found[key] = flat(measure)
    return found
