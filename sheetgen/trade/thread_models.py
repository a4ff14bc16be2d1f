"""Thread in a seam by geometry: base + density x (a x thickness + b x width), metres of thread for each metre of seam.

Used as a cross-check of the ratio tables (`stitches.TABLES`), whose figures bury a thickness and a density. Source:
a machine maker's formulas as reproduced on public textile pages, seen in stored sources; the base
of 504 is 5 in the equation table and 3 in two articles, and the table's is held here. Density in stitches for each
length unit, thickness and width in the same length unit. Results need a waste on top: tension is not in them.
"""

from typing import Final, NamedTuple


class ThreadModel(NamedTuple):
    """One stitch type's factors; thickness is that of the whole seam, width that of the stitch (its bight)."""

    code: str
    base: float
    per_thickness: float
    per_width: float


MODELS: Final = (
    ThreadModel("101", 3, 2, 0),
    ThreadModel("301", 2, 2, 0),
    ThreadModel("401", 4, 2, 0),
    ThreadModel("406", 7, 2, 2),
    ThreadModel("407", 9, 6, 2),
    ThreadModel("504", 5, 4, 4),
    ThreadModel("514", 5, 6, 4),
    ThreadModel("516", 9, 6, 4),
    ThreadModel("602", 8, 4, 5),
    ThreadModel("605", 10, 6, 4),
    ThreadModel("607", 12, 8, 4),
)
"""301: one stitch takes two stitch lengths and two thicknesses, so 2 + 2 x thickness x density (derivation seen)."""


def model(code: str) -> ThreadModel | None:
    """The geometry of a stitch type; None where none was published."""
    return next((one for one in MODELS if one.code == code), None)
