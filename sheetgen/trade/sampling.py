"""How many pieces to inspect and how many faulty ones to accept: single sampling, normal inspection.

Used by the order and quality sheets. Source: MIL-STD-105E (1989, public domain) Tables I and II-A; ISO
2859-1:1999 Tables 1 and 2-A carry the same plans. Seen in stored sources, two copies agreeing, except: row R,
from memory; and lots above 35,000 at levels I and III, which one gathering saw and the other gave from
memory.
"""

from functools import cache
from typing import Final, NamedTuple


class LotBand(NamedTuple):
    """One row of Table I: lots from `lot_from` to `lot_to` (None: and up), a letter for each of LEVELS."""

    lot_from: int
    lot_to: int | None
    letters: str


class Plan(NamedTuple):
    """What to do with one lot: inspect `n`, accept at `accept` faulty or fewer, reject at `reject`.

    `letter` is the letter of the plan used, after following an arrow. Where `n` is the whole lot, inspect all
    of it.
    """

    letter: str
    n: int
    accept: int
    reject: int


class PlanRow(NamedTuple):
    """One answer for every lot of a band, arrows followed; where `n` is above the lot, inspect all."""

    level: str
    lot_from: int
    lot_to: int | None
    code_letter: str
    aql: float
    letter: str
    n: int
    accept: int
    reject: int


LEVELS: Final = ("S-1", "S-2", "S-3", "S-4", "I", "II", "III")
"""Special and general inspection levels; II is the usual one."""
AQLS: Final = (1.0, 1.5, 2.5, 4.0, 6.5)
"""Acceptance quality limits held here, in percent faulty."""

CODE_LETTERS: Final = (
    LotBand(2, 8, "AAAAAAB"),
    LotBand(9, 15, "AAAAABC"),
    LotBand(16, 25, "AABBBCD"),
    LotBand(26, 50, "ABBCCDE"),
    LotBand(51, 90, "BBCCCEF"),
    LotBand(91, 150, "BBCDDFG"),
    LotBand(151, 280, "BCDEEGH"),
    LotBand(281, 500, "BCDEFHJ"),
    LotBand(501, 1200, "CCEFGJK"),
    LotBand(1201, 3200, "CDEGHKL"),
    LotBand(3201, 10000, "CDFGJLM"),
    LotBand(10001, 35000, "CDFHKMN"),
    LotBand(35001, 150000, "DEGJLNP"),
    LotBand(150001, 500000, "DEGJMPQ"),
    LotBand(500001, None, "DEHKNQR"),
)
"""Table I: the letters stand in the order of LEVELS."""

SAMPLE_SIZES: Final = dict(
    zip(
        "ABCDEFGHJKLMNPQR",
        (2, 3, 5, 8, 13, 20, 32, 50, 80, 125, 200, 315, 500, 800, 1250, 2000),
        strict=True,
    )
)
"""Pieces to inspect for each letter; the standard has no I and no O."""

_DOWN, _UP = "down", "up"
_MASTER: Final[dict[str, tuple[int | str, ...]]] = {
    "A": (_DOWN, _DOWN, _DOWN, _DOWN, 0),
    "B": (_DOWN, _DOWN, _DOWN, 0, _UP),
    "C": (_DOWN, _DOWN, 0, _UP, _DOWN),
    "D": (_DOWN, 0, _UP, _DOWN, 1),
    "E": (0, _UP, _DOWN, 1, 2),
    "F": (_UP, _DOWN, 1, 2, 3),
    "G": (_DOWN, 1, 2, 3, 5),
    "H": (1, 2, 3, 5, 7),
    "J": (2, 3, 5, 7, 10),
    "K": (3, 5, 7, 10, 14),
    "L": (5, 7, 10, 14, 21),
    "M": (7, 10, 14, 21, _UP),
    "N": (10, 14, 21, _UP, _UP),
    "P": (14, 21, _UP, _UP, _UP),
    "Q": (21, _UP, _UP, _UP, _UP),
    "R": (_UP, _UP, _UP, _UP, _UP),
}
# Table II-A as printed: an acceptance number or arrow for each of AQLS; the rejection number is one more.


def plan(lot: int, level: str, aql: float) -> Plan:
    """The plan for a lot of `lot` pieces at one of LEVELS and AQLS, arrows followed.

    An arrow changes the sample size as well as the numbers. Where the sample would be as large as the lot,
    `n` is the lot: inspect all. Raises ValueError for a lot below 2 (the table starts there), another level
    or limit.
    """
    row = next(
        (row for row in plan_rows(level, aql) if row.lot_from <= lot and (row.lot_to is None or lot <= row.lot_to)),
        None,
    )
    if row is None:
        raise ValueError(f"no sampling plan for a lot of {lot}; the table starts at {CODE_LETTERS[0].lot_from}")
    return Plan(row.letter, min(row.n, lot), row.accept, row.reject)


@cache
def plan_rows(level: str, aql: float) -> tuple[PlanRow, ...]:
    """The rows of PLAN_ROWS for one of LEVELS and AQLS, by lot; ValueError for another level or limit."""
    if level not in LEVELS or aql not in AQLS:
        raise ValueError(f"no sampling plan for level {level!r} at {aql!r} percent")
    return tuple(_row(band, level, aql) for band in CODE_LETTERS)


@cache
def plan_of_letter(letter: str, aql: float) -> Plan:
    """The plan of a code letter (A to R) at one of AQLS, arrows followed; ValueError for another letter or limit."""
    if letter not in SAMPLE_SIZES or aql not in AQLS:
        raise ValueError(f"no sampling plan for letter {letter!r} at {aql!r} percent")
    used, accept = _follow(letter, AQLS.index(aql))
    return Plan(used, SAMPLE_SIZES[used], accept, accept + 1)


def _row(band: LotBand, level: str, aql: float) -> PlanRow:
    code_letter = band.letters[LEVELS.index(level)]
    used = plan_of_letter(code_letter, aql)
    return PlanRow(level, band.lot_from, band.lot_to, code_letter, aql, used.letter, used.n, used.accept, used.reject)


def _follow(code_letter: str, column: int) -> tuple[str, int]:
    """The first plan in the direction of the arrows."""
    order = tuple(_MASTER)
    at = order.index(code_letter)
    while isinstance(cell := _MASTER[order[at]][column], str):
        at += 1 if cell == _DOWN else -1
    return order[at], cell


PLAN_ROWS: Final = tuple(row for level in LEVELS for aql in AQLS for row in plan_rows(level, aql))
"""Every level, limit and lot band, arrows followed: what a look-up table in a sheet needs."""
