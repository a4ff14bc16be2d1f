"""Leaving: what must not go out to a vendor without a word: cells that point at nothing, open gates, markers of old figures."""

from __future__ import annotations

import datetime
from collections.abc import Iterator

from sheetgen.audit.case import Case
from sheetgen.audit.changes import changes
from sheetgen.audit.rule import Do, Example, Fault, rule
from sheetgen.declare.entry import Place, place_of
from sheetgen.texts import say
from sheetgen.workbook.model.compare import shown_text
from sheetgen.workbook.model.references import astray

_BULK = 3
_WRONG = "checks.wrong_"
_TOLD = (
    "checks.wrong_labels_composition_sum", "checks.wrong_approvals_blocking", "checks.wrong_approvals_older",
    "checks.wrong_markers_stale",
    "checks.wrong_measurements_grade_turns", "checks.wrong_measurements_by_hand",
)  # fmt: skip
"""Checks of the brand's whose cells are told one by one by rules of their own."""
_TOLD_IN_ANSWERS = ("checks.wrong_quote_unexplained", "checks.wrong_order_bought_short")
"""The same of the vendor's."""
_NOT_YET = "open"


def _open(*numbers: int) -> tuple[str, ...]:
    """What is found of these approvals of the sample in a file for bulk: where each is decided."""
    places = (Place(f"approvals.items.{'about' if n == 2 else 'decision'}", f"V{n}") for n in numbers)
    return tuple(" ".join(("approval-open", str(place))) for place in places)


@rule(
    title="A cell points at a row that is not there",
    level="fix",
    source="common practice: logic and reference errors (Powell, Baker & Lawson 2009)",
    message="{place} names {found}, and no row that is filled is called so.",
    why="What is worked out by that row is not known: a piece without its length, a seam without its thread.",
    fix="Choose a row that is there, or clear {cell} on the sheet {sheet}.",
    owner="designer",
    bad=(
        Example(
            "a piece as long as a point that nobody measures",
            {"yield.pieces[Y1].long_point": "P98"},
            ("points-at-nothing yield.pieces[Y1].long_point",),
            own=True,
        ),
        Example(
            "a sample in a size that the style does not have",
            {"fit.rounds[R1].size": "XXXL"},
            ("points-at-nothing fit.rounds[R1].size",),
            own=True,
        ),
    ),
    fine=(Example("a second point that is there", {"construction.callouts[N1].from_point": "P2"}, own=True),),
)
def points_at_nothing(case: Case) -> Iterator[Fault]:
    if not case.own:
        return
    for place, value in astray(case.got.ready.book, case.got.typed):
        yield Fault(place, "", shown_text(value))


@rule(
    title="An approval that stops bulk is still open",
    level="fix",
    source="common practice: bulk is cut after the last approval",
    message="{line} is not approved yet, and bulk waits for it: {found}.",
    why="What is cut in bulk cannot be changed any more.",
    fix="Decide it in {cell} on the sheet {sheet}, or in the row that is named there, or issue for another purpose.",
    owner="designer",
    bad=(
        Example(
            "a strike-off that nobody has decided, issued for bulk",
            {"style.purpose": "bulk"},
            _open(1, 2, 3, 5, 6, 7, 8, 9),
            own=True,
        ),
    ),
    fine=(Example("the same for a quote: it stops nothing yet", own=True),),
)
def approval_open(case: Case) -> Iterator[Fault]:
    if not case.own or case.stage < _BULK:
        return
    for ref in case.rows("approvals.items"):
        state = str(case.value("approvals.items.state", ref) or "")
        if case.value("approvals.items.blocks", ref) != "no" and state.startswith(_NOT_YET):
            about = case.value("approvals.items.about", ref)
            at = "about" if about else "decision"
            found = (
                say("it is {state}; it is decided at {about}", state=state, about=about)
                if about
                else say("it is {state}", state=state)
            )
            yield Fault(Place(f"approvals.items.{at}", ref), "", found)


@rule(
    title="An approval was given to an older version",
    level="fix",
    source="common practice: an approval is worth what it was given to",
    message="{line} was approved, and what it covers has changed since: {found}.",
    why="What is cut and sewn in bulk is not what was approved.",
    fix="Look at what changed. Approve it anew (clear {cell} on the sheet {sheet}, then build), or change it back.",
    owner="designer",
    bad=(
        Example(
            "a strike-off approved, and the artwork made wider after that",
            {"style.purpose": "bulk", "approvals.items[V2].given": 1.0, "artwork.pieces[A1].decision": "approved"},
            ("approval-older approvals.items[V2].given", *_open(1, 3, 5, 6, 7, 8, 9)),
            own=True,
        ),
    ),
    fine=(Example("the same for a quote: it stops nothing yet", {"approvals.items[V2].given": 1.0}, own=True),),
)
def approval_older(case: Case) -> Iterator[Fault]:
    if not case.own or case.stage < _BULK:
        return
    for ref in case.rows("approvals.items"):
        if case.value("approvals.items.since", ref) == "changed since":
            given, revision = (case.value(f"approvals.items.{name}", ref) for name in ("given", "given_revision"))
            found = say("it was given to revision {revision}", revision=revision) if revision else shown_text(given)
            yield Fault(Place("approvals.items.given", ref), "", found)


@rule(
    title="A marker is out of date",
    level="fix",
    source="common practice",
    message="{line}: the marker was laid for other figures than those that stand in the file now.",
    why="Its length and efficiency belong to pieces that nobody cuts any more, and the use of fabric is counted by them.",
    fix="Lay it anew: sheetgen marker {found}.",
    owner="designer",
    bad=(
        Example(
            "a marker that was laid for other figures",
            {"markers.list": Do("add-row", {"material": "M4", "garments": 2, "width": 150.0, "stamp": 1.0})},
            ("marker-stale markers.list[G1].state",),
            own=True,
        ),
    ),
    fine=(Example("no marker was laid", own=True),),
)
def marker_stale(case: Case) -> Iterator[Fault]:
    for ref in case.rows("markers.list") if case.own else ():
        if case.value("markers.list.state", ref) == "OUT OF DATE":
            yield Fault(Place("markers.list.state", ref), "", case.got.path.name)


@rule(
    title="A check counts something",
    level="query",
    source="the check stands on the Checks sheet, with how to put it right",
    message="{found}.{cause}",
    why="Two things in the file contradict each other, or fall short of what was wanted.",
    fix="Look at the Checks sheet, {cell}, and put it right, or leave it if it is meant.",
    owner="designer",
    bad=(
        Example(
            "a delivery before the answer",
            {"style.due": datetime.date(2027, 12, 1)},
            ("check-counts checks.wrong_style_date_order",),
            own=True,
        ),
    ),
    fine=(Example("all checks at 0", own=True),),
)
def check_counts(case: Case) -> Iterator[Fault]:
    if case.own:
        yield from _counting(case, _TOLD)


@rule(
    title="The answers contradict each other",
    level="query",
    source="the check stands on the Checks sheet of the copy, with how to put it right",
    message="{found}.{cause}",
    why="Two answers do not fit together, or fall short of what was asked.",
    fix="Look at the Checks sheet, {cell}, and put it right, or say why it is meant.",
    owner="vendor",
    bad=(
        Example(
            "a quote that ends before the day that was asked for",
            {"quote.valid_until": datetime.date(2026, 12, 2)},
            ("answers-contradict checks.wrong_quote_valid_short",),
        ),
        Example(
            "a question about a row that is not there",
            {"questions.asked[QN1].question": "Which way does the nap run?", "questions.asked[QN1].about": "M99"},
            ("answers-contradict checks.wrong_questions_nowhere",),
        ),
    ),
    fine=(
        Example(
            "a question about a material",
            {"questions.asked[QN1].question": "Which way does the nap run?", "questions.asked[QN1].about": "M1"},
        ),
    ),
)
def answers_contradict(case: Case) -> Iterator[Fault]:
    if not case.own:
        yield from _counting(case, _TOLD_IN_ANSWERS)


def _counting(case: Case, told: tuple[str, ...]) -> Iterator[Fault]:
    """The checks of the file that count, but for those that rules of their own tell."""
    for address, column in case.book_entries.items():
        if not address.startswith(_WRONG) or address in told or "_astray_" in address:
            continue
        count = case.follows.get(place_of(address))
        if isinstance(count, int | float) and count > 0:
            first = case.follows.get(place_of(address.replace("wrong_", "first_", 1)))
            where = say("First at {first}.", first=first) if first else ""
            yield Fault(Place(address), "0", f"{column.entry.heading} ({count:g})", cause=where)


@rule(
    title="Changed since the last issue, as the same revision",
    level="fix",
    source="common practice: a change after a copy has left is a new revision",
    message="{place} was sent as {expected}, and is {found} now; the revision is the same.",
    why="Two copies of one revision that say different things: nobody at the factory can tell which one holds.",
    fix="Issue with --revise 'the reason': it raises the revision and writes into Revisions what changed. Or change it back.",
    owner="designer",
    bad=(
        Example(
            "a tolerance changed after the copy had left",
            {},
            ("changed-since-issue measurements.points[P1].plus",),
            sent={"measurements.points[P1].plus": 2.0},
            own=True,
        ),
    ),
    fine=(Example("nothing changed since", own=True),),
)
def changed_since_issue(case: Case) -> Iterator[Fault]:
    """Held against the newest receipt beside the file of the same style, revision and vendor: what the copy shared, and is other now."""
    sent = case.last_issue() if case.own else None
    for place, before, now in changes(case.got, sent) if sent else ():
        yield Fault(place, shown_text(before), shown_text(now, than=before))


RULES = (
    points_at_nothing,
    approval_open,
    approval_older,
    marker_stale,
    changed_since_issue,
    check_counts,
    answers_contradict,
)
