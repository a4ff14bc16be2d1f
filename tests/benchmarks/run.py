"""What sheetgen's commands cost, beside the least that is known for the same job.

`python tests/benchmarks/run.py` measures, prints, and says what is more than a tenth worse than last written;
`--write` writes the tables of README.md and measured.json.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path
from tempfile import TemporaryDirectory

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.benchmarks.cases import CASES  # noqa: E402 - the script runs from a checkout
from tests.benchmarks.figures import Measured, commit_of, compared, load, machine, save, worse  # noqa: E402
from tests.benchmarks.measuring import PARTS, Bench  # noqa: E402
from tests.benchmarks.stage import Stage  # noqa: E402
from tests.benchmarks.tables import PAGE, put, tables  # noqa: E402

ROUNDS, GROWTH_ROUNDS = 7, 3
QUICK = (1, 1)


def main() -> int:
    """Measure what was asked for and print it; status 2 for a word that names nothing."""
    given = _arguments()
    parts = chosen(given.only, given.skip)
    with TemporaryDirectory() as folder:
        stage = Stage(ROOT, Path(folder) / "ours")
        if given.profile:
            return _profile(stage, parts)
        other = Stage(given.checkout.resolve(), Path(folder) / "before") if given.checkout else None
        rounds, growth_rounds = QUICK if given.quick else (given.rounds, min(given.rounds, GROWTH_ROUNDS))
        start = time.monotonic()
        bench = Bench(stage, other, rounds, growth_rounds, lambda words: print(words, file=sys.stderr, flush=True))
        figures = bench.measure(parts)
        measured = Measured(
            figures, machine(), f"medians of {rounds} rounds in turns, of {growth_rounds} in the tables of growth",
            commit_of(other.checkout) if other else "", time.monotonic() - start,
        )  # fmt: skip
    last = load()
    print("\n".join(compared(measured, last)))
    if found := worse(measured, last):
        print(f"More than a tenth worse than last written, say why: {'; '.join(found)}.")
    print(f"Took {measured.took:.0f} s.")
    if given.write:
        whole = measured.with_last(last)
        save(whole)
        PAGE.write_text(put(PAGE.read_text("utf-8"), tables(whole)), "utf-8")
        print(f"Written: {PAGE}")
    return 0


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument(
        "--only", default="", help=f"Some of {', '.join(PARTS)}; audit means both audits, growth all four."
    )
    parser.add_argument("--skip", default="", help="All but these.")
    parser.add_argument("--quick", action="store_true", help="One round each: to see that it works.")
    parser.add_argument("--rounds", type=int, default=ROUNDS, help=f"Rounds of each, {ROUNDS} if not given.")
    parser.add_argument("--checkout", type=Path, help="Another checkout to measure in turns with this one.")
    parser.add_argument("--profile", action="store_true", help="Measure nothing: where the time of the commands goes.")
    parser.add_argument("--write", action="store_true", help="Write the tables and what was measured.")
    return parser.parse_args()


def chosen(only: str, skip: str) -> set[str]:
    """The parts that are named; SystemExit that names those there are for a word that names none."""
    left_out = named(skip)
    return {part for part in (named(only) if only else PARTS) if part not in left_out}


def named(words: str) -> set[str]:
    """Parts by their names or the first word of them, with commas between."""
    found: set[str] = set()
    for word in filter(None, (one.strip() for one in words.split(","))):
        parts = {part for part in PARTS if word in (part, part.partition(" ")[0])}
        if not parts:
            raise SystemExit(f"{word}: is no part; there are {', '.join(PARTS)}.")
        found |= parts
    return found


def _profile(stage: Stage, parts: Sequence[str] | set[str]) -> int:
    stage.prepare()
    if {"season", "look"} & set(parts):
        stage.prepare_season()
    for case in CASES:
        if case.name in parts:
            program = case.program(stage)
            print(f"\n{case.name}: where the time goes", flush=True)
            words = [program.words[0], "-m", "cProfile", "-s", "tottime", *program.words[1:]]
            said = subprocess.run(
                words, cwd=program.folder, env=program.whole_environment, capture_output=True, text=True, check=False
            ).stdout
            _, found, listed = said.partition(" function calls")
            print("\n".join((found + listed).splitlines()[:40]))
    return 0


if __name__ == "__main__":
    sys.exit(main())
