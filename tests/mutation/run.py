"""Puts single slips into the code where one costs a garment, and counts how many the tests find.

    python tests/mutation/run.py                     30 slips of every module, drawn with a seed
    python tests/mutation/run.py accept units --all  all slips of the modules whose path holds a word

Ends with status 1 if fewer than nine in ten are found, or if one survives that `explained.toml` does not explain.
"""

from __future__ import annotations

import argparse
import os
import random
import sys
import time
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.mutation.explained import Explained, load_explained
from tests.mutation.judge import Judge, Judged
from tests.mutation.modules import MODULES, ROOT, chosen, dotted
from tests.mutation.slips import Slip, slips

LEAST = 0.9
"""So large a share of the slips must be found by the tests."""


def main() -> int:
    """Judge the slips of the modules that were asked for."""
    words = _words()
    os.chdir(ROOT)
    good = True
    for path in chosen(words.modules):
        good = judged(path, words) and good
    return 0 if good else 1


def _words() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("modules", nargs="*", help="words of the modules' paths; all modules without one")
    parser.add_argument("--all", action="store_true", help="every slip, not a sample of them")
    parser.add_argument("--sample", type=int, default=30, help="slips of each module (30)")
    parser.add_argument("--seed", type=int, default=1, help="what the sample is drawn with (1)")
    parser.add_argument("--workers", type=int, default=os.cpu_count() or 1, help="processes at a time")
    return parser.parse_args()


def judged(path: str, words: argparse.Namespace) -> bool:
    """Judge one module and say what came of it; whether it is well tested."""
    source = (ROOT / path).read_text("utf-8")
    lines = source.splitlines()
    possible = slips(source)
    explained = load_explained().get(path, [])
    picked = possible if words.all else _sample(possible, words.sample, words.seed, path)
    started = time.monotonic()
    judge = Judge(dotted(path), source, MODULES[path])
    results = judge.verdicts(picked, words.workers, lambda _: None)
    survived = [one for one in results if one.verdict == "survived"]
    open_ones = [one for one in survived if not _is_explained(one.slip, lines, explained)]
    count = Counter(one.verdict for one in results)
    found = count["found"] + count["found by time"]
    print(
        f"{path}: {found} of {len(results)} slips found ({found / max(1, len(results)):.0%}), {count['found by time']} of "
        f"them by time; {len(survived) - len(open_ones)} survivors explained, {len(open_ones)} not; {len(possible)} "
        f"slips possible; tests {judge.seconds:.1f} s, all {time.monotonic() - started:.0f} s",
        flush=True,
    )
    for one in open_ones:
        _tell(path, one, lines)
    return found >= LEAST * len(results) and not open_ones


def _sample(possible: list[Slip], size: int, seed: int, path: str) -> list[Slip]:
    chance = random.Random(f"{seed} {path}")
    return sorted(chance.sample(possible, min(size, len(possible))))


def _is_explained(slip: Slip, lines: list[str], explained: list[Explained]) -> bool:
    line = lines[slip.line - 1].strip()
    return any(one.line == line and slip.words in one.slips for one in explained)


def _tell(path: str, one: Judged, lines: list[str]) -> None:
    print(f"  {path}:{one.slip.line}  {lines[one.slip.line - 1].strip()}\n      {one.slip.words}", flush=True)


if __name__ == "__main__":
    sys.exit(main())
