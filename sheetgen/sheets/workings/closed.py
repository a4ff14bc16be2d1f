"""Rounds that were decided: what was asked in them, and its tolerances, stay as they were, whatever is changed afterwards."""

from __future__ import annotations

from collections.abc import Mapping

from sheetgen.declare.entry import Place
from sheetgen.declare.kinds import Value

_ROUNDS, _POINTS = "fit.rounds", "fit.points"
_KEPT = {"kept_spec_r{0}": "asked_r{0}", "kept_minus_r{0}": "minus", "kept_plus_r{0}": "plus"}
"""What is kept -> what it is kept of."""


def closed_now(values: Mapping[Place, Value], shown: Mapping[Place, Value]) -> dict[Place, Value]:
    """What a build keeps of the rounds that are newly decided, and forgets (None) of those whose decision was taken back."""
    rounds = dict.fromkeys(place.row for place in values if place.entry.startswith(f"{_ROUNDS}."))
    points = dict.fromkeys(place.row for place in shown if place.entry == f"{_POINTS}.point")
    found: dict[Place, Value] = {}
    for number, ref in enumerate(rounds, 1):
        decided = values.get(Place(f"{_ROUNDS}.decision", ref)) not in (None, "")
        for row in points:
            kept = {
                Place(f"{_POINTS}.{name.format(number)}", row): Place(f"{_POINTS}.{of.format(number)}", row)
                for name, of in _KEPT.items()
            }
            known = any(values.get(place) not in (None, "") for place in kept)
            if decided and not known and isinstance(shown.get(Place(f"{_POINTS}.asked_r{number}", row)), int | float):
                found |= {place: value for place, of in kept.items() if (value := shown.get(of)) not in (None, "")}
            elif known and not decided:
                found |= dict.fromkeys(kept)
    return found
