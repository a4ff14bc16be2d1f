"""All findings of several files as a workbook to work through: what is done is ticked off, and who still owes what follows."""

from __future__ import annotations

import datetime
from collections.abc import Iterator, Sequence

from sheetgen.audit.rule import Finding
from sheetgen.declare.entry import Place, computed, designer, fixed
from sheetgen.declare.kinds import choice, date, text, whole
from sheetgen.declare.parts import Book, Section, Sheet, Table
from sheetgen.report.outcome import Outcome, Unusable, due, in_order
from sheetgen.report.plain import shortened, visible
from sheetgen.report.words import OWNERS
from sheetgen.workbook.model.values import Values, ready, shape_of
from sheetgen.workbook.write.file import finished

_LEVELS = {"fix": "to fix", "query": "question", "note": "note"}
_LONGEST = 1000
"""No message of ours is longer; one that holds what somebody typed may be."""


def _open(*conditions: tuple[str, str]) -> str:
    """How many findings of a file are of that kind and not done yet."""
    asked = "".join(f',findings.list.{column},"{word}"' for column, word in conditions)
    return f'COUNTIFS(findings.list.of,ref{asked})-COUNTIFS(findings.list.of,ref{asked},findings.list.done,"yes")'


FILES = Sheet("files", "Files", main="list",
              purpose="Files that were audited, what is due first on top. Counts follow what is done on Findings.", parts=(
    Table("list", "Files", ref="F", key="file", spare=0, filtered=True, columns=(
        fixed("file", "File", text(34)),
        fixed("style", "Style", text(18)),
        fixed("vendor", "Vendor", text(22)),
        fixed("purpose", "Purpose", text(9)),
        fixed("due", "Due", date()),
        Section("Still open", (
            computed("fix", "To fix", whole(), _open(("level", "to fix"))),
            computed("questions", "Questions", whole(), _open(("level", "question"))),
            computed("notes", "Notes", whole(), _open(("level", "note"))),
        )),
        Section("Whose turn", (
            computed("of_vendor", "Vendor", whole(), _open(("turn", "vendor"), ("level", "<>note"))),
            computed("of_designer", "Designer", whole(), _open(("turn", "designer"), ("level", "<>note"))),
        )),
        fixed("state", "Cannot be used", text(40)),
    )),
))  # fmt: skip
FINDINGS = Sheet("findings", "Findings", main="list",
                 purpose="Every finding with its cell, as sheetgen audit says it. Type yes under Done: it counts no more.",
                 parts=(
    Table("list", "Findings", ref="W", key="file", spare=0, filtered=True,
          note="An empty list means that nothing was found.", columns=(
        fixed("file", "File", text(28)),
        fixed("of", "Its ref", text(9)),
        designer("done", "Done", choice("yes", width=9)),
        fixed("turn", "Whose turn", choice(*OWNERS, width=11)),
        fixed("level", "Level", choice(*_LEVELS.values(), width=9)),
        fixed("sheet", "Sheet", text(14)),
        fixed("cell", "Cell", text(9)),
        fixed("row", "Row", text(8)),
        fixed("message", "What is wrong", text(50)),
        fixed("todo", "What to do", text(38)),
        designer("note", "Note", text(24)),
    )),
))  # fmt: skip
WORKLIST = Book(sheets=(FILES, FINDINGS), axes={}, order=("files", "findings"), name="worklist")


def worklist(outcomes: Sequence[Outcome]) -> bytes:
    """The workbook. Same outcomes, same bytes."""
    ordered = in_order(outcomes)
    values: Values = {}
    for number, outcome in enumerate(ordered, 1):
        values |= dict(_of_file(f"F{number}", outcome))
    found = (
        (of, one)
        for of, outcome in enumerate(ordered, 1) if not isinstance(outcome, Unusable) for one in outcome.findings
    )  # fmt: skip
    for number, (of, finding) in enumerate(found, 1):
        values |= dict(_of_finding(f"W{number}", f"F{of}", str(ordered[of - 1].file), finding))
    values = {place: value for place, value in values.items() if value not in (None, "")}
    book = ready(WORKLIST, shape_of(WORKLIST, values))
    return finished(book, values, {"kind": "worklist", "book": WORKLIST.name}).data


def _of_file(row: str, outcome: Outcome) -> Iterator[tuple[Place, str | datetime.date | None]]:
    yield Place("files.list.file", row), visible(str(outcome.file))
    if isinstance(outcome, Unusable):
        yield Place("files.list.state", row), _short(outcome.reason)
        return
    for name in ("style", "vendor", "purpose"):
        yield Place(f"files.list.{name}", row), _short(getattr(outcome, name))
    day = due(outcome)
    yield Place("files.list.due", row), datetime.date.fromisoformat(day) if day else None


def _of_finding(row: str, of: str, file: str, finding: Finding) -> Iterator[tuple[Place, str]]:
    said = {
        "file": visible(file), "of": of, "turn": finding.owner, "level": _LEVELS[finding.level],
        "sheet": _short(finding.sheet), "cell": finding.cell, "row": finding.row,
        "message": _short(finding.message), "todo": _short(finding.action),
    }  # fmt: skip
    yield from ((Place(f"findings.list.{name}", row), words) for name, words in said.items())


def _short(words: str) -> str:
    return shortened(words, _LONGEST)
