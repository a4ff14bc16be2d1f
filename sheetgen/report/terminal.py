"""For the terminal: what a designer reads in a minute. The only module that knows rich."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from sheetgen.audit.rule import Finding, Level
from sheetgen.audit.run import Audit
from sheetgen.report.folding import Group, by_sheet, folded
from sheetgen.report.outcome import Outcome, Unusable
from sheetgen.report.plain import shortened, visible
from sheetgen.report.words import LEVEL_WORDS, NO_SHEET, OWNERS, TURNS, counted, facts, said, summary

FOLD_FROM = 4
_LONGEST = 280
_STYLES: dict[Level, str] = {"fix": "bold red", "query": "yellow", "note": "cyan"}


def print_audit(console: Console, outcome: Outcome, next_step: str = "") -> None:
    """Print one file's outcome and then the next step: a line for each finding, many alike folded.

    Texts are never read as markup: they may come from the file.
    """
    if isinstance(outcome, Unusable):
        console.print(_text(f"{outcome.file.name} cannot be used.", "bold red"))
        console.print(_text(shortened(outcome.reason, _LONGEST)))
    else:
        _print_findings(console, outcome)
    if next_step:
        console.print()
        console.print(_text("Next: ", "bold") + _text(next_step))


def _print_findings(console: Console, audit: Audit) -> None:
    head = ", ".join(f"{name} {value}" for name, value in facts(audit) if name != "issue")
    console.print(_text(audit.file.name, "bold") + _text(f": {head}" if head else ""))
    for warning in audit.warnings:
        console.print(_text("Warning: ", "bold yellow") + _text(warning))
    console.print(_text(summary(audit.findings), "" if audit.findings else "bold green"))
    for owner in OWNERS:
        turn = [finding for finding in audit.findings if finding.owner == owner]
        if turn:
            console.print()
            console.print(_text(f"{TURNS[owner]} ({len(turn)})", "bold underline"))
            _print_sheets(console, turn)


def _print_sheets(console: Console, findings: Sequence[Finding]) -> None:
    for sheet, those in by_sheet(findings).items():
        console.print(Padding(_text(sheet or NO_SHEET, "bold"), (0, 0, 0, 2)))
        console.print(Padding(_lines(folded(those)), (0, 0, 0, 4)))


def _lines(groups: Iterable[Group]) -> Table:
    table = Table.grid(padding=(0, 2, 0, 0), pad_edge=False)
    table.add_column(min_width=8, no_wrap=True)
    table.add_column(overflow="fold")
    for group in groups:
        level = Text(LEVEL_WORDS[group.first.level], style=_STYLES[group.first.level])
        if len(group.findings) >= FOLD_FROM:
            table.add_row(level, _text(_folded_line(group)))
            continue
        for finding in group.findings:
            table.add_row(level, _text(_line(finding)))
    return table


def _line(finding: Finding) -> str:
    where = " ".join(part for part in (finding.cell, f"({finding.row})" if finding.row else "") if part)
    message = shortened(finding.message, _LONGEST)
    return f"{where}: {message}" if where else message


def _folded_line(group: Group) -> str:
    cells = f"{counted(len(group.findings), 'cell', 'cells')}, {group.cells} ({said(group.first.rule)})"
    line = f"{group.first.column}: {cells}" if group.first.column else cells
    if group.differs:
        line += f". The first: {shortened(group.first.message, _LONGEST)}"
    return line


def _text(words: str, style: str = "") -> Text:
    return Text(visible(words), style=style, overflow="fold")
