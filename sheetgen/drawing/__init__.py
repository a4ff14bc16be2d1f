"""Drawing: the garment to scale from its measurements, as SVG text; drawn anew whenever a workbook is built."""

from sheetgen.drawing.diagram import diagram
from sheetgen.drawing.flat import Colors, area_targets, flat
from sheetgen.drawing.measures import Measure
from sheetgen.drawing.nested import nested

__all__ = ["Colors", "Measure", "area_targets", "diagram", "flat", "nested"]
