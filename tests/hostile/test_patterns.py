"""Formula text of any length is looked through in one go: what takes a second at 60,000 characters takes hours at a million.

Found by the damaged files (`python -m tests.hostile.fuzz`, seed 4434): one long word in a formula took 22 seconds.
"""

from __future__ import annotations

import subprocess
import sys

import pytest

RUNS = ("a", "A1", "a.", "[", "'", '"', "['", "[a", "(", "{", " ", "$A", "|", ";")
LENGTH = 1_000_000
SECONDS = 10
"""What one file may take (`tests/hostile/fuzz.py`); as it was, the first of these takes an hour."""
_PROGRAM = """
import resource, sys
resource.setrlimit(resource.RLIMIT_CPU, ({seconds}, {seconds}))
from {module} import {name}
{name}("=" + ({run!r} * {length})[:{length}])
print("done")
"""


@pytest.mark.parametrize("run", RUNS)
@pytest.mark.parametrize(
    ("module", "name"),
    [("sheetgen.workbook.model.formulas", "alarming"), ("sheetgen.workbook.read.open_formula", "excel_formula")],
)
def test_a_long_run_of_one_thing_is_passed_in_one_go(module: str, name: str, run: str) -> None:
    program = _PROGRAM.format(seconds=SECONDS, module=module, name=name, run=run, length=LENGTH)
    done = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=False)
    assert done.stdout == "done\n", done.stderr[-300:]
