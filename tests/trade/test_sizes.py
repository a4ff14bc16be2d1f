"""Body sizes agree with the published tables, edge by edge."""

from itertools import pairwise

import pytest

from sheetgen.trade import sizes

from .tables import rows


def test_letter_bands_are_those_of_the_published_table() -> None:
    published = [
        (row["sex"], row["letter"], float(row["min_cm"]), float(row["max_cm"])) for row in rows("en13402_3.csv")
    ]
    assert [tuple(band) for band in sizes.LETTER_BANDS] == published


@pytest.mark.parametrize("body", ["men", "women"])
def test_bands_leave_no_gap(body: str) -> None:
    bands = [band for band in sizes.LETTER_BANDS if band.body == body]
    assert all(low.to_cm == high.from_cm for low, high in pairwise(bands))
