"""Drawing: the garment to scale from its measurements, as SVG text; drawn anew whenever a workbook is built."""

from sheetgen.drawing.closeups import closeups, shown_closeups
from sheetgen.drawing.diagram import diagram
from sheetgen.drawing.flat import Colors, area_targets, flat
from sheetgen.drawing.measures import Measure
from sheetgen.drawing.nested import nested

__all__ = ["Colors", "Measure", "area_targets", "closeups", "diagram", "flat", "nested", "shown_closeups"]
