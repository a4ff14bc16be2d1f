"""What a sheet is: kinds, entries, tables, formulas by name. Knows nothing of any one sheet or file library."""
