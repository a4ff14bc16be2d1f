"""Starters: a garment's first brief, so that a new style begins with something to overtype.

Used by `sheetgen start`. Everything in a starter is a suggestion, common practice from memory, with no published
authority; what only the designer or the brand file can know (company, vendor, dates, prices, quantities) is left out.
Which starters there are, their points of measure and variants is declared in `sheetgen.garments`; the rest stands beside
each declaration in a TOML file, laid over `common.toml`.
"""

from __future__ import annotations

import tomllib
from collections import Counter
from collections.abc import Sequence
from copy import deepcopy
from functools import cache
from importlib.resources import files
from typing import Final

from sheetgen.drawing.areas import is_at_the_back
from sheetgen.garments import GARMENTS, Garment
from sheetgen.style.starters import layers, measures, picks, units
from sheetgen.style.starters.layers import Data
from sheetgen.texts import say
from sheetgen.trade.lengths import UNITS

STARTERS: Final = tuple(garment.word for garment in GARMENTS)
"""The garments that have a starter, as they are asked for."""
HOODED: Final = tuple(garment.word for garment in GARMENTS if garment.hooded)
"""Those that can have a hood."""
FOR_CHILDREN: Final = tuple(garment.word for garment in GARMENTS if garment.for_children)
"""Those that have a child's variant."""


def starter(
    garment: str, *, hood: bool = False, child: bool = False, unit: str = "cm", sizes: Sequence[str] = ()
) -> dict[str, object]:
    """A garment's brief as a reader of TOML would give it, ready for a brand's defaults and `values_of`.

    Lengths are in `unit` ("cm", "mm" or "in"): inches on the grid of 1/8, small ones on that of 1/16. `child` gives
    sizes by body height without any cord, scaled as `measures.for_child` says. `sizes` names one's own from the smallest
    to the largest, the middle one being the sample size. Each call gives data of its own.
    Raises ValueError for a garment, an option or a unit that there is not, and for a size named twice.
    """
    _check(garment, hood, child, unit)
    declared = next(one for one in GARMENTS if one.word == garment)
    variant = (declared.hooded if hood else None) or declared
    data = _data(declared, hood, child)
    layers.section(data, "measurements")["garment"] = variant.word
    picks.refs_for_names(data, variant.points, declared.file)
    points = [measures.for_child(point) if child else point for point in variant.points]
    usual = measures.child_sizes() if child else measures.adult_sizes(variant, layers.rows(data, "style.sizes"))
    layers.put(data, "style.sizes", usual)
    if child:
        layers.section(data, "style").update(sample_size=measures.CHILD_SAMPLE, height_to=measures.CHILD_HEIGHTS[-1])
        measures.shorten_extras(layers.rows(data, "construction.callouts"))
    if sizes:
        _in_own_sizes(data, sizes)
    units.change(data, unit)
    for callout in layers.rows(data, "construction.callouts"):
        if is_at_the_back(str(callout.get("area") or "")):
            callout.setdefault("drawing", "back")
    layers.put(data, "measurements.points", [measures.row(point, unit) for point in points])
    return data


def _in_own_sizes(data: Data, names: Sequence[str]) -> None:
    """Put one's own sizes in; steps lead from size to size, whatever these are called."""
    twice = sorted(name for name, count in Counter(names).items() if count > 1)
    if twice:
        raise ValueError(say("--sizes: {name} is named twice", name=twice[0]))
    layers.put(data, "style.sizes", [{"name": name} for name in names])
    layers.section(data, "style").update(sample_size=names[(len(names) - 1) // 2])


def _check(garment: str, hood: bool, child: bool, unit: str) -> None:
    if garment not in STARTERS:
        raise ValueError(
            say("no starter for {garment!r}; known: {listed}", garment=garment, listed=", ".join(STARTERS))
        )
    if hood and garment not in HOODED:
        raise ValueError(
            say("no hood for {garment!r}; with a hood: {listed}", garment=garment, listed=", ".join(HOODED))
        )
    if child and garment not in FOR_CHILDREN:
        raise ValueError(
            say(
                "no child's variant of {garment!r}; for children: {listed}",
                garment=garment,
                listed=", ".join(FOR_CHILDREN),
            )
        )
    if unit not in UNITS:
        raise ValueError(say("unknown unit of length {unit!r}; known: {listed}", unit=unit, listed=", ".join(UNITS)))


def _data(garment: Garment, hood: bool, child: bool) -> Data:
    """The garment's file laid over the common one, both with the layers of the options that were asked for."""
    wanted = [name for name, on in (("hood", hood), ("child", child), ("hood_child", hood and child)) if on]
    common, own = _file(__name__, "common.toml"), _file("sheetgen.garments", garment.file)
    return layers.together(deepcopy(common), deepcopy(own), wanted)


@cache
def _file(package: str, name: str) -> Data:
    """One file of a package, read once; callers copy it."""
    return tomllib.loads(files(package).joinpath(name).read_text(encoding="utf-8"))
