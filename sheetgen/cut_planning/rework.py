"""One question to the solver: a plan in which some markers and some plies may change, the rest stays as it is.

A number is a sum of literals: a marker's garments of a size are counted, plies are written in binary. Where both a lay's
marker and its plies may change, the pieces cut are the sum over both. All else is plain sums.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence, Set
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal as OneOf

from sheetgen.cut_planning.draft import Cut
from sheetgen.cut_planning.order import Order
from sheetgen.cut_planning.solver import Literal, Solver, Term

Goal = OneOf["short", "over", "plies"]
"""What is to be as few as possible: pieces short (the other goals allow none), pieces over, plies."""
Number = int | list[Term]
"""What is given, or what may change."""


@dataclass(frozen=True, slots=True)
class Question:
    """`groups` markers, in all at most `lays` lays, and at most `most_over` pieces over (None: as the order allows)."""

    order: Order
    goal: Goal
    groups: int
    lays: int
    most_over: int | None = None


@dataclass(frozen=True, slots=True)
class Answer:
    """The plan found (None: none), and whether the solver came to the end: none is better, or none is at all."""

    cuts: tuple[Cut, ...] | None
    proved: bool


def reworked(
    asked: Question, cuts: Sequence[Cut], markers: Set[int], plies: Set[int], most: int, conflicts: int
) -> Answer:
    """The best plan that differs from `cuts` only in the markers and plies of these numbers.

    Only one with at most `most` of what is to be few is asked for. The work is limited in the solver's conflicts, never
    in seconds: the answer does not hang on the machine's load.
    """
    return Rework(asked, cuts, markers, plies, most).answer(conflicts)


def value_of(asked: Question, cuts: Sequence[Cut]) -> int:
    """How much of what is to be few a plan has."""
    if asked.goal == "plies":
        return sum(sum(plies) for _, plies in cuts)
    balance = [
        sum(marker[size] * plies[color] for marker, plies in cuts) - need
        for color, row in enumerate(asked.order.need)
        for size, need in enumerate(row)
    ]
    return sum(max(0, -pieces if asked.goal == "short" else pieces) for pieces in balance)


class Rework:
    """The question as literals; what may not change is a plain number."""

    def __init__(
        self, asked: Question, cuts: Sequence[Cut], markers: Set[int], plies: Set[int], most: int, *, best: bool = True
    ) -> None:
        self.solver = Solver()
        self._asked, self._order, self._cuts = asked, asked.order, cuts
        self._highest = self._order.most_plies * (asked.lays - asked.groups + 1)
        self.numbers = [
            (
                self._counted(marker) if number in markers else list(marker),
                self._written(its_plies) if number in plies else list(its_plies),
            )
            for number, (marker, its_plies) in enumerate(cuts)
        ]
        for number in markers:
            self.solver.at_most(_terms(self.numbers[number][0])[0], self._order.most_garments)
        self._limit_heights(plies)
        if best and len(markers) == len(plies) == len(cuts) > 1:
            # Else each plan would be there once for each order of its lays.
            for (_, high), (_, low) in pairwise(self.numbers):
                self._no_lower(_terms(high)[0], _terms(low)[0])
        counted, fixed = self._goal()
        self.solver.at_most(counted, most - fixed)
        if best:
            self.solver.fewest(counted, in_leaps=asked.goal == "short")  # measured: finds plans of fewer lays

    def answer(self, conflicts: int, given: Sequence[Literal] = ()) -> Answer:
        """Solve it, with these literals given."""
        yes, ended = self.solver.solve(conflicts, given)
        if yes is None:
            return Answer(None, ended)
        return Answer(tuple((_values(marker, yes), _values(plies, yes)) for marker, plies in self.numbers), ended)

    def from_first(self) -> Iterator[Literal]:
        """All that may change, the first marker's first size first, and of each number what counts most first.

        Garments are said from one up: the second only where there is a first.
        """
        for marker, plies in self.numbers:
            for garments in marker:
                yield from (step for _, step in _terms([garments])[0])
            for count in plies:
                yield from (digit for _, digit in reversed(_terms([count])[0]))

    def _counted(self, now: Sequence[int]) -> list[Number]:
        numbers: list[Number] = []
        for value in now:
            steps = [self.solver.choice(value >= count) for count in range(1, self._order.most_garments + 1)]
            for lower, higher in pairwise(steps):
                self.solver.never(higher, -lower)
            numbers.append([(1, step) for step in steps])
        return numbers

    def _written(self, now: Sequence[int]) -> list[Number]:
        return [self._binary(value, self._highest) for value in now]

    def _binary(self, value: int, most: int) -> list[Term]:
        return [(1 << digit, self.solver.choice(bool(value >> digit & 1))) for digit in range(most.bit_length())]

    def _no_lower(self, high: list[Term], low: list[Term]) -> None:
        opposite = [(weight, -literal) for weight, literal in low]
        self.solver.at_least([*high, *opposite], sum(weight for weight, _ in low))

    def _limit_heights(self, free: Set[int]) -> None:
        """Each group fits its lays, and all have no more lays than asked for."""
        most, left = self._order.most_plies, self._asked.lays
        more: list[Literal] = []
        for number, (_, plies) in enumerate(self.numbers):
            if number not in free:
                left -= max(1, -(-sum(self._cuts[number][1]) // most))
                continue
            left -= 1
            added = [
                self.solver.choice(sum(self._cuts[number][1]) > most * lay) for lay in range(1, self._highest // most)
            ]
            more += added
            # With k lays more a group may be k times as high again.
            self.solver.at_most([*_terms(plies)[0], *((most, -lay) for lay in added)], most * (1 + len(added)))
        self.solver.at_most([(1, lay) for lay in more], left)

    def _goal(self) -> tuple[list[Term], int]:
        """What each cell asks; then the terms of the goal, and what of it is given."""
        short: list[Term] = []
        over: list[Term] = []
        asked = self._asked
        for color, row in enumerate(self._order.need):
            for size, need in enumerate(row):
                terms, fixed = self._cut(color, size)
                room = self._order.room[color][size]
                missing = self._binary(0, need) if asked.goal == "short" else []
                self.solver.at_least([*terms, *missing], need - fixed)
                beyond: list[Term] = []
                if room and (asked.goal == "over" or asked.most_over is not None):
                    beyond = [(1, self.solver.choice(False)) for _ in range(room)]
                # What is not said to be over is missing from the room.
                self.solver.at_most([*terms, *((1, -piece) for _, piece in beyond)], need + room - fixed)
                short += missing
                over += beyond
        if asked.most_over is not None:
            self.solver.at_most(over, asked.most_over)
        if asked.goal == "plies":
            return _terms([count for _, plies in self.numbers for count in plies])
        return (short if asked.goal == "short" else over), 0

    def _cut(self, color: int, size: int) -> tuple[list[Term], int]:
        """Pieces of a color and size that all groups cut: garments times plies."""
        terms: list[Term] = []
        fixed = 0
        for marker, plies in self.numbers:
            garments, count = marker[size], plies[color]
            if isinstance(garments, int) and isinstance(count, int):
                fixed += garments * count
            elif isinstance(garments, int):
                terms += [(garments * weight, digit) for weight, digit in _terms([count])[0] if garments]
            elif isinstance(count, int):
                terms += [(count, step) for _, step in garments if count]
            else:
                self._fit(garments, count, self._order.most_pieces(color, size))
                terms += [(weight, self.solver.both(step, digit)) for _, step in garments for weight, digit in count]
        return terms, fixed

    def _fit(self, garments: list[Term], plies: list[Term], most: int) -> None:
        """Follows from the rest, but is seen sooner so: so many garments allow only so many plies."""
        for number, (_, step) in enumerate(garments, 1):
            if most // number < sum(weight for weight, _ in plies):
                self.solver.never(step, self.solver.reaches(plies, most // number + 1))


def _terms(numbers: Sequence[Number]) -> tuple[list[Term], int]:
    """The terms of a sum, and what of it is given."""
    fixed = sum(number for number in numbers if isinstance(number, int))
    return [term for number in numbers if not isinstance(number, int) for term in number], fixed


def _values(numbers: Sequence[Number], yes: Set[Literal]) -> tuple[int, ...]:
    return tuple(
        number if isinstance(number, int) else sum(weight for weight, literal in number if literal in yes)
        for number in numbers
    )
