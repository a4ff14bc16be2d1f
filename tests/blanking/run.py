"""Empties every typed cell of the samples and of three starters, and types rubbish into it.

So it does with one cell of every entry that the style leaves blank. No cell may then show an error, and a cell that was emptied may not make a figure another one without a word.

    python -m tests.blanking.run                 all styles, all sorts of rubbish
    python -m tests.blanking.run trousers        one style

Ends with status 1 on either.
"""

from __future__ import annotations

import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor

from tests.blanking.emptied import IN_BLANK, RUBBISH, STYLES, bench, in_silence


def errors(style: str) -> list[str]:
    """What was typed where, and what came of it; the last line counts the cells."""
    of = bench(style)
    places = list(of.inputs())
    found: Counter[str] = Counter()
    for sort, value in RUBBISH.items():
        for place in places:
            outcome = of.tried(place, value)
            if hit := outcome.errors:
                found[f"{style} {place} {sort}: {len(hit)} errors, first {hit[0]}"] += 1
            if value is None and (others := in_silence(of, outcome)):
                first, (before, after) = next(iter(others.items()))
                found[
                    f"{style} {place} {sort}: {len(others)} figures in silence, {first} from {before} to {after}"
                ] += 1
    left_blank = list(of.not_filled())
    for place in left_blank:
        for sort in IN_BLANK:
            if hit := of.tried(place, RUBBISH[sort]).errors:
                found[f"{style} {place} {sort} where it was blank: {len(hit)} errors, first {hit[0]}"] += 1
    return [
        *found,
        f"{style}: {len(places)} cells, each {len(RUBBISH)} times; {len(left_blank)} left blank, each {len(IN_BLANK)} times",
    ]


def main() -> int:
    """Try them all."""
    styles = sys.argv[1:] or STYLES
    with ProcessPoolExecutor() as pool:
        results = list(pool.map(errors, styles))
    for lines in results:
        print("\n".join(lines), flush=True)
    return 1 if any(len(lines) > 1 for lines in results) else 0


if __name__ == "__main__":
    sys.exit(main())
