"""The drawing's colors and line weights: the workbook's own, so that sheet and drawing look of one hand."""

from typing import Final

INK: Final = "#22303A"
FAINT: Final = "#6B7780"
RULE: Final = "#C9D1D6"
BAND: Final = "#2F4B57"
CLOTH: Final = "#F4F6F7"
INSIDE: Final = "#E4EAED"
RIB: Final = "#EAEFF1"
MEASURE: Final = "#7A1F10"
UNEVEN: Final = "#F6CFC6"

OUTLINE, SEAM, THIN = 2.6, 1.5, 1.1
TEXT: Final = 18
"""Of 1600 units; on a drawing of 1100 pixels it is 12 pixels high, the least that reads well on paper."""
