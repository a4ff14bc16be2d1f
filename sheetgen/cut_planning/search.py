"""The search: always the same steps, each of which lets the solver rework a part of the plan.

Method: large-neighborhood search (P. Shaw, Using Constraint Programming and Local Search Methods to Solve Vehicle
Routing Problems, CP98, 417-431). A plan of so many lays may be short at first; step after step it misses less.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence, Set
from fractions import Fraction
from random import Random

from sheetgen.cut_planning.draft import Cut, Draft, draft_of
from sheetgen.cut_planning.greedy import first_draft
from sheetgen.cut_planning.order import Order
from sheetgen.cut_planning.rework import Question, reworked, value_of
from sheetgen.cut_planning.settle import all_at_once, filled, settled, small
from sheetgen.texts import say

_STEP = 6_000
"""The solver's conflicts for one step."""
_FEW, _SOME, _MANY = 16, 20, 40
"""Steps: to see whether so many lays are easy; to better what is good; to be sure."""
_HALF, _LESS = Fraction(1, 2), Fraction(1, 2)
"""A step asks for a plan better by half of what is left, by less after each step that finds none: a solver that learns
from conflicts finds a much better plan sooner than one that is hardly better."""

_IN_FULL = 4_000
"""Lays x sizes x colors up to which all steps are taken: more than an ordinary order has."""
_STEPS_OF_THESE = 1_000
"""An order of so many takes fewer than these; a larger one has as much work in fewer steps, a minute or two in all."""
_PART = 4
"""Where steps are few, no question takes more than such a part of those that are left."""

Progress = Callable[[str], None]


class Patience:
    """How many steps may still be taken: all where an order is ordinary."""

    def __init__(self, order: Order) -> None:
        products = order.fewest_lays * len(order.sizes) * len(order.colors)
        self.is_short = products > _IN_FULL
        self.left = _IN_FULL * _STEPS_OF_THESE // products if self.is_short else 0

    def steps(self, wanted: int) -> int:
        """How many of the wanted steps a question may take."""
        return min(wanted, -(-self.left // _PART)) if self.is_short else wanted

    def took_one(self) -> None:
        """Count a step."""
        self.left -= 1

    @property
    def is_over(self) -> bool:
        """Whether no step is left."""
        return self.is_short and self.left <= 0


def searched(order: Order, progress: Progress) -> tuple[Draft, int]:
    """The best plan found, and the number of lays below which none can be."""
    patience = Patience(order)
    best, least = (_few_lays if patience.is_short else _fewest_lays)(order, patience, progress)
    if best.over:
        progress(say("{lays} lays, {over} pieces over; looking for fewer pieces over", lays=best.lays, over=best.over))
        best = _fewest_over(order, best, patience)
    progress(say("{lays} lays, {over} pieces over; looking for fewer markers", lays=best.lays, over=best.over))
    best = _fewest_markers(order, best, patience)
    best = _fewest_plies(order, best, patience)
    if small(order, best.lays):
        progress(
            say("{lays} lays, {count} markers; looking at all plans at once", lays=best.lays, count=len(best.cuts))
        )
    return settled(best), least


def _few_lays(order: Order, patience: Patience, progress: Progress) -> tuple[Draft, int]:
    """Of a very large order: halfway between what theory needs and what is found, as long as steps are left."""
    best = first_draft(order)
    low = least = order.fewest_lays
    while low < best.lays and not patience.is_over:
        lays = (low + best.lays) // 2
        progress(say("looking for a plan of {lays} lays", lays=lays))
        found = _with_lays(order, best, lays, _FEW, patience)
        if found:
            best = found
        else:
            low = lays + 1
    return best, least


def _fewest_lays(order: Order, patience: Patience, progress: Progress) -> tuple[Draft, int]:
    best, least = first_draft(order), order.fewest_lays
    for lays in range(least, best.lays):
        progress(say("looking for a plan of {lays} lays", lays=lays))
        found = _with_lays(order, best, lays, _FEW, patience)
        if found:
            best = found
            break
    while best.lays > least:
        progress(say("{lays} lays found; looking whether {fewer} can be enough", lays=best.lays, fewer=best.lays - 1))
        found = _with_lays(order, best, best.lays - 1, _MANY, patience)
        if not found:
            found, impossible = _proof(order, best, best.lays - 1)
            if impossible:
                least = best.lays
        if not found:
            break
        best = found
    return best, least


def _with_lays(order: Order, near: Draft, lays: int, steps: int, patience: Patience) -> Draft | None:
    """A plan of so many lays that fits, from the fullest lays of another; None if these steps find none."""
    return _fitting(Question(order, "short", lays, lays), _fullest(near, lays), steps, patience)


def _fullest(draft: Draft, lays: int) -> list[Cut]:
    return sorted(draft.laid, key=lambda cut: -sum(cut[0]) * sum(cut[1]))[:lays]


def _fitting(asked: Question, cuts: Sequence[Cut], steps: int, patience: Patience) -> Draft | None:
    found, short = _stepped(asked, cuts, steps, patience)
    return draft_of(asked.order, found) if short == 0 else None


def _proof(order: Order, near: Draft, lays: int) -> tuple[Draft | None, bool]:
    """All plans of so many lays at once, if the solver can: a plan, or whether it proved that there is none."""
    if not small(order, lays):
        return None, False
    answer = all_at_once(Question(order, "over", lays, lays), _fullest(near, lays), sum(map(sum, order.room)))
    return (None, answer.proved) if answer.cuts is None else (draft_of(order, answer.cuts), False)


def _fewest_over(order: Order, best: Draft, patience: Patience) -> Draft:
    asked = Question(order, "over", best.lays, best.lays)
    found = draft_of(order, _stepped(asked, best.laid, _SOME, patience)[0])
    return min(best, found, key=lambda draft: draft.rank)


def _fewest_markers(order: Order, best: Draft, patience: Patience) -> Draft:
    """As many lays and no more pieces over, from one marker less each time."""
    while len(best.cuts) > 1 and not patience.is_over:
        groups = len(best.cuts) - 1
        kept = sorted(best.cuts, key=lambda cut: -sum(cut[0]) * sum(cut[1]))[:groups]
        found = _fitting(Question(order, "short", groups, best.lays, best.over), kept, _FEW, patience)
        if not found or found.rank >= best.rank:
            break
        best = found
    return best


def _fewest_plies(order: Order, best: Draft, patience: Patience) -> Draft:
    asked = Question(order, "plies", len(best.cuts), best.lays, best.over)
    found = draft_of(order, _stepped(asked, best.cuts, _FEW, patience, order.fewest_plies)[0])
    return min(best, found, key=lambda draft: draft.rank)


def _stepped(
    asked: Question, cuts: Sequence[Cut], steps: int, patience: Patience, enough: int = 0
) -> tuple[Sequence[Cut], int]:
    """The plan after so many steps, and what of the goal is left."""
    now = filled(asked, cuts)
    value = value_of(asked, now)
    chance = Random(1000 * steps + asked.groups)
    share = _HALF
    for _ in range(patience.steps(steps)):
        if value <= enough:
            break
        patience.took_one()
        markers, plies = _neighborhood(asked.groups, chance)
        most = min(value - 1, enough + int((value - enough) * (1 - share)))
        answer = reworked(asked, now, markers, plies, most, _STEP)
        if answer.cuts is None:
            share *= _LESS
        else:
            now, share = list(answer.cuts), _HALF
            value = value_of(asked, now)
    return now, value


def _neighborhood(groups: int, chance: Random) -> tuple[Set[int], Set[int]]:
    """Whose markers and whose plies may change in a step: two or three lays' in full, often all plies besides.

    Only `Random.random` is used: Python promises that its numbers stay the same in all versions.
    """
    every = set(range(groups))
    order = sorted(every, key=lambda _: chance.random())
    few = set(order[: 3 if chance.random() < 1 / 3 else 2])
    kind = chance.random()
    if kind < 0.15:
        return every, set()
    if kind < 0.6:
        return few, every
    if kind < 0.75:
        return every, few
    return few, few
