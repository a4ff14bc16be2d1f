"""What may stand in a cell, and the half sentence that says what is wrong with it."""

import datetime
import math

import pytest

from sheetgen.declare.kinds import (
    Picture,
    choice,
    color,
    date,
    length,
    money,
    number,
    percent,
    pick,
    picture,
    text,
    whole,
    yes_no,
)

A_PICTURE = Picture(b"\x89PNG")


@pytest.mark.parametrize(
    ("kind", "value", "says"),
    [
        (number(), "2,50", "must be a number"),
        (number(least=0, most=9.5), "x", "must be a number of at least 0 and at most 9.5"),
        (number(), True, "must be a number"),
        (number(), math.nan, "must be a finite number"),
        (number(), -math.inf, "must be a finite number"),
        (number(), 10**400, "must have at most 15 digits"),
        (number(), -1e15, "must have at most 15 digits"),
        (number(least=0.5), 0.4, "must be at least 0.5"),
        (number(most=100), 100.5, "must be at most 100"),
        (whole(), 2.5, "must be a whole number"),
        (whole(least=1), 0, "must be at least 1"),
        (whole(least=1), "two", "must be a whole number of at least 1"),
        (length(), "12 3/8", "must be a length"),
        (length(least=0), -0.1, "must be at least 0"),
        (money(), -1, "must be at least 0"),
        (money(), "USD 2.5", "must be an amount of money as a number of at least 0"),
        (percent(), 5, "must be at most 100 %"),
        (percent(most=0.5), 0.6, "must be at most 50 %"),
        (percent(1, 0.025, 0.125), "5", "must be a percentage of at least 2.5 % and at most 12.5 %"),
        (date(), "2026-03-31", "must be a date, as 2026-03-31"),
        (date(), 46112, "must be a date, as 2026-03-31"),
        (date(), datetime.date(1989, 12, 31), "must be a date from 1990-01-01 on"),
        (text(), 12, "must be text"),
        (text(), A_PICTURE, "must be text"),
        (text(), "a\x07b", "must not hold control characters"),
        (text(), "a\rb", "must not hold control characters"),
        (text(), "a\ufffeb", "must not hold control characters"),
        (text(), "lone \ud83d half", "must not hold control characters"),
        (text(), "a_x000D_b", "must not hold _x000D_ or x005F_, which workbook files keep for themselves"),
        (text(), "x005F_", "must not hold _x000D_ or x005F_, which workbook files keep for themselves"),
        (text(), "\U0001f9f5" * 16384, "must be at most 32767 characters"),
        (text(), "x" * 32768, "must be at most 32767 characters"),
        (choice("m", "kg"), "pc", "must be one of: m, kg"),
        (choice("m", "kg"), 3, "must be one of: m, kg"),
        (choice("m", "kg", open=True), 3, "must be a choice of the list"),
        (pick("sizes.name"), "x" * 256, "must be at most 255 characters"),
        (yes_no(), "maybe", "must be one of: yes, no"),
        (pick("sizes.name"), 3, "must be a choice of the list"),
        (color(), "red", "must be a color as #RRGGBB"),
        (color(), "#12345", "must be a color as #RRGGBB"),
        (color(), "#123456\n", "must be a color as #RRGGBB"),
        (picture(), "front.png", "must be a picture"),
    ],
)
def test_a_wrong_value_is_told_in_half_a_sentence(kind, value, says):
    assert kind.wrong(value) == says


@pytest.mark.parametrize(
    ("kind", "value"),
    [
        (number(), -0.25),
        (number(), 999_999_999_999_999),
        (number(least=0.1), 0.1 - 1e-13),
        (whole(), 7.0),
        (percent(), 1.0),
        (percent(most=0.5), 0.5),
        (date(), datetime.date(1990, 1, 1)),
        (date(), datetime.datetime(2026, 5, 1, 12, 30)),
        (text(), "=1+1\n\t_x0041_ \U0001f9f5 'q'"),
        (text(), "x" * 32767),
        (choice("m", open=True), "anything"),
        (pick("sizes.name"), "XXL"),
        (color(), "#aBcDeF"),
        (picture(), A_PICTURE),
    ],
)
def test_a_value_that_may_stand_there(kind, value):
    assert kind.wrong(value) is None


@pytest.mark.parametrize("kind", [text(), number(least=1), date(), choice("m"), color(), picture(), percent()])
@pytest.mark.parametrize("blank", [None, ""])
def test_a_blank_is_never_wrong(kind, blank):
    assert kind.wrong(blank) is None


def test_what_is_expected_in_words():
    assert number().noun == "a number"
    assert percent(most=0.5).noun == "a percentage of at least 0 % and at most 50 %"
    assert whole(least=1).noun == "a whole number of at least 1"
    assert choice("sea", "air").noun == "one of: sea, air"
    assert choice("sea", "air", open=True).noun == "a choice of the list"


def test_pictures_are_equal_by_their_bytes():
    assert Picture(b"one") == Picture(b"one")
    assert Picture(b"one") != Picture(b"two")
    # sha-256 of "abc" from FIPS 180-2, appendix B.1
    assert Picture(b"abc").digest == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
