"""The reference of sheets and rules, written from their declarations, for the commands and for the README."""

from __future__ import annotations

from collections.abc import Iterator
from difflib import get_close_matches

from sheetgen.audit import RULES
from sheetgen.audit.rule import Rule
from sheetgen.declare.entry import Entry
from sheetgen.declare.parts import Chart, Form, Pictures, Section, Sheet, Table
from sheetgen.errors import UserError
from sheetgen.sheets import BOOK
from sheetgen.texts import marked, say
from sheetgen.workbook.model.values import ready, shape_of

_WHO = {
    "designer": marked("designer fills"),
    "vendor": marked("vendor fills"),
    "computed": marked("computed"),
    "fixed": marked("given"),
    "drawn": marked("drawn"),
}


def _holes() -> dict[str, str]:
    """What a rule's holes stand for, where no finding fills them."""
    return {
        "place": say("(column) of (row)"), "sheet": say("(sheet)"), "cell": say("(cell)"), "row": say("(ref)"),
        "heading": say("(column)"), "expected": say("(expected)"), "found": say("(found)"), "line": say("(row)"),
        "cause": say(" (cause, if it can be told)"),
    }  # fmt: skip


def all_sheets() -> tuple[Sheet, ...]:
    """The sheets in their order, Guide and Checks among them, families not yet expanded where a person declares them."""
    declared = {sheet.name: sheet for sheet in BOOK.sheets}
    derived = {sheet.name: sheet for sheet in ready(BOOK, shape_of(BOOK, {})).book.sheets}
    return tuple(declared.get(name) or derived[name] for name in BOOK.order)


def sheets_table() -> str:
    """The README's table of sheets, as Markdown."""
    lines = [say("| sheet | what is on it | designer fills | vendor fills | computed |"), "|---|---|---|---|---|"]
    for sheet in all_sheets():
        counts = {who: sum(entry.who == who for entry in _entries(sheet)) for who in _WHO}
        title = say("{title} (brand only)", title=sheet.title) if sheet.private else sheet.title
        title += say(" (only with several {only_with}s)", only_with=sheet.only_with) if sheet.only_with else ""
        purpose = _one_line(sheet.purpose)
        shown = [str(counts[who]) if counts[who] else "–" for who in ("designer", "vendor", "computed")]
        if sheet.derived:
            shown = ["–", "–", "all"]
        lines.append(f"| {title} | {purpose} | {' | '.join(shown)} |")
    return "\n".join(lines)


def rules_table() -> str:
    """The README's table of rules, as Markdown."""
    lines = [say("| rule | level | what it finds |"), "|---|---|---|"]
    lines.extend(f"| `{rule.name}` | {rule.level} | {say(rule.title)} |" for rule in RULES)
    return "\n".join(lines)


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
    yield say("Found, for example: ") + "; ".join(example.says for example in rule.bad)
    yield say("Not found: ") + "; ".join(example.says for example in rule.fine)


def explain_sheet(name: str) -> Iterator[str]:
    """A sheet's entries in words; UserError with the nearest name if there is none."""
    sheets = all_sheets()
    sheet = next((sheet for sheet in sheets if name.lower() in {sheet.name, sheet.title.lower()}), None)
    if sheet is None:
        near = get_close_matches(name.lower(), [sheet.name for sheet in sheets], 1)
        hint = say("is it {near!r}?", near=near[0]) if near else say("sheetgen sheets lists them.")
        raise UserError(say("no sheet is called {name!r}; {hint}", name=name, hint=hint))
    return _sheet_lines(sheet)


def _sheet_lines(sheet: Sheet) -> Iterator[str]:
    yield f"{sheet.title}: {_one_line(sheet.purpose)}"
    for part in sheet.parts:
        if isinstance(part, Form | Pictures):
            yield ""
            yield part.title
            yield from (_entry_line(f"{sheet.name}.{entry.name}", entry) for entry in part.entries)
        elif isinstance(part, Chart):
            yield ""
            yield say(
                "{title} (a chart: {sort}, {unit}, of {listed})",
                title=part.title,
                sort=part.sort,
                unit=_one_line(part.unit),
                listed=", ".join(part.series),
            )
        elif isinstance(part, Table):
            yield ""
            yield say("{title} (rows {ref}1, {ref}2, ...)", title=part.title, ref=part.ref)
            for column in part.columns:
                if isinstance(column, Section):
                    yield f"  [{_one_line(column.title)}]"
                    yield from (
                        _entry_line(f"{sheet.name}.{part.name}.{entry.name}", entry) for entry in column.columns
                    )
                else:
                    yield _entry_line(f"{sheet.name}.{part.name}.{column.name}", column)


def _entry_line(address: str, entry: Entry) -> str:
    words = [say(_WHO[entry.who]) if not entry.private else say("brand only"), entry.kind.noun]
    if entry.need:
        words.append(say("needed for {need}", need=entry.need))
    if entry.axis:
        words.append(say("one for each {axis}", axis=entry.axis))
    if entry.formula:
        words.append(f"= {entry.formula}")
    elif entry.help:
        words.append(entry.help)
    return f"  {address}: {_one_line(entry.heading)} ({'; '.join(words)})"


def _one_line(text: str) -> str:
    for hole, word in (("{unit}", "unit"), ("{other}", say("the other unit")), ("{currency}", "currency")):
        text = text.replace(hole, word)
    return " ".join(text.split())


def _entries(sheet: Sheet) -> Iterator[Entry]:
    for part in sheet.parts:
        if isinstance(part, Form | Pictures | Table):
            yield from part.entries
