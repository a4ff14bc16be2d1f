"""Styles to draw: each garment's points as they are declared, at any number of steps from its base size."""

from sheetgen.drawing import Measure
from sheetgen.garments import BY_WORD

GARMENTS = tuple(BY_WORD)
SIZES = ("XS", "S", "M", "L", "XL", "XXL")
STEPS = dict(zip(SIZES, range(-2, 4), strict=True))


def measures(garment: str, steps: int = 0) -> list[Measure]:
    return [
        Measure(f"P{number}", point.point, point.base_cm + steps * point.step_cm, point.half_or_full == "half")
        for number, point in enumerate(BY_WORD[garment].points, 1)
    ]


def all_sizes(garment: str) -> list[tuple[str, list[Measure]]]:
    return [(size, measures(garment, steps)) for size, steps in STEPS.items()]
