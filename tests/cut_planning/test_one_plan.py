"""One plan for one order, whatever the solver does; and its figures against a second solver's, on random small orders."""

from __future__ import annotations

from random import Random

import pytest

from sheetgen.cut_planning import CutPlan, plan, search, solver

USUAL = solver._OPTIONS
OTHERWISE = [
    pytest.param(("--seed=7",), id="another seed"),
    pytest.param(("--seed=1", "--rand-freq=0.3"), id="choices by chance"),
    pytest.param(("--seed=2", "--rand-freq=0.3"), id="choices by another chance"),
    pytest.param(("--configuration=trendy", "--heuristic=Vsids"), id="another method"),
    pytest.param(("--opt-strategy=usc", "--restarts=no"), id="another way to the best"),
]
"""Options of the solver in place of those that we give it."""

# The first two are invented, the others those of test_published.py.
ORDERS = [
    ({"navy": {"S": 7, "M": 5, "L": 3}}, 4, 3, 0.2),
    ({"sand": {"S": 4, "M": 6}, "rust": {"S": 3, "M": 5}}, 4, 2, 0.25),
    ({"navy": {"10": 40, "12": 90, "14": 80, "16": 25, "18": 25}}, 50, 4, 0.0),
    ({"navy": {"S": 300, "M": 600, "L": 400}}, 75, 5, 0.0),
]


def lays_of(found: CutPlan) -> list[tuple[dict[str, int], dict[str, int]]]:
    return [(dict(lay.garments), dict(lay.plies)) for lay in found.lays]


@pytest.mark.parametrize(("ordered", "plies", "garments", "share"), ORDERS)
@pytest.mark.parametrize("options", OTHERWISE)
def test_a_small_order_has_one_plan_whatever_the_solver_does(
    monkeypatch: pytest.MonkeyPatch, options: tuple[str, ...],
    ordered: dict[str, dict[str, int]], plies: int, garments: int, share: float,
) -> None:  # fmt: skip
    usual = lays_of(plan(ordered, plies, garments, share))
    names = {option.partition("=")[0] for option in options}
    kept = [option for option in USUAL if option.partition("=")[0] not in names]
    monkeypatch.setattr(solver, "_OPTIONS", (*kept, *options))
    assert lays_of(plan(ordered, plies, garments, share)) == usual


def test_the_first_of_equal_plans_is_taken() -> None:
    # 6 pieces in lays of one garment and at most 4 plies: one marker, whose first lay is filled.
    assert lays_of(plan({"navy": {"S": 6}}, 4, 1)) == [({"S": 1}, {"navy": 4}), ({"S": 1}, {"navy": 2})]
    assert lays_of(plan({"navy": {"S": 2, "M": 2}}, 2, 2)) == [({"S": 1, "M": 1}, {"navy": 2})]
    # Two lays of one ply each: S and S, then S and M.
    assert lays_of(plan({"navy": {"S": 3, "M": 1}}, 2, 2)) == [({"S": 2}, {"navy": 1}), ({"S": 1, "M": 1}, {"navy": 1})]


def test_a_seed_changes_nothing_in_an_order_that_is_not_small(monkeypatch: pytest.MonkeyPatch) -> None:
    # Invented; six lays of six sizes, three colors and six garments are beyond what is proved all at once.
    one = {"XS": 21, "S": 44, "M": 62, "L": 60, "XL": 39, "XXL": 18}
    ordered = {"sand": one, "rust": {size: 2 * pieces for size, pieces in one.items()}, "moss": {"M": 40, "L": 40}}
    for steps in ("_FEW", "_SOME", "_MANY"):
        monkeypatch.setattr(search, steps, 4)  # as many would only take longer
    usual = lays_of(plan(ordered, 40, 6, 0.05))
    monkeypatch.setattr(solver, "_OPTIONS", (*USUAL, "--seed=12345"))
    assert lays_of(plan(ordered, 40, 6, 0.05)) == usual


def refereed(need: list[list[int]], plies: int, garments: int, share: float) -> tuple[int, int]:
    """Fewest lays, then fewest pieces over, by another solver with a model of its own: products of whole numbers."""
    cp = pytest.importorskip("ortools.sat.python.cp_model")
    for lays in range(1, 50):
        model = cp.CpModel()
        marker = [[model.new_int_var(0, garments, "") for _ in need[0]] for _ in range(lays)]
        height = [[model.new_int_var(0, plies, "") for _ in need] for _ in range(lays)]
        for lay in range(lays):
            model.add(sum(marker[lay]) <= garments)
            model.add(sum(height[lay]) <= plies)
        over = []
        for color, row in enumerate(need):
            for size, pieces in enumerate(row):
                cut = []
                for lay in range(lays):
                    cut.append(model.new_int_var(0, garments * plies, ""))
                    model.add_multiplication_equality(cut[-1], [marker[lay][size], height[lay][color]])
                # These shares and counts have no trap of floats in them.
                over.append(model.new_int_var(0, -int(-pieces * share // 1), ""))
                model.add(sum(cut) == pieces + over[-1])
        model.minimize(sum(over))
        referee = cp.CpSolver()
        referee.parameters.num_workers = 1
        if referee.solve(model) == cp.OPTIMAL:
            return lays, round(referee.objective_value)
    raise AssertionError


@pytest.mark.parametrize("number", range(8))
def test_the_figures_are_those_of_another_solver(number: int) -> None:
    chance = Random(number)
    sizes, colors = 2 + number % 3, 1 + number % 2
    plies, garments, share = 4 + int(chance.random() * 8), 2 + number % 3, (0.0, 0.25)[number // 4]
    need = [[1 + int(chance.random() * 14) for _ in range(sizes)] for _ in range(colors)]
    ordered = {f"color {c}": {f"size {s}": pieces for s, pieces in enumerate(row)} for c, row in enumerate(need)}
    found = plan(ordered, plies, garments, share)
    assert (len(found.lays), found.pieces_over) == refereed(need, plies, garments, share)
