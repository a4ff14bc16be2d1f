"""The published kinds of spreadsheet error, and which rules of the audit look for each.

Taxonomies: Panko & Aurigemma, Revising the Panko-Halverson taxonomy of spreadsheet errors, Decision Support Systems 49 (2010);
Powell, Baker & Lawson, Errors in operational spreadsheets, Journal of Organizational and End User Computing 21 (2009). The
classes of a garment pack below them are ours.
"""

from __future__ import annotations

import pytest

from sheetgen.audit import RULES

FAULTS: dict[str, tuple[str, tuple[str, ...]]] = {
    "a formula replaced by a value": ("hard-coded number", ("formula-replaced", "answer-by-formula", "formula-in-place")),
    "a formula edited": ("logic error", ("formula-altered", "answer-forged", "formula-alarming")),
    "a reference shifted": ("reference error", ("formula-altered", "name-moved", "points-at-nothing", "total-stale", "error-value")),
    "rows or columns inserted, deleted, moved": (
        "copy/paste error", ("row-added", "row-gone", "row-doubled", "column-gone", "sheet-added", "sheet-gone", "stray-text", "measured-a-row-off", "answers-a-row-off")),
    "an input changed, in or out of its bounds": (
        "data input error", ("locked-value-changed", "words-changed", "out-of-range", "wrong-kind", "word-alike", "changed-since-issue",
                             "date-far-off", "price-jumped", "price-out-of-line", "sample-repeated")),
    "one unit taken for another": (
        "mistake: domain or logic", ("other-unit", "weight-in-grams", "price-per-dozen", "percent-as-number", "size-corrected")),
    "a percentage used as an amount, or dropped": ("omission", ("consumption-claimed", "thread-claimed", "cost-claimed", "consumption-not-yield")),
    "a sum that is none, a line within it wrong": ("slip (sensory-motor)", ("total-claimed", "price-unexplained", "answers-contradict", "deviations-cancel")),
    "another style's, season's or copy's": (
        "mistake: context", ("wrong-style", "wrong-vendor", "another-issue", "older-issue", "marker-stale", "approval-older")),
    "another currency's": ("mistake: context", ("currency-in-cell", "currency-mixed", "currency-without-rate")),
    "sizes and grades that do not fit each other": (
        "mistake: domain or logic", ("size-out-of-order", "grade-odd", "tolerance-over-step", "size-set-out", "composition-sum")),
    "hidden or made hard to see": ("violation", ("sheet-hidden", "hard-to-see", "format-put-in", "laid-over", "shown-otherwise")),
    "protection or record taken away": ("violation", ("protection-off", "cell-unlocked", "record-altered")),
    "a number or a date as text": ("slip (sensory-motor)", ("number-as-text", "date-as-text", "decimal-comma")),
    "links, programs, objects": ("violation", ("outside-link", "link-put-in", "macro-inside", "object-inside")),
    "pictures and words around the cells": (
        "violation", ("picture-altered", "drawing-gone", "drawing-added", "header-changed", "message-changed")),
    "left out": ("lapse (memory)", ("entry-missing", "placeholder", "check-counts", "approval-open")),
    "measured as nobody measures": (
        "violation", ("sample-copied", "deviation-repeated", "finer-than-a-tape", "measured-apart")),
    "a sample or a plan beyond what was agreed": (
        "planning error (wrong objective)", ("sample-out-of-tolerance", "direction-off", "one-side-off", "dip-outside-limit",
                                             "price-above-target", "lead-time-too-long", "date-too-late", "quote-run-out",
                                             "minimum-above-order", "minimum-above-need", "bought-too-little", "caution-raised")),
}  # fmt: skip
"""A class of a garment pack -> the published class that it is one of, and the rules that look for it."""
NOT_LOOKED_FOR = {
    "qualitative": "poor design of the sheet is the program's own work, and stands before `declare/proof.py` and the tests, not the audit",
}
PUBLISHED = {
    "violation", "qualitative", "planning error (wrong objective)", "mistake: domain or logic", "mistake: context", "slip (sensory-motor)",
    "lapse (memory)", "logic error", "reference error", "hard-coded number", "copy/paste error", "omission", "data input error",
}  # fmt: skip


def test_every_published_class_has_rules_or_a_reason():
    covered = {published for published, _ in FAULTS.values()}
    assert covered | set(NOT_LOOKED_FOR) == PUBLISHED
    assert not covered & set(NOT_LOOKED_FOR)


@pytest.mark.parametrize("fault", FAULTS)
def test_each_rule_of_a_class_is_there_and_has_an_example_that_fails(fault):
    by_name = {one.name: one for one in RULES}
    for name in FAULTS[fault][1]:
        assert by_name[name].bad, name


def test_every_rule_looks_for_a_class():
    looked_for = {name for _, names in FAULTS.values() for name in names}
    assert {one.name for one in RULES} - looked_for == set()
