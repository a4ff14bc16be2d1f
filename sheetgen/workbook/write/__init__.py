"""Values into files: cells, formats, entry checks, charts, paper."""
