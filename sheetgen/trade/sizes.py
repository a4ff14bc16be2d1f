"""Sizes of the body: European letters by chest or bust girth, and US misses girths.

Used for the size choices and their notes. A letter or number names a body; the growth of a garment from size
to size is another thing, and is typed by the designer. European letters are 8 cm apart where garments usually
grow by 5 to 6 cm, so neither may be worked out from the other.
"""

from typing import Final, NamedTuple

BODY_AND_GARMENT_NOTE: Final = (
    "A size letter names a body girth. The step of the garment from size to size is set on its own "
    "and need not be as wide as the body's band."
)
"""The sentence a sheet shows where body sizes and garment steps stand together."""

SEEN: Final = "seen in a stored source"
FROM_MEMORY: Final = "from memory"


class LetterBand(NamedTuple):
    """One letter of EN 13402-3: body girth in cm, the lower edge inside, the upper edge outside."""

    body: str
    letter: str
    from_cm: float
    to_cm: float
    provenance: str


LETTER_SOURCE: Final = "EN 13402-3 (2004 edition), letter codes, as reproduced by public summary pages"
"""Edges: lower inside, upper outside is our convention. One summary prints women's L as 98-106; 98-107 is
used."""

LETTERS: Final = ("XXS", "XS", "S", "M", "L", "XL", "XXL", "3XL", "4XL", "5XL")
PRIMARY_DIMENSION: Final = {"men": "chest girth", "women": "bust girth"}
"""What the letter is read from (EN 13402-3)."""

_EDGES_CM: Final = {
    "men": (70, 78, 86, 94, 102, 110, 118, 129, 141, 154, 166),
    "women": (66, 74, 82, 90, 98, 107, 119, 131, 143, 155, 167),
}

LETTER_BANDS: Final = tuple(
    LetterBand(body, letter, edges[at], edges[at + 1], FROM_MEMORY if letter == "XXS" else SEEN)
    for body, edges in _EDGES_CM.items()
    for at, letter in enumerate(LETTERS)
)
"""Ten bands for each body, in order; contiguous, and not all of one width. XXS is from memory for both."""

BUST_STEP_EDGES_CM: Final = (74, 78, 82, 86, 90, 94, 98, 102, 107, 113, 119, 125, 131)
"""Edges of the bust steps of EN 13402-3: 4 cm up to 102, once 5, then 6. Seen in a stored source."""


def letter_for(girth_cm: float, body: str) -> str | None:
    """The EN 13402-3 letter of a body girth in cm; `body` is "men" (chest) or "women" (bust).

    None when the girth is outside the table. Raises ValueError for another `body`. This is the body's letter:
    it says nothing about how wide a garment of that letter is.
    """
    if body not in PRIMARY_DIMENSION:
        raise ValueError(f"unknown body {body!r}; known: {', '.join(PRIMARY_DIMENSION)}")
    for band in LETTER_BANDS:
        if band.body == body and band.from_cm <= girth_cm < band.to_cm:
            return band.letter
    return None


US_MISSES_SIZES: Final = ("00", "0", "2", "4", "6", "8", "10", "12", "14", "16", "18", "20")
US_MISSES_SOURCE: Final = "ASTM D5585-11e1, Table 1 (inch-pound), as displayed on the publisher's catalogue page"
US_MISSES_GIRTHS_IN: Final[dict[str, tuple[float, ...]]] = {
    "chest/bust girth": (
        *(31.125, 31.75, 33, 34.125, 35.25, 36.25),
        *(37.25, 38.75, 40.375, 42.125, 44, 46),
    ),
    "under-bust girth": (25.75, 26.5, 27.25, 28, 29, 30, 31, 32.5, 34, 35.75, 37.625, 39.625),
    "upper-chest girth": (
        *(31.75, 32.25, 33.25, 34.125, 35, 35.875),
        *(36.75, 38, 39.25, 40.625, 42.25, 43.875),
    ),
    "waist girth (curvy)": (
        *(23.875, 24.625, 25.375, 26.125, 27, 28),
        *(29, 30.75, 32.5, 34.5, 36.75, 39),
    ),
    "waist girth (straight)": (
        *(25.375, 26.125, 26.875, 27.625, 28.5, 29.5),
        *(30.5, 32.25, 34, 36, 38.25, 40.5),
    ),
    "neck base girth": (
        *(13.25, 13.5, 13.75, 14, 14.25, 14.625),
        *(14.875, 15.125, 15.5, 15.75, 16, 16.375),
    ),
    "shoulder girth": (37.125, 37.75, 38.375, 39, 39.75, 40.5, 41.25, 42, 43, 44.25, 45.5, 46.875),
}
"""Body girths in inches, one for each of US_MISSES_SIZES; seen in a stored source. Hip girth was not in
view."""
