"""Lengths in the other unit, weights and metres: against unit definitions, pint and published charts."""

import pint
import pytest

from sheetgen.trade import lengths
from tests.published.book import Shown, published
from tests.trade.tables import rows

UNITS = pint.UnitRegistry()
OTHER = {"cm": "in", "mm": "in", "in": "cm"}
TYPED = (0.125, 0.25, 0.5, 1, 2.54, 12.375, 31.4, 58, 1234.5)


def conversion(quantity: str) -> float:
    """A figure of conversions.csv (computed there from the unit definitions)."""
    return float(published("conversions.csv", "quantity")[quantity]["value"])


def other(unit: str, values: tuple[float, ...]) -> list[float]:
    points = [{"point": f"Point {number}", "base": value, "step": 0} for number, value in enumerate(values)]
    book = Shown(style={"unit": unit}, measurements={"points": points})
    return [book.number(f"measurements.points[P{number}].other_z1") for number in range(1, len(values) + 1)]


@pytest.mark.parametrize("unit", OTHER)
def test_the_other_unit_is_the_one_of_an_independent_library(unit: str) -> None:
    expected = [UNITS.Quantity(value, unit).to(OTHER[unit]).magnitude for value in TYPED]
    assert other(unit, TYPED) == pytest.approx(expected, rel=1e-12)


def test_fractions_of_an_inch_are_the_published_centimeters() -> None:
    expected = [conversion(f"{text} in in cm") for text in ("1/8", "1/4", "1/2", "1")]
    assert other("in", (0.125, 0.25, 0.5, 1)) == pytest.approx(expected, rel=1e-12)


@pytest.mark.parametrize("system", ["US misses (ASTM)", "US misses (home-sewing pattern size chart)"])
def test_size_charts_in_inches_are_the_same_in_centimeters(system: str) -> None:
    # ASTM D5585-11e1 Table 1; home-sewing chart after CS 215-58. Centimeters there are rounded to 0.01.
    own = [row for row in rows("us_size_tables.csv") if row["system"] == system]
    inches = tuple(dict.fromkeys(float(row["value_in"]) for row in own))
    centimeters = {float(row["value_in"]): float(row["value_cm"]) for row in own}
    for typed, got in zip(inches, other("in", inches), strict=True):
        assert got == pytest.approx(centimeters[typed], abs=0.005 + 1e-9), typed


@pytest.mark.parametrize("unit", OTHER)
def test_a_seam_in_any_unit_takes_thread_by_the_meter(unit: str) -> None:
    meters = Shown(style={"unit": unit}).number("style.unit_in_meters")
    assert meters == pytest.approx(UNITS.Quantity(1, unit).to("m").magnitude, rel=1e-15)


def test_factors_for_yards_and_ounces_are_exact() -> None:
    factor = lengths.OUNCE_PER_SQUARE_YARD_GSM
    ounce = UNITS.Quantity(1, "ounce / yard ** 2").to("g / m ** 2").magnitude
    assert factor == pytest.approx(ounce, rel=1e-12)
    assert factor == pytest.approx(conversion("1 oz/yd2 in g/m2"), abs=5e-7)
    assert 1 / factor == pytest.approx(conversion("1 g/m2 in oz/yd2"), abs=5e-7)
    assert 180 / factor == pytest.approx(conversion("180 g/m2 in oz/yd2"), abs=5e-5)
    # 16 CFR 1610 takes plain fabrics of 2.6 oz/yd2 out of testing.
    assert 2.6 * factor == pytest.approx(conversion("2.6 oz/yd2 in g/m2"), abs=5e-3)
    assert conversion("1 yd in m") == lengths.YARD_M


def test_a_fabric_at_the_federal_weight_is_not_cautioned_and_a_lighter_one_is() -> None:
    # 16 CFR 1610.1(d): 2.6 oz/yd2 and more (88.2 g/m2 there) needs no test where the surface is plain.
    def cautions(weight: float) -> float:
        fabric = {"item": "Voile", "group": "fabric", "kind": "fabric", "weight": weight}
        return Shown(style={"market_us": "yes"}, materials={"bom": [fabric]}).number("checks.caution_flammability_us")

    limit = 2.6 * lengths.OUNCE_PER_SQUARE_YARD_GSM
    assert cautions(88.2) == 0
    assert cautions(limit - 0.1) == 1


def test_weights_in_any_unit_are_those_of_an_independent_library() -> None:
    # Cloth g/m2, yarn and cord g/m: unit_conversions.csv and pint. Counts say how much length one weight has.
    pound_of_hanks = UNITS.Quantity(1, "lb").to("g").magnitude / (840 * UNITS.Quantity(1, "yd").to("m").magnitude)
    expected = {
        "g/m²": 7.0,
        "oz/yd²": 7 * UNITS.Quantity(1, "oz / yd ** 2").to("g / m ** 2").magnitude,
        "tex": 7 * UNITS.Quantity(1, "tex").to("g / m").magnitude,
        "dtex": 7 * UNITS.Quantity(1, "dtex").to("g / m").magnitude,
        "denier": 7 * UNITS.Quantity(1, "denier").to("g / m").magnitude,
        "Ne": pound_of_hanks / 7,
        "Nm": 1 / 7,
        "ticket": 3 / 7,
    }
    bom = [{"item": unit, "weight": 7, "weight_unit": unit} for unit in expected]
    book = Shown(materials={"bom": bom})
    shown = [book.number(f"materials.bom[M{n}].base") for n in range(1, len(bom) + 1)]
    assert shown == pytest.approx(list(expected.values()), rel=1e-12)
    factors = published("unit_conversions.csv", "from")
    assert float(factors["oz/yd2"]["factor"]) == pytest.approx(expected["oz/yd²"] / 7, rel=1e-12)
    assert float(factors["denier"]["factor"]) * 1000 == pytest.approx(expected["denier"] / 7, rel=1e-12)


@pytest.mark.parametrize(
    ("use", "unit", "meters"),
    [("yd", "yd", 1.0), ("in", "in", 1.0), ("cm", "cm", 1.0), ("m²", "m ** 2", 1.5), ("yd²", "yd ** 2", 1.5)],
)
def test_a_use_in_any_unit_is_that_of_an_independent_library(use: str, unit: str, meters: float) -> None:
    # One metre of cloth 1.5 m wide, as length or as area.
    book = Shown(
        materials={"bom": [{"item": "Cloth", "group": "fabric", "unit": use}]},
        order={"sizes": [{"row": "M", "pieces": 1}]},
        **{"yield": {
            "fabrics": [{"material": "M1", "usable": 150, "efficiency": 1}],
            "pieces": [{"material": "M1", "piece": "All of it", "count": 1, "long_plus": 100, "wide_plus": 150}],
        }},
    )  # fmt: skip
    basic = "m ** 2" if "**" in unit else "m"
    expected = UNITS.Quantity(meters, basic).to(unit).magnitude
    assert book.number("yield.fabrics[B1].worked_out") == pytest.approx(expected, rel=1e-12)
