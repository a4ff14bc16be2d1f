"""Lengths are read as typed, written as inch fractions, and converted exactly."""

import math
from fractions import Fraction

import pint
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetgen.trade import lengths
from sheetgen.trade.lengths import convert, fraction_text, parse_length

from .tables import rows

ANY_LENGTH = st.floats(min_value=-1000, max_value=1000, allow_nan=False)
PARTS = st.sampled_from([2, 4, 8, 16, 32])


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("12 3/8", 12.375),
        ("12-3/8", 12.375),
        ("12\u20133/8", 12.375),  # the dash a spreadsheet program puts in
        ("3/8", 0.375),
        ("9/8", 1.125),
        ('12 3/8"', 12.375),
        ("12 3/8\u2033", 12.375),
        ("12 3/8 in", 12.375),
        ("12.375 inches", 12.375),
        ("12½", 12.5),
        ("12 ½", 12.5),
        ("12-½", 12.5),
        ('½"', 0.5),
        ("⅞", 0.875),
        ("12\u20448", 1.5),  # a fraction slash
        ("-12 3/8", -12.375),
        ("-12-3/8", -12.375),
        ("\u2212 3", -3.0),  # a typeset minus
        (" +2 ", 2.0),
        (".5", 0.5),
        ("5.", 5.0),
        ("0", 0.0),
    ],
)
def test_inches_are_read_as_people_write_them(text: str, inches: float) -> None:
    assert parse_length(text, "in") == inches


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("31.4", "cm", 31.4),
        ("31,4", "cm", 31.4),
        ("31,4", "mm", 31.4),
        ("-31,4 cm", "cm", -31.4),
        ("0,125", "in", 0.125),
        ("314 mm", "cm", 31.4),
        ("31.4 CM", "mm", 314.0),
        ("1 in", "cm", 2.54),
        ('12 3/8"', "cm", 31.4325),
        ("2.54 cm", "in", 1.0),
        ("12 3/8", "cm", 12.375),  # no mark: in the unit asked for
    ],
)
def test_a_mark_overrides_the_unit_asked_for(text: str, unit: str, expected: float) -> None:
    assert parse_length(text, unit) == expected


@pytest.mark.parametrize(
    "text",
    [
        *("", " ", "-", "abc", "nan", "inf", "1e3", "TBC", "5 m", "12'", "cm", "\U0001d7d3"),
        *("1/0", "12 9/8", "12 8/8", "3/8/2", "12 3 8", "5 3", "12 -3/8", "½½", "1½/2", "--3"),
        *("1,234", "12,375", "1.234,5", "1,234.5", "1,2,3", "10 cm 5", "10-12", "9" * 41),
    ],
)
def test_what_is_not_one_length_is_refused(text: str) -> None:
    assert parse_length(text, "cm") is None


@given(st.text(max_size=45), st.sampled_from(lengths.UNITS))
def test_no_text_breaks_the_reader(text: str, unit: str) -> None:
    read = parse_length(text, unit)
    assert read is None or math.isfinite(read)


@pytest.mark.parametrize(
    ("inches", "parts", "text"),
    [
        (12.375, 16, "12 3/8"),
        (-12.375, 16, "-12 3/8"),
        (0.375, 8, "3/8"),
        (12.0, 16, "12"),
        (0.0, 16, "0"),
        (-0.0, 16, "0"),
        (-0.01, 16, "0"),
        (0.9999, 16, "1"),
        (1 / 32, 16, "1/16"),
        (-1 / 32, 16, "-1/16"),
        (12.3125, 16, "12 5/16"),
        (12.3125, 8, "12 3/8"),
    ],
)
def test_inches_are_written_as_reduced_fractions(inches: float, parts: int, text: str) -> None:
    assert fraction_text(inches, parts) == text


@given(ANY_LENGTH, PARTS)
def test_what_is_written_reads_back_within_half_a_part(inches: float, parts: int) -> None:
    read = parse_length(fraction_text(inches, parts), "in")
    assert read is not None
    assert abs(Fraction(read) - Fraction(inches)) <= Fraction(1, 2 * parts)


@given(st.integers(-16000, 16000), PARTS)
def test_a_value_on_the_grid_reads_back_the_same(steps: int, parts: int) -> None:
    assert parse_length(fraction_text(steps / parts, parts), "in") == steps / parts


@given(st.integers(0, 200), st.integers(1, 63))
def test_a_written_fraction_is_the_one_python_reduces(whole: int, top: int) -> None:
    assert fraction_text(whole + top / 64, 64).split()[-1] == str(Fraction(top, 64))


@given(ANY_LENGTH)
def test_cm_to_inches_and_back_is_the_same_length(cm: float) -> None:
    assert convert(convert(cm, "cm", "in"), "in", "cm") == pytest.approx(cm, rel=1e-15, abs=1e-300)


@settings(deadline=None)  # the other library reads its list of units at the first call
@given(ANY_LENGTH, st.sampled_from(lengths.UNITS), st.sampled_from(lengths.UNITS))
def test_conversion_agrees_with_another_library(value: float, source: str, target: str) -> None:
    other = pint.Quantity(value, source).to(target).magnitude
    assert convert(value, source, target) == pytest.approx(other, rel=1e-12, abs=1e-300)


def test_the_factors_are_those_of_the_definitions() -> None:
    # International yard and pound, 1959: 1 yd = 0.9144 m, 1 lb = 453.59237 g.
    assert convert(1, "in", "cm") == lengths.INCH_CM
    assert convert(1, "in", "cm") == 2.54
    assert lengths.YARD_M == 0.9144
    assert lengths.OUNCE_G == 453.59237 / 16
    exact = Fraction(45359237, 100000) / 16 / Fraction(9144, 10000) ** 2
    assert pytest.approx(float(exact), rel=1e-15) == lengths.OUNCE_PER_SQUARE_YARD_GSM


def test_weight_and_inch_figures_agree_with_the_published_table() -> None:
    published = {
        row["quantity"]: float(row["value"]) for row in rows("conversions.csv") if "fabric" not in row["quantity"]
    }
    assert round(lengths.OUNCE_PER_SQUARE_YARD_GSM, 6) == published["1 oz/yd2 in g/m2"]
    assert round(1 / lengths.OUNCE_PER_SQUARE_YARD_GSM, 6) == published["1 g/m2 in oz/yd2"]
    assert round(5 * lengths.OUNCE_PER_SQUARE_YARD_GSM, 3) == published["5 oz/yd2 in g/m2"]
    assert round(180 / lengths.OUNCE_PER_SQUARE_YARD_GSM, 4) == published["180 g/m2 in oz/yd2"]
    for part in ("1/8", "1/4", "1/2"):
        assert parse_length(f"{part} in", "cm") == published[f"{part} in in cm"]


def test_unknown_units_are_refused() -> None:
    with pytest.raises(ValueError, match="yd"):
        parse_length("1", "yd")
    with pytest.raises(ValueError, match="yd"):
        convert(1, "cm", "yd")
    with pytest.raises(ValueError, match="nan"):
        fraction_text(math.nan)


def test_a_text_longer_than_forty_signs_is_no_length() -> None:
    assert parse_length("1".rjust(40), "cm") == 1.0
    assert parse_length("1".rjust(41), "cm") is None


def test_inches_are_written_in_sixteenths_unless_other_parts_are_asked_for() -> None:
    assert fraction_text(0.0625) == "1/16"
    assert fraction_text(2.5, 1) == "3"  # whole inches, a half goes up
    for parts in (0, -1):
        with pytest.raises(ValueError, match=f"cannot write 2.5 in parts of 1/{parts} inch"):
            fraction_text(2.5, parts)
