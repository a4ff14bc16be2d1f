"""Audits workbooks that are nobody's of ours: each is told in one sentence, with status 3, in two seconds.

    python -m tests.hostile.foreign FOLDER…      all .xlsx, .xlsm, .xlsb, .xls and .ods files below them

Their own packages' test data is what such folders hold: take the sources of spreadsheet libraries. Ends with status 1 on a fault.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import os
import sys
import time
import traceback
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import NamedTuple

from sheetgen.cli import main as sheetgen

SECONDS = 2.0
ENDINGS = {".xlsx", ".xlsm", ".xlsb", ".xls", ".ods"}


class Told(NamedTuple):
    """What the audit said of a foreign file: its sentence without the file's name, or what is wrong with it."""

    path: Path
    sentence: str
    fault: str
    seconds: float


def told(path: Path) -> Told:
    """Audit one file as the command does."""
    said, complained = io.StringIO(), io.StringIO()
    started = time.process_time() + sum(os.times()[2:4])
    fault = ""
    try:
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(complained):
            status = sheetgen(["audit", str(path)])
        fault = "" if status == 3 else f"status {status}"
    except SystemExit as end:
        fault = "" if end.code == 3 else f"status {end.code}"
    except Exception:
        fault = traceback.format_exc()
    seconds = time.process_time() + sum(os.times()[2:4]) - started
    words = " ".join(complained.getvalue().split()) or " ".join(said.getvalue().split())
    if seconds > SECONDS:
        fault = fault or f"{seconds:.1f} s"
    return Told(path, words.replace(str(path), "FILE"), fault, seconds)


def main() -> int:
    """Audit them all and say how it went."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folders", nargs="+", type=Path)
    files = sorted(
        path
        for folder in parser.parse_args().folders
        for path in folder.rglob("*")
        if path.suffix.lower() in ENDINGS and path.is_file()
    )
    faults = 0
    slowest = 0.0
    with ProcessPoolExecutor(os.cpu_count()) as pool:
        for one in pool.map(told, files, chunksize=4):
            slowest = max(slowest, one.seconds)
            if one.fault:
                faults += 1
                print(f"{one.path}: {one.fault[-800:]}: {one.sentence[:300]}", flush=True)
    print(f"{len(files)} files, {faults} faults, slowest {slowest:.1f} s")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
