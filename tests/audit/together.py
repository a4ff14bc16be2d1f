"""Examples that need a file, several in one: what the audit says of them all is what they say, put together.

Where it is not, each of them goes through a file of its own, which says whose it is. Reading a file is what takes the time.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from zlib import crc32

from sheetgen.audit import RULES
from sheetgen.audit.rule import Do, Example, Rule
from sheetgen.errors import UserError
from tests.audit.made import Made, example_audit, make, shorts, typed_by, wide
from tests.kept import kept

_IN_A_FILE = 8
_ALONE = frozenset(
    "record drop-record drop-sheet hide-sheet no-values double-row add-row add-nameless-row clear-row drop-column move-name "
    "fill-down copy-from shows".split()
)
"""Actions that change what the others are judged by."""
_OF_FILES = 4
"""One rule in so many has its first example judged through a file, although it need not be."""


def key_of(rule: Rule, example: Example) -> str:
    """An example by its rule and what it says."""
    return f"{rule.name}: {example.says}"


def goes_through_a_file(rule: Rule) -> bool:
    """Whether a rule's first example is typed, saved and read even where values alone would show it."""
    return crc32(rule.name.encode()) % _OF_FILES == 0


@cache
def proven() -> frozenset[str]:
    """The examples of which the audit said what they say, several in one file."""
    return frozenset(json.loads((kept("rules-together", _prove) / "proven.json").read_text("utf-8")))


def _prove(folder: Path) -> None:
    made = make("overshirt", folder)
    done: list[str] = []
    for number, group in enumerate(_groups(made)):
        (place := folder / str(number)).mkdir()
        all_changes = Example("together", {at: what for _, one in group for at, what in one.changes.items()})
        expected = Counter(short for _, one in group for short in one.finds)
        try:
            found = Counter(shorts(example_audit(made, all_changes, place)))
        except (UserError, KeyError):
            continue
        if found == expected:
            done += [key_of(rule, one) for rule, one in group]
    (folder / "proven.json").write_text(json.dumps(done), "utf-8")


def _groups(made: Made) -> list[list[tuple[Rule, Example]]]:
    """Examples that touch no place of each other, nor a row of each other."""
    groups: list[list[tuple[Rule, Example]]] = []
    for rule, example in _need_a_file(made):
        for group in groups:
            if len(group) < _IN_A_FILE and not _rows(one for _, one in group) & _rows([example]):
                group.append((rule, example))
                break
        else:
            groups.append([(rule, example)])
    return [group for group in groups if len(group) > 1]


def _need_a_file(made: Made) -> Iterable[tuple[Rule, Example]]:
    for rule in RULES:
        for example in (*rule.bad, *rule.fine):
            actions = {what.action for what in example.changes.values() if isinstance(what, Do)}
            if (
                not example.changes
                or example.own
                or example.sent
                or example.later
                or actions & _ALONE
                or wide(made, example)
            ):
                continue
            if (example is rule.bad[0] and goes_through_a_file(rule)) or typed_by(made, example) is None:
                yield rule, example


def _rows(examples: Iterable[Example]) -> set[str]:
    return {at.partition("]")[0] for one in examples for at in one.changes}
