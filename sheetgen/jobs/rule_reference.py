"""The reference of the audit's rules and of their limits, written from their declarations, for the command and for the README."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from sheetgen.audit import RULES
from sheetgen.audit.rule import Rule
from sheetgen.declare.judgment import LIMITS, TABLE, Limit
from sheetgen.errors import UserError
from sheetgen.texts import say


def _holes() -> dict[str, str]:
    """What a rule's holes stand for, where no finding fills them."""
    return {
        "place": say("(column) of (row)"), "sheet": say("(sheet)"), "cell": say("(cell)"), "row": say("(ref)"),
        "heading": say("(column)"), "expected": say("(expected)"), "found": say("(found)"), "line": say("(row)"),
        "cause": say(" (cause, if it can be told)"),
    }  # fmt: skip


def rules_table() -> str:
    """The README's table of rules, as Markdown."""
    lines = [say("| rule | level | what it finds |"), "|---|---|---|"]
    lines.extend(f"| `{rule.name}` | {rule.level} | {say(rule.title)} |" for rule in RULES)
    return "\n".join(lines)


def limits_table() -> str:
    """The README's table of limits, as Markdown."""
    lines = [say("| limit | usual | from, to | rules | what it means | source |"), "|---|---|---|---|---|---|"]
    for name, usual, bounds, rules, *rest in limit_rows():
        listed = ", ".join(f"`{rule}`" for rule in rules.split(", "))
        lines.append(f"| {' | '.join((f'`{name}`', usual, bounds, listed, *rest))} |")
    return "\n".join(lines)


def limit_rows() -> Iterator[tuple[str, ...]]:
    """Each limit in words: name, usual figure, bounds, rules that judge by it, what it means, source."""
    for name, limit in LIMITS.items():
        rules = ", ".join(rule.name for rule in RULES if name in rule.limits)
        yield name, _usual(limit), limit.bounds(), rules, say(limit.means), say(limit.source)


def _usual(limit: Limit) -> str:
    """As it is typed, and as it is read where that is another figure: 0.1 (10 %)."""
    typed, read = f"{limit.usual:g}", limit.shown(limit.usual)
    return typed if typed == read else f"{typed} ({read})"


def explain_rule(name: str) -> Iterator[str]:
    """A rule in words; UserError with the nearest name if there is none."""
    rule = next((rule for rule in RULES if rule.name == name), None)
    if rule is None:
        near = get_close_matches(name, [rule.name for rule in RULES], 1)
        hint = say("is it {near!r}?", near=near[0]) if near else say("sheetgen rules lists them.")
        raise UserError(say("no rule is called {name!r}; {hint}", name=name, hint=hint))
    return _rule_lines(rule)


def _rule_lines(rule: Rule) -> Iterator[str]:
    yield f"{rule.name}: {say(rule.title)}"
    yield say("Level {level}; usually the {owner}'s turn.", level=rule.level, owner=rule.owner)
    yield say("Says: {message}", message=say(rule.message, **_holes()))
    yield say("Why: {why}", why=say(rule.why))
    yield say("What to do: {fix}", fix=say(rule.fix, **_holes()))
    yield say("Source: {source}", source=rule.source)
    if rule.limits:
        yield say("Limits, which a brand file sets in its table [{table}]:", table=TABLE)
    for limit in (LIMITS[name] for name in rule.limits):
        yield say(
            "  {name} = {usual}, from {bounds}. {means} Source: {source}.",
            name=limit.name, usual=_usual(limit), bounds=limit.bounds(), means=say(limit.means), source=say(limit.source),
        )  # fmt: skip
    yield say("Found, for example: ") + "; ".join(example.says for example in rule.bad)
    yield say("Not found: ") + "; ".join(example.says for example in rule.fine)
