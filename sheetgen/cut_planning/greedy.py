"""A first plan, at once: lay after lay, each cutting as many of the missing pieces as a growing marker can."""

from __future__ import annotations

from sheetgen.cut_planning.draft import Draft, draft_of
from sheetgen.cut_planning.order import Marker, Order, Plies

_Table = list[list[int]]


def first_draft(order: Order) -> Draft:
    """A plan that fits, whatever the order: a marker of one garment always cuts something of what is missing."""
    missing = [list(row) for row in order.need]
    cuts: list[tuple[Marker, Plies]] = []
    while any(map(any, missing)):
        marker, plies = _grown(order, missing)
        times = _repeats(missing, marker, plies)
        for color, count in enumerate(plies):
            row = missing[color]
            for size, garments in enumerate(marker):
                row[size] -= garments * count * times
        cuts.append((marker, tuple(count * times for count in plies)))
    return draft_of(order, cuts)


def _grown(order: Order, missing: _Table) -> tuple[Marker, Plies]:
    """The marker to which no garment can be added with profit, from the size that misses most."""
    sizes = range(len(order.sizes))
    first = max(sizes, key=lambda size: sum(row[size] for row in missing))
    marker = [int(size == first) for size in sizes]
    plies = _plies_of(order, missing, marker)
    while sum(marker) < order.most_garments:
        wider = [[had + (size == added) for size, had in enumerate(marker)] for added in sizes]
        options = [(garments, _plies_of(order, missing, garments)) for garments in wider]
        best, its_plies = max(options, key=lambda option: sum(option[1]))
        if sum(its_plies) * sum(best) <= sum(plies) * sum(marker):
            break
        marker, plies = best, its_plies
    return tuple(marker), plies


def _plies_of(order: Order, missing: _Table, marker: list[int]) -> Plies:
    """As many plies of each color as cut only what is missing, the color with most first, up to the lay's limit."""
    most = [min(row[size] // garments for size, garments in enumerate(marker) if garments) for row in missing]
    left = order.most_plies
    plies = [0] * len(most)
    for color in sorted(range(len(most)), key=lambda color: -most[color]):
        plies[color] = min(most[color], left)
        left -= plies[color]
    return tuple(plies)


def _repeats(missing: _Table, marker: Marker, plies: Plies) -> int:
    """How often this lay can be cut as it is."""
    return min(
        row[size] // (garments * count)
        for row, count in zip(missing, plies, strict=True)
        for size, garments in enumerate(marker)
        if garments and count
    )
