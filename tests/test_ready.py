"""What the Checks sheet says of each purpose is what `audit --for` and `issue` find: the same cells, the same reasons to stay."""

from __future__ import annotations

from functools import cache

import pytest

from sheetgen import api
from sheetgen.audit.rule import Finding
from sheetgen.declare.entry import STAGES, Place, place_of
from sheetgen.declare.kinds import Value
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import typed_in
from tests.loop import loop

TROUBLES = {
    "as it stands": {},
    "with troubles": {
        # emptied, though a quote, a sample and bulk need them
        "materials.bom[M1].composition": None, "labels.wash": None, "labels.items[L2].fold": None, "order.aql_major": None,
        "quality.folding": None,
        # a point that is not there, and shares that are no whole
        "yield.pieces[Y1].long_point": "P98", "construction.callouts[N1].from_point": "P98", "labels.composition[F1].share_1": 0.9,
        # an approval given to something else, and another taken back
        "approvals.items[V2].given": 1.0, "artwork.pieces[A1].decision": "approved", "approvals.items[V1].decision": "rejected",
    },
}  # fmt: skip
STOPPED_BY = {
    "points-at-nothing": "quote", "composition-sum": "quote", "marker-stale": "quote", "approval-open": "bulk", "approval-older": "bulk",
}  # fmt: skip
"""Rules of fixes that a check counts live."""


@pytest.fixture(scope="module", params=TROUBLES)
def judged(request, tmp_path_factory) -> tuple[dict[Place, Value], dict[str, list[Finding]]]:
    path = tmp_path_factory.mktemp("ready") / "o-working.xlsx"
    typed = {place_of(address): value for address, value in TROUBLES[request.param].items()}
    typed_in(BOOK, loop() / "a-working.xlsx", typed, path)
    return dict(shown_of(path)), {
        purpose: [one for one in api.audit(path, purpose=purpose).findings if one.level == "fix"] for purpose in STAGES
    }


@cache
def shown_of(path):
    return api.build(path).shown


@pytest.mark.parametrize("purpose", STAGES)
def test_the_sheet_says_what_the_command_finds(judged, purpose):
    shown, found = judged
    fixes = found[purpose]
    to_fill = [one for one in fixes if one.rule == "entry-missing"]
    others = [one for one in fixes if one.rule != "entry-missing"]
    assert {one.rule for one in others} <= set(STOPPED_BY)
    assert shown[Place(f"checks.ready_{purpose}_fill")] == len(to_fill)
    assert shown[Place(f"checks.ready_{purpose}_stops")] == len(others)
    assert (shown[Place(f"checks.ready_{purpose}")] == "yes") == (not fixes)


def test_each_purpose_asks_for_what_the_one_before_asked_for(judged):
    shown, _ = judged
    fill = [shown[Place(f"checks.ready_{purpose}_fill")] for purpose in STAGES]
    assert fill == sorted(fill)


def test_every_check_that_stops_is_a_rule_of_fixes_and_the_other_way_round():
    stops = {
        f"{sheet.name}_{check.name}": check.stops for sheet in BOOK.sheets for check in sheet.checks if check.stops
    }
    named = {name: stop for name, stop in stops.items() if "_astray_" not in name}
    assert len(stops) - len(named) == sum(column.entry.kind.must_stand for column in BOOK.entries.values())
    assert named == {
        "labels_composition_sum": "quote", "markers_stale": "quote", "approvals_blocking": "bulk", "approvals_older": "bulk",
    }  # fmt: skip
