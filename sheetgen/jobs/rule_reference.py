"""The reference of the audit's rules, written from their declarations, for the command and for the README."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from sheetgen.audit import RULES
from sheetgen.audit.rule import Rule
from sheetgen.errors import UserError

_HOLES = {
    "place": "(column) of (row)", "sheet": "(sheet)",
    "cell": "(cell)", "row": "(ref)", "heading": "(column)", "expected": "(expected)",
    "found": "(found)", "line": "(row)", "cause": " (cause, if it can be told)",
}  # fmt: skip


def rules_table() -> str:
    """The README's table of rules, as Markdown."""
    lines = ["| rule | level | what it finds |", "|---|---|---|"]
    lines.extend(f"| `{rule.name}` | {rule.level} | {rule.title} |" for rule in RULES)
    return "\n".join(lines)


def explain_rule(name: str) -> Iterator[str]:
    """A rule in words; UserError with the nearest name if there is none."""
    rule = next((rule for rule in RULES if rule.name == name), None)
    if rule is None:
        near = get_close_matches(name, [rule.name for rule in RULES], 1)
        hint = f"is it {near[0]!r}?" if near else "sheetgen rules lists them."
        raise UserError(f"no rule is called {name!r}; {hint}")
    return _rule_lines(rule)


def _rule_lines(rule: Rule) -> Iterator[str]:
    yield f"{rule.name}: {rule.title}"
    yield f"Level {rule.level}; usually the {rule.owner}'s turn."
    yield f"Says: {rule.message.format_map(_HOLES)}"
    yield f"Why: {rule.why}"
    yield f"What to do: {rule.fix.format_map(_HOLES)}"
    yield f"Source: {rule.source}"
    yield "Found, for example: " + "; ".join(example.says for example in rule.bad)
    yield "Not found: " + "; ".join(example.says for example in rule.fine)
