"""A swatch is the sRGB color of a reading, and the published color pairs are copied right."""

import pytest
from coloraide import Color
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetgen.trade.color import lab_to_hex

from .tables import rows


def channels(text: str) -> list[int]:
    return [int(text[at : at + 2], 16) for at in (0, 2, 4)]


@pytest.mark.parametrize(
    ("lab", "expected"),
    [
        ((100, 0, 0), "FFFFFF"),
        ((0, 0, 0), "000000"),
        # L* 50 is luminance 0.18419 (ISO/CIE 11664-4), which IEC 61966-2-1 codes as 0.4663 x 255 = 119.
        ((50, 0, 0), "777777"),
        # The sRGB red and blue in L*a*b* under D65; widely published, here from memory.
        ((53.24, 80.09, 67.20), "FF0000"),
        ((32.30, 79.19, -107.86), "0000FF"),
    ],
)
def test_known_colors(lab: tuple[float, float, float], expected: str) -> None:
    got = channels(lab_to_hex(*lab))
    assert all(abs(have - want) <= 1 for have, want in zip(got, channels(expected), strict=True))


@settings(deadline=None)  # the other library sets up its color spaces at the first call
@given(st.floats(0, 100), st.floats(-128, 128), st.floats(-128, 128))
def test_agrees_with_another_library_in_and_out_of_gamut(L: float, a: float, b: float) -> None:  # noqa: N803
    other = Color("lab-d65", [L, a, b]).convert("srgb").clip()
    want = [255 * value for value in other.coords()]
    assert all(abs(have - part) <= 1 for have, part in zip(channels(lab_to_hex(L, a, b)), want, strict=True))


@given(st.floats(0, 100))
def test_a_neutral_stays_neutral(L: float) -> None:  # noqa: N803
    red, green, blue = channels(lab_to_hex(L, 0, 0))
    assert max(red, green, blue) - min(red, green, blue) <= 1


def test_all_published_ciede2000_pairs_are_here_and_right() -> None:
    # Sharma, Wu & Dalal (2005), Table 1; the last printed decimal is the fourth.
    pairs = rows("ciede2000_pairs.csv")
    assert [row["pair"] for row in pairs] == [str(number) for number in range(1, 35)]
    for row in pairs:
        one, two = (Color("lab-d65", [float(row[f"{part}{side}"]) for part in "Lab"]) for side in "12")
        assert one.delta_e(two, method="2000") == pytest.approx(float(row["dE00"]), abs=6e-5), row["pair"]
