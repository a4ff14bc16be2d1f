"""Sizes of the body: European letters by chest or bust girth.

Used for body tables and for the notes of a starter. A letter names a body; the growth of a garment from size to size
is another thing, and is typed by the designer. European letters are 8 cm apart where garments usually grow by 5 to
6 cm, so neither may be worked out from the other.
"""

from typing import Final, NamedTuple


class LetterBand(NamedTuple):
    """One letter of EN 13402-3: body girth in cm, the lower edge inside, the upper edge outside."""

    body: str
    letter: str
    from_cm: float
    to_cm: float


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
    LetterBand(body, letter, edges[at], edges[at + 1])
    for body, edges in _EDGES_CM.items()
    for at, letter in enumerate(LETTERS)
)
"""Ten bands for each body, in order; contiguous, and not all of one width. XXS is from memory for both."""
