"""The recogniser of slips: each way to go wrong is known by the figure that it gives, and a right figure is none.

All figures are worked out by hand from the definitions beside them; the inputs are invented.
"""

from __future__ import annotations

from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from sheetgen.audit.case import Case
from sheetgen.audit.fabric_slips import fabric_slips
from sheetgen.audit.slips import (
    COUNT,
    LENGTHS,
    WEIGHTS,
    Slip,
    apart,
    carry_slips,
    digit_slips,
    dozen_waste_slips,
    efficiency_slips,
    factor_slips,
    is_rounded,
    rate_slips,
    recognised,
    shown,
    sum_slips,
    unit_slips,
    waste_slips,
)
from sheetgen.audit.thread_slips import thread_slips
from tests.lists import stitch
from tests.published.book import case

WASTE = [*waste_slips(1.4235, 0.05), *dozen_waste_slips(1.4235, 0.05)]
EFFICIENCY = list(efficiency_slips(3.36, 0.75))
FACTORS = list(factor_slips(1.7922, COUNT, LENGTHS, WEIGHTS))
SUM = list(sum_slips({"fabric": 21.96, "collar": 4.48, "making": 6, "trims": 3, "label": 0.01}))
RATES = list(rate_slips(21, 1.08, [("TRY", 0.03)]))
OWN_CURRENCY = list(rate_slips(21, 1, [("TRY", 0.03)]))


@pytest.mark.parametrize(
    ("slips", "right", "stated", "cause"),
    [
        (WASTE, 1.494675, 1.42, "the waste of 5 % is left out"),
        (WASTE, 1.494675, 1.47, "the waste of 5 % is added as an amount (1.4235 + 0.05)"),
        (WASTE, 1.494675, 1.428, "the waste of 5 % is added as an amount to a dozen (17.082 + 0.05)"),
        (WASTE, 1.494675, 1.569, "the waste of 5 % is added twice"),
        (WASTE, 1.494675, 1.352, "the waste of 5 % is taken off instead of added"),
        (WASTE, 1.494675, 1.4984, "it is divided by 1 − 0.05 instead of multiplied by 1 + 0.05"),
        (EFFICIENCY, 3.36, 1.89, "it is multiplied by the efficiency of 75 % instead of divided"),
        (EFFICIENCY, 3.36, 2.52, "the efficiency of 75 % is left out"),
        (EFFICIENCY, 3.36, 4.48, "it is divided by the efficiency of 75 % twice"),
        (FACTORS, 1.7922, 21.51, "a dozen is counted for one"),
        (FACTORS, 1.7922, 0.1494, "it is divided by twelve, as if it were for a dozen"),
        (FACTORS, 1.7922, 17.9, "the decimal point stands one place too far right"),
        (FACTORS, 1.7922, 0.179, "the decimal point stands one place too far left"),
        (FACTORS, 1.7922, 179.2, "the decimal point stands two places too far right, as from percent or centimeters"),
        (FACTORS, 1.7922, 4.552, "one length is in centimeters, another in inches (factor 2.54)"),
        (FACTORS, 1.7922, 0.7056, "one length is in inches, another in centimeters (factor 2.54)"),
        (FACTORS, 1.7922, 45.52, "inches and millimeters are mixed (factor 25.4)"),
        (FACTORS, 1.7922, 11.562, "square centimeters are taken for square inches (factor 6.4516)"),
        (FACTORS, 1.7922, 1.639, "yards are taken for meters (factor 0.9144)"),
        (FACTORS, 1.7922, 1.96, "meters are taken for yards (factor 0.9144)"),
        (FACTORS, 1.7922, 64.52, "inches are taken for yards (factor 36)"),
        (FACTORS, 1.7922, 60.77, "g/m² are taken for oz/yd² (factor 33.906)"),
        (FACTORS, 1.7922, 0.05286, "oz/yd² are taken for g/m² (factor 33.906)"),
        (FACTORS, 1.7922, 3.951, "pounds are taken for kilograms (factor 2.2046)"),
        (FACTORS, 1.7922, 28.675, "ounces are taken for pounds (factor 16)"),
        (SUM, 35.45, 30.97, "collar is left out"),
        (SUM, 35.45, 41.45, "making is counted twice"),
        (SUM, 35.45, 21.96, "only fabric is counted"),
        (RATES, 22.68, 21, "the exchange rate of 1.08 is left out"),
        (RATES, 22.68, 19.44, "it is divided by the exchange rate of 1.08 instead of multiplied"),
        (RATES, 22.68, 0.63, "the rate of TRY, 0.03, is used instead of 1.08"),
        (OWN_CURRENCY, 21, 0.63, "the rate of TRY, 0.03, is used"),
        (list(carry_slips(34.44, 35.436)), 35.436, 34.44, "1.00 is lost in adding up"),
        (list(carry_slips(45.44, 35.436)), 35.436, 45.44, "10.00 is added in adding up"),
        (list(carry_slips(35.34, 35.436)), 35.436, 35.34, "0.1 is lost in adding up"),
        (list(digit_slips(108, 1508)), 1508, 108, "a digit of 1508 is left out"),
        (list(digit_slips(1058, 1508)), 1508, 1058, "two digits of 1508 are swapped"),
        (list(digit_slips(0.53, 0.539)), 0.539, 0.53, "decimals are cut off instead of rounded"),
        (list(digit_slips(2.43, 2.4246)), 2.4246, 2.43, "it is rounded up at its last digit"),
        (list(unit_slips(24, "pc")), 24, 3456, "a gross is counted for one"),
    ],
)
def test_a_slip_is_known_by_its_figure(slips: list[Slip], right: float, stated: float, cause: str) -> None:
    assert recognised(stated, [right], slips) == cause


@pytest.mark.parametrize(
    ("slips", "right", "stated"),
    [
        (WASTE, 1.494675, 1.4),  # 1.7 % below the net use
        (WASTE, 1.494675, 1.62),
        (EFFICIENCY, 3.36, 2.25),
        (FACTORS, 1.7922, 2.31),
        (SUM, 35.45, 35.44),  # the label is a thousandth of it: that is rounding
        (SUM, 35.45, 33.11),
        (RATES, 22.68, 20.5),
        (list(carry_slips(34.94, 35.436)), 35.436, 34.94),  # 0.50 is no carried one
        (list(carry_slips(35.43, 35.436)), 35.436, 35.43),  # 0.01 is rounding
        (list(digit_slips(0.61, 0.539)), 0.539, 0.61),
        (list(unit_slips(24, "m")), 24, 3456),  # meters come in no gross
        (list(waste_slips(2, 0)), 2, 2.1),
        (list(efficiency_slips(2, 1)), 2, 2.1),
    ],
)
def test_a_figure_that_no_slip_explains_has_no_cause(slips: list[Slip], right: float, stated: float) -> None:
    assert recognised(stated, [right], slips) == ""


def test_a_figure_of_one_digit_proves_little() -> None:
    """2 is 1.89 rounded, but as far from it as from much else: it is taken for 2.00, and 6.05 is not 6.00 either."""
    assert recognised(2, [3.36], EFFICIENCY) == ""
    assert recognised(2, [3.36], [Slip("said", 1.99)]) == ""
    assert recognised(2, [3.36], [Slip("said", 1.998)]) == "said"
    assert recognised(6, [6.3], [Slip("said", 6.05)]) == ""


def test_one_of_many_alike_needs_a_figure_of_four_digits() -> None:
    loose = Slip("the pocket is left out", 1.6424, loose=True)
    assert recognised(1.64, [1.7922], [loose]) == ""
    assert recognised(1.642, [1.7922], [loose]) == "the pocket is left out"


def test_two_slips_that_give_the_same_figure_are_both_named() -> None:
    slips = [Slip("one", 1.501), Slip("the same again", 1.501), Slip("another", 1.499), Slip("a third", 1.502)]
    assert recognised(1.5, [1.8], slips) == "one, or if another"


@settings(max_examples=300, deadline=None)
@given(
    right=st.floats(1e-3, 1e6, allow_nan=False),
    digits=st.integers(2, 9),
    waste=st.floats(0, 0.5),
    efficiency=st.floats(0.01, 1),
)
def test_a_right_figure_rounded_is_never_a_slip(right: float, digits: int, waste: float, efficiency: float) -> None:
    stated = float(f"{right:.{digits - 1}e}")
    slips = [
        *waste_slips(right / (1 + waste), waste), *efficiency_slips(right, efficiency), *factor_slips(right, COUNT, LENGTHS, WEIGHTS),
        *digit_slips(stated, right), *carry_slips(stated, right), Slip("the same figure", stated),
    ]  # fmt: skip
    assert recognised(stated, [right], slips) == ""


@settings(max_examples=200, deadline=None)
@given(
    stated=st.floats(0, 1e15),
    right=st.floats(1e-300, 1e15),
    waste=st.floats(0, 2),
    efficiency=st.floats(0.01, 1.5),
)
def test_any_figures_give_words_and_no_error(stated: float, right: float, waste: float, efficiency: float) -> None:
    slips = [
        *waste_slips(right, waste), *dozen_waste_slips(right, waste), *efficiency_slips(right, efficiency),
        *factor_slips(right, COUNT, LENGTHS, WEIGHTS), *digit_slips(stated, right), *carry_slips(stated, right),
        *rate_slips(right, efficiency, [("EUR", 1.08)]), *sum_slips({"one": right, "another": stated}),
    ]  # fmt: skip
    words = {slip.words for slip in slips}
    found = recognised(stated, [right], slips)
    assert not found or set(found.split(", or if ")) <= words
    assert apart(stated, right).startswith("That is ")
    assert shown(right)


@settings(max_examples=200, deadline=None)
@given(right=st.floats(0.1, 1e4), factor=st.sampled_from([0.5, 0.9, 1.06, 1.3, 2]), digits=st.integers(3, 6))
def test_a_figure_that_is_off_is_not_taken_for_rounding(right: float, factor: float, digits: int) -> None:
    assert not is_rounded(float(f"{right * factor:.{digits - 1}e}"), right)


def test_figures_and_distances_in_words() -> None:
    assert [shown(one) for one in (1.7921689, 20.1074, 0.013867, 1508, 17823.12, 0.6, 0)] == [
        "1.7922", "20.107", "0.0139", "1508", "17823", "0.6", "0"
    ]  # fmt: skip
    assert apart(1.47, 1.4942) == "That is 1.6 % less."
    assert apart(34.44, 35.44, "USD") == "That is 1 USD (2.8 %) less."
    assert apart(7.875, 3.9375) == "That is 2 times as much."
    assert apart(0.0108, 0.1508) == "That is only 7.2 % of the right figure."


@cache
def fabric() -> Case:
    """Two sizes, a quarter of the order in S; back 74 x 62 cm with seams, twice, and a pocket without points."""
    points = [{"point": "Length", "base": 70, "step": 2}, {"point": "Width", "base": 60, "step": 4}]
    back = {"piece": "Back", "count": 2, "long_point": "P1", "long_plus": 4, "wide_point": "P2", "wide_plus": 2}
    pieces = [back, {"piece": "Pocket", "count": 1, "long_plus": 15, "wide_plus": 14}]
    row = {"material": "M1", "usable": 150, "long_shrink": 0.05, "wide_shrink": 0.03, "efficiency": 0.8}
    return case(
        ("S", "M"),
        style={"sample_size": "M"},
        measurements={"points": points},
        materials={"bom": [{"item": "Cloth", "group": "fabric", "unit": "m"}]},
        order={"sizes": [{"row": "S", "pieces": 10}, {"row": "M", "pieces": 30}]},
        **{"yield": {"fabrics": [row], "pieces": [{"material": "M1", **piece} for piece in pieces]}},
    )


@pytest.mark.parametrize(
    ("stated", "cause"),
    [
        # Right: (0.25 x 2 x 72 x 58 + 0.75 x 2 x 74 x 62 + 15 x 14) / (0.95 x 0.97) / 10000 / 1.5 / 0.8 = 0.8302 m.
        (0.5313, "it is multiplied by the efficiency of 80 % instead of divided"),
        (0.6641, "the efficiency of 80 % is left out"),
        (0.8273, "the shrinkage is added as 1 + s instead of divided by 1 − s"),
        (0.765, "the shrinkage is left out"),
        (0.8281, "the shrinkage is added as 1 + s instead of divided by 1 − s, in the length"),
        (0.7952, "seams and hems are added at one edge only"),
        (0.8081, "seams and hems are added at one edge only, in the length"),
        (0.7609, "seams and hems are left out"),
        (0.8036, "seams and hems are left out, in the width"),
        (0.0259, "length and width of the pieces are added instead of multiplied"),
        (0.8112, "“Pocket” is left out"),
        (0.8492, "“Pocket” is counted twice"),
        (0.8488, "size M alone is counted, not the order's mix of sizes"),
        (0.7743, "size S alone is counted, not the order's mix of sizes"),
        (9.962, "a dozen is counted for one"),
        (0.8302, ""),
        (0.7811, ""),
    ],
)
def test_slips_in_a_fabric(stated: float, cause: str) -> None:
    right = fabric().number("yield.fabrics.worked_out", "B1")
    assert right == pytest.approx(0.830168, abs=5e-7)
    assert recognised(stated, [right], fabric_slips(fabric(), "B1", right)) == cause


@cache
def thread() -> Case:
    """200 cm of 301 and 100 cm of 504, three stitches a cm: M1 is needle thread of both, M2 looper thread of both."""
    callouts = [
        {"area": "Hem", "stitch": stitch("301"), "extra": 200, "density": 3},
        {"area": "Side", "stitch": stitch("504"), "extra": 100, "density": 3},
    ]
    seams = [{"row": row, "needle_thread": "M1", "looper_thread": "M2"} for row in ("N1", "N2")]
    return case(
        construction={"density_unit": "stitches per cm", "callouts": callouts},
        materials={"bom": [{"item": item, "group": "thread", "unit": "m"} for item in ("Needle", "Looper")]},
        thread={"seams": seams, "articles": [{"material": "M1"}, {"material": "M2"}]},
    )


@pytest.mark.parametrize(
    ("stated", "cause"),
    [
        # Right: 2 x 2.5 x 0.5 + 1 x 14 x 0.2 = 5.3 m of needle thread. A seam left out needs four digits: 2.8001.
        (3.6, "seam length times density is taken: that counts stitches, it is no length of thread"),
        (1.2, "the seams' length is taken without the ratio"),
        (3.75, "504 is counted with the ratio and needle share of 301 (2.5, 50 %)"),
        (3.0, "504 is counted with the ratio of 301 (2.5)"),
        (9.5, "504 is counted with the needle share of 301 (50 %)"),
        (8.4, "301 is counted with the ratio and needle share of 504 (14, 20 %)"),
        (5.55, "301 is counted with the ratio and needle share of 401 (5.5, 25 %)"),
        (2.8001, "“Hem” is left out"),
        (7.8001, "“Hem” is counted twice"),
        (63.6, "a dozen is counted for one"),
        (5.3, ""),
        (6.1, ""),
    ],
)
def test_slips_in_thread(stated: float, cause: str) -> None:
    assert recognised(stated, [5.3], thread_slips(thread(), "H1", "needle")) == cause
