"""Marker: cut pieces laid on fabric, how much of it a garment takes, and the marker as a picture."""

from sheetgen.marker.markers import NAPS, Marker, Nap, Placed
from sheetgen.marker.mix import mix_of
from sheetgen.marker.nest import nest
from sheetgen.marker.outlines import area, fill, outline, symmetric
from sheetgen.marker.picture import picture
from sheetgen.marker.pieces import DETAILS, Piece, details_of

__all__ = [
    "DETAILS",
    "NAPS",
    "Marker",
    "Nap",
    "Piece",
    "Placed",
    "area",
    "details_of",
    "fill",
    "mix_of",
    "nest",
    "outline",
    "picture",
    "symmetric",
]
