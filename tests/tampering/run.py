"""Tampers with cells of clean returns, class by class, and counts how many changes the audit finds at their cell.

    python -m tests.tampering.run                at least 200 cells of every class, and every written cell at least once
    python -m tests.tampering.run --cells 20     so many cells of every class instead
    python -m tests.tampering.run --write        the table goes into the README

Many changes go into one file, few into one sheet; what is missed there is tried again alone. Ends with status 1 on a miss.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections import Counter, defaultdict
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from sheetgen.workbook.model.geometry import Cell
from tests.kept import keep_in
from tests.tampering.classes import CLASSES
from tests.tampering.judge import STYLES, Batch, Missed, batches, judged
from tests.tampering.table import written_into_readme


def main() -> int:
    """Try them, print what was missed and the table's lines."""
    words = _words()
    started = time.monotonic()
    tried: Counter[str] = Counter()
    cells = 0
    missed: dict[str, list[Missed]] = defaultdict(list)
    with (
        tempfile.TemporaryDirectory() as folder,
        ProcessPoolExecutor(words.workers, initializer=_begin, initargs=(folder,)) as pool,
    ):
        for style in STYLES:
            found = pool.submit(_batches, style, words.cells, words.seed, words.cells >= 200).result()
            met: set[Cell] = set()
            for done, misses in pool.map(judged, found):
                tried.update(one.name for one in done)
                met.update(one.target.cell for one in done)
                for miss in misses:
                    missed[miss.name].append(miss)
                    print(f"missed: {miss.name}, {miss.style} {miss.where}: {' '.join(miss.said)[:200]}", flush=True)
            cells += len(met)
    for name in CLASSES:
        print(f"{name}: {tried[name] - len(missed[name])} of {tried[name]}")
    total, lost = sum(tried.values()), sum(map(len, missed.values()))
    minutes = (time.monotonic() - started) / 60
    print(f"{total - lost} of {total} changes found, {cells} cells, seed {words.seed}, {minutes:.1f} minutes")
    if words.write:
        written_into_readme(tried, {name: len(found) for name, found in missed.items()}, cells, words.seed)
    return 1 if lost else 0


def _words() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--cells", type=int, default=201, help="cells of each class over the three styles (201)")
    parser.add_argument("--seed", type=int, default=1, help="what the cells are drawn with (1)")
    parser.add_argument("--write", action="store_true", help="write the table into the README")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1, help="processes at a time")
    return parser.parse_args()


def _begin(folder: str) -> None:
    keep_in(Path(folder))


def _batches(style: str, cells: int, seed: int, every_cell: bool) -> list[Batch]:
    return batches(style, cells // len(STYLES), seed, every_cell)


if __name__ == "__main__":
    sys.exit(main())
