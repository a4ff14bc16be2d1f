"""Markers: pieces laid on fabric, and what is worked out from where they lie."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal, get_args

from sheetgen.drawing.shapes import Path
from sheetgen.nesting.outlines import area
from sheetgen.nesting.pieces import Piece

Nap = Literal["one way", "two ways", "any way"]
NAPS: tuple[Nap, ...] = get_args(Nap)
"""One way: all pieces point the same way, as nap, pile and one-way prints need. Two ways: each piece points up or down
the fabric. Any way: the same, said of fabric without any direction: the grain is still kept, and no piece is turned
over, as a pair needs its left and its right."""


@dataclass(frozen=True)
class Placed:
    """One piece where it lies: its polygon in cm, x along the fabric, y across it; turned by half a turn or not."""

    piece: Piece
    mirrored: bool
    turned: bool
    polygon: Path

    @property
    def ref(self) -> str:
        """The piece's ref."""
        return self.piece.ref

    @property
    def size(self) -> str:
        """The piece's size."""
        return self.piece.size


def in_sizes(garments: Mapping[str, int]) -> str:
    """The garments of a marker in words: `98 x 1, 104 x 2`; a style without sizes has its count alone."""
    return ", ".join(f"{size} x {number}" if size else str(number) for size, number in garments.items())


@dataclass(frozen=True)
class Marker:
    """Pieces laid on fabric of a usable width, in cm; `garments` are the garments in it, by size.

    `nap`, `gap_cm`, `seconds` and `seed` are what it was laid with: with the same the same marker is laid again.
    """

    width_cm: float
    length_cm: float
    placed: tuple[Placed, ...]
    garments: Mapping[str, int]
    nap: Nap
    gap_cm: float
    seconds: float
    seed: int

    @property
    def area_cm2(self) -> float:
        """The area of all pieces laid."""
        return sum(area(one.polygon) for one in self.placed)

    @property
    def efficiency(self) -> float:
        """The area of the pieces as a share of length x width."""
        return self.area_cm2 / (self.length_cm * self.width_cm)

    def length_per_garment(self, end_loss_cm: float = 0) -> float:
        """The fabric in cm that one garment takes: length and the loss at both ends of a ply, shared by the garments."""
        return (self.length_cm + end_loss_cm) / sum(self.garments.values())
