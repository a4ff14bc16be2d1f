"""The end of the search for a small order: all plans at once, stage by stage, until one plan is left.

The stages: fewest pieces over, fewest different markers, fewest plies; and of the plans that are equal in all that, the
first in a declared order. Each stage is proved, or the plan stays as it was found. What is proved hangs on no solver.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from sheetgen.cut_planning.draft import Cut, Draft, draft_of
from sheetgen.cut_planning.order import Order
from sheetgen.cut_planning.rework import Answer, Question, Rework, reworked
from sheetgen.cut_planning.solver import Literal

_PROOF = 60_000
"""The solver's conflicts for all plans of so many lays at once."""
_MOST_PRODUCTS = 700
"""Beyond so many (lays x sizes x colors x garments) it proves nothing with that effort."""


def small(order: Order, lays: int) -> bool:
    """Whether something can be proved of so many lays."""
    return lays * len(order.sizes) * len(order.colors) * (order.most_garments + 1) <= _MOST_PRODUCTS


def all_at_once(asked: Question, cuts: Sequence[Cut], most: int) -> Answer:
    """The best of all plans that the question allows, from these markers and plies."""
    every = set(range(asked.groups))
    return reworked(asked, filled(asked, cuts), every, every, most, _PROOF)


def filled(asked: Question, cuts: Sequence[Cut]) -> list[Cut]:
    """As many groups as asked for, some of them empty."""
    nothing: Cut = ((0,) * len(asked.order.sizes), (0,) * len(asked.order.colors))
    return [*cuts, *[nothing] * (asked.groups - len(cuts))]


def settled(best: Draft) -> Draft:
    """The one plan that stands at the end of all stages; the given one if a stage is too much to be proved."""
    order = best.order
    if not small(order, best.lays):
        return best
    proved = False
    while not proved:
        for asked, most in _stages(best):
            answer = all_at_once(asked, best.laid if asked.groups == best.lays else best.cuts[: asked.groups], most)
            if answer.cuts is not None:
                best = draft_of(order, answer.cuts)
                break
            if not answer.proved:
                return best
        else:
            proved = True
    return _first_of_equals(best)


def _stages(best: Draft) -> Iterator[tuple[Question, int]]:
    """What would make the plan better, in the order of what counts more, and how little of it there must be."""
    order, markers = best.order, len(best.cuts)
    if best.over:
        yield Question(order, "over", best.lays, best.lays), best.over - 1
    if markers > 1:
        yield Question(order, "over", markers - 1, best.lays), best.over
    if best.plies > order.fewest_plies:
        yield Question(order, "plies", markers, best.lays, best.over), best.plies - 1


def _first_of_equals(best: Draft) -> Draft:
    """Of all plans of one rank: most garments of the first size in the first marker, then of the next size, and so on.

    A marker's plies follow its garments, color after color; each as many as the numbers before them allow.
    """
    markers = len(best.cuts)
    asked = Question(best.order, "plies", markers, best.lays, best.over)
    every = set(range(markers))
    rework = Rework(asked, best.cuts, every, every, best.plies, best=False)
    given: list[Literal] = []
    now = rework.solver.solve(_PROOF)[0] or frozenset()
    for literal in rework.from_first():
        if literal not in now:
            yes, ended = rework.solver.solve(_PROOF, [*given, literal])
            if yes is None and not ended:
                return best
            now = yes or now
        given.append(literal if literal in now else -literal)
    return draft_of(best.order, rework.answer(_PROOF, given).cuts or best.cuts)
