"""Every example of every rule, run through a real file: what the audit says of it is exactly what the example says."""

from __future__ import annotations

import importlib
import re
from pathlib import Path

import pytest

import sheetgen.audit
from sheetgen.audit import RULES
from sheetgen.audit.rule import Example, Rule
from tests.audit.made import KNOWN, Made, example_audit, quick_audit, shorts

EXAMPLES = [
    pytest.param(rule, example, id=f"{rule.name}: {example.says}")
    for rule in RULES
    for example in (*rule.bad, *rule.fine)
]


@pytest.fixture(scope="module")
def untouched(overshirt: Made, tmp_path_factory: pytest.TempPathFactory) -> dict[bool, list[str]]:
    """The findings of the two files that the examples start from: many examples change nothing in them."""
    folder = tmp_path_factory.mktemp("untouched")
    return {own: shorts(example_audit(overshirt, Example("untouched", own=own), folder)) for own in (False, True)}


@pytest.mark.parametrize(("rule", "example"), EXAMPLES)
def test_the_audit_of_an_example_says_what_the_example_says(
    rule: Rule, example: Example, overshirt: Made, untouched: dict[bool, list[str]], tmp_path: Path
) -> None:
    quick = None if example is rule.bad[0] else quick_audit(overshirt, example)
    if quick is not None:
        found = shorts(quick)
    elif example.changes or example.sent or example.later:
        found = shorts(example_audit(overshirt, example, tmp_path))
    else:
        found = untouched[example.own]
    assert found == sorted([*example.finds, *(KNOWN["overshirt"] if example.own else [])])


def test_every_bad_example_finds_its_own_rule_and_no_fine_one_does() -> None:
    for rule in RULES:
        own = [[short.partition(" ")[0] for short in example.finds] for example in rule.bad]
        assert all(rule.name in names for names in own), rule.name
        assert not any(short.startswith(f"{rule.name} ") for example in rule.fine for short in example.finds), rule.name


def test_every_rule_of_a_family_is_listed_once() -> None:
    folder = Path(sheetgen.audit.__file__).parent
    made = [
        rule.name
        for path in sorted(folder.glob("*.py"))
        for rule in vars(importlib.import_module(f"sheetgen.audit.{path.stem}")).values()
        if path.stem != "__init__" and isinstance(rule, Rule)
    ]
    assert sorted(made) == sorted(rule.name for rule in RULES)
    assert len(set(made)) == len(made)


def test_a_rule_is_named_in_plain_words_with_hyphens_and_says_all_that_a_person_needs() -> None:
    for rule in RULES:
        assert re.fullmatch(r"[a-z]+(-[a-z]+)*", rule.name), rule.name
        assert all(
            words.strip() == words and words for words in (rule.title, rule.source, rule.message, rule.why, rule.fix)
        )
        assert rule.why.endswith(".") and rule.fix.endswith((".", "{expected}")), rule.name
