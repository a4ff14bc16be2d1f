"""What a garment is declared by: its points of measure, what there is of it to draw, and which variants it has."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal, NamedTuple, TypeAlias

Silhouette: TypeAlias = Literal["top", "with a waist seam", "waist to hem", "two legs"]


class Point(NamedTuple):
    """One point of measure: where it is taken, and starting values in cm at the garment's base size.

    `half_or_full` is "half" for a width lying flat and "full" for a length or whole girth. It `runs` along the length
    (lengths, heights, drops, rises), across the width, or otherwise: around a neck or wrist, on a slant, stretched.
    `step_cm` is the usual growth to the next size, `tolerance_cm` the usual plus and minus.
    """

    point: str
    how: str
    half_or_full: Literal["half", "full"]
    runs: Literal["length", "width", "other"]
    base_cm: float
    step_cm: float
    tolerance_cm: float

    @property
    def is_minimum(self) -> bool:
        """Whether the value is a least one (a stretched width): more is no fault, so no tolerance applies."""
        return "minimum" in self.point


@dataclass(frozen=True)
class Features:
    """What there is of a garment to draw; what does not belong to its `silhouette` is not looked at.

    A part "where measured" is drawn if a point of the style measures it, or no point at all is given. A hood, a yoke and,
    on a closed front, a pouch are also drawn where they are not declared but measured.
    """

    silhouette: Silhouette
    neck: Literal["rib", "collar on a band", "stand collar"] = "rib"
    hood: bool = False
    front: Literal["closed", "buttoned", "zipped"] = "closed"
    pockets: Literal["none", "pouch", "on the chest", "welts"] = "none"
    yoke: bool = False
    sleeves: Literal["set in", "where measured", "none"] = "set in"
    cuffs: Literal["plain", "ribbed", "buttoned"] = "plain"
    hem: Literal["straight", "tail"] = "straight"
    fly: bool = False
    belt_loops: bool = False
    slanted_pockets: bool = False
    back_pockets: bool = False
    creases: bool = False
    hip_above_crotch_cm: float = 8.0


@dataclass(frozen=True)
class Garment:
    """One kind of garment, as the Measurements sheet and `sheetgen start` have it.

    `word` is what it is asked for by, and with _ for a blank or hyphen the name of its two files; `place` orders the
    lists of garments. The points' figures hold for the size `base`; `starting` are further lengths in cm at that size,
    by the words of the drawing, for what the points leave out. The size letters stand for the girth of a `body` of
    EN 13402-3, if any. `outlines` are kinds of cut piece that only this garment has: beside their names they need a shape
    in `nesting`. `for_children`: the starter can be had for a child; `hooded` is the same garment with a hood.
    """

    word: str
    place: int
    base: str
    fabric: Literal["knit", "woven"]
    features: Features
    points: tuple[Point, ...]
    starting: Mapping[str, float] = field(default_factory=dict, hash=False)
    body: Literal["", "men", "women"] = ""
    outlines: tuple[str, ...] = ()
    for_children: bool = False
    hooded: Garment | None = None

    @property
    def file(self) -> str:
        """The name of the file of its starter, which stands beside the declaration."""
        return "".join(letter if letter.isalnum() else "_" for letter in self.word) + ".toml"
