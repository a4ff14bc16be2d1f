"""For the browser: one page that stands alone: no script, nothing loaded, for screen, phone and paper."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from html import escape
from typing import NamedTuple

from sheetgen.audit.rule import LEVELS, Finding, Owner
from sheetgen.audit.run import Audit
from sheetgen.report.folding import Group, by_sheet, folded
from sheetgen.report.outcome import Outcome, Unusable, due, in_order, turns
from sheetgen.report.page_look import style_sheet
from sheetgen.report.plain import shortened, visible
from sheetgen.report.words import OWNERS, facts, level_word, no_sheet, said, summary, whose_turn
from sheetgen.texts import marked, say, say_many

_LONGEST = 1000
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
_CONTENTS_FROM = 3
"""So many sheets with findings have a list of contents above them."""
_OVERVIEW = (marked("File"), marked("Style"), marked("Vendor"), marked("Due"))
_HEADINGS = (marked("Level"), marked("Where"), marked("What is wrong"), marked("What to do"))


def html_page(outcomes: Sequence[Outcome], *, title: str) -> str:
    """The page for one file or several. Nothing that came from a file can run or load in it."""
    files = "".join(_file(number, outcome) for number, outcome in enumerate(outcomes, 1))
    return (
        '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        f'<meta http-equiv="Content-Security-Policy" content="{_POLICY}">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{_safe(title)}</title>\n<style>\n{style_sheet()}</style>\n</head>\n<body>\n"
        f'<header class="band"><h1>{_safe(title)}</h1></header>\n<main>\n'
        f"{_overview(outcomes) if len(outcomes) > 1 else ''}{files}</main>\n</body>\n</html>\n"
    )


def _safe(text: str) -> str:
    return escape(shortened(text, _LONGEST))


def _value(text: str) -> str:
    # A text that runs from right to left must not turn the words around it.
    return f"<bdi>{_safe(text)}</bdi>"


def _overview(outcomes: Sequence[Outcome]) -> str:
    heads = "".join(f'<th scope="col" class="number">{word}</th>' for word in _levels())
    numbers = {outcome.file: number for number, outcome in enumerate(outcomes, 1)}
    rows = "".join(_overview_row(numbers[outcome.file], outcome) for outcome in in_order(outcomes))
    return (
        f'<section aria-labelledby="files"><h2 id="files">{say_many("{count:,} file", "{count:,} files", len(outcomes))}</h2>\n'
        f'<div class="wide"><table>\n<thead><tr>{_heads(*_OVERVIEW)}'
        f"{heads}{_heads(say('Whose turn'))}</tr></thead>\n<tbody>\n{rows}</tbody></table></div></section>\n"
    )


def _overview_row(number: int, outcome: Outcome) -> str:
    link = f'<td><a href="#file-{number}">{_value(outcome.file.name)}</a></td>'
    if isinstance(outcome, Unusable):
        return f'<tr>{link}<td colspan="7">{say("Cannot be used: {reason}", reason=_value(outcome.reason))}</td></tr>\n'
    cells = "".join(
        f'<td class="number">{sum(finding.level == level for finding in outcome.findings)}</td>' for level in LEVELS
    )
    facts = "".join(f"<td>{_value(fact)}</td>" for fact in (outcome.style, outcome.vendor, due(outcome)))
    return f"<tr>{link}{facts}{cells}<td>{turns(outcome)}</td></tr>\n"


def _heads(*words: str) -> str:
    return "".join(f'<th scope="col">{say(word)}</th>' for word in words)


def _file(number: int, outcome: Outcome) -> str:
    content = (
        _warning(say("Cannot be used"), outcome.reason) if isinstance(outcome, Unusable) else _audited(number, outcome)
    )
    return (
        f'<section class="file" aria-labelledby="file-{number}">\n'
        f'<h2 id="file-{number}">{_value(outcome.file.name)}</h2>\n{content}</section>\n'
    )


def _audited(number: int, audit: Audit) -> str:
    pairs = "".join(f"<div><dt>{name.capitalize()}</dt><dd>{_value(value)}</dd></div>" for name, value in facts(audit))
    warnings = "".join(_warning("Warning", warning) for warning in audit.warnings)
    ready = "" if audit.findings else " ready"
    parts = list(_parts(number, audit.findings))
    said_of_all = f'<p class="sum{ready}">{summary(audit.findings)}</p>'
    return f'<dl class="facts">{pairs}</dl>\n{warnings}{said_of_all}\n{_contents(parts)}{_turns(parts)}'


class _Part(NamedTuple):
    """What one side has to do on one sheet: its place in the page, and the findings folded."""

    owner: Owner
    anchor: str
    sheet: str
    findings: Sequence[Finding]
    groups: Sequence[Group]


def _parts(number: int, findings: Sequence[Finding]) -> Iterator[_Part]:
    """By whose turn it is, then by sheet; sheets with something to fix come first."""
    for owner in OWNERS:
        sheets = by_sheet(one for one in findings if one.owner == owner)
        in_order = sorted(sheets.items(), key=lambda pair: min(LEVELS.index(one.level) for one in pair[1]))
        for place, (sheet, those) in enumerate(in_order, 1):
            yield _Part(owner, f"file-{number}-{owner}-{place}", sheet or no_sheet(), those, folded(those, alike=True))


def _contents(parts: Sequence[_Part]) -> str:
    """Links to each sheet with how much there is on it; and why the points are fewer than the findings."""
    if len(parts) < _CONTENTS_FROM:
        return ""
    rows = "".join(_content(part, first=part.owner != before) for before, part in _with_before(parts))
    findings, groups = sum(len(part.findings) for part in parts), sum(len(part.groups) for part in parts)
    folded_so = say(
        "{points:,} points for {findings:,} findings: what says the same of many cells is one point, here and in the letter.",
        points=groups, findings=findings,
    )  # fmt: skip
    note = f'<p class="faint">{folded_so}</p>\n' if groups < findings else ""
    heads = "".join(f'<th scope="col" class="number">{word}</th>' for word in _levels())
    return (
        f'<nav aria-label="{say("Contents")}" class="wide"><table class="contents">\n'
        f'<thead><tr><th scope="col">{say("Whose turn")}</th><th scope="col">{say("Sheet")}</th>{heads}</tr></thead>\n'
        f"<tbody>\n{rows}</tbody></table></nav>\n{note}"
    )


def _with_before(parts: Sequence[_Part]) -> Iterator[tuple[str, _Part]]:
    return zip(("", *(part.owner for part in parts)), parts, strict=False)


def _content(part: _Part, *, first: bool) -> str:
    counts = (sum(group.first.level == level for group in part.groups) for level in LEVELS)
    cells = "".join(f'<td class="number">{count or ""}</td>' for count in counts)
    turn = whose_turn(part.owner) if first else ""
    return f'<tr><td>{turn}</td><td><a href="#{part.anchor}">{_value(part.sheet)}</a></td>{cells}</tr>\n'


def _levels() -> tuple[str, ...]:
    return say("To fix"), say("Questions"), say("Notes")


def _warning(word: str, text: str) -> str:
    return f'<p class="warning"><strong>{word}:</strong> {_value(text)}</p>\n'


def _turns(parts: Sequence[_Part]) -> str:
    text = ""
    for before, part in _with_before(parts):
        if part.owner != before:
            count = sum(len(one.findings) for one in parts if one.owner == part.owner)
            text += f"<h3>{whose_turn(part.owner)}: {say_many('{count:,} finding', '{count:,} findings', count)}</h3>\n"
        text += f'<h4 id="{part.anchor}">{_value(part.sheet)}</h4>\n{_table(part.sheet, part.groups)}\n'
    return text


def _table(sheet: str, groups: Iterable[Group]) -> str:
    # The roles keep it a table for a screen reader where a phone shows the rows as blocks.
    heads = "".join(f'<th scope="col" role="columnheader">{say(heading)}</th>' for heading in _HEADINGS)
    rows = "".join(_row(group) for group in groups)
    return (
        f'<table class="findings" role="table" aria-label="{_safe(sheet)}">\n'
        f'<thead role="rowgroup"><tr role="row">{heads}</tr></thead>\n'
        f'<tbody role="rowgroup">\n{rows}</tbody></table>\n'
    )


def _row(group: Group) -> str:
    level = group.first.level
    badge = f'<span class="level {level}">{level_word(level).capitalize()}</span>'
    contents = (badge, _where(group), _wrong(group), _todo(group))
    cells = "".join(f'<td role="cell">{content}</td>' for content in contents)
    return f'<tr role="row">{cells}</tr>\n'


def _where(group: Group) -> str:
    first = group.first
    cells = f"{group.count}: {group.cells}" if len(group.findings) > 1 else first.cell
    rows = f"{'row' if len(group.rows) == 1 else 'rows'} {', '.join(group.rows)}" if group.rows else ""
    lines = [f"<strong>{_value(first.column)}</strong>"] if first.column else []
    # Not shortened: each cell is named, however many there are.
    lines.extend(f"<bdi>{escape(visible(line))}</bdi>" for line in (cells, rows) if line)
    whole = say("The whole sheet") if first.sheet else no_sheet()
    return f'<p class="place">{"<br>".join(lines) or whole}</p>'


def _wrong(group: Group) -> str:
    first = group.first
    message = group.shared(lambda one: one.message)
    if message is None:
        message = say("{rule}. For example: {message}", rule=said(first.rule).capitalize(), message=first.message)
    values = "".join(
        f"<dt>{word}</dt><dd>{_value(value)}</dd>"
        for word, value in (("Expected", first.expected), ("Found", first.found))
        if value
    )
    return f"<p>{_value(message)}</p>" + (f'<dl class="values">{values}</dl>' if values else "")


def _todo(group: Group) -> str:
    first = group.first
    action = group.shared(lambda one: one.action)
    if action is None:
        action = say("For example: {action}", action=first.action)
    why = say("Why: {why} ", why=_value(first.why)) if first.why else ""
    rule = f'<span class="rule">(Rule: {_safe(first.rule)})</span>'
    return f'<p>{_value(action)}</p><p class="faint">{why}{rule}</p>'
