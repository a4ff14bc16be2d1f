"""Style numbers: decoded, checked, and the next free one proposed."""

import pytest

from sheetgen.style.numbering import NumberPart, NumberScheme

SCHEME = NumberScheme((
    NumberPart("season", {"27S": "Summer 2027", "27W": "Winter 2027"}),
    NumberPart("garment", {"SH": "Shirt", "JK": "Jacket"}),
    NumberPart("serial", {}, 2),
))  # fmt: skip


def test_a_number_says_what_each_part_means():
    assert SCHEME.decode("27W-JK-07") == {"season": "Winter 2027", "garment": "Jacket", "serial": "07"}


@pytest.mark.parametrize(
    ("number", "says"),
    [
        ("27W-JK", "'27W-JK' has 2 parts, the scheme has 3: season-garment-00"),
        ("27W-JK-1-2", "'27W-JK-1-2' has 4 parts, the scheme has 3: season-garment-00"),
        ("27X-JK-07", "'27X' in '27X-JK-07' is no code of season; is it '27W'?"),
        ("27W-QQ-07", "'QQ' in '27W-QQ-07' is no code of garment; known: SH, JK"),
        ("27W-JK-7", "'7' in '27W-JK-7' must be 2 digits (serial)"),
        ("27W-JK-0a", "'0a' in '27W-JK-0a' must be 2 digits (serial)"),
        ("27W-JK-٠٧", "'٠٧' in '27W-JK-٠٧' must be 2 digits (serial)"),
        ("", "'' has 1 parts, the scheme has 3: season-garment-00"),
    ],
)
def test_a_number_that_does_not_fit(number, says):
    with pytest.raises(ValueError) as caught:
        SCHEME.decode(number)
    assert str(caught.value) in {says, says.replace("'27W'", "'27S'")}


@pytest.mark.parametrize(
    ("taken", "number"),
    [
        ([], "27S-SH-01"),
        (["27S-SH-01", "27S-SH-02", "27W-SH-03"], "27S-SH-03"),
        (["27S-SH-01", "27S-SH-03"], "27S-SH-04"),
        (["27S-SH-01", "27S-SH-99"], "27S-SH-02"),
        ([f"27S-SH-{n:02d}" for n in range(1, 99)], "27S-SH-99"),
    ],
)
def test_the_next_free_number_comes_after_the_highest_then_from_a_gap(taken, number):
    assert SCHEME.next_free({"season": "27S", "garment": "SH"}, taken) == number


def test_no_number_is_left():
    with pytest.raises(ValueError, match=r"^all 99 numbers are taken$"):
        SCHEME.next_free({"season": "27S", "garment": "SH"}, [f"27S-SH-{n:02d}" for n in range(1, 100)])


def test_a_code_that_is_none_is_not_proposed():
    with pytest.raises(ValueError, match="is no code of garment"):
        SCHEME.next_free({"season": "27S", "garment": "XX"}, [])


def test_a_code_that_is_not_given():
    with pytest.raises(ValueError, match=r"^no code is given for garment$"):
        SCHEME.next_free({"season": "27S"}, [])


def test_a_scheme_without_a_running_number():
    with pytest.raises(ValueError, match=r"^the scheme has no running number$"):
        NumberScheme((NumberPart("brand", {"A": "a"}),)).next_free({"brand": "A"}, [])
