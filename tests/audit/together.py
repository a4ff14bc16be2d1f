"""Examples that touch no place of each other, several in one audit: what it says of them all is what they say, put together.

Where it is not, halves of them are tried, and in the end each by itself, which says whose it is. Reading a file, calculating
it and asking all rules is what takes the time.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cache, partial
from pathlib import Path
from zlib import crc32

from sheetgen.audit import RULES
from sheetgen.audit.rule import Do, Example, Rule
from sheetgen.errors import UserError
from tests.audit.made import KNOWN, Made, example_audit, make, quick_audit, shorts, typed_by, wide
from tests.kept import kept
from tests.loop import WIDE

_ALONE = frozenset("record drop-record drop-sheet no-values".split())
"""Actions that change what the others are judged by."""
_OF_FILES = 4
"""One rule in so many has its first example judged through a file, although it need not be."""
_AT_ONCE = 8
Named = tuple[Rule, Example]


@dataclass(frozen=True, order=True)
class Base:
    """What an example starts from: the vendor's return or the working file, with the usual sheets or all, through a file or not."""

    own: bool
    all_sheets: bool
    through_a_file: bool

    def made(self, folder: Path) -> Made:
        """Its files, with what is edited in `folder`."""
        return make(WIDE if self.all_sheets else "overshirt", folder)

    def said(self, made: Made, example: Example, folder: Path) -> Counter[str]:
        """What the audit says of an example that starts here."""
        quick = None if self.through_a_file else quick_audit(made, example)
        return Counter(shorts(quick or example_audit(made, example, folder)))


def key_of(rule: Rule, example: Example) -> str:
    """An example by its rule and what it says."""
    return f"{rule.name}: {example.says}"


def goes_through_a_file(rule: Rule) -> bool:
    """Whether a rule's first example is typed, saved and read even where values alone would show it."""
    return crc32(rule.name.encode()) % _OF_FILES == 0


def is_proven(made: Made, rule: Rule, example: Example) -> bool:
    """Whether the audit of several examples, this one among them, said what they all say. `made` has the usual sheets."""
    number = _numbers(made).get(key_of(rule, example))
    if number is None:
        return False
    proven = kept(f"rules-together-{number}", partial(_prove, *_groups(made)[number])) / "proven.json"
    return key_of(rule, example) in json.loads(proven.read_text("utf-8"))


def _prove(base: Base, group: Sequence[Named], folder: Path) -> None:
    done = _said_together(base, base.made(folder), group, folder)
    (folder / "proven.json").write_text(json.dumps([key_of(*one) for one in done]), "utf-8")


def _said_together(base: Base, made: Made, group: Sequence[Named], folder: Path) -> list[Named]:
    """Those of a group of which the audit says what they say: all, or those of its halves."""
    if len(group) < 2:
        return []
    examples = [example for _, example in group]
    both = Example(
        "together",
        {at: what for one in examples for at, what in one.changes.items()},
        sent={at: what for one in examples for at, what in one.sent.items()},
        own=base.own,
    )
    expected = Counter(short for one in examples for short in one.finds)
    expected.update(KNOWN["overshirt"] if base.own else ())
    try:
        as_said = base.said(made, both, folder) == expected
    except (UserError, KeyError):
        as_said = False
    if as_said:
        return list(group)
    middle = len(group) // 2
    return [done for half in (group[:middle], group[middle:]) for done in _said_together(base, made, half, folder)]


@cache
def _numbers(made: Made) -> dict[str, int]:
    return {key_of(*one): number for number, (_, group) in enumerate(_groups(made)) for one in group}


@cache
def _groups(made: Made) -> list[tuple[Base, list[Named]]]:
    """Examples that start from the same, and touch no place of each other, nor a row of each other."""
    groups: list[tuple[Base, list[Named]]] = []
    for base, named in _can_go_together(made):
        for other, group in groups:
            if other == base and len(group) < _AT_ONCE and not _rows(one for _, one in group) & _rows([named[1]]):
                group.append(named)
                break
        else:
            groups.append((base, [named]))
    return [(base, group) for base, group in groups if len(group) > 1]


def _can_go_together(made: Made) -> Iterable[tuple[Base, Named]]:
    for rule in RULES:
        for example in (*rule.bad, *rule.fine):
            actions = {what.action for what in example.changes.values() if isinstance(what, Do)}
            if not (example.changes or example.sent) or example.later or actions & _ALONE:
                continue
            all_sheets = wide(made, example)
            first = example is rule.bad[0] and goes_through_a_file(rule)
            in_a_file = first or (typed_by(made, example) is None and not all_sheets)
            yield Base(example.own, all_sheets, in_a_file), (rule, example)


def _rows(examples: Iterable[Example]) -> set[str]:
    return {at.partition("]")[0] for one in examples for at in (*one.changes, *one.sent)}
