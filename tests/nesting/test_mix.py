"""The mix: sizes in the order's proportion, worked out by hand."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sheetgen.nesting import mix_of


@pytest.mark.parametrize(
    ("quantities", "garments", "mix"),
    [
        ({"S": 100, "M": 200, "L": 100}, 4, {"S": 1, "M": 2, "L": 1}),
        # 0.3, 1.35, 1.35: one garment is left over, and of equal remainders and quantities the earlier size takes it.
        ({"S": 10, "M": 45, "L": 45}, 3, {"M": 2, "L": 1}),
        # 0.5, 1.5: equal remainders, so that the larger quantity takes the garment.
        ({"S": 50, "M": 150}, 2, {"M": 2}),
        ({"S": 1, "M": 1, "L": 1}, 1, {"S": 1}),
        ({"S": 0, "M": 7}, 5, {"M": 5}),
        # A third of three times 0.1 is exactly one garment, though not in the machine's numbers.
        ({"S": 0.1, "M": 0.1, "L": 0.1}, 3, {"S": 1, "M": 1, "L": 1}),
    ],
)
def test_a_mix_worked_out_by_hand(quantities, garments, mix):
    assert mix_of(quantities, garments) == mix
    assert list(mix_of(quantities, garments)) == list(mix)


@given(
    st.dictionaries(st.sampled_from("XS S M L XL XXL".split()), st.integers(0, 100_000), min_size=1).filter(
        lambda quantities: any(quantities.values())
    ),
    st.integers(1, 60),
)
def test_no_size_is_a_whole_garment_off_its_share(quantities, garments):
    mix = mix_of(quantities, garments)
    assert sum(mix.values()) == garments
    for size, ordered in quantities.items():
        share = Fraction(ordered * garments, sum(quantities.values()))
        assert math.floor(share) <= mix.get(size, 0) <= math.ceil(share)


@pytest.mark.parametrize(
    ("quantities", "garments", "sentence"),
    [
        ({"S": 1}, 0, "a marker holds one garment at least, not 0"),
        ({"S": 0, "M": 0}, 2, "no size has a quantity, so that a marker has no mix; fill the order's quantities"),
        ({}, 2, "no size has a quantity, so that a marker has no mix; fill the order's quantities"),
        ({"S": 3, "M": -1}, 2, "the quantity of size M is -1; it must be 0 or more"),
        ({"S": float("nan")}, 2, "the quantity of size S is nan; it must be 0 or more"),
    ],
)
def test_what_makes_no_mix_is_said_in_one_sentence(quantities, garments, sentence):
    with pytest.raises(ValueError) as refused:
        mix_of(quantities, garments)
    assert str(refused.value) == sentence
