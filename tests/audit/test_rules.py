"""Every example of every rule, run through a real file: what the audit says of it is exactly what the example says."""

from __future__ import annotations

import importlib
import re
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass
from difflib import get_close_matches
from pathlib import Path

import pytest

import sheetgen.audit
from sheetgen.audit import RULES
from sheetgen.audit.rule import Example, Rule
from sheetgen.audit.run import judged
from sheetgen.declare.entry import place_of
from tests.audit.made import KNOWN, Made, example_audit, quick_audit, shorts, unknown_places, untouched_case, wide
from tests.audit.together import goes_through_a_file, is_proven
from tests.loop import WIDE

EXAMPLES = [
    pytest.param(rule, example, id=f"{rule.name}: {example.says}")
    for rule in RULES
    for example in (*rule.bad, *rule.fine)
]


@dataclass(frozen=True)
class Untouched:
    """What every rule says of the two files that the examples start from, and which rules cannot be asked at all."""

    said: dict[bool, list[str]]
    broken: dict[str, str]

    def loud(self) -> dict[str, str]:
        """Rules that say of these files what nobody planted there."""
        unknown = [*self.said[False], *(short for short in self.said[True] if short not in KNOWN["overshirt"])]
        return {short.partition(" ")[0]: short for short in unknown}

    def judges(self, rule: Rule) -> list[Rule]:
        """The rules that judge an example of this one: those in order, and itself. One slip shall not fail them all."""
        return [one for one in RULES if one is rule or one.name not in {**self.broken, **self.loud()}]


class Bases:
    """The files that examples start from: the copy as its purpose asks for it, and the one that holds all sheets."""

    def __init__(self, made: Callable[[str], Made]) -> None:
        self._made = made
        self._untouched: dict[str, Untouched] = {}

    @property
    def usual(self) -> Made:
        """The copy as its purpose asks for it."""
        return self._made("overshirt")

    def of(self, example: Example) -> tuple[Made, Untouched]:
        """Where an example is tried, and what is said there without it."""
        style = WIDE if wide(self.usual, example) else "overshirt"
        return self._made(style), self.untouched(style)

    def untouched(self, style: str) -> Untouched:
        if style not in self._untouched:
            self._untouched[style] = _untouched(self._made(style))
        return self._untouched[style]


@pytest.fixture(scope="module")
def bases(made: Callable[[str], Made]) -> Bases:
    return Bases(made)


def _untouched(overshirt: Made) -> Untouched:
    said: dict[bool, list[str]] = {}
    broken: dict[str, str] = {}
    for own in (False, True):
        case = untouched_case(overshirt, own)
        said[own] = []
        for rule in RULES:
            try:
                said[own] += shorts(judged(case, [rule], None))
            except Exception as error:
                broken[rule.name] = f"{type(error).__name__}: {error}"
    return Untouched(said, broken)


@pytest.mark.parametrize("style", ["overshirt", WIDE])
def test_no_rule_fails_on_the_files_that_examples_start_from(bases: Bases, style: str) -> None:
    assert bases.untouched(style).broken == {}, (
        "these rules do not even judge the overshirt's clean return or working file"
    )


@pytest.mark.parametrize("style", ["overshirt", WIDE])
def test_no_rule_speaks_of_the_files_that_examples_start_from(bases: Bases, style: str) -> None:
    assert bases.untouched(style).loud() == {}, (
        "these rules say something of the overshirt's clean return or working file, which hold no fault: correct the rule, "
        "or what sample_inputs/overshirt/answers-clean.toml (brief.toml) has in that place"
    )


@pytest.mark.parametrize(("rule", "example"), EXAMPLES)
def test_the_audit_of_an_example_says_what_the_example_says(
    rule: Rule, example: Example, bases: Bases, tmp_path: Path
) -> None:
    overshirt, untouched = bases.of(example)
    _refuse_unknown_places(rule, example, overshirt)
    if is_proven(bases.usual, rule, example):
        return
    judges = untouched.judges(rule)
    quick = None if example is rule.bad[0] and goes_through_a_file(rule) else quick_audit(overshirt, example, judges)
    names = {one.name for one in judges}
    if quick is not None:
        found = shorts(quick)
    elif example.changes or example.sent or example.later:
        found = shorts(example_audit(overshirt, example, tmp_path, judges))
    else:
        found = [short for short in untouched.said[example.own] if short.partition(" ")[0] in names]
    expected = sorted([*example.finds, *(KNOWN["overshirt"] if example.own else [])])
    expected = [short for short in expected if short.partition(" ")[0] in names]
    assert sorted(found) == expected, _difference(rule, example, found, expected)


def _difference(rule: Rule, example: Example, found: list[str], expected: list[str]) -> str:
    """Which entry's example it is, what is too much or too little, and what to do."""
    more, less = Counter(found) - Counter(expected), Counter(expected) - Counter(found)
    return (
        f"{rule.name}, example “{example.says}” (changes {dict(example.changes)}): the audit says more: "
        f"{sorted(more.elements())}, and does not say: {sorted(less.elements())}. An example's `finds` is all that the "
        f"audit says, of every rule: add to them what is right, or choose a change that raises nothing else."
    )


def _refuse_unknown_places(rule: Rule, example: Example, made: Made) -> None:
    """A place that is misspelled in an example is named, with what it may have been."""
    for text, known in unknown_places(made, example):
        near = get_close_matches(place_of(text).entry, known, 1)
        raise AssertionError(
            f"{rule.name}, example “{example.says}”: {text} is no place of the book"
            + (f"; is it {near[0]}?" if near else "; write it as materials.bom[M3].price")
        )


def test_every_bad_example_finds_its_own_rule_and_no_fine_one_does() -> None:
    for rule in RULES:
        own = [[short.partition(" ")[0] for short in example.finds] for example in rule.bad]
        assert all(rule.name in names for names in own), rule.name
        assert not any(short.startswith(f"{rule.name} ") for example in rule.fine for short in example.finds), rule.name


def test_every_rule_of_a_family_is_listed_once() -> None:
    families = {
        path.stem: importlib.import_module(f"sheetgen.audit.{path.stem}")
        for path in sorted(Path(sheetgen.audit.__file__).parent.glob("*.py"))
        if path.stem != "__init__"
    }
    made = [
        (family, rule)
        for family, module in families.items()
        for rule in vars(module).values()
        if isinstance(rule, Rule)
    ]
    listed = Counter(rule.name for rule in RULES)
    unlisted = [
        f"{rule.name} (add it to RULES at the foot of sheetgen/audit/{family}.py)"
        for family, rule in made
        if not listed[rule.name]
    ]
    assert unlisted == [], "rules that no list holds, or whose family is not in sheetgen/audit/__init__.py"
    assert [name for name, count in listed.items() if count > 1] == [], "rules that are listed twice"
    doubled = [name for name, count in Counter(rule.name for _, rule in made).items() if count > 1]
    assert doubled == [], "rules of one name in two families"


def test_a_rule_is_named_in_plain_words_with_hyphens_and_says_all_that_a_person_needs() -> None:
    for rule in RULES:
        assert re.fullmatch(r"[a-z]+(-[a-z]+)*", rule.name), rule.name
        assert all(
            words.strip() == words and words for words in (rule.title, rule.source, rule.message, rule.why, rule.fix)
        )
        assert rule.why.endswith(".") and rule.fix.endswith((".", "{expected}")), rule.name
