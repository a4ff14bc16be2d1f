"""Files into values: is it safe, where does everything stand, what was typed, what is lost or was added."""

import os

os.environ.setdefault("OPENPYXL_LXML", "False")
"""openpyxl takes another library for its XML where that happens to be installed; a file is to be read alike on all machines."""
