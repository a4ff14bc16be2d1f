"""The mix: which garments go into a marker, so that its sizes stand as they do in the order."""

from __future__ import annotations

import math
from collections.abc import Mapping
from fractions import Fraction

from sheetgen.texts import say


def mix_of(quantities: Mapping[str, float], garments: int) -> dict[str, int]:
    """How many garments of each size are in a marker of so many: in the order's proportion, by largest remainder.

    `quantities` are the pieces ordered of each size. Sizes that get no garment are left out; of equal remainders the
    larger quantity comes first, then the earlier size. Source: the method of Hamilton, as used to share out seats.
    ValueError if no garment is wanted, nothing is ordered or a quantity is below 0.
    """
    if garments < 1:
        raise ValueError(say("a marker holds one garment at least, not {garments}", garments=garments))
    if wrong := [size for size, ordered in quantities.items() if not 0 <= ordered < math.inf]:
        raise ValueError(
            say(
                "the quantity of size {size} is {quantity:g}; it must be 0 or more",
                size=wrong[0],
                quantity=quantities[wrong[0]],
            )
        )
    total = sum(map(Fraction, quantities.values()))
    if not total:
        raise ValueError(say("no size has a quantity, so that a marker has no mix; fill the order's quantities"))
    due = {size: Fraction(ordered) * garments / total for size, ordered in quantities.items()}
    mix = {size: math.floor(share) for size, share in due.items()}
    order = sorted(due, key=lambda size: (mix[size] - due[size], -quantities[size]))
    for size in order[: garments - sum(mix.values())]:
        mix[size] += 1
    return {size: count for size, count in mix.items() if count}
