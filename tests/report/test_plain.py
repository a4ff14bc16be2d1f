"""No sign that steers a screen gets through; what people write does."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.report.plain import shortened, visible


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("\x1b[31mred", "<U+001B>[31mred"),
        ("\x9b31m", "<U+009B>31m"),
        ("abc\u202egnp.exe", "abc<U+202E>gnp.exe"),
        ("\u2066hidden\u2069", "<U+2066>hidden<U+2069>"),
        ("12\u200b5", "12<U+200B>5"),
        ("a\u200db", "a<U+200D>b"),
        ("\ud800", "<U+D800>"),
        ("\x00\x07\x7f", "<U+0000><U+0007><U+007F>"),
        ("two\r\nlines\tand \u2028more", "two lines and  more"),
        ("Größe 54, 棉布, ‎", "Größe 54, 棉布, <U+200E>"),
        ("می\u200cخواهم", "می\u200cخواهم"),
    ],
)
def test_visible(text: str, shown: str) -> None:
    assert visible(text) == shown


@given(st.text(st.characters(exclude_characters="\u200c\u200d")))
def test_nothing_unseen_is_left(text: str) -> None:
    left = {unicodedata.category(sign) for sign in visible(text)}
    assert not left & {"Cc", "Cf", "Cs", "Zl", "Zp"}


def test_a_long_text_says_how_much_is_left_out() -> None:
    assert shortened("a" * 1500, 10) == "aaaaaaaaaa... (1,490 characters more)"
    assert shortened("a" * 10, 10) == "aaaaaaaaaa"
