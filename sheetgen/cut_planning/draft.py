"""A plan in numbers while it is searched: markers, and how many plies of each color each of them cuts."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from sheetgen.cut_planning.order import Marker, Order, Plies

Cut = tuple[Marker, Plies]
"""A marker, and the plies of each color that it cuts."""


@dataclass(frozen=True, slots=True)
class Draft:
    """Each marker once, with its plies of each color in all its lays; the markers in falling order.

    How many lays a marker needs follows from its plies, so plans that differ only in how plies are dealt out to the
    lays of one marker are the same draft.
    """

    order: Order
    cuts: tuple[Cut, ...]

    @property
    def lays(self) -> int:
        """Lays of all markers."""
        return sum(-(-sum(plies) // self.order.most_plies) for _, plies in self.cuts)

    @property
    def laid(self) -> list[Cut]:
        """Every lay: a marker's plies color after color, each lay full before the next begins."""
        return [(marker, lay) for marker, plies in self.cuts for lay in _dealt(plies, self.order.most_plies)]

    @property
    def plies(self) -> int:
        """Plies of all lays."""
        return sum(sum(plies) for _, plies in self.cuts)

    @property
    def over(self) -> int:
        """Pieces cut beyond the order."""
        return sum(sum(marker) * sum(plies) for marker, plies in self.cuts) - self.order.pieces

    @property
    def rank(self) -> tuple[int, int, int, int]:
        """What makes a plan better when it is less: lays, pieces over, different markers, plies."""
        return self.lays, self.over, len(self.cuts), self.plies

    def over_of(self, color: int, size: int) -> int:
        """Pieces of a cell cut beyond the order; below 0 they are short."""
        cut = sum(marker[size] * plies[color] for marker, plies in self.cuts)
        return cut - self.order.need[color][size]

    @property
    def fits(self) -> bool:
        """Nothing is short and nothing beyond its allowance."""
        return all(
            0 <= self.over_of(color, size) <= room
            for color, row in enumerate(self.order.room)
            for size, room in enumerate(row)
        ) and all(sum(marker) <= self.order.most_garments for marker, _ in self.cuts)


def draft_of(order: Order, cuts: Iterable[tuple[Iterable[int], Iterable[int]]]) -> Draft:
    """A draft from markers and their plies in any order; the same marker may come again, empty ones are left out."""
    totals: dict[Marker, Plies] = {}
    for garments, added in cuts:
        marker, plies = tuple(garments), tuple(added)
        if any(marker) and any(plies):
            before = totals.get(marker, (0,) * len(plies))
            totals[marker] = tuple(a + b for a, b in zip(before, plies, strict=True))
    return Draft(order, tuple(sorted(totals.items(), reverse=True)))


def _dealt(plies: Plies, most: int) -> list[Plies]:
    lays = []
    left = list(plies)
    while any(left):
        lay: list[int] = []
        for color, count in enumerate(left):
            lay.append(min(count, most - sum(lay)))
            left[color] -= lay[-1]
        lays.append(tuple(lay))
    return lays
