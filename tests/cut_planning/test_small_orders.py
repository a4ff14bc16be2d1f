"""Small invented orders against every plan that there is, tried one after another by other code than the solver's."""

from __future__ import annotations

import itertools

import pytest

from sheetgen.cut_planning import plan

Table = tuple[tuple[int, ...], ...]


def tried(need: Table, room: Table, most_plies: int, most_garments: int) -> tuple[int, int]:
    """Fewest lays, and fewest pieces over with so many lays: all that can be cut after one lay, after two, and so on."""
    wanted = list(itertools.chain.from_iterable(need))
    most = [pieces + more for pieces, more in zip(wanted, itertools.chain.from_iterable(room), strict=True)]
    lays = {
        tuple(garments * plies for plies in heights for garments in marker)
        for marker in upto(len(need[0]), most_garments)
        for heights in upto(len(need), most_plies)
    }
    reached = {(0,) * len(wanted)}
    for count in itertools.count(1):
        added = {tuple(map(sum, zip(one, lay, strict=True))) for one in reached for lay in lays}
        reached = {one for one in added if all(cut <= top for cut, top in zip(one, most, strict=True))}
        full = [sum(one) for one in reached if all(cut >= low for cut, low in zip(one, wanted, strict=True))]
        if full:
            return count, min(full) - sum(wanted)
    raise AssertionError


def upto(places: int, most: int) -> list[tuple[int, ...]]:
    """All counts for so many places that together are at most `most`."""
    return [counts for counts in itertools.product(range(most + 1), repeat=places) if sum(counts) <= most]


def test_the_referee_knows_what_was_worked_out_by_hand() -> None:
    # One lay of 2 plies cuts 4 and 2; 3 and 2 need two lays, or one piece over.
    assert tried(((4, 2),), ((0, 0),), 5, 3) == (1, 0)
    assert tried(((3, 2),), ((0, 0),), 5, 3) == (2, 0)
    assert tried(((3, 2),), ((1, 0),), 5, 3) == (1, 1)


ORDERS = [
    # Pieces by color and size, plies, garments, share over.
    (((3, 2),), 5, 3, 0.0),
    (((3, 2),), 5, 3, 0.3),
    (((7, 5, 3),), 4, 2, 0.0),
    (((7, 5, 3),), 4, 3, 0.2),
    (((9, 4, 6),), 5, 4, 0.0),
    (((5, 8, 3),), 6, 3, 0.1),
    (((11, 7),), 4, 2, 0.0),
    (((4, 6), (3, 5)), 4, 2, 0.0),
    (((4, 6), (3, 5)), 4, 2, 0.25),
    (((6, 3), (2, 1)), 8, 3, 0.0),
    (((5, 0), (3, 4)), 5, 2, 0.2),
    (((2, 3, 1), (4, 5, 2)), 4, 3, 0.0),
    (((1, 1), (1, 1), (2, 1)), 3, 2, 0.0),
]


@pytest.mark.parametrize(("need", "plies", "garments", "share"), ORDERS)
def test_no_plan_is_better(need: Table, plies: int, garments: int, share: float) -> None:
    # Up to the next whole piece; these shares and counts have no trap of floats in them.
    room = tuple(tuple(-int(-pieces * share // 1) for pieces in row) for row in need)
    lays, over = tried(need, room, plies, garments)
    ordered = {f"color {c}": {f"size {s}": pieces for s, pieces in enumerate(row)} for c, row in enumerate(need)}
    found = plan(ordered, plies, garments, share)
    assert (len(found.lays), found.pieces_over) == (lays, over)
    assert found.proved
    assert found.least == lays
