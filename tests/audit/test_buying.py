"""What is bought for an order: too little is found with its cause, and a minimum that leaves much over is told.

By hand: 300 Moss and 200 Slate, 5 % cut over, 2 m each with 10 % waste: 693 + 462 = 1155 m are needed. All invented.
"""

from __future__ import annotations

from functools import cache

import pytest

from sheetgen.jobs.asked_again import asked_of
from sheetgen.report.reply import reply_text
from sheetgen.testing.edit import Edit
from tests.audit.made import Made
from tests.published.book import findings

ROLLS = {"multiple": 50}
BOUGHT: list[tuple[float, dict[str, float], dict[str, float], str]] = [
    # What is bought, how it is sold, minimums of the line, what is said.
    (1150, ROLLS, {}, "5 m short. The same figure comes out if the need is rounded down to whole units of 50, where only rounding up serves."),
    (1050, ROLLS, {}, "105 m short. The same figure comes out if the waste of 10 % is left out."),
    (1100, ROLLS, {}, "55 m short. The same figure comes out if the pieces cut over the order, 5 %, are left out."),
    (1000, ROLLS, {}, "155 m short. The same figure comes out if waste and pieces cut over the order are left out."),
    (700, ROLLS, {}, "455 m short. The same figure comes out if only the color of Moss is bought."),
    (96.25, {}, {}, "1058.75 m short. The same figure comes out if it is divided by twelve, as if it were for a dozen."),
    (930, ROLLS, {}, "225 m short."),
    (1200, ROLLS, {"minimum": 1500}, "it takes at least 1500 m. The need of 1155 m is covered; the supplier sells no less than that."),
    (1155, {}, {"minimum_color": 600}, "it takes at least 1293 m. The supplier sells no less than 600 m of each color."),
    (1200, ROLLS, {}, ""),
    (1155, {}, {}, ""),
    (1500, ROLLS, {"minimum": 1500}, ""),
]  # fmt: skip


def order(
    lines: list[dict[str, object]], buy: list[dict[str, object]], *rules: str, quote: dict[str, object] | None = None
) -> dict[str, str]:
    shared = {
        "group": "fabric",
        "unit": "m",
        "net": 2,
        "waste": 0.1,
        "currency": "USD",
        "color": {"Moss": "Moss", "Slate": "Slate"},
    }
    return findings(
        *rules,
        colorways={"list": [{"name": "Moss"}, {"name": "Slate"}]},
        order={"overage": 0.05, "sizes": [{"row": "M", "pieces": {"Moss": 300, "Slate": 200}}], "buy": buy},
        materials={"bom": [{"item": f"Cloth {number}", **shared, **line} for number, line in enumerate(lines, 1)]},
        quote=quote or {"fob": 20},
    )  # fmt: skip


@cache
def bought() -> dict[str, str]:
    buy = [{"row": f"M{number}", "bought": one[0], **one[1]} for number, one in enumerate(BOUGHT, 1)]
    return order([dict(one[2]) for one in BOUGHT], buy, "bought-too-little")


@pytest.mark.parametrize("number", range(1, len(BOUGHT) + 1))
def test_a_purchase_against_its_need(number: int) -> None:
    says = BOUGHT[number - 1][3]
    message = bought().get(f"order.buy[M{number}].bought", "")
    assert message.endswith(says) if says else message == ""


def test_minimums_that_leave_much_over() -> None:
    """The order is worth 500 x 20 = 10,000 USD: more than 200 USD left over is asked about."""
    lines = [
        {"price": 1, "minimum": 3000},
        {"price": 0.1, "minimum": 3000},
        {"price": 1, "minimum_color": 700},
        {"price": 1, "minimum": 1100},
    ]
    found = order(lines, [], "minimum-above-need")
    assert {place: message.partition(" To choose from")[0] for place, message in found.items()} == {
        "materials.bom[M1].minimum": "Minimum of M1 Cloth 1 is 3000 m; needed are 1155 m. That leaves 1845 m over, worth "
        "1,845.00 USD, 18.4 % of the order's value.",
        "materials.bom[M3].minimum_color": "Minimum per color of M3 Cloth 3 is 700 m; needed are 1155 m in all colors together. "
        "That leaves 245 m over, worth 245.00 USD, 2.5 % of the order's value.",
    }  # fmt: skip


def test_a_typed_use_beside_what_the_pieces_give() -> None:
    """A piece of 100 x 150 cm on cloth of 150 cm takes 1 m. Typed: a little more, 5 % more with the waste in it, 8 % more."""
    lines = [
        {"item": f"Cloth {number}", "group": "fabric", "unit": "m", "waste": 0.06, "net": net}
        for number, net in enumerate((1.04, 1.06, 1.08, 100), 1)
    ]
    piece = {"piece": "Front", "count": 1, "long_plus": 100, "wide_plus": 150}
    found = findings(
        "consumption-not-yield",
        materials={"bom": lines},
        **{"yield": {
            "fabrics": [{"material": f"M{number}", "usable": 150, "efficiency": 1} for number in (1, 2, 3, 4)],
            "pieces": [{"material": f"M{number}", **piece} for number in (1, 2, 3, 4)],
        }},
    )  # fmt: skip
    assert {place: message.partition("; ")[2].partition(" Limit:")[0] for place, message in found.items()} == {
        "materials.bom[M2].net": "pieces or seams give 1 m. That is 6 % more. The same figure comes out if the waste of 6 % is in it already.",
        "materials.bom[M3].net": "pieces or seams give 1 m. That is 8 % more.",
        "materials.bom[M4].net": "pieces or seams give 1 m. That is 100 times as much. The same figure comes out if the decimal "
        "point stands two places too far right, as from percent or centimeters.",
    }


BUY = "buy the minimum and own 345 m (1,380.00 USD, 2.76 USD a garment)"  # 1500 - 1155 = 345 m x 4
MORE = "order 150 garments more, 650 in all (3,000.00 USD at the quoted price)"  # 500 x 1500 / 1155 = 649.4
LINES: list[tuple[dict[str, float], str]] = [
    ({"minimum": 1500}, f"{BUY}; {MORE}"),
    ({"minimum": 1500, "surcharge": 200}, f"{BUY}; {MORE}; pay the surcharge (200.00 USD, 0.40 USD a garment)"),
    # 600 for Slate's 462: 138 m x 4 = 552; 500 x 600 / 462 = 649.4.
    ({"minimum_color": 600}, f"buy the minimum and own 138 m (552.00 USD, 1.10 USD a garment); {MORE}"),
]  # fmt: skip
QUOTES: list[tuple[dict[str, object], dict[str, str]]] = [
    ({"fob": 20, "minimum_style": 800, "minimum_colorway": 350}, {
        "quote.minimum_style": "order 300 garments more, 800 in all (6,000.00 USD at the quoted price)",
        "quote.minimum_colorway": "order 200 garments more, 700 in all (4,000.00 USD at the quoted price)",  # 50 Moss, 150 Slate
    }),
    ({"fob": 20, "minimum_style": 800, "surcharge": 250}, {
        "quote.minimum_style": "order 300 garments more, 800 in all (6,000.00 USD at the quoted price); "
        "pay the surcharge (250.00 USD, 0.50 USD a garment)",
    }),
    ({"minimum_style": 800}, {"quote.minimum_style": "order 300 garments more, 800 in all"}),
]  # fmt: skip


def choices(found: dict[str, str]) -> dict[str, str]:
    """The choices that findings give, by place, without the full stop behind them."""
    return {
        place: message.partition("To choose from: ")[2].partition(" Limit:")[0].rstrip(".")
        for place, message in found.items()
    }


def test_a_materials_minimum_is_told_with_its_choices_in_money() -> None:
    """An order of 500 at 20 USD, of three cloths at 4 USD."""
    found = order([{"price": 4, **line} for line, _ in LINES], [], "minimum-above-need")
    assert list(choices(found).values()) == [says for _, says in LINES]


@pytest.mark.parametrize(("quote", "says"), QUOTES)
def test_a_vendors_minimum_is_told_with_its_choices_in_money(quote: dict[str, object], says: dict[str, str]) -> None:
    assert choices(order([{"price": 4}], [], "minimum-above-order", quote=quote)) == says


def test_the_choices_are_the_brands_and_stand_in_no_letter(overshirt: Made) -> None:
    result = overshirt.audited(
        [Edit("materials.bom[M1].minimum", "type", 3000), Edit("quote.minimum_style", "type", 5000)], "minimums"
    )
    asked = [one for one in result.findings if one.rule in {"minimum-above-need", "minimum-above-order"}]
    assert [(one.rule, one.owner) for one in asked] == [
        ("minimum-above-need", "designer"),
        ("minimum-above-order", "designer"),
    ]
    assert all("To choose from" in one.message for one in asked)
    assert "choose from" not in reply_text(result, contact="Ada")
    assert asked_of(result) == []
