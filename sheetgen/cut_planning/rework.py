"""One question to the solver: a plan in which some markers and some plies may change, the rest stays as it is.

Solved by CP-SAT of OR-tools (Apache-2.0), the only place where it is imported, and only when a plan is made. Where both
a lay's marker and its plies may change, there is a yes or no for each number of garments of a size; where it says yes,
the pieces cut are that number times the plies. All else is plain sums.
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from dataclasses import dataclass
from importlib import import_module
from itertools import pairwise
from typing import Any, Literal

from sheetgen.cut_planning.draft import Cut
from sheetgen.cut_planning.order import Order

Goal = Literal["short", "over", "plies"]
"""What is to be as few as possible: pieces short (the other goals allow none), pieces over, plies."""


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
    """The plan found (None: none), its pieces short, over, or plies, and whether the solver proved that this is all."""

    cuts: tuple[Cut, ...] | None
    value: int
    proved: bool


def reworked(
    asked: Question, cuts: Sequence[Cut], markers: Set[int], plies: Set[int], effort: float, *, prepared: bool = False
) -> Answer:
    """The best plan that differs from `cuts` only in the markers and plies of these numbers.

    `effort` is in the solver's own count of work, never in seconds: the answer does not hang on the machine's load.
    `prepared` lets it simplify the question first, which is worth its time only for a proof.
    """
    return _Model(asked, cuts, markers, plies).answer(effort, prepared)


class _Model:
    """The question as constraints over whole numbers; what may not change is a plain number in them."""

    def __init__(self, asked: Question, cuts: Sequence[Cut], markers: Set[int], plies: Set[int]) -> None:
        self._cp: Any = import_module("ortools.sat.python.cp_model")
        self._model: Any = self._cp.CpModel()
        self._asked, self._order = asked, asked.order
        self._highest = self._order.most_plies * (asked.lays - asked.groups + 1)
        self._numbers = [
            (
                self._wholes(marker, self._order.most_garments) if number in markers else list(marker),
                self._wholes(its_plies, self._highest) if number in plies else list(its_plies),
            )
            for number, (marker, its_plies) in enumerate(cuts)
        ]
        for number in markers:
            self._model.add(sum(self._numbers[number][0]) <= self._order.most_garments)
        self._limit_heights(plies)
        if len(markers) == len(plies) == len(cuts) > 1:
            # Else each plan would be there once for each order of its lays.
            for (_, high), (_, low) in pairwise(self._numbers):
                self._model.add(sum(high) >= sum(low))
        self._cells([self._pieces(number, number in markers & plies) for number in range(len(cuts))])

    def answer(self, effort: float, prepared: bool) -> Answer:
        """Solve it: one worker, for several would race, and the winner decide which of two equal plans comes out."""
        solver = self._cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.catch_sigint_signal = False  # Ctrl-C ends the program, not one step of the search
        solver.parameters.max_deterministic_time = effort
        solver.parameters.cp_model_presolve = prepared
        if not prepared:
            # Measured: steps come further without the view in fractions, which costs more than it cuts off.
            solver.parameters.linearization_level = 0
        status = solver.solve(self._model)
        if status not in (self._cp.OPTIMAL, self._cp.FEASIBLE):
            return Answer(None, 0, proved=status == self._cp.INFEASIBLE)
        cuts = tuple(
            (tuple(map(solver.value, marker)), tuple(map(solver.value, plies))) for marker, plies in self._numbers
        )
        return Answer(cuts, round(solver.objective_value), proved=status == self._cp.OPTIMAL)

    def _wholes(self, now: Sequence[int], most: int) -> list[Any]:
        numbers = [self._model.new_int_var(0, most, "") for _ in now]
        for number, value in zip(numbers, now, strict=True):
            self._model.add_hint(number, value)
        return numbers

    def _limit_heights(self, free: Set[int]) -> None:
        """Each group fits its lays, and all have no more lays than asked for."""
        most, left = self._order.most_plies, self._asked.lays
        lays = []
        for number, (_, plies) in enumerate(self._numbers):
            if number not in free:
                left -= max(1, -(-sum(plies) // most))
            elif self._highest == most:
                self._model.add(sum(plies) <= most)
                left -= 1
            else:
                lays.append(self._model.new_int_var(1, self._highest // most, ""))
                self._model.add(sum(plies) <= most * lays[-1])
        if lays:
            self._model.add(sum(lays) <= left)

    def _pieces(self, number: int, both: bool) -> list[list[Any]]:
        """Pieces of each color and size that a group cuts: garments times plies."""
        marker, plies = self._numbers[number]
        if not both:
            return [[garments * count for garments in marker] for count in plies]
        columns = [self._products(size, garments, plies) for size, garments in enumerate(marker)]
        rows = [list(row) for row in zip(*columns, strict=True)]
        for row, count in zip(rows, plies, strict=True):
            # Follows from the rest, but not for the solver's view in fractions.
            self._model.add(sum(row) <= self._order.most_garments * count)
        return rows

    def _products(self, size: int, garments: Any, plies: Sequence[Any]) -> list[Any]:
        chosen = [self._model.new_bool_var("") for _ in range(self._order.most_garments + 1)]
        self._model.add_exactly_one(chosen)
        self._model.add(garments == sum(number * yes for number, yes in enumerate(chosen)))
        products = []
        for color, count in enumerate(plies):
            product = self._model.new_int_var(0, self._order.most_pieces(color, size), "")
            for number, yes in enumerate(chosen):
                self._model.add(product == number * count).only_enforce_if(yes)
            products.append(product)
        return products

    def _cells(self, pieces: list[list[list[Any]]]) -> None:
        """What each cell asks, and the goal."""
        order, model = self._order, self._model
        short, over = [], []
        for color, row in enumerate(order.need):
            for size, need in enumerate(row):
                cut = sum(group[color][size] for group in pieces)
                over.append(model.new_int_var(0, order.room[color][size], ""))
                if self._asked.goal == "short":
                    short.append(model.new_int_var(0, need, ""))
                    model.add(cut + short[-1] - over[-1] == need)
                else:
                    model.add(cut - over[-1] == need)
        if self._asked.most_over is not None:
            model.add(sum(over) <= self._asked.most_over)
        plies = [count for _, group in self._numbers for count in group]
        model.minimize(sum({"short": short, "over": over, "plies": plies}[self._asked.goal]))
