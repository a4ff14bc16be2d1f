"""Audits damaged copies of a return: each is judged or refused in one sentence, in time and within memory.

    python -m tests.hostile.fuzz                       10,000 files, seeds 0 to 9,999, of the overshirt's return
    python -m tests.hostile.fuzz --files 200 FILE.ods  so many, of another file

A traceback, more than 10 seconds of processor time or 500 MB for one file are faults; ends with status 1 on one.
"""

from __future__ import annotations

import argparse
import os
import resource
import sys
import tempfile
import time
import traceback
from collections import Counter
from functools import partial
from multiprocessing import get_context
from pathlib import Path
from typing import NamedTuple

from sheetgen.audit import RULES
from sheetgen.audit.run import audit
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from tests.hostile.damage import damaged
from tests.kept import keep_in
from tests.loop import loop

SECONDS, MEGABYTES = 10.0, 500
"""What one file may take."""
_TOLD_EVERY = 500


class Outcome(NamedTuple):
    """What came of one file: judged, refused or a fault, and the words of a fault."""

    seed: int
    sort: str
    seconds: float
    words: str = ""


def tried(seed: int, source: Path, receipt: Path | None) -> Outcome:
    """Damage the file with that seed and audit it."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"damaged{source.suffix}"
        path.write_bytes(damaged(source.read_bytes(), seed))
        started = time.process_time()
        try:
            audit(BOOK, RULES, path, receipt)
            sort, words = "judged", ""
        except UserError as error:
            words = str(error)
            sort = "refused" if "\n" not in words.strip() and len(words) < 600 else "no sentence"
        except Exception:
            sort, words = "traceback", traceback.format_exc()
        seconds = time.process_time() - started
    if seconds > SECONDS:
        sort = "too long"
    if resource.getrusage(resource.RUSAGE_SELF).ru_maxrss > MEGABYTES * 1024:
        sort = "too large"
    return Outcome(seed, sort, seconds, words if sort not in {"judged", "refused"} else "")


def main() -> int:
    """Try them and say what came of them."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("file", nargs="?", type=Path, help="a return; without one that of the overshirt")
    parser.add_argument("--files", type=int, default=10_000, help="how many damaged files (10,000)")
    parser.add_argument("--first", type=int, default=0, help="the first seed (0)")
    words = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        source, receipt = words.file, None
        if source is None:
            keep_in(Path(folder))
            source, receipt = loop() / "a-returned.xlsx", loop() / "a-issued.receipt.json"
        count: Counter[str] = Counter()
        slowest = 0.0
        # The executor of concurrent.futures that renews its workers stands still after some thousand files (Python 3.11).
        with get_context("spawn").Pool(os.cpu_count(), maxtasksperchild=20) as pool:
            work = partial(tried, source=source, receipt=receipt)
            for one in pool.imap(work, range(words.first, words.first + words.files), chunksize=10):
                if one.seed % _TOLD_EVERY == 0:
                    print(f"at seed {one.seed}", file=sys.stderr, flush=True)
                count[one.sort] += 1
                slowest = max(slowest, one.seconds)
                if one.words or one.sort not in {"judged", "refused"}:
                    print(f"seed {one.seed}: {one.sort}, {one.seconds:.1f} s\n{one.words[:1500]}", flush=True)
    print(", ".join(f"{number:,} {sort}" for sort, number in count.most_common()), f"slowest {slowest:.1f} s")
    return 1 if set(count) - {"judged", "refused"} else 0


if __name__ == "__main__":
    sys.exit(main())
