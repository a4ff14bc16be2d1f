"""Styles to draw: each garment's points as the library has them, at any number of steps from its base size."""

from sheetgen.drawing import GARMENTS, Measure
from sheetgen.trade.points import points

LIBRARY = {garment: garment for garment in GARMENTS} | {"t-shirt": "T-shirt", "sweatshirt": "hooded sweatshirt"}
SIZES = ("XS", "S", "M", "L", "XL", "XXL")
STEPS = dict(zip(SIZES, range(-2, 4), strict=True))


def measures(garment: str, steps: int = 0) -> list[Measure]:
    rows = points(LIBRARY[garment])
    if garment == "sweatshirt":
        rows = tuple(row for row in rows if "hood" not in row.point and "pocket" not in row.point)
    return [
        Measure(f"P{number}", row.point, row.base_cm + steps * row.step_cm, row.half_or_full == "half")
        for number, row in enumerate(rows, 1)
    ]


def all_sizes(garment: str) -> list[tuple[str, list[Measure]]]:
    return [(size, measures(garment, steps)) for size, steps in STEPS.items()]


def value(found: list[Measure], name: str) -> float:
    return next(measure.value for measure in found if measure.name == name)
