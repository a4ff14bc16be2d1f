"""What a workbook is before it is a file: values, places, layout, look, and the engine that calculates it."""
