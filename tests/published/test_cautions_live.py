"""Live cautions follow the rules that they cite, also while the style is only half filled in."""

import pytest

from tests.published.book import Shown

CORD = {"item": "Hood cord", "group": "trim", "kind": "cord", "zone": "hood or neck"}


def cautions(style: dict[str, object], *materials: dict[str, object]) -> Shown:
    return Shown(style=style, materials={"bom": list(materials)})


def test_a_hood_cord_on_childrens_outerwear_is_cautioned_while_other_fields_are_blank() -> None:
    # 16 CFR 1120.3(b), 76 FR 42502 (19 July 2011): seen. Name, description and nightwear are not filled in yet.
    style = {"age_group": "child", "outerwear": "yes", "market_us": "yes"}
    book = cautions(style, CORD)
    assert book["checks.caution_hood_cord_us"] == 1
    assert book.number("checks.cautions") >= 1
    assert cautions({**style, "age_group": "adult"}, CORD)["checks.caution_hood_cord_us"] == 0
    assert cautions({**style, "market_us": "no"}, CORD)["checks.caution_hood_cord_us"] == 0
    assert cautions(style, {**CORD, "zone": "waist"})["checks.caution_hood_cord_us"] == 0


@pytest.mark.parametrize(("height", "young", "older"), [(134, 1, 0), (135, 0, 1), (None, 1, 0)])
def test_neck_cords_by_the_height_of_the_child(height: int | None, young: int, older: int) -> None:
    # EN 14682:2014: up to 134 cm none at hood or neck (a safety agency's page). Without a height the stricter rule.
    style = {"age_group": "child", "market_eu": "yes", **({"height_to": height} if height else {})}
    book = cautions(style, CORD)
    assert (book["checks.caution_neck_cord_eu_young"], book["checks.caution_neck_cord_eu_older"]) == (young, older)


def test_what_is_missing_is_counted_before_the_purpose_is_chosen() -> None:
    assert cautions({}).number("checks.to_fill") > 20
    assert cautions({})["style.stage"] == 1


@pytest.mark.parametrize("blank", ["age_group", "outerwear", "market_us"])
def test_a_condition_that_is_still_blank_could_be_met(blank: str) -> None:
    style = {"age_group": "child", "outerwear": "yes", "market_us": "yes"}
    assert (
        cautions({name: word for name, word in style.items() if name != blank}, CORD)["checks.caution_hood_cord_us"]
        == 1
    )
