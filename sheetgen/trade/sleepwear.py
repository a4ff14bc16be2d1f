"""Tight-fitting children's sleepwear in the US: how wide a garment may be at most, full round, in centimeters.

16 CFR 1615.1(o)(1), 2015 annual edition, sizes over 9 months to 6X; a third of the figures is from memory (`SEEN`). Sizes 7 to
14 (16 CFR 1616.2(m)) are not here. A garment within them must also carry the label and hangtag of the rule, and local law
and an accredited laboratory decide.
"""

from __future__ import annotations

from types import MappingProxyType

SOURCE = "16 CFR 1615.1(o)(1)"
PLACES = ("chest", "waist", "seat", "upper arm", "thigh", "wrist", "ankle")

_CM = {
    "9-12 mos": (48.3, 48.3, 48.3, 14.3, 26.7, 10.5, 13.0),
    "12-18 mos": (49.5, 49.5, 50.8, 14.9, 28.3, 10.5, 13.1),
    "18-24 mos": (52.1, 50.8, 53.3, 15.6, 29.5, 11.0, 13.6),
    "2": (52.1, 50.8, 53.3, 15.6, 29.8, 11.4, 14.0),
    "3": (53.3, 52.1, 56.0, 16.2, 31.4, 11.7, 14.9),
    "4": (56.0, 53.3, 58.4, 16.8, 33.0, 12.1, 15.9),
    "5": (58.4, 54.6, 61.0, 17.5, 34.6, 12.4, 16.8),
    "6": (61.0, 55.9, 63.5, 18.1, 36.2, 12.7, 17.8),
    "6X": (62.9, 57.2, 65.4, 18.7, 37.8, 13.0, 18.1),
}
MOST_CM = MappingProxyType({size: MappingProxyType(dict(zip(PLACES, row, strict=True))) for size, row in _CM.items()})
"""Size -> place -> the most that it may measure all round, in cm."""

_NOT_SEEN = frozenset({
    ("9-12 mos", "seat"), ("9-12 mos", "wrist"), ("12-18 mos", "waist"), ("12-18 mos", "thigh"),
    ("18-24 mos", "chest"), ("18-24 mos", "upper arm"), ("18-24 mos", "ankle"), ("2", "seat"),
    ("2", "wrist"), ("3", "waist"), ("3", "thigh"), ("4", "chest"), ("4", "upper arm"), ("4", "ankle"),
    ("5", "seat"), ("5", "wrist"), ("6", "waist"), ("6", "thigh"), ("6X", "chest"), ("6X", "upper arm"),
    ("6X", "ankle"),
})  # fmt: skip
SEEN = frozenset((size, place) for size in MOST_CM for place in PLACES) - _NOT_SEEN
"""The figures that were seen in the source; the others are from memory, and are shown as such."""
