"""For the terminal: what a designer reads in a minute. The only module that knows rich."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.table import Column, Table
from rich.text import Text

from sheetgen.audit.rule import Finding, Level
from sheetgen.audit.run import Audit
from sheetgen.report.folding import Group, by_sheet, folded
from sheetgen.report.outcome import Outcome, Unusable, due, in_order, turns
from sheetgen.report.plain import shortened, visible
from sheetgen.report.words import OWNERS, facts, level_word, no_sheet, said, summary, whose_turn
from sheetgen.texts import marked, say

FOLD_FROM = 4
_LONGEST = 600
_NARROWEST = 20
_STYLES: dict[Level, str] = {"fix": "bold red", "query": "yellow", "note": "cyan"}


def print_audit(console: Console, outcome: Outcome, next_step: str = "") -> None:
    """Print one file's outcome and then the next step: a line for each finding, many alike folded.

    Texts are never read as markup: they may come from the file.
    """
    if isinstance(outcome, Unusable):
        _say(console, say("{name} cannot be used.", name=outcome.file.name), style="bold red")
        _say(console, shortened(outcome.reason, _LONGEST))
    else:
        _print_findings(console, outcome)
    if next_step:
        console.print()
        _say(console, next_step, start=Text("Next: ", style="bold"))


def print_summary(console: Console, outcomes: Sequence[Outcome]) -> None:
    """Several files in one table: whose turn it is with how much, the longest due first, what cannot be used last."""
    table = Table(*(Column(say(word), overflow="fold") for word in _COLUMNS), box=None, pad_edge=False)
    for one in in_order(outcomes):
        said = ("", "", "", "")
        if not isinstance(one, Unusable):
            said = (one.style, one.vendor, due(one), str(sum(finding.level == "fix" for finding in one.findings)))
        table.add_row(*(Text(visible(word)) for word in (one.file.name, *said, turns(one))))
    console.print()
    console.print(table)


_COLUMNS = (marked("File"), marked("Style"), marked("Vendor"), marked("Due"), marked("To fix"), marked("Whose turn"))


def _print_findings(console: Console, audit: Audit) -> None:
    head = ", ".join(f"{name} {value}" for name, value in facts(audit) if name != "issue")
    _say(console, f"{audit.file.name}: {head}" if head else audit.file.name, style="bold")
    for warning in audit.warnings:
        _say(console, warning, start=Text("Warning: ", style="bold yellow"))
    if audit.sent is not None and (accounted := _accounted(audit)):
        _say(console, accounted)
    _say(console, summary(audit.findings), style="" if audit.findings else "bold green")
    for owner in OWNERS:
        turn = [finding for finding in audit.findings if finding.owner == owner]
        if turn:
            console.print()
            _say(console, f"{whose_turn(owner)} ({len(turn)})", style="bold underline")
            for sheet, those in by_sheet(turn).items():
                _say(console, sheet or no_sheet(), style="bold", start=Text("  "))
                _print_groups(console, folded(those))
    if put_away := _put_away(audit):
        console.print()
        _say(console, put_away)


def _put_away(audit: Audit) -> str:
    """How to see the sheets on which something stands, where the brand's own file does not show them."""
    if audit.issue_id:
        return ""
    machinery = {sheet.name for sheet in audit.got.ready.book.sheets if sheet.seen == "never"}
    names = {title: name for name, title in audit.got.where.titles.items() if name not in machinery}
    hidden = dict.fromkeys(one.sheet for one in audit.findings if one.sheet in audit.got.hidden and one.sheet in names)
    options = " ".join(word for title in hidden for word in ("--with", names[title]))
    if not hidden:
        return ""
    return say("Not shown yet: {sheets}. Show them: sheetgen build {file} {options} --replace",
               sheets=", ".join(hidden), file=audit.file.name, options=options)  # fmt: skip


def _accounted(audit: Audit) -> str:
    """What became of the cells that were sent; empty for a file without an account of them."""
    counts, written = audit.got.accounts.counts, audit.got.accounts.written
    if not written:
        return ""
    return say(
        "{found} of {written} cells that were sent are accounted for: {filled} filled in, {changed} changed, {lost} gone.",
        found=f"{written - counts['lost']:,}",
        written=f"{written:,}",
        filled=f"{counts['filled']:,}",
        changed=f"{counts['changed']:,}",
        lost=f"{counts['lost']:,}",
    )


def _print_groups(console: Console, groups: Iterable[Group]) -> None:
    for group in groups:
        word, style = level_word(group.first.level), _STYLES[group.first.level]
        start = Text.assemble("    ", (f"{word:<10}", style))
        many = len(group.findings) >= FOLD_FROM
        for line in [_folded_line(group)] if many else map(_line, group.findings):
            _say(console, line, start=start)


def _line(finding: Finding) -> str:
    where = " ".join(part for part in (finding.cell, f"({finding.row})" if finding.row else "") if part)
    message = shortened(finding.message, _LONGEST)
    return f"{where}: {message}" if where else message


def _folded_line(group: Group) -> str:
    cells = f"{group.count}, {group.cells} ({said(group.first.rule)})"
    line = f"{group.first.column}: {cells}" if group.first.column else cells
    if group.differs:
        line += say(". The first: {message}", message=shortened(group.first.message, _LONGEST))
    return line


def _say(console: Console, words: str, *, style: str = "", start: Text | None = None) -> None:
    """Print words after a start, wrapped under themselves, no line wider than the console."""
    start = start or Text()
    width = max(console.width - start.cell_len, _NARROWEST)
    for line in Text(visible(words), style=style).wrap(console, width, overflow="fold"):
        line.rstrip()
        console.print(start + line, soft_wrap=True)
        start = Text(" " * start.cell_len)
