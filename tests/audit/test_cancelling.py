"""Sums that are right although their parts are off to both sides. Figures are invented and worked out by hand."""

from __future__ import annotations

import random
from collections.abc import Mapping
from dataclasses import replace

import pytest

from sheetgen.audit.cancelling import cancelled, deviations_cancel
from sheetgen.audit.case import Case
from sheetgen.audit.rule import Example, Fault
from sheetgen.declare.entry import Place
from sheetgen.declare.judgment import LIMITS
from sheetgen.declare.kinds import Value
from tests.audit.made import Made, quick_case
from tests.audit.returned import returned
from tests.published.book import findings

MOVED, REST, FRONT_BACK = (LIMITS[name].usual for name in ("moved", "moved_rest", "front_back"))


@pytest.mark.parametrize(
    ("off", "least", "sides"),
    [
        ({"a": 1.0, "b": -1.0}, 0.5, (1.0, 1.0)),
        ({"a": 1.0, "b": -0.5, "c": -0.5}, 0.5, (1.0, 1.0)),
        ({"a": 1.0, "b": -0.8}, 0.5, (1.0, 0.8)),  # a quarter of the smaller is left
        ({"a": 1.0, "b": -0.79}, 0.5, None),
        ({"a": 0.4, "b": -0.4}, 0.5, None),
        ({"a": 1.0}, 0, None),
        ({"a": 0.0, "b": 0.0}, 0, None),
        ({}, 0, None),
    ],
)
def test_two_sides_that_cancel(off: dict[str, float], least: float, sides: tuple[float, float] | None) -> None:
    found = cancelled(off, least, 0.25)
    assert found == (None if sides is None else pytest.approx(sides))


def quoted_again(overshirt: Made, before: Mapping[str, Value]) -> list[Fault]:
    """The overshirt's return, after a copy that had gone out with the same answers, but for these."""
    now, then = (quick_case(overshirt, Example("quote", changes)) for changes in ({}, before))
    assert now is not None and then is not None
    answers = {place: value for place, value in then.got.typed.items() if then.entry(place).who == "vendor"}
    return list(
        deviations_cancel.check(replace(now, sent={**now.sent, **answers}, shown_when_sent=lambda: then.follows))
    )


def test_a_price_that_stayed_while_cloth_went_up_and_sewing_down(overshirt: Made) -> None:
    """The shell was 4.20 and is 4.65: 0.45 x 1.8995 m = 0.85 more; the sewing was 40.1 minutes and is 36.5: 3.6 x 0.168651 / 0.72 = 0.84 less."""
    (fault,) = quoted_again(overshirt, {"materials.bom[M1].price": 4.2, "quote.sew_minutes": 40.1})
    assert fault.place == Place("quote.fob")
    assert fault.expected == "the price worked out, 25.787 EUR, is as good as that of the last quote"
    assert "(M1 Shell, cotton twill 3/1, peached)" in fault.found
    assert "(sewing)" in fault.found
    assert "0.84" in fault.found


def test_a_price_that_moved_with_its_parts_and_one_that_stayed_as_it_was(overshirt: Made) -> None:
    assert quoted_again(overshirt, {}) == []
    assert quoted_again(overshirt, {"materials.bom[M1].price": 4.2}) == []
    assert quoted_again(overshirt, {"materials.bom[M1].price": 4.2, "quote.sew_minutes": 38.0}) == []
    small = {"materials.bom[M1].price": 4.6, "quote.sew_minutes": 36.9}
    assert quoted_again(overshirt, small) == []  # less than 2 % of the price
    unknown: dict[str, Value] = {
        "materials.bom[M1].price": 4.2,
        "quote.sew_minutes": 40.1,
        "materials.bom[M5].price": None,
    }
    assert quoted_again(overshirt, unknown) == []  # what was not known then cannot have moved
    other: dict[str, Value] = {"materials.bom[M1].price": 4.2, "quote.sew_minutes": 40.1, "quote.currency": "USD"}
    assert quoted_again(overshirt, other) == []


PARTS = (8.5, 0.3, 0.4, 0.1, 0.5, 0.2, 0.1, 8.5, 0.9, 1.2, 0.4, 0.2, 0.2, 0.4, 1.8, 1.5)
"""The parts of a price of 25.20: cloth, small lines, sewing, cutting, finishing, charges, overhead, profit."""


def test_honest_quotes_anew_are_asked_about_in_less_than_one_of_two_hundred() -> None:
    """Each line moves by itself, by 3 % on the whole."""
    chance, total, alarms = random.Random(31), sum(PARTS), 0
    for _ in range(2000):
        off = {str(number): part * chance.gauss(0, 0.03) for number, part in enumerate(PARTS)}
        alarms += cancelled(off, MOVED * total, REST) is not None
    assert alarms <= 9


def test_a_rise_taken_back_elsewhere_is_found_in_more_than_nineteen_of_twenty() -> None:
    """3 to 8 % of the price, taken back within a tenth."""
    chance, total, found = random.Random(32), sum(PARTS), 0
    for _ in range(400):
        one, other = chance.sample(range(len(PARTS)), 2)
        rise = total * chance.uniform(0.03, 0.08)
        found += (
            cancelled({str(one): rise, str(other): -rise * chance.uniform(0.9, 1.1)}, MOVED * total, REST) is not None
        )
    assert found >= 380


def delivered(*moss_and_slate: tuple[int, int]) -> dict[str, str]:
    return findings(
        "deviations-cancel",
        colorways={"list": [{"name": "Moss"}, {"name": "Slate"}]},
        order={
            "sizes": [{"row": "M", "pieces": {"Moss": 300, "Slate": 200}}],
            "deliveries": [{"to": f"Shop {number}", "pieces": {"Moss": moss, "Slate": slate}} for number, (moss, slate) in enumerate(moss_and_slate, 1)],
        },
    )  # fmt: skip


def test_deliveries_of_the_right_number_in_the_wrong_colors() -> None:
    assert delivered((200, 100), (150, 50)) == {
        "order.pieces": "Pieces ordered: the deliveries are the pieces of the order together, and yet there are 50 Moss too many and 50 Slate too few.",
    }
    assert delivered((200, 100), (100, 100)) == {}
    assert delivered((200, 100), (100, 90)) == {}  # the sheet's own check counts it: the sum is another
    assert delivered() == {}


def seams(front: float, back: float) -> Case:
    """The overshirt's back (P3) and front (P4), off by so much; the tolerance of both is 1 cm."""
    answers: dict[str, Value] = {"fit.points[P3].value_r1": 76 + back, "fit.points[P4].value_r1": 77.5 + front}
    worked: dict[str, Value] = {"fit.points[P3].deviation_r1": back, "fit.points[P4].deviation_r1": front}
    return returned(
        answers, {**worked, **{f"fit.points[{ref}].{side}": 1 for ref in ("P3", "P4") for side in ("minus", "plus")}}
    )


@pytest.mark.parametrize(
    ("front", "back", "found"),
    [
        (0.9, -0.9, "front is +0.9 off and back -0.9"),
        (-0.8, 0.9, "front is -0.8 off and back +0.9"),
        (0.9, 0.9, None),  # both long: no seam between them
        (0.7, -0.9, None),  # less than three quarters of the tolerance
        (1.5, -0.9, None),  # the sum is off too
    ],
)
def test_a_front_too_long_and_a_back_too_short(front: float, back: float, found: str | None) -> None:
    faults = list(deviations_cancel.check(seams(front, back)))
    assert [fault.found for fault in faults] == ([found] if found else [])


def test_honest_fronts_and_backs_are_asked_about_in_less_than_one_round_of_two_hundred() -> None:
    """A normal error of a third of the tolerance at each; a seam half as far off again as the tolerance is found."""
    chance = random.Random(33)
    case = seams(0, 0)
    fits = [Place("fit.points.deviation_r1", ref) for ref in ("P3", "P4")]

    def asked(front: float, back: float) -> bool:
        off = [round(one + chance.gauss(0, 0.1), 1) for one in (back, front)]
        return bool(
            list(deviations_cancel.check(replace(case, meant={**case.meant, **dict(zip(fits, off, strict=True))})))
        )

    assert sum(asked(chance.gauss(0, 1 / 3), chance.gauss(0, 1 / 3)) for _ in range(1000)) <= 4
    assert sum(asked(1.5, -1.5) for _ in range(100)) >= 95
    assert FRONT_BACK == 0.75
