"""What a command does beyond the six verbs of `sheetgen.api`: markers, cut plans, standing, demo, reference."""
