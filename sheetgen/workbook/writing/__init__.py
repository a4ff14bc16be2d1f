"""xlsxwriter's one door: a planned book with its values becomes a file, whole or not at all."""
