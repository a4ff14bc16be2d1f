"""Marker: cut pieces laid on fabric, how much of it a garment takes, and the marker as a picture."""

from sheetgen.nesting.markers import NAPS, Marker, Nap, Placed, in_sizes
from sheetgen.nesting.mix import mix_of
from sheetgen.nesting.nest import nest
from sheetgen.nesting.outlines import area, outline, symmetric
from sheetgen.nesting.picture import picture
from sheetgen.nesting.pieces import DETAILS, Piece, details_of

__all__ = [
    "DETAILS",
    "NAPS",
    "Marker",
    "Nap",
    "Piece",
    "Placed",
    "area",
    "details_of",
    "in_sizes",
    "mix_of",
    "nest",
    "outline",
    "picture",
    "symmetric",
]
