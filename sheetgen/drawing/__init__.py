"""Drawing: the garment to scale from its measurements, as SVG text; drawn anew whenever a workbook is built."""

from sheetgen.drawing.diagram import diagram
from sheetgen.drawing.measures import GARMENTS, Measure
from sheetgen.drawing.nested import nested

__all__ = ["GARMENTS", "Measure", "diagram", "nested"]
