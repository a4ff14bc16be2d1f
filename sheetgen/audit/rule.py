"""What a rule is: facts found by a function, and the words that stand above it, once."""

from __future__ import annotations

import string
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal, NamedTuple

from sheetgen.audit.case import Case
from sheetgen.declare.entry import Place
from sheetgen.declare.judgment import LIMITS
from sheetgen.declare.kinds import Value

Level = Literal["fix", "query", "note"]
Owner = Literal["vendor", "designer"]
LEVELS: tuple[Level, ...] = ("fix", "query", "note")


class Fault(NamedTuple):
    """A fact that a rule found: where (a place, or a sheet and cell), what was expected, what stands there.

    `cause` is a sentence or two about how it came about, where that can be told; `limits` names those of the rule's limits that
    it went past; None for all of them.
    """

    place: Place | None
    expected: str = ""
    found: str = ""
    sheet: str = ""
    cell: str = ""
    owner: Owner | None = None
    cause: str = ""
    limits: tuple[str, ...] | None = None


@dataclass(frozen=True)
class Do:
    """Something else than typing: an action of `testing.actions`, such as `formula`, `drop-column` or `add-macro`."""

    action: str
    value: object = None


@dataclass(frozen=True)
class Example:
    """A case of a rule: changes made to a file without a fault, and all that the audit then says of it.

    `changes` are places with the value that is typed there (None clears the cell), or with what else is done to that
    place, table, sheet or to the whole file (`Do`). The file is a vendor's complete return, or with `own` the designer's
    working workbook. `sent` pretends that other values were sent; `later` that a receipt with these words, else the
    same, lies beside the file.
    """

    says: str
    changes: Mapping[str, object] = field(default_factory=dict)
    finds: tuple[str, ...] = ()
    sent: Mapping[str, Value] = field(default_factory=dict)
    later: Mapping[str, str] = field(default_factory=dict)
    own: bool = False


@dataclass(frozen=True)
class Rule:
    """A rule with its words. Holes in `message`, `fix`, `asked`: place, sheet, cell, row, heading, line, expected, found, cause.

    `fix` says what to do; the letter to the vendor says `asked` instead, where `fix` speaks to whoever opened the file.
    `limits` are the limits of the judgment by which it finds: a finding says them, for the brand.
    """

    name: str
    title: str
    level: Level
    source: str
    message: str
    why: str
    fix: str
    check: Callable[[Case], Iterator[Fault]]
    bad: tuple[Example, ...]
    fine: tuple[Example, ...]
    owner: Owner = "vendor"
    asked: str = ""
    limits: tuple[str, ...] = ()


_HOLES = {"place", "sheet", "cell", "row", "heading", "expected", "found", "line", "cause"}


def rule(  # noqa: PLR0913 - the words of a rule, each by its name
    *, title: str, level: Level, source: str, message: str, why: str, fix: str,
    bad: tuple[Example, ...], fine: tuple[Example, ...], owner: Owner = "vendor", asked: str = "",
    limits: tuple[str, ...] = (),
) -> Callable[[Callable[[Case], Iterator[Fault]]], Rule]:  # fmt: skip
    """Make a rule of a generator of faults; its name is the function's with hyphens. ValueError on an unknown hole or limit."""

    def made(check: Callable[[Case], Iterator[Fault]]) -> Rule:
        name = check.__name__.replace("_", "-")
        for text in (message, fix, asked):
            unknown = {part[1] for part in string.Formatter().parse(text) if part[1]} - _HOLES
            if unknown:
                raise ValueError(f"{name}: no hole is called {unknown}")
        if unknown_limits := set(limits) - set(LIMITS):
            raise ValueError(f"{name}: no limit is called {unknown_limits}")
        if not bad or not fine:
            raise ValueError(f"{name}: needs an example that fails and one that passes")
        return Rule(name, title, level, source, message, why, fix, check, bad, fine, owner, asked, limits)

    return made


@dataclass(frozen=True)
class Finding:
    """What the audit says: rule, level, whose turn, where, and in words what is wrong, why it matters, what to do."""

    rule: str
    level: Level
    owner: Owner
    sheet: str
    cell: str
    row: str
    column: str
    expected: str
    found: str
    message: str
    why: str
    action: str
    place: str = ""
    asked: str = ""
    """What the letter asks of the vendor."""
    limit: str = ""
    """The end of the message that says the limits, for the brand."""

    @property
    def told(self) -> str:
        """The message without the limits: what a vendor is told, who could keep just below them."""
        return self.message.removesuffix(self.limit) if self.limit else self.message

    @property
    def short(self) -> str:
        """Rule and place in one line: how tests compare findings."""
        return f"{self.rule} {self.place or (self.sheet + (' ' + self.cell if self.cell else ''))}".strip()
