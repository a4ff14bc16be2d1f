"""Seam classes and their older letters are found however they are written."""

import pytest

from sheetgen.trade.seams import SEAM_CHOICES, SEAM_CLASSES, seam_class


@pytest.mark.parametrize(
    ("text", "name"),
    # Numbers: ISO 4916:1991 (names seen). Letters: US Fed-Std-751a / ASTM D6193 (from memory).
    [
        ("1 superimposed (SS)", "superimposed"),
        ("SSa", "superimposed"),
        ("ssa-1", "superimposed"),
        ("LSc", "lapped"),
        ("BS", "bound"),
        ("4", "flat"),
        ("OSa", "decorative stitching"),
        ("EFb", "edge finishing"),
        ("7", "attaching a separate item"),
        ("8 single component", "single component"),
    ],
)
def test_a_seam_is_found(text: str, name: str) -> None:
    found = seam_class(text)
    assert found is not None
    assert found.name == name


@pytest.mark.parametrize("text", ["", "9", "0", "12", "XXa", "SSab", "flat"])
def test_what_is_no_seam_is_not_found(text: str) -> None:
    assert seam_class(text) is None


def test_each_choice_finds_its_class() -> None:
    assert [row.number for row in SEAM_CLASSES] == [1, 2, 3, 4, 5, 6, 7, 8]
    assert [seam_class(choice) for choice in SEAM_CHOICES] == list(SEAM_CLASSES)
