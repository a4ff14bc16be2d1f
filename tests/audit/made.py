"""A style's life up to the audit: working file, issued copy with its receipt, and the vendor's clean return."""

from __future__ import annotations

import datetime
import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache, partial
from pathlib import Path

from sheetgen.audit import RULES
from sheetgen.audit.case import Case
from sheetgen.audit.rule import Do, Example, Rule
from sheetgen.audit.run import Audit, audit, case_of, judged
from sheetgen.declare.entry import REF, place_of
from sheetgen.sheets import BOOK
from sheetgen.testing.edit import Edit, edited_bytes
from sheetgen.workbook.exchange.receipts import load_receipt, receipt_from_json
from sheetgen.workbook.model.values import Values
from sheetgen.workbook.read.file import read
from sheetgen.workbook.read.found import Returned
from tests.loop import loop

ON_CELLS = frozenset(
    "type times formula fill-down copy-from clear-row add-row add-nameless-row double-row drop-column drop-picture shows".split()
)
"""Actions whose place is a cell, a row, a column or a table; the others are done to a sheet or to the file."""
KNOWN = {
    "overshirt": [
        "caution-raised checks.caution_azo_dyes_eu",
    ],
}
"""What the audit says of a designer's working file as it was built: written by hand from its brief."""
STYLES = ("overshirt", "sweatshirt", "jacket")


@dataclass(frozen=True)
class Made:
    """The files of one style, a folder for changed ones, and what was found in the two that are edited."""

    folder: Path
    working: Path
    issued: Path
    receipt: Path
    clean: Path

    def found(self, own: bool = False) -> Returned:
        return _found(self.working if own else self.clean)

    def audited(self, edits: Sequence[Edit] = (), name: str = "returned", own: bool = False) -> Audit:
        """The audit of the clean return (or the working file) after these edits."""
        target = self.folder / name / ("working.xlsx" if own else "returned.xlsx")
        target.parent.mkdir(exist_ok=True)
        source = self.working if own else self.clean
        data = source.read_bytes()
        target.write_bytes(edited_bytes(self.found(own), data, edits) if edits else data)
        return audit(BOOK, RULES, target, None if own else self.receipt)


@cache
def _found(path: Path) -> Returned:
    return read(BOOK, path)


def unknown_places(made: Made, example: Example) -> list[tuple[str, set[str]]]:
    """The places of an example that its file does not have, each with all that it has."""
    book = made.found(example.own).ready.book
    known = {*book.entries, *book.tables, *(f"{table}.{REF}" for table in book.tables)}
    written = {
        *(text for text, change in example.changes.items() if not isinstance(change, Do) or change.action in ON_CELLS),
        *example.sent,
    }
    return [(text, known) for text in sorted(written) if place_of(text).entry not in known]


def wide(made: Made, example: Example) -> bool:
    """Whether an example speaks of a sheet that is not in the copy as its purpose asks for it."""
    return bool(unknown_places(made, example))


def make(style: str, folder: Path) -> Made:
    """The files of the style's loop; what is edited goes into `folder`."""
    of = loop(style)
    own = folder / "own" / "a-working.xlsx"  # where no receipt lies beside it
    own.parent.mkdir(exist_ok=True)
    own.write_bytes((of / "a-working.xlsx").read_bytes())
    return Made(folder, own, of / "a-issued.xlsx", of / "a-issued.receipt.json", of / "a-returned.xlsx")


def audit_of(path: Path, receipt: Path | None = None) -> Audit:
    """The audit of a file as it is."""
    return audit(BOOK, RULES, path, receipt)


def shorts(result: Audit) -> list[str]:
    """Rule and place of every finding, sorted."""
    return sorted(finding.short for finding in result.findings)


def edits_of(example: Example) -> list[Edit]:
    """An example's changes as edits of a file."""
    return [
        Edit(place, change.action, change.value) if isinstance(change, Do) else Edit(place, "type", change)
        for place, change in example.changes.items()
    ]


def example_audit(made: Made, example: Example, folder: Path, rules: Sequence[Rule] = RULES) -> Audit:
    """The audit that an example of a rule asks for."""
    target = folder / ("working.xlsx" if example.own else "returned.xlsx")
    data = (made.working if example.own else made.clean).read_bytes()
    edits = edits_of(example)
    target.write_bytes(edited_bytes(made.found(example.own), data, edits) if edits else data)
    if example.own:
        if example.sent:
            text = json.dumps(with_sent(_sent(made.receipt), example.sent))
            (folder / "issued.receipt.json").write_text(text, "utf-8")
        return audit(BOOK, rules, target)
    on_the_record = any(edit.action in {"record", "drop-record"} for edit in edits)
    if not example.later and not on_the_record:
        if not example.sent:
            return _audit_against(made, target, rules)
        sent = receipt_from_json(with_sent(_sent(made.receipt), example.sent))
        return judged(case_of(read(BOOK, target), sent), rules, sent)
    receipt = folder / "issued.receipt.json"
    receipt.write_bytes(made.receipt.read_bytes())
    if example.later:
        later = {**json.loads(made.receipt.read_text("utf-8")), **example.later}
        (folder / "later.receipt.json").write_text(json.dumps(later), "utf-8")
    return audit(BOOK, rules, target, receipt)


def _audit_against(made: Made, target: Path, rules: Sequence[Rule]) -> Audit:
    """The audit of a returned file against its own receipt; what the sheets showed when sent is worked out once for all."""
    receipt = load_receipt(made.receipt)
    case = replace(case_of(read(BOOK, target), receipt), shown_when_sent=partial(_shown_when_sent, made))
    return judged(case, rules, receipt)


def typed_by(made: Made, example: Example) -> Values | None:
    """All that is typed once an example's values are; None where only a file shows what it changes."""
    found = made.found(example.own)
    typed = dict(found.typed)
    if example.later or (example.own and example.sent):
        return None
    for text, value in example.changes.items():
        place = place_of(text)
        column = found.ready.book.entries.get(place.entry)
        if column is None or place in found.formulas or found.where.at(place) is None or isinstance(value, Do):
            return None
        if isinstance(value, datetime.date) or column.entry.kind.name in {"date", "length", "picture"}:
            return None  # reading does more with these than to take them over
        typed.pop(place, None)
        if value not in (None, ""):
            typed[place] = value
    return typed


def quick_audit(made: Made, example: Example, rules: Sequence[Rule] = RULES) -> Audit | None:
    """The same without a file in between, for values that are typed into cells: None for all that only a file can show.

    Some go through a file all the same; that reading gives what was typed is a law of `tests/laws`.
    """
    case = quick_case(made, example)
    if case is None:
        return None
    receipt = None if example.own else receipt_from_json(with_sent(_sent(made.receipt), example.sent))
    return judged(case, rules, receipt)


def quick_case(made: Made, example: Example) -> Case | None:
    """What rules see of such an example."""
    found, typed = made.found(example.own), typed_by(made, example)
    if typed is None:
        return None
    receipt = None if example.own else receipt_from_json(with_sent(_sent(made.receipt), example.sent))
    case = case_of(replace(found, typed=typed), receipt)
    # A program that saves a file stores what its formulas give.
    case = replace(case, got=replace(case.got, shown={**found.shown, **case.follows}))
    if receipt is not None and not example.sent:
        case = replace(case, shown_when_sent=partial(_shown_when_sent, made))
    return case


@cache
def _shown_when_sent(made: Made) -> Values:
    """The same for all examples that change nothing of what was sent."""
    return case_of(made.found(), load_receipt(made.receipt)).sent_follows


@cache
def _sent(receipt: Path) -> dict[str, object]:
    sent: dict[str, object] = json.loads(receipt.read_text("utf-8"))
    return sent


def untouched_case(made: Made, own: bool) -> Case:
    """One of the two files that examples start from, as rules see it."""
    return case_of(made.found(own), None if own else load_receipt(made.receipt))


def with_sent(receipt: dict[str, object], sent: Mapping[str, object]) -> dict[str, object]:
    """A receipt that says that these values were sent."""
    values = {(entry, row): value for entry, row, value in receipt["values"]}  # type: ignore[attr-defined]
    for text, value in sent.items():
        place = place_of(text)
        values[place.entry, place.row] = value
    return {**receipt, "values": [[entry, row, value] for (entry, row), value in values.items()]}
