"""What a material weighs and how it is counted: weights per area and yarn counts, units of use, exact factors.

Used by the materials, yield and label sheets. Factors follow from the definitions of pound, yard and the yarn
systems (1 lb = 453.59237 g, 1 yd = 0.9144 m; tex: g per km; Ne: hanks of 840 yd per lb), as in NIST SP 811 and the
yarn count tables that restate ISO 1144. The ticket number is a maker's convention: 3000 / tex.
"""

from typing import Final, Literal, NamedTuple

from sheetgen.trade.lengths import INCH_CM, OUNCE_G, OUNCE_PER_SQUARE_YARD_GSM, YARD_M

POUND_G: Final = OUNCE_G * 16
"""Grams in one avoirdupois pound, exact by definition (453.59237)."""
HANK_M: Final = 840 * YARD_M
"""Metres in one hank of the English cotton count."""

Of = Literal["area", "length", "piece"]
Counted = Literal["length", "area", "weight", "piece"]


class WeightUnit(NamedTuple):
    """One way to state a weight: grams per m², m or piece are `factor` x number, or `factor` / number if `inverse`."""

    unit: str
    of: Of
    factor: float
    inverse: bool = False


class UseUnit(NamedTuple):
    """One unit of use and of price: `factor` of the basic unit (m, m², g, piece)."""

    unit: str
    of: Counted
    factor: float


WEIGHT_UNITS: Final = (
    WeightUnit("g/m²", "area", 1),
    WeightUnit("oz/yd²", "area", OUNCE_PER_SQUARE_YARD_GSM),
    WeightUnit("g/m", "length", 1),
    WeightUnit("tex", "length", 0.001),
    WeightUnit("dtex", "length", 0.0001),
    WeightUnit("denier", "length", 1 / 9000),
    WeightUnit("Ne", "length", POUND_G / HANK_M, inverse=True),
    WeightUnit("Nm", "length", 1, inverse=True),
    WeightUnit("ticket", "length", 3, inverse=True),  # a convention: tex = 3000 / ticket; labels round
    WeightUnit("g a piece", "piece", 1),
)
"""Cloth by area, yarn and cord by length, buttons and zips by piece."""

USE_UNITS: Final = (
    UseUnit("m", "length", 1),
    UseUnit("cm", "length", 0.01),
    UseUnit("yd", "length", YARD_M),
    UseUnit("in", "length", INCH_CM / 100),
    UseUnit("m²", "area", 1),
    UseUnit("yd²", "area", YARD_M**2),
    UseUnit("kg", "weight", 1000),
    UseUnit("g", "weight", 1),
    UseUnit("lb", "weight", POUND_G),
    UseUnit("oz", "weight", OUNCE_G),
    UseUnit("pc", "piece", 1),
    UseUnit("set", "piece", 1),
    UseUnit("pair", "piece", 1),
    UseUnit("dozen", "piece", 12),
    UseUnit("gross", "piece", 144),
)
"""Units in which a material is used, bought and priced."""
