"""Factors that a figure is off by when a known thing went wrong, and what went wrong in words."""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.texts import marked
from sheetgen.trade.lengths import INCH_CM, OUNCE_PER_SQUARE_YARD_GSM, YARD_M
from sheetgen.trade.weights import POUND_G

COUNT: Mapping[float, str] = {
    12: marked("a dozen is counted for one"),
    1 / 12: marked("it is divided by twelve, as if it were for a dozen"),
    10: marked("the decimal point stands one place too far right"),
    0.1: marked("the decimal point stands one place too far left"),
    100: marked("the decimal point stands two places too far right, as from percent or centimeters"),
    0.01: marked("the decimal point stands two places too far left, as from percent or centimeters"),
    1000: marked("it is a thousand times too much, as from grams or millimeters"),
    0.001: marked("it is a thousandth, as from grams or millimeters"),
}
"""Factor -> what happened: slips in the count and in the decimal point."""
LENGTHS: Mapping[float, str] = {
    INCH_CM: marked("one length is in centimeters, another in inches (factor 2.54)"),
    1 / INCH_CM: marked("one length is in inches, another in centimeters (factor 2.54)"),
    10 * INCH_CM: marked("inches and millimeters are mixed (factor 25.4)"),
    0.1 / INCH_CM: marked("inches and millimeters are mixed (factor 25.4)"),
    INCH_CM**2: marked("square centimeters are taken for square inches (factor 6.4516)"),
    INCH_CM**-2: marked("square inches are taken for square centimeters (factor 6.4516)"),
    YARD_M: marked("yards are taken for meters (factor 0.9144)"),
    1 / YARD_M: marked("meters are taken for yards (factor 0.9144)"),
    36: marked("inches are taken for yards (factor 36)"),
    1 / 36: marked("it is divided by 36, as from inches to yards, once too often"),
}
"""Slips between units of length."""
WEIGHTS: Mapping[float, str] = {
    OUNCE_PER_SQUARE_YARD_GSM: marked("g/m² are taken for oz/yd² (factor 33.906)"),
    1 / OUNCE_PER_SQUARE_YARD_GSM: marked("oz/yd² are taken for g/m² (factor 33.906)"),
    OUNCE_PER_SQUARE_YARD_GSM**2: marked(
        "oz/yd² and g/m² are converted the wrong way (33.906 multiplied instead of divided)"
    ),
    OUNCE_PER_SQUARE_YARD_GSM**-2: marked(
        "oz/yd² and g/m² are converted the wrong way (33.906 divided instead of multiplied)"
    ),
    1000 / POUND_G: marked("pounds are taken for kilograms (factor 2.2046)"),
    POUND_G / 1000: marked("kilograms are taken for pounds (factor 2.2046)"),
    16: marked("ounces are taken for pounds (factor 16)"),
    1 / 16: marked("pounds are taken for ounces (factor 16)"),
}
"""Slips between units of weight."""
