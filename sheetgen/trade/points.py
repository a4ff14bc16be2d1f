"""The library of points of measure: where each is taken, and starting values in cm.

Used to fill a new style's measurement table. Everything in it is common practice of the trade, with no
published authority: an editors' merge, anchored on two published graded tables and public how-to guides; editable
starting values, never a pass or fail. The table is read when it is first asked for.
"""

import csv
from functools import cache
from importlib.resources import files
from typing import Final, NamedTuple


class Point(NamedTuple):
    """One point of measure of one garment; lengths in cm, for the size named in `base`.

    `half_or_full` is "half" for a width lying flat and "full" for a length or whole girth. `step_cm` is the
    usual growth to the next size, `tolerance_cm` the usual plus and minus.
    """

    garment: str
    base: str
    fabric: str
    point: str
    how: str
    half_or_full: str
    base_cm: float
    step_cm: float
    tolerance_cm: float

    @property
    def is_minimum(self) -> bool:
        """Whether the value is a least one (a stretched width): more is no fault, so no tolerance applies."""
        return "minimum" in self.point


GARMENTS: Final = (
    "T-shirt",
    "hooded sweatshirt",
    "shirt",
    "trousers",
    "skirt",
    "dress",
    "jacket",
    "leggings",
)
"""The garments the library knows, in the order of the table."""


def points(garment: str) -> tuple[Point, ...]:
    """The points of one of GARMENTS in the order they are measured. Raises ValueError for another garment."""
    if garment not in GARMENTS:
        raise ValueError(f"no points of measure for {garment!r}; known: {', '.join(GARMENTS)}")
    return tuple(point for point in _library() if point.garment == garment)


@cache
def _library() -> tuple[Point, ...]:
    """The whole table, read once."""
    text = files("sheetgen.trade").joinpath("tables/points.csv").read_text(encoding="utf-8")
    return tuple(_point(row) for row in csv.DictReader(text.splitlines()))


def _point(row: dict[str, str]) -> Point:
    return Point(
        garment=row["garment"],
        base=row["base"],
        fabric=row["fabric"],
        point=row["point"],
        how=row["how"],
        half_or_full=row["half_or_full"],
        base_cm=float(row["base_cm"]),
        step_cm=float(row["step_cm"]),
        tolerance_cm=float(row["tolerance_cm"]),
    )
