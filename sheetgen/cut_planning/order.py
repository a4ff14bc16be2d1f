"""What is to be cut, in numbers: the cells of colors and sizes, the allowance of each, the limits of a lay."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from sheetgen.texts import say

Marker = tuple[int, ...]
"""Garments of each size, in the order of the sizes."""
Plies = tuple[int, ...]
"""Plies of each color, in the order of the colors."""


@dataclass(frozen=True, slots=True)
class Order:
    """An order as a table: `need[c][s]` pieces of color c in size s, of which `room[c][s]` more may be cut."""

    colors: tuple[str, ...]
    sizes: tuple[str, ...]
    need: tuple[tuple[int, ...], ...]
    room: tuple[tuple[int, ...], ...]
    most_plies: int
    most_garments: int

    @property
    def pieces(self) -> int:
        """All pieces ordered."""
        return sum(map(sum, self.need))

    @property
    def least_in_theory(self) -> int:
        """Lays if each were as high and as wide as it may be."""
        return _up(self.pieces, self.most_plies * self.most_garments)

    @property
    def fewest_lays(self) -> int:
        """Lays below which no plan can be, by three counts; the true number may be higher.

        Pieces: a lay cuts at most plies x garments. Garments: a size needs at least (its pieces / plies) places in the
        markers. Plies: a color needs at least (its pieces / garments) plies.
        """
        places = sum(_up(sum(column), self.most_plies) for column in zip(*self.need, strict=True))
        return max(self.least_in_theory, _up(places, self.most_garments), _up(self.fewest_plies, self.most_plies))

    @property
    def fewest_plies(self) -> int:
        """Plies below which no plan can be: all markers full."""
        return sum(_up(sum(row), self.most_garments) for row in self.need)

    def most_pieces(self, color: int, size: int) -> int:
        """Pieces of a cell that may be cut."""
        return self.need[color][size] + self.room[color][size]


def order_of(
    quantities: Mapping[str, Mapping[str, int]], most_plies: int, most_garments: int, most_over: float
) -> Order:
    """The order without colors and sizes of which nothing is ordered. ValueError says what is no order."""
    _refuse_limits(most_plies, most_garments, most_over)
    for color, cells in quantities.items():
        for size, pieces in cells.items():
            _refuse_cell(color, size, pieces)
    colors = tuple(color for color, cells in quantities.items() if any(cells.values()))
    sizes = tuple(
        dict.fromkeys(
            size
            for cells in quantities.values()
            for size in cells
            if any(other.get(size) for other in quantities.values())
        )
    )
    if not colors:
        raise ValueError(
            say("An order without pieces has no cut plan; give the quantity of one size in one color at least.")
        )
    need = tuple(tuple(quantities[color].get(size, 0) for size in sizes) for color in colors)
    share = Fraction(str(most_over))  # as it was written: 0.07 of 100 is 7, not the float's 7.000000000000001
    room = tuple(tuple(math.ceil(share * pieces) for pieces in row) for row in need)
    return Order(colors, sizes, need, room, most_plies, most_garments)


def _up(whole: int, part: int) -> int:
    return -(-whole // part)


def _refuse_limits(most_plies: int, most_garments: int, most_over: float) -> None:
    if not _whole(most_plies) or most_plies < 1:
        raise ValueError(
            say("A lay can't be at most {most_plies} plies high; give a whole number from 1.", most_plies=most_plies)
        )
    if not _whole(most_garments) or most_garments < 1:
        raise ValueError(
            say(
                "A marker can't hold at most {most_garments} garments; give a whole number from 1.",
                most_garments=most_garments,
            )
        )
    if not 0 <= most_over <= 1:
        raise ValueError(
            say(
                "An allowance of {most_over} is no share; give a number from 0 (never over) to 1 (as many again).",
                most_over=most_over,
            )
        )


def _refuse_cell(color: str, size: str, pieces: int) -> None:
    if not _whole(pieces):
        raise ValueError(
            say(
                "{pieces!r} pieces of {color} in size {size} can't be cut; give a whole number from 0.",
                pieces=pieces,
                color=color,
                size=size,
            )
        )
    if pieces < 0:
        raise ValueError(
            say(
                "{pieces} pieces of {color} in size {size} can't be cut; give 0 or more.",
                pieces=pieces,
                color=color,
                size=size,
            )
        )


def _whole(number: object) -> bool:
    return isinstance(number, int) and not isinstance(number, bool)
