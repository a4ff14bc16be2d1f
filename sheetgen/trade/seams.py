"""Seam classes 1 to 8 of ISO 4916:1991, with the older letters of US Fed-Std-751a / ASTM D6193.

Used for the seam choices of the construction sheet. Class names seen in a stored source (a thread maker's
seam bulletin and a textile-school page); geometry, letters, examples and uses from memory.
"""

from typing import Final, NamedTuple


class SeamClass(NamedTuple):
    """One class: number and name, how the plies lie, older letters (empty: none of its own), example, use."""

    number: int
    name: str
    geometry: str
    letters: str
    example: str
    use: str
    note: str = ""


_NAMES_DIFFER: Final = "two public pages name classes 7 and 8 differently (applied / others)"

SEAM_CLASSES: Final = (
    SeamClass(
        1,
        "superimposed",
        "two or more plies laid face to face along one edge",
        "SS",
        "SSa",
        "side, shoulder, inside-leg seams",
    ),
    SeamClass(
        2,
        "lapped",
        "two or more plies overlapping, edges in opposite directions",
        "LS",
        "LSc (flat-felled)",
        "jeans inside leg, yokes, flat-felled shirts",
    ),
    SeamClass(3, "bound", "edge of one ply enclosed by a strip", "BS", "BSc", "neck binding, armhole binding"),
    SeamClass(
        4,
        "flat",
        "edges butted or slightly overlapped, no bulk",
        "FS",
        "FSa",
        "underwear and active wear (stitch 607)",
    ),
    SeamClass(
        5,
        "decorative stitching",
        "stitching on a single ply or with an extra ply for effect",
        "OS",
        "OSa",
        "pintucks, channels, topstitch rows",
    ),
    SeamClass(6, "edge finishing", "single ply, raw edge treated", "EF", "EFa / EFb", "hems, overedged edges"),
    SeamClass(
        7,
        "attaching a separate item",
        "narrow item applied to an edge",
        "",
        "",
        "elastic, lace, waistbands",
        f"part of LS and BS in the older letters; {_NAMES_DIFFER}",
    ),
    SeamClass(
        8,
        "single component",
        "one ply folded and stitched",
        "",
        "EFu",
        "belt loops, straps, drawcord tubes",
        f"part of EF in the older letters; {_NAMES_DIFFER}",
    ),
)
"""All eight classes, in order."""

SEAM_CHOICES: Final = tuple(
    f"{row.number} {row.name} ({row.letters})" if row.letters else f"{row.number} {row.name}" for row in SEAM_CLASSES
)
"""What a drop-down offers: '1 superimposed (SS)'."""
