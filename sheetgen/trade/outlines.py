"""Outlines of cut pieces: the kinds of which garments are put together, in the words of the cutting room."""

from __future__ import annotations

from typing import Final

SHARED: Final = (
    "rectangle",
    "front",
    "half front",
    "back",
    "half back",
    "back below yoke",
    "yoke",
    "sleeve",
    "cuff",
    "collar",
    "collar stand",
    "hood",
    "front facing",
    "neck facing",
    "patch pocket",
    "kangaroo pocket",
    "pocket bag",
    "pocket flap",
    "front leg",
    "back leg",
    "whole leg",
    "fly",
    "gusset",
    "skirt panel",
    "half skirt panel",
    "waistband",
    "curved waistband",
)
"""The outlines that garments share. A half piece is cut open at the center, the others run from side to side; a whole leg
has no side seam; a rib, a binding, a placket, a welt and belt loops in one strip are rectangles."""
