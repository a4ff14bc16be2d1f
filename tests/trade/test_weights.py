"""Weights and yarn counts are those of the published factors."""

import pytest

from tests.lists import listed
from tests.trade.tables import rows

FACTORS = {row["quantity"]: float(row["value"].split()[0]) for row in rows("conversions.csv")}


@pytest.mark.parametrize(
    ("number", "unit", "wanted"),
    [
        # conversions.csv: exact unit definitions; yarn relations on textile course pages.
        (5, "oz/yd²", FACTORS["5 oz/yd2 in g/m2"]),
        (2.6, "oz/yd²", FACTORS["2.6 oz/yd2 in g/m2"]),
        (30, "Ne", FACTORS["Ne 30 in tex"] / 1000),
        (150, "denier", FACTORS["150 denier in tex"] / 1000),
        (40, "Ne", FACTORS["Ne 40 in dtex"] / 10000),
        (120, "ticket", 0.025),  # unit_conversions.csv: ticket 120 is tex 25, a convention
    ],
)
def test_published_conversions(number: float, unit: str, wanted: float) -> None:
    row = next(row for row in listed("weights") if row["unit"] == unit)
    grams = row["factor"] / number if row["inverse"] == "yes" else row["factor"] * number
    assert grams == pytest.approx(wanted, rel=1e-4)


def test_units_of_use_are_exact() -> None:
    factors = {row["unit"]: row["factor"] for row in listed("units")}
    assert (factors["yd"], factors["lb"], factors["dozen"], factors["gross"]) == (0.9144, 453.59237, 12, 144)
    assert factors["yd²"] == pytest.approx(0.83612736, rel=1e-15)
