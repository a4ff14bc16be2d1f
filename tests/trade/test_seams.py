"""The seams that a drop-down offers are the classes of the standard, with their older letters."""

from tests.lists import offered


def test_the_eight_classes_are_offered_in_their_order() -> None:
    # Numbers and names: ISO 4916:1991 (seen). Letters: US Fed-Std-751a / ASTM D6193 (from memory).
    assert offered("seams") == [
        "1 superimposed (SS)",
        "2 lapped (LS)",
        "3 bound (BS)",
        "4 flat (FS)",
        "5 decorative stitching (OS)",
        "6 edge finishing (EF)",
        "7 attaching a separate item",
        "8 single component",
    ]
