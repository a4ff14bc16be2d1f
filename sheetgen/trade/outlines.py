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
USUAL_FILL: Final = {
    "front": 0.8, "half front": 0.84, "back": 0.87, "half back": 0.64, "back below yoke": 0.93, "yoke": 0.84, "sleeve": 0.74,
    "collar": 0.86, "collar stand": 0.78, "hood": 0.87, "front facing": 0.64, "neck facing": 0.54, "patch pocket": 0.92,
    "kangaroo pocket": 0.89, "pocket bag": 0.93, "pocket flap": 0.85, "front leg": 0.78, "back leg": 0.65, "whole leg": 0.68,
    "fly": 0.95, "gusset": 0.65, "skirt panel": 0.94, "half skirt panel": 0.95, "curved waistband": 0.64, "armhole facing": 0.38,
}  # fmt: skip
"""Which share of its box an outline usually fills, until a marker says it of the piece itself; the others fill all of it.

Of the outlines that this program lays, the middle one of its starters in their sample size; `tests/nesting` measures them.
"""
