"""The front of the part: an order by names goes in, its lays by names come out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from sheetgen.cut_planning.draft import Draft
from sheetgen.cut_planning.order import Order, order_of
from sheetgen.cut_planning.search import Progress, searched

Quantities = Mapping[str, Mapping[str, int]]
"""Pieces by color, then by size."""


@dataclass(frozen=True, slots=True)
class Lay:
    """One lay: garments of each size in its marker, plies of each color; only what is not 0."""

    garments: Mapping[str, int]
    plies: Mapping[str, int]

    @property
    def height(self) -> int:
        """Plies of all colors."""
        return sum(self.plies.values())

    @property
    def pieces(self) -> int:
        """Pieces that it cuts."""
        return sum(self.garments.values()) * self.height


@dataclass(frozen=True, slots=True)
class CutPlan:
    """The lays, those with one marker together, and what is known of them.

    `over` is pieces cut beyond the order by color and size. No plan has fewer than `least` lays; `in_theory` would be
    enough if every lay were full.
    """

    lays: tuple[Lay, ...]
    over: Quantities
    least: int
    in_theory: int

    @property
    def proved(self) -> bool:
        """Whether no plan has fewer lays."""
        return len(self.lays) == self.least

    @property
    def pieces_over(self) -> int:
        """Pieces cut beyond the order, all colors and sizes."""
        return sum(sum(sizes.values()) for sizes in self.over.values())

    @property
    def markers(self) -> int:
        """Different markers."""
        return len({tuple(sorted(lay.garments.items())) for lay in self.lays})


def plan(
    quantities: Quantities, most_plies: int, most_garments: int, most_over: float = 0.0, *,
    progress: Progress | None = None,
) -> CutPlan:  # fmt: skip
    """Plan the lays of an order: each at most `most_plies` plies high, each marker at most `most_garments` garments.

    Of each color and size at least the order is cut, and at most the share `most_over` more, rounded up to whole pieces.
    `progress` is told in words what is being looked for. ValueError says what is no order or no limit.
    """
    order = order_of(quantities, most_plies, most_garments, most_over)
    draft, least = searched(order, progress or (lambda _: None))
    assert draft.fits, "the search made a plan that cuts something short or beyond its allowance"
    return _named(order, draft, least)


def _named(order: Order, draft: Draft, least: int) -> CutPlan:
    lays = tuple(
        Lay(_named_counts(order.sizes, marker), _named_counts(order.colors, plies)) for marker, plies in draft.laid
    )
    over = {
        color: {size: draft.over_of(row, column) for column, size in enumerate(order.sizes)}
        for row, color in enumerate(order.colors)
    }
    return CutPlan(lays, over, least, order.least_in_theory)


def _named_counts(names: tuple[str, ...], counts: tuple[int, ...]) -> dict[str, int]:
    return {name: count for name, count in zip(names, counts, strict=True) if count}
