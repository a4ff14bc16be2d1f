"""The door to the solver: yes and no, sums of them with whole weights, and how much work may be spent.

Solved by clasp, which comes with clingo (University of Potsdam, MIT licence), the only place where it is imported, and
only when a plan is made. It learns from conflicts as solvers of satisfiability do; its work is counted in them.
"""

from __future__ import annotations

from collections.abc import Sequence, Set
from importlib import import_module
from typing import Any

Literal = int
"""A yes or no; with a minus sign its opposite."""
Term = tuple[int, Literal]
"""What a literal counts where it is yes."""

_OPTIONS = (
    "--configuration=crafty",
    "--heuristic=Domain",  # a number is first tried as it stands in the plan that is reworked
    "--opt-strategy=bb,lin",
    "--sat-prepro=no",  # the only part of that configuration that looks at the clock
    "--parallel-mode=1",
    "--rand-freq=0",
    "--init-watches=first",
    "--sign-def=asp",
    "--warn=none",
)


class Solver:
    """Literals and what must hold of them; then answers, as often as they are asked for."""

    def __init__(self) -> None:
        clingo: Any = import_module("clingo")
        self._sign: Any = import_module("clingo.backend").HeuristicType.Sign
        self._control: Any = clingo.Control([*_OPTIONS])
        self._backend: Any = self._control.backend()
        self._backend.__enter__()
        self._open = True
        self._choices: list[Literal] = []

    def choice(self, now: bool) -> Literal:
        """A literal that may be either, tried as it is now at first."""
        literal: int = self._backend.add_atom()
        self._backend.add_rule([literal], choice=True)
        self._backend.add_heuristic(literal, self._sign, 1 if now else -1, 1, [])
        self._choices.append(literal)
        return literal

    def both(self, one: Literal, other: Literal) -> Literal:
        """A literal that is yes where both are."""
        literal: int = self._backend.add_atom()
        self._backend.add_rule([literal], [one, other])
        return literal

    def reaches(self, terms: Sequence[Term], least: int) -> Literal:
        """A literal that is yes where the sum is at least so much."""
        literal: int = self._backend.add_atom()
        self._backend.add_weight_rule([literal], least, [(one, weight) for weight, one in terms])
        return literal

    def never(self, *literals: Literal) -> None:
        """Not all of these together; none at all says that nothing can be right."""
        self._backend.add_rule([], list(literals))

    def at_least(self, terms: Sequence[Term], least: int) -> None:
        """The sum is at least so much."""
        if least > 0:
            self.never(-self.reaches(terms, least))

    def at_most(self, terms: Sequence[Term], most: int) -> None:
        """The sum is at most so much."""
        if most < 0:
            self.never()
        elif sum(weight for weight, _ in terms) > most:
            self.never(self.reaches(terms, most + 1))

    def fewest(self, terms: Sequence[Term], *, in_leaps: bool) -> None:
        """The sum is to be as small as possible; it may be sought in leaps that grow and shrink, or one by one."""
        if in_leaps:
            self._control.configuration.solver.opt_strategy = "bb,dec"
        self._backend.add_minimize(0, [(one, weight) for weight, one in terms])

    def solve(self, conflicts: int, given: Sequence[Literal] = ()) -> tuple[Set[Literal] | None, bool]:
        """The literals that are yes in the best answer found (None: none), and whether the search came to its end."""
        if self._open:
            self._backend.__exit__(None, None, None)
            self._open = False
        self._control.configuration.solve.solve_limit = str(conflicts)
        best: Set[Literal] | None = None
        with self._control.solve(yield_=True, assumptions=list(given)) as handle:
            for model in handle:
                best = frozenset(filter(model.is_true, self._choices))
            return best, bool(handle.get().exhausted)
