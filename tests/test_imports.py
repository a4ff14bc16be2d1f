"""What a command does not need, it does not load: read from the modules that are there when it has run."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
BRIEF = ROOT / "sample_inputs" / "overshirt" / "brief.toml"

READERS = "openpyxl python_calamine"
DRAWING = "resvg_py font_source_sans_pro sheetgen.drawing"
SOLVERS = "spyrrow clingo sheetgen.nesting sheetgen.cut_planning"
CHECKING = "sheetgen.audit sheetgen.offers sheetgen.report"
NEVER = "sheetgen.testing"

# Command -> exit status, and what is not loaded. In this order: each works on the files of those above it.
TABLE = {
    "--help": (0, f"click rich xlsxwriter formualizer PIL sheetgen.sheets {READERS} {DRAWING} {SOLVERS} {CHECKING}"),
    "sheets": (0, f"xlsxwriter formualizer PIL {READERS} {DRAWING} {SOLVERS} {CHECKING}"),
    "rules": (0, f"formualizer PIL {READERS} {DRAWING} {SOLVERS} sheetgen.offers sheetgen.report"),
    f"build {BRIEF} --out a-working.xlsx": (0, f"{READERS} {SOLVERS} {CHECKING}"),
    "start shirt --out shirt.xlsx": (0, f"{READERS} {SOLVERS} {CHECKING}"),
    "build a-working.xlsx --out b-working.xlsx": (0, f"{SOLVERS} {CHECKING}"),
    "issue a-working.xlsx --out a-issued.xlsx": (0, f"{SOLVERS} sheetgen.offers"),
    "": (0, f"openpyxl formualizer PIL sheetgen.sheets {DRAWING} {SOLVERS} {CHECKING}"),
    "season": (0, f"formualizer {DRAWING} {SOLVERS} {CHECKING}"),
    "pack a-working.xlsx": (0, f"{SOLVERS} {CHECKING}"),
    "audit a-issued.xlsx": (1, f"{DRAWING} {SOLVERS} sheetgen.offers sheetgen.style"),
    "accept a-working.xlsx a-issued.xlsx": (0, f"{SOLVERS} sheetgen.offers sheetgen.report"),
    "join a-working.xlsx a-working.xlsx b-working.xlsx --out j.xlsx": (0, f"{SOLVERS} sheetgen.offers"),
    "compare a-working.xlsx a-rev2.xlsx": (0, f"formualizer {DRAWING} {SOLVERS} {CHECKING}"),
    "compare a-working.xlsx a-issued.xlsx --out offers.xlsx": (0, f"{DRAWING} {SOLVERS} sheetgen.report sheetgen.style"),
    "cutplan a-working.xlsx --plies 60 --garments 6 --out c.xlsx": (0, f"spyrrow sheetgen.nesting {CHECKING}"),
    "marker a-working.xlsx --material M1 --garments 1 --effort 0.1 --out m.xlsx": (
        0, f"clingo sheetgen.cut_planning {CHECKING}",
    ),
}  # fmt: skip

RUN = """
import sys
from sheetgen.cli import main
status = main(sys.argv[1:])
print()
print("LOADED", status, *sys.modules)
"""


@pytest.mark.long
def test_a_command_loads_only_what_it_needs(tmp_path: Path) -> None:
    for command, (status, forbidden) in TABLE.items():
        said, loaded = ran(command, tmp_path)
        assert said == status, command
        assert sorted(loaded & {*forbidden.split(), NEVER}) == [], f"loaded by: sheetgen {command}"


def ran(command: str, folder: Path) -> tuple[int, set[str]]:
    """Exit status, and the modules that are there at the end."""
    done = subprocess.run(
        [sys.executable, "-c", RUN, *command.split()],
        check=True, capture_output=True, text=True, cwd=folder, env={**os.environ, "PYTHONPATH": os.pathsep.join(sys.path)},
    )  # fmt: skip
    mark, status, *modules = done.stdout.splitlines()[-1].split()
    assert mark == "LOADED"
    return int(status), set(modules)


def test_no_command_is_forgotten() -> None:
    from sheetgen.cli import COMMANDS

    assert {command.partition(" ")[0] for command in TABLE} == {*COMMANDS, "", "--help"} - {
        "demo"
    }  # demo runs them all


def test_the_library_loads_nothing_before_it_is_asked() -> None:
    code = "import sys, sheetgen, sheetgen.api; print(*sys.modules); sheetgen.api.build; sheetgen.build; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True, cwd=ROOT)
    before, after = (set(line.split()) for line in done.stdout.splitlines())
    assert {name for name in before if name.startswith("sheetgen")} == {"sheetgen", "sheetgen.api"}
    assert "sheetgen.api.making" in after
    assert not after & {"openpyxl", "sheetgen.audit", "sheetgen.offers"}


def test_every_public_name_is_there_and_described() -> None:
    import sheetgen
    from sheetgen import api

    assert set(sheetgen.__all__) <= set(api.__all__)
    assert set(api._STANDS_IN) == set(api.__all__)
    for name in api.__all__:
        thing = getattr(api, name)
        assert thing.__name__ == name
        assert thing.__doc__
    with pytest.raises(AttributeError, match="has no attribute 'nothing'"):
        _ = api.nothing


def test_files_are_read_by_the_same_library_on_all_machines() -> None:
    """With lxml beside it (a validator of the tests brings it) openpyxl would take that."""
    code = "import sheetgen.workbook.read.loading, openpyxl.xml, lxml; print(openpyxl.xml.LXML)"
    done = subprocess.run([sys.executable, "-c", code], check=True, capture_output=True, text=True)
    assert done.stdout.strip() == "False"
