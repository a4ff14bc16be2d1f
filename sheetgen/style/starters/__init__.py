"""Starters: a garment's first brief, so that a new style begins with something to overtype.

Used by `sheetgen start`. Everything in a starter is a suggestion, common practice from memory, with no published
authority; what only the designer or the brand file can know (company, vendor, dates, prices, quantities) is left out.
The points of measure come from the library in `sheetgen.trade.points`; the rest stands in one TOML file for each
garment, laid over `common.toml`.
"""

from __future__ import annotations

import tomllib
from copy import deepcopy
from functools import cache
from importlib.resources import files
from typing import Final

from sheetgen.style.starters import layers, measures, units
from sheetgen.style.starters.layers import Data
from sheetgen.trade.lengths import UNITS

STARTERS: Final = ("t-shirt", "sweatshirt", "shirt", "trousers", "skirt", "dress", "jacket", "leggings")
"""The garments that have a starter, as they are asked for."""
HOODED: Final = ("sweatshirt",)
"""Those that can have a hood."""
FOR_CHILDREN: Final = ("t-shirt", "sweatshirt", "shirt", "jacket")
"""Those that have a child's variant: the tops."""
WITH_SUGGESTIONS: bool = True
"""Whether points carry their library name, direction and suggested figures beside the figures to overtype."""


def starter(garment: str, *, hood: bool = False, child: bool = False, unit: str = "cm") -> dict[str, object]:
    """A garment's brief as a reader of TOML would give it, ready for a brand's defaults and `values_of`.

    Lengths are in `unit` ("cm", "mm" or "in"): inches on the grid of 1/8, small ones on that of 1/16. `child` gives
    sizes by body height without any cord, scaled as `measures.for_child` says. Each call gives data of its own.
    Raises ValueError for a garment, an option or a unit that there is not.
    """
    _check(garment, hood, child, unit)
    data = _data(garment, hood, child)
    drawing = "hooded sweatshirt" if hood else garment
    layers.section(data, "measurements")["garment"] = drawing
    library = measures.library_points(garment, hood)
    if child:
        library = [measures.for_child(point) for point in library]
    sizes = measures.child_sizes() if child else measures.adult_sizes(garment, layers.rows(data, "style.sizes"))
    layers.put(data, "style.sizes", sizes)
    if child:
        layers.section(data, "style").update(sample_size=measures.CHILD_SAMPLE, height_to=measures.CHILD_HEIGHTS[-1])
        measures.shorten_extras(layers.rows(data, "construction.callouts"))
    units.change(data, unit)
    points = [measures.row(point, unit, suggestions=WITH_SUGGESTIONS) for point in library]
    layers.put(data, "measurements.points", points)
    return data


def _check(garment: str, hood: bool, child: bool, unit: str) -> None:
    if garment not in STARTERS:
        raise ValueError(f"no starter for {garment!r}; known: {', '.join(STARTERS)}")
    if hood and garment not in HOODED:
        raise ValueError(f"no hood for {garment!r}; with a hood: {', '.join(HOODED)}")
    if child and garment not in FOR_CHILDREN:
        raise ValueError(f"no child's variant of {garment!r}; for children: {', '.join(FOR_CHILDREN)}")
    if unit not in UNITS:
        raise ValueError(f"unknown unit of length {unit!r}; known: {', '.join(UNITS)}")


def _data(garment: str, hood: bool, child: bool) -> Data:
    """The garment's file laid over the common one, both with the layers of the options that were asked for."""
    wanted = [name for name, on in (("hood", hood), ("child", child), ("hood_child", hood and child)) if on]
    return layers.together(deepcopy(_file("common")), deepcopy(_file(garment)), wanted)


@cache
def _file(name: str) -> Data:
    """One file of this package, read once; callers copy it."""
    return tomllib.loads(files(__name__).joinpath(f"{name}.toml").read_text(encoding="utf-8"))
