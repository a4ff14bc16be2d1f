"""For the vendor: a letter in plain text that says what to correct and what to answer, and nothing else."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence

from sheetgen.audit.rule import Finding
from sheetgen.audit.run import Audit
from sheetgen.report.folding import Group, by_sheet, folded
from sheetgen.report.letter import LetterWords
from sheetgen.report.plain import shortened, visible
from sheetgen.report.words import no_sheet, said
from sheetgen.texts import marked, say

WIDTH = 78
_LONGEST = 600
_INDENT = " " * 4

_RETURN = marked(
    "How to return it: make the changes in the same file, and leave sheets, rows, columns, headings and "
    "formulas as they are. If something cannot be filled yet, write to us instead of typing a word in its "
    "cell. Save the file as a workbook (.xlsx), without a password, and send it back with your reply."
)


def reply_text(
    audit: Audit, *, contact: str, words: LetterWords | None = None, still_open: Sequence[str] = ()
) -> str:  # fmt: skip
    """The letter: the vendor's own things to fix and questions, numbered, by sheet; else only thanks.

    `words` are the brand's around the points; `still_open` what was asked in earlier rounds and has no answer yet. No line is
    longer than 78 characters. The designer's findings, notes, warnings and reasons are not in it: reasons are written for the
    brand and may say what the vendor should not read.
    """
    words = words or LetterWords()
    asked = [one for one in audit.findings if one.owner == "vendor" and one.level in {"fix", "query"}]
    sheets = {sheet: folded(those) for sheet, those in by_sheet(asked).items()}
    given = {
        "vendor": audit.vendor or say("partner"), "what": _what(audit), "style": audit.style, "revision": audit.revision,
        "purpose": audit.purpose, "points": _points(sum(map(len, sheets.values()))), "contact": contact,
    }  # fmt: skip
    given = {hole: visible(shortened(value, _LONGEST)) for hole, value in given.items()}
    opening = "questions" if words.questions and all(one.level == "query" for one in asked) else "opening"
    parts = [say("Subject: {subject}", subject=_subject(audit, bool(asked))), words.filled("greeting", given)]
    parts = [*map(_wrapped, parts), _lines(words.filled(opening if asked else "thanks", given))]
    if asked:
        parts.extend(_asking(sheets))
    if still_open:
        parts.append(_wrapped(say("Still open from earlier rounds:")))
        parts.append("\n".join(_wrapped(f"- {shortened(line, _LONGEST)}", "", "  ") for line in still_open))
    if asked:
        parts.append(_wrapped(say(_RETURN)))
    parts.append(_lines(words.filled("closing", given)))
    return "\n\n".join(parts) + "\n"


def _lines(text: str) -> str:
    """Paragraphs as they were written, each line wrapped."""
    return "\n".join(_wrapped(line) for line in text.split("\n"))


def _points(count: int) -> str:
    return say("the point below") if count == 1 else say("the {points} points below", points=count)


def _subject(audit: Audit, asks: bool) -> str:
    named = (say("Style {style}", style=audit.style) if audit.style else "", _revision(audit))
    what = ", ".join(part for part in named if part) or audit.file.name
    return f"{what}: {say('please complete your copy') if asks else say('thank you')}"


def _revision(audit: Audit) -> str:
    return say("revision {revision}", revision=audit.revision) if audit.revision else ""


def _what(audit: Audit) -> str:
    named = [
        say("the workbook for style {style}", style=audit.style) if audit.style else say("the workbook"),
        _revision(audit),
    ]
    issue = say(", issue {issue}", issue=audit.issue_id) if audit.issue_id else ""
    return f"{', '.join(part for part in named if part)} ({say('file')} {audit.file.name}{issue})"


def _asking(sheets: Mapping[str, Sequence[Group]]) -> Iterator[str]:
    number = 0
    for sheet, groups in sheets.items():
        name = shortened(say("Sheet {sheet}", sheet=sheet) if sheet else no_sheet(), 50)
        yield f"{name}\n{'-' * len(name)}"
        for group in groups:
            number += 1
            yield _point(number, group)


def _point(number: int, group: Group) -> str:
    ask = say("please correct") if group.first.level == "fix" else say("question")
    lines = [_wrapped(f"{number:>2}. {_where(group)}: {ask}", rest=_INDENT)]
    action = group.shared(lambda one: one.asked)
    if group.differs:
        lines.extend(_each(finding, with_action=action is None) for finding in group.findings)
    else:
        message = group.shared(lambda one: one.told)
        whole = say(
            "{rule}. For example: {message}",
            rule=said(group.first.rule).capitalize(),
            message=group.first.told,
        )
        lines.append(_indented(whole if message is None else message))
        action = say("For example: {action}", action=group.first.asked) if action is None else action
    if action:
        lines.append(_indented(say("To do: {action}", action=action)))
    return "\n".join(lines)


def _each(finding: Finding, *, with_action: bool) -> str:
    where = say("{cell}, line {row}", cell=finding.cell, row=finding.row) if finding.row else finding.cell
    text = shortened(f"- {where}: {finding.told}", _LONGEST)
    if with_action and finding.asked:
        text += say(" To do: {action}", action=shortened(finding.asked, _LONGEST))
    return _wrapped(text, _INDENT, f"{_INDENT}  ")


def _indented(text: str) -> str:
    return _wrapped(shortened(text, _LONGEST), _INDENT, _INDENT)


def _where(group: Group) -> str:
    first = group.first
    if len(group.findings) > 1:
        cells, row = f"{group.count} {group.cells}", ""
    else:
        cells = say("cell {cell}", cell=first.cell) if first.cell else ""
        row = say("line {row}", row=first.row) if first.row else ""
    where = ", ".join(part for part in (first.column, cells, row) if part) or said(first.rule)
    return where[:1].upper() + where[1:]


def _wrapped(text: str, start: str = "", rest: str = "") -> str:
    return textwrap.fill(visible(text), WIDTH, initial_indent=start, subsequent_indent=rest, break_on_hyphens=False)
