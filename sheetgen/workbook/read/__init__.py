"""Files into values: is it safe, where does everything stand, what was typed, what is lost or was added."""

import os

os.environ.setdefault("OPENPYXL_LXML", "False")
"""openpyxl takes another library for its XML where that happens to be installed; a file is to be read alike on all machines."""
os.environ.setdefault("OPENPYXL_DEFUSEDXML", "False")
"""The same for a guard that is a parser written in Python, a quarter of a load: `safety` has looked at every part before."""
