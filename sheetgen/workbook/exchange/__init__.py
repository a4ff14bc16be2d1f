"""Values between files and people: briefs, copies with their receipts, returns taken over."""
