"""What the starters use, weigh and sew with, beside figures of the trade: published short forms where there are some, else from memory.

Published: consumption_examples.csv K1 (a T-shirt in kilograms), W11 (a pair of trousers in yards, its own slip corrected), W13 (a
dress shirt in yards). The rest is common practice, from memory, and says so: a starter outside it is looked at again.
"""

from __future__ import annotations

from functools import cache

import pytest

from sheetgen import api
from sheetgen.api import Built
from sheetgen.declare.entry import Place
from sheetgen.garments import GARMENTS
from tests.published.book import in_source

SHORT_FORMS = "consumption_examples.csv"


@cache
def started(word: str) -> Built:
    return api.start(word)


def figure(word: str, address: str, row: str = "") -> float:
    built = started(word)
    value = built.shown.get(Place(address, row), built.values.get(Place(address, row)))
    assert isinstance(value, int | float), f"{word}: {address} shows {value!r}"
    return float(value)


def base(word: str, point: str) -> float:
    """A point's base in cm."""
    values = started(word).values
    row = next(
        place.row for place, value in values.items() if place.entry == "measurements.points.point" and value == point
    )
    return figure(word, "measurements.points.base", row)


def test_a_t_shirt_uses_what_the_published_short_form_gives_for_its_measures() -> None:
    # K1: (body + sleeve + allowance 10) x (half chest + allowance 4) x 2 x g/m2, for a dozen.
    in_source(SHORT_FORMS, "K1", "inputs", "length allowance 10", "width allowance 4")
    assert pytest.approx(2.20416) == (73 + 19.5 + 10) * (52 + 4) * 2 * 160 * 12 / 1e7
    body, sleeve = base("t-shirt", "Front length from high shoulder point"), base("t-shirt", "Sleeve length")
    kilograms = (
        (body + sleeve + 10)
        * (base("t-shirt", "Chest width") + 4)
        * 2
        * figure("t-shirt", "materials.bom.weight", "M1")
        / 1e7
    )
    assert figure("t-shirt", "materials.bom.use", "M1") == pytest.approx(kilograms, rel=0.1)


def test_trousers_use_what_the_published_short_form_gives_for_their_measures() -> None:
    # W11: (outseam + 2 + 1) x (half thigh + 1) x 4 / (36 x usable width), inches and yards; without its waste.
    in_source(SHORT_FORMS, "W11", "inputs", "outseam 43+2+1", "half thigh 13+1", "usable width 58")
    outseam, thigh = base("trousers", "Outside leg length") / 2.54 + 3, base("trousers", "Thigh width") / 2.54 + 1
    meters = outseam * thigh * 4 / (36 * figure("trousers", "yield.fabrics.usable", "B1") / 2.54) * 0.9144
    assert (
        meters < figure("trousers", "materials.bom.use", "M1") < 1.15 * meters
    )  # waistband, fly and loops are not in it


def test_a_shirt_uses_about_what_a_published_one_does() -> None:
    # W13: 684 in of a 55 in marker for a dozen dress shirts, 1.58 yd each, without its waste.
    in_source(SHORT_FORMS, "W13", "published_result", "684 in", "19 yd/doz")
    square_meters = 684 * 55 / 12 * 0.0254**2
    usable = figure("shirt", "yield.fabrics.usable", "B1") / 100
    assert figure("shirt", "materials.bom.use", "M1") * usable == pytest.approx(square_meters, rel=0.2)


USUAL = {
    # Grams of the garment; metres of thread without waste. Common practice, from memory.
    "t-shirt": ((150, 220), (70, 150)),
    "sweatshirt": ((380, 560), (110, 220)),
    "shirt": ((170, 280), (80, 180)),
    "trousers": ((380, 620), (120, 280)),
    "skirt": ((180, 400), (80, 200)),
    "dress": ((180, 420), (90, 250)),
    "jacket": ((300, 750), (100, 300)),
    "leggings": ((160, 300), (90, 240)),
    "vest": ((250, 550), (70, 220)),
}


@pytest.mark.parametrize("word", [one.word for one in GARMENTS])
def test_weight_and_thread_of_a_starter_are_usual(word: str) -> None:
    (lightest, heaviest), (least, most) = USUAL[word]
    assert lightest <= figure(word, "materials.garment_grams") <= heaviest
    assert least <= figure(word, "construction.thread_net") <= most


@pytest.mark.parametrize("word", [one.word for one in GARMENTS])
def test_no_seam_of_a_starter_is_left_out_of_its_thread(word: str) -> None:
    known = str(started(word).shown[Place("construction.thread_known")])
    assert known.partition(" of ")[0] == known.partition(" of ")[2]
