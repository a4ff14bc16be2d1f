"""The pack on paper: what lies on the factory's table, one PDF, typeset from what stands in a workbook.

`pages` declares what stands on which page, `content` takes it from a file that was read, `typeset` sets it.
"""
