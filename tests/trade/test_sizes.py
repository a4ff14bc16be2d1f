"""Body sizes agree with the published tables, edge by edge."""

from itertools import pairwise

import pytest

from sheetgen.trade import sizes
from sheetgen.trade.sizes import letter_for

from .tables import rows


def test_letter_bands_are_those_of_the_published_table() -> None:
    published = [
        (row["sex"], row["letter"], float(row["min_cm"]), float(row["max_cm"]), row["provenance"])
        for row in rows("en13402_3.csv")
    ]
    assert [tuple(band) for band in sizes.LETTER_BANDS] == published


@pytest.mark.parametrize("body", ["men", "women"])
def test_bands_leave_no_gap(body: str) -> None:
    bands = [band for band in sizes.LETTER_BANDS if band.body == body]
    assert all(low.to_cm == high.from_cm for low, high in pairwise(bands))


@pytest.mark.parametrize(
    ("girth_cm", "body", "letter"),
    [
        # EN 13402-3: men M 94-102, women M 90-98, women L 98-107 (not 98-106), upper edge outside.
        (94, "men", "M"),
        (101.9, "men", "M"),
        (102, "men", "L"),
        (94, "women", "M"),
        (106.5, "women", "L"),
        (107, "women", "XL"),
        (153.9, "men", "4XL"),
        (69.9, "men", None),
        (166, "men", None),
        (167, "women", None),
        (66, "women", "XXS"),  # XXS is from memory
    ],
)
def test_the_letter_of_a_girth(girth_cm: float, body: str, letter: str | None) -> None:
    assert letter_for(girth_cm, body) == letter


def test_an_unknown_body_is_refused() -> None:
    with pytest.raises(ValueError, match="child"):
        letter_for(60, "child")


def test_bust_steps_are_the_published_ones() -> None:
    published = [(float(row["from_cm"]), float(row["to_cm"])) for row in rows("en13402_3_bust_steps.csv")]
    assert list(pairwise(sizes.BUST_STEP_EDGES_CM)) == published


def test_every_letter_edge_of_the_bust_is_a_step_edge() -> None:
    inside = [band.from_cm for band in sizes.LETTER_BANDS if band.body == "women" and 74 <= band.from_cm <= 131]
    assert set(inside) <= set(sizes.BUST_STEP_EDGES_CM)


def test_us_misses_girths_are_the_published_ones() -> None:
    published = {
        (row["body_dimension"], row["size"]): float(row["value_in"])
        for row in rows("us_size_tables.csv")
        if row["source"].startswith("ASTM D5585")
    }
    ours = {
        (dimension, size): inches
        for dimension, girths in sizes.US_MISSES_GIRTHS_IN.items()
        for size, inches in zip(sizes.US_MISSES_SIZES, girths, strict=True)
    }
    assert ours == published
    assert len(ours) == 84
